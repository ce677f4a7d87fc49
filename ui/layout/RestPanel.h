#pragma once
// The rest planned, before and after side by side: figures, what moved, and what it costs or
// saves. Taken as one step, or left.

#include <QFrame>

class QLabel;
class QPushButton;
class QTableWidget;

namespace stavewright::ui {

class DocumentSession;
class FractionLabel;
class PlanController;

class RestPanel : public QFrame {
    Q_OBJECT
  public:
    RestPanel(DocumentSession& session, PlanController& controller, QWidget* parent = nullptr);

    [[nodiscard]] QString sentence() const;

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

  private:
    void refresh();
    void fillMoves();

    DocumentSession& m_session;
    PlanController& m_controller;
    QLabel* m_title;
    FractionLabel* m_words;
    QTableWidget* m_table;
    QTableWidget* m_moves; ///< what lies elsewhere, before and after
    QPushButton* m_look;
    QPushButton* m_take;
    QPushButton* m_leave;
};

} // namespace stavewright::ui
