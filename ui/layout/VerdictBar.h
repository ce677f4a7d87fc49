#pragma once
// Along the foot of the window, one line: the audit's verdict, what is placed, lumber used, the
// share that becomes blanks and finished parts, offcuts kept, cost.

#include <QWidget>

#include <vector>

#include "core/layout/Plan.h"
#include "ui/widgets/Theme.h"

namespace stavewright::ui {

class DocumentSession;
class PlanController;

class VerdictBar : public QWidget {
    Q_OBJECT
  public:
    VerdictBar(DocumentSession& session, PlanController& controller, QWidget* parent = nullptr);

    [[nodiscard]] QString text() const;
    [[nodiscard]] QSize sizeHint() const override;
    /// Where the full words find no room, the brief ones stand.
    enum class Wording { Full, Brief };
    /// Width at which all items stand with their closest spacing.
    [[nodiscard]] double widthFor(Wording wording) const;

  signals:
    void pressed(); ///< whoever presses what it says wants to see more of it

  protected:
    void mouseReleaseEvent(QMouseEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

  private:
    [[nodiscard]] QString proved(const Proof& proof) const;
    /// A label in second ink with its figure in ink.
    struct Item {
        Sign sign = Sign::None;
        QString label;
        QString figure;
        QString brief; ///< a shorter label; empty: the label itself
    };
    [[nodiscard]] static QString labelOf(const Item& item, Wording wording);
    void refresh();

    DocumentSession& m_session;
    PlanController& m_controller;
    std::vector<Item> m_items;
};

} // namespace stavewright::ui
