#pragma once
// Planning, inline above the rack: the button, the time allowed; while it runs the time used, what
// is placed, the best so far, and two ways to end it.

#include <QWidget>

class QDoubleSpinBox;
class QLabel;
class QPushButton;
class QSpinBox;
class QStackedLayout;

namespace stavewright::ui {

class DocumentSession;
class FractionLabel;
class PlanController;

class PlanStrip : public QWidget {
    Q_OBJECT
  public:
    PlanStrip(DocumentSession& session, PlanController& controller, QWidget* parent = nullptr);

    [[nodiscard]] QPushButton* planButton() { return m_plan; }
    [[nodiscard]] QPushButton* stopButton() { return m_stop; }
    [[nodiscard]] QPushButton* discardButton() { return m_discard; }
    [[nodiscard]] QPushButton* compareButton() { return m_compare; }
    /// What lies under the pointer, shown while nothing runs.
    void showHint(const QString& text);
    /// What came of a key or a click, shown while something runs as well.
    void showAnswer(const QString& text);

  signals:
    void compareWanted(); ///< other plans side by side

  private:
    void refresh();
    /// Words about a step say nothing any more when it was undone.
    void stepsAre(int index);

    DocumentSession& m_session;
    PlanController& m_controller;
    QPushButton* m_plan;
    QSpinBox* m_seconds;
    QLabel* m_secondsLabel;
    QPushButton* m_compare;
    QPushButton* m_stop;
    QPushButton* m_discard;
    QPushButton* m_look; ///< while it runs: the best so far on the boards, or the job's own
    FractionLabel* m_words;
    QString m_hint;
    QString m_answer;           ///< while something runs
    int m_steps = 0;            ///< done, of those that can be undone
    bool m_isTakenBack = false; ///< and the hint says so
};

} // namespace stavewright::ui
