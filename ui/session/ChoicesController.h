#pragma once
// Other plans of the open job, what its demands cost, and why a blank lies where it lies, as the
// window sees them: asked on a snapshot, answered in the background, looked at on the boards, taken
// as one undo step. Answers are dropped as soon as the job is no longer the one they were asked of.

#include <QObject>
#include <QString>

#include <optional>

#include "ui/session/ChoicesRun.h"
#include "ui/session/DocumentSession.h"

namespace stavewright::ui {

class PlanController;

class ChoicesController : public QObject {
    Q_OBJECT
  public:
    ChoicesController(DocumentSession& session, PlanController& planning,
                      QObject* parent = nullptr);

    enum class Question { None, Plans, Demands, Why };
    /// What was asked last; its answer may be under way, here, or none.
    [[nodiscard]] Question question() const { return m_question; }
    [[nodiscard]] bool isRunning() const { return m_run.isRunning(); }
    [[nodiscard]] const ProgressReport& progress() const { return m_progress; }

    [[nodiscard]] const std::optional<choices::Alternatives>& plans() const { return m_plans; }
    [[nodiscard]] const std::optional<choices::DemandCosts>& demands() const { return m_demands; }
    /// The blank that was asked about, and the answer once it is there.
    [[nodiscard]] std::optional<BlankId> blank() const { return m_blank; }
    [[nodiscard]] const std::optional<choices::WhyHere>& why() const { return m_why; }
    /// Which of the plans is the document's; none where it is another.
    [[nodiscard]] std::optional<std::size_t> taken() const;

  public slots:
    void comparePlans();
    void askDemands();
    void askWhy(stavewright::BlankId blank);
    void stop();  ///< with what is known so far
    void close(); ///< ends what runs, forgets the answers, shows the document's plan again

  public:
    /// Shows plan number `index` on the boards; the document stays as it is.
    void look(std::size_t index);
    void lookAway();
    /// As one undo step. False, with a sentence through refused(), when it does not fit any more.
    bool take(std::size_t index);
    /// Makes the change that eases demand number `index`, as one undo step.
    bool ease(std::size_t index);

  signals:
    void stateChanged(); ///< asked, answered, closed
    void progressed();
    void refused(const QString& sentence);

  private:
    bool begin(Question question);
    void finish(const ChoicesAnswer& answer);
    void forgetWhatIsOld(const EditScope& scope);
    /// Of a plan for the job as it was when it was asked for.
    void learn(const PlanFigures& found);

    DocumentSession& m_session;
    PlanController& m_planning;
    ChoicesRun m_run;
    ProgressReport m_progress;
    Question m_question = Question::None;
    std::int64_t m_askedAt = 0; ///< state of the session
    std::optional<choices::Alternatives> m_plans;
    std::optional<choices::DemandCosts> m_demands;
    std::optional<choices::WhyHere> m_why;
    std::optional<BlankId> m_blank;
};

} // namespace stavewright::ui
