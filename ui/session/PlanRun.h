#pragma once
// One planning run on a worker thread, on a snapshot of the document. The only place in the window
// where work leaves the GUI thread. Signals come on the GUI thread, improvements at most four times
// a second.
//
//   PlanRun run;
//   connect(&run, &PlanRun::finished, this, ...);
//   run.start(session.document(), options);

#include <QElapsedTimer>
#include <QObject>
#include <QTimer>

#include <memory>
#include <mutex>
#include <optional>
#include <stop_token>
#include <thread>

#include "core/midjob/PlanRest.h"
#include "core/planning/Planner.h"

namespace stavewright::ui {

class PlanRun : public QObject {
    Q_OBJECT
  public:
    explicit PlanRun(QObject* parent = nullptr);
    ~PlanRun() override; ///< asks the worker to stop and waits for it

    /// With a mode only the rest is planned (core/midjob/PlanRest.h), otherwise the job.
    void start(Document snapshot, const PlanOptions& options,
               std::optional<midjob::RestMode> rest = {});
    /// The worker returns the best plan so far through finished().
    void stopAndKeep();
    /// Returns at once; nothing more is heard of this run.
    void discard();

    [[nodiscard]] bool isRunning() const { return m_work != nullptr; }
    [[nodiscard]] bool isStopping() const { return m_stopping; }
    [[nodiscard]] double seconds() const { return static_cast<double>(m_clock.elapsed()) / 1000.0; }
    /// After finished() of a rest: the locks that leave no place for something, in a sentence.
    [[nodiscard]] const std::string& conflict() const { return m_conflict; }
    /// The latest better plan, or nothing yet.
    [[nodiscard]] std::optional<Plan> best() const;

  signals:
    void progressed(const stavewright::ProgressReport& report);
    void improved(const stavewright::Plan& plan);
    /// `best` stands in for the outcome when the engine failed after it had found a plan.
    void finished(const stavewright::Result<stavewright::PlanOutcome>& outcome);

  private:
    /// What worker and window share; it outlives whichever ends first.
    struct Work {
        std::stop_source stop;
        mutable std::mutex mutex;
        std::optional<Plan> best;
        bool bestIsNews = false;
        std::optional<ProgressReport> report;
        std::optional<Result<PlanOutcome>> outcome;
        std::string conflict;
    };

    void look();
    void finish();

    std::shared_ptr<Work> m_work;
    std::vector<std::jthread> m_threads; ///< the running one, and discarded ones that wind down
    QTimer m_timer;
    QElapsedTimer m_clock;
    bool m_stopping = false;
    std::string m_conflict;
};

} // namespace stavewright::ui
