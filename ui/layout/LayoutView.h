#pragma once
// The place "Layout": the rack in the middle, the parts and the tray at the left, everything about
// the selection at the right.

#include <QTimer>
#include <QWidget>

class QSplitter;
class QStackedWidget;

namespace stavewright {
struct Plan;
}

namespace stavewright::ui {

class ChoicesController;
class ChoicesPanel;
class DocumentSession;
class LegendStrip;
class PartsPanel;
class PlanController;
class PlanStrip;
class RackView;
class RestPanel;
class SelectionPanel;
class ShopEvents;

class LayoutView : public QWidget {
    Q_OBJECT
  public:
    LayoutView(DocumentSession& session, PlanController& controller, ChoicesController& choices,
               QWidget* parent = nullptr);

    [[nodiscard]] RackView& rack() { return *m_rack; }
    [[nodiscard]] PartsPanel& parts() { return *m_parts; }
    [[nodiscard]] ShopEvents& shop() { return *m_shop; }
    [[nodiscard]] PlanStrip& planStrip() { return *m_strip; }
    [[nodiscard]] ChoicesPanel& sideBySide() { return *m_sideBySide; }
    /// Panel widths, remembered by the window.
    [[nodiscard]] QByteArray saveState() const;
    void restoreState(const QByteArray& state);
    /// A message lies over so many pixels at the foot: legend and lists end above it, and the
    /// boards stay where they are.
    void leaveFoot(int pixels);
    void turnFace(); ///< shows the other face of all boards

  signals:
    void boardsWanted(); ///< the rack is empty and boards are to be put in

  protected:
    void resizeEvent(QResizeEvent* event) override;

  private:
    [[nodiscard]] const Plan* shownPlan() const;
    /// How a plan that is shown comes back once it is put away.
    [[nodiscard]] QString shownAgain() const;
    void refreshAll();
    void refreshPanel();
    /// What is laid down is seen to lie there at once; what is said of it beside the boards comes
    /// when that has been painted.
    [[nodiscard]] bool isLaying() const;
    void refreshBeside();

    DocumentSession& m_session;
    PlanController& m_controller;
    ChoicesController& m_choices;
    PlanStrip* m_strip;
    QSplitter* m_split;
    PartsPanel* m_parts;
    RackView* m_rack;
    LegendStrip* m_legend;
    ChoicesPanel* m_sideBySide;
    RestPanel* m_rest;
    ShopEvents* m_shop;
    SelectionPanel* m_panel;
    QStackedWidget* m_middle; ///< the rack, or the words of an empty one
    QTimer m_beside;          ///< fires once what was asked to be painted is
    bool m_widthsAreChosen = false;
};

} // namespace stavewright::ui
