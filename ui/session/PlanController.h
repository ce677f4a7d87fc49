#pragma once
// Planning as the window sees it: starts a run on a snapshot, shows the best plan so far as a
// preview beside the document, audits the result, and takes it into the document as one undo step.
// The document may be edited meanwhile; the result is then offered as computed for an older state.

#include <QObject>
#include <QString>

#include <map>
#include <optional>
#include <vector>

#include "ui/session/DocumentSession.h"
#include "ui/session/PlanRun.h"

namespace stavewright::ui {

class PlanController : public QObject {
    Q_OBJECT
  public:
    explicit PlanController(DocumentSession& session, QObject* parent = nullptr);

    [[nodiscard]] bool isRunning() const { return m_run.isRunning(); }
    [[nodiscard]] bool isStopping() const { return m_run.isStopping(); }
    /// What stands on the boards in place of the job's plan; nothing while it is put away.
    [[nodiscard]] const std::optional<Plan>& preview() const;
    /// The best plan that a run has found so far, whether it is shown or put away.
    [[nodiscard]] const std::optional<Plan>& bestSoFar() const;
    /// The boards show the job's plan, to be worked on; a run goes on unseen, and its result waits
    /// until it is asked for.
    void putAway();
    void showBest(); ///< of the run that goes on unseen
    [[nodiscard]] bool isAway() const { return m_isAway; }
    [[nodiscard]] const ProgressReport& progress() const { return m_progress; }
    [[nodiscard]] double secondsAllowed() const { return m_options.seconds; }
    void setSecondsAllowed(double seconds);
    /// Threads, seed and counted work for the next run; the window keeps the defaults.
    void setOptions(const PlanOptions& options) { m_options = options; }
    [[nodiscard]] const PlanOptions& options() const { return m_options; }
    /// Of a plan that is only shown, finished and audited; empty for one that still grows.
    [[nodiscard]] const QString& previewTitle() const { return m_previewTitle; }
    /// Shows a finished plan in place of the document's.
    void show(const Plan& plan, const QString& title);
    void hide(); ///< what show() showed
    /// Takes a finished plan as one undo step named by the title.
    void takeChosen(Plan plan, const QString& title);
    /// A finished plan of the rest, held against the job's before it is taken.
    struct Rest {
        Plan before;
        Plan after;
        midjob::Moved moved;
        midjob::RestMode mode = midjob::RestMode::KeepPlaces;
        QString sentence; ///< what stays, what moves, what it costs
    };
    [[nodiscard]] const std::optional<Rest>& rest() const { return m_rest; }
    void planRest(midjob::RestMode mode);
    [[nodiscard]] static QString titleOf(midjob::RestMode mode); ///< of the plan that is shown
    void lookAtRest(bool after); ///< on the boards: the plan after, or the job's
    [[nodiscard]] bool isLookingAtRest() const { return m_rest && !m_previewTitle.isEmpty(); }
    void takeRest();
    void dropRest();

    /// Of the best plan that is known for boards, parts and shop as they are.
    struct BestKnown {
        Money cost;
        BoardFeet lumberUsed;
        friend bool operator==(const BestKnown&, const BestKnown&) = default;
    };
    [[nodiscard]] const std::optional<BestKnown>& bestKnown() const { return m_bestKnown[m_stage]; }
    /// Another plan was found for the job as it is, with everything placed.
    void learn(const BestKnown& found);

    /// A finished result that waits because the document has changed since it began.
    [[nodiscard]] bool hasOffer() const { return m_offer.has_value(); }

  public slots:
    void plan();
    void stopAndKeep();
    void discard();
    void takeOffer();
    void dropOffer();
    /// Ends the run now and takes the best plan there is; for closing the window.
    void keepWhatThereIs();

  signals:
    void stateChanged();   ///< started, stopping, ended, offered
    void previewChanged(); ///< a better plan, or no preview any more
    void progressed();
    void taken();                          ///< a plan was taken into the document
    void offered(const QString& sentence); ///< computed for an older state
    void refused(const QString& sentence); ///< nothing was taken, and why
    void restChanged();                    ///< a plan of the rest waits, or no longer
    /// The job's plan was changed, so the one of the rest that waited is gone.
    void restOutdated(const QString& sentence, midjob::RestMode mode);

  private:
    /// Before any run: what was offered goes, what the run begins from is noted. False, and told,
    /// when the job cannot be planned.
    bool makeReady();
    void finish(const Result<PlanOutcome>& outcome);
    void take(Plan plan, const QString& title = {});
    void clearPreview();
    void offerRest(Plan plan, bool isSeen);
    /// Why a plan cannot become the job's as it is now, in a sentence; empty when it can.
    [[nodiscard]] QString whyNot(const Plan& plan) const;
    [[nodiscard]] static QString whyNothingChanges(const Rest& rest, const QString& conflict);
    /// Sections and blanks of the plan that are no longer only planned.
    [[nodiscard]] int piecesCut() const;
    /// The job is in another state now: one where another plan may be the best known, or not.
    void reach(bool isOther);
    void learnBest();

    DocumentSession& m_session;
    PlanRun m_run;
    PlanOptions m_options;
    ProgressReport m_progress;
    std::optional<Plan> m_preview;
    bool m_isAway = false; ///< the preview is there but not shown, as long as it runs
    QString m_previewTitle;
    std::optional<Plan> m_offer;
    std::optional<midjob::RestMode> m_restMode; ///< of the run
    std::optional<Rest> m_rest;
    /// Of each stage of the job: boards, parts, shop and cut pieces as they once were.
    std::vector<std::optional<BestKnown>> m_bestKnown = {std::nullopt};
    std::size_t m_stage = 0;
    std::map<std::int64_t, std::size_t> m_stageOf; ///< by the session's states
    int m_piecesCut = 0;                           ///< of the present stage
    std::int64_t m_startRevision = 0;
    std::int64_t m_startNextId = 1;
};

/// The plan with the ids that it gave out itself (from `from` on) raised by `by`, so that they do
/// not meet ids given out since it was begun. What stays from the job's plan keeps its ids.
[[nodiscard]] Plan renumbered(Plan plan, std::int64_t by, std::int64_t from);

} // namespace stavewright::ui
