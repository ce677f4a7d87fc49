// The menu of the rack: what can be done by hand with the blank or board under the pointer.

#include <QContextMenuEvent>
#include <QMenu>

#include "core/hand/PlanTree.h"
#include "ui/layout/HandSteps.h"
#include "ui/layout/OneBoardMenu.h"
#include "ui/layout/RackView.h"
#include "ui/session/DocumentSession.h"

namespace stavewright::ui {

void RackView::fillMenu(QMenu& menu) {
    for (const HandStep& step : handSteps(m_session.document(), m_session.selection())) {
        // The key is only shown; the view itself hears it.
        menu.addAction(step.text + '\t' + step.keyText, this, [this, key = step.key] {
            setFocus();
            press(key);
        });
    }
    const std::optional<Plan>& plan = m_session.document().plan;
    const std::optional<BlankId>& blank = m_session.selection().blank;
    if (const auto place = blank && plan ? hand::placeOf(*plan, *blank) : std::nullopt) {
        addOneBoardMenu(menu, m_session, hand::blankAt(*plan, *place).purpose.part,
                        [this](const QString& text) { say(text); });
    }
    emit menuFilling(menu);
}

void RackView::contextMenuEvent(QContextMenuEvent* event) {
    if (m_hand.isHolding() || m_cuts.isHolding()) {
        return;
    }
    QPoint where = event->globalPos();
    if (event->reason() == QContextMenuEvent::Mouse) {
        const RackHit hit = m_scene.hitAt(mapToScene(event->pos()));
        if (hit.blank) {
            selectBlank(*hit.blank);
        } else {
            Selection selection;
            selection.board = hit.board;
            m_session.select(selection);
        }
    } else if (m_session.selection().blank) {
        where = viewport()->mapToGlobal(viewportPointOf(*m_session.selection().blank));
    }
    if (!isOnOwnPlan()) {
        return;
    }
    QMenu menu(this);
    menu.setObjectName("rackMenu");
    fillMenu(menu);
    if (!menu.isEmpty()) {
        menu.exec(where);
    }
}

} // namespace stavewright::ui
