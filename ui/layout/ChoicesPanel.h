#pragma once
// Under the rack: other plans side by side, each looked at on the boards by moving to it and taken
// with Enter; or what the demands of the job cost, each with the change that eases it. There only
// when asked for; Escape puts it away.

#include <QFrame>

#include "ui/session/ChoicesController.h"

class QListView;
class QPushButton;
class QStackedWidget;
class QStandardItemModel;
class QTreeView;

namespace stavewright::ui {

class FractionLabel;

class ChoicesPanel : public QFrame {
    Q_OBJECT
  public:
    ChoicesPanel(DocumentSession& session, ChoicesController& controller,
                 QWidget* parent = nullptr);

    [[nodiscard]] QTreeView* plans() { return m_plans; }
    [[nodiscard]] QListView* demands() { return m_demands; }
    [[nodiscard]] QPushButton* takeButton() { return m_take; }
    [[nodiscard]] QPushButton* stopButton() { return m_stop; }
    [[nodiscard]] QPushButton* closeButton() { return m_close; }
    [[nodiscard]] QString sentence() const; ///< beside the title

  protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void refresh();
    void fillPlans();
    void fillDemands();
    void tellProgress();
    void takeCurrent();
    [[nodiscard]] QString lumber(BoardFeet amount) const;

    DocumentSession& m_session;
    ChoicesController& m_controller;
    FractionLabel* m_title;
    FractionLabel* m_words;
    QPushButton* m_take;
    QPushButton* m_stop;
    QPushButton* m_close;
    QStackedWidget* m_lists;
    QTreeView* m_plans;
    QStandardItemModel* m_planRows;
    QListView* m_demands;
    QStandardItemModel* m_demandRows;
    bool m_filling = false;
};

} // namespace stavewright::ui
