#pragma once
// One question about plans (other plans, what demands cost, why a blank lies where it lies) worked
// out on a worker thread. Signals come on the GUI thread.
//
//   ChoicesRun run;
//   connect(&run, &ChoicesRun::finished, this, ...);
//   run.start([document, wish](const Progress& progress) { return findAlternatives(...); });

#include <QElapsedTimer>
#include <QObject>
#include <QTimer>

#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <stop_token>
#include <thread>
#include <variant>
#include <vector>

#include "core/choices/Alternatives.h"
#include "core/choices/DemandCosts.h"
#include "core/choices/WhyHere.h"

namespace stavewright::ui {

using ChoicesAnswer = std::variant<Result<choices::Alternatives>, Result<choices::DemandCosts>,
                                   Result<choices::WhyHere>>;
using ChoicesQuestion = std::function<ChoicesAnswer(const Progress&)>;

class ChoicesRun : public QObject {
    Q_OBJECT
  public:
    explicit ChoicesRun(QObject* parent = nullptr);
    ~ChoicesRun() override; ///< asks the worker to stop and waits for it

    /// The question must own all that it reads.
    void start(ChoicesQuestion question);
    /// The worker answers with what it has through finished().
    void stop();
    /// Returns at once; nothing more is heard of this run.
    void discard();
    [[nodiscard]] bool isRunning() const { return m_work != nullptr; }

  signals:
    void progressed(const stavewright::ProgressReport& report);
    void finished(const stavewright::ui::ChoicesAnswer& answer);
    /// A fault of the program ended the worker.
    void failed(const QString& sentence);

  private:
    struct Work {
        std::stop_source stop;
        std::mutex mutex;
        std::optional<ProgressReport> report;
        std::optional<ChoicesAnswer> answer;
        std::string fault;
        bool ended = false;
    };

    void look();

    std::shared_ptr<Work> m_work;
    std::vector<std::jthread> m_threads; ///< the running one, and discarded ones that wind down
    QTimer m_timer;
    QElapsedTimer m_clock;
};

} // namespace stavewright::ui
