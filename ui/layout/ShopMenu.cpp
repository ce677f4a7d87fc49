#include "ui/layout/ShopMenu.h"

#include <QCoreApplication>
#include <QMenu>

#include "core/hand/PlanTree.h"
#include "ui/midjob/ShopEvents.h"
#include "ui/session/DocumentSession.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("ShopMenu", text); }

void fillForBlank(QMenu& menu, const Document& document, BlankId id, ShopEvents& shop) {
    const auto place = document.plan ? hand::placeOf(*document.plan, id) : std::nullopt;
    if (!place) {
        return;
    }
    const Section& section = hand::sectionAt(*document.plan, *place);
    menu.addAction(section.locked ? tr("Unlock its section") : tr("Lock its section"), &shop,
                   [&shop, section = section.id, locked = section.locked] {
                       shop.lockSection(section, !locked);
                   });
    menu.addSeparator();
    menu.addAction(tr("It is a step further"), &shop, [&shop] { shop.nextState(); });
    menu.addAction(tr("It was measured..."), &shop, [&shop, id] { shop.sizeMeasured(id); });
    menu.addAction(tr("A knot was found in it..."), &shop, [&shop] { shop.knotFound(); });
    menu.addAction(tr("It is spoiled..."), &shop, [&shop] { shop.spoiled(); });
}

void fillForBoard(QMenu& menu, const Document& document, const Board& board, ShopEvents& shop) {
    const BoardId id = board.id;
    menu.addAction(tr("Keep it for a part, or a part off it..."), &shop,
                   [&shop, id] { shop.keepBoard(id); });
    menu.addAction(board.setAside ? tr("Let plans cut it again")
                                  : tr("Set it aside: nothing is cut from it"),
                   &shop, [&shop, id, isAside = board.setAside] { shop.setAside(id, !isAside); });
    if (!document.plan) {
        return;
    }
    menu.addSeparator();
    if (hand::layoutOf(*document.plan, id) != nullptr) {
        menu.addAction(tr("Its next cut is made..."), &shop, [&shop] { shop.nextCutMade(); });
    }
    menu.addAction(tr("A fresh end was taken off..."), &shop, [&shop] { shop.freshEnd(); });
    menu.addAction(tr("A knot was found..."), &shop, [&shop] { shop.knotFound(); });
    menu.addAction(tr("Warp was measured again..."), &shop, [&shop] { shop.warpMeasured(); });
    if (!board.setAside) {
        menu.addAction(tr("Reject the board..."), &shop, [&shop] { shop.boardRejected(); });
    }
}

} // namespace

void fillShopMenu(QMenu& menu, const DocumentSession& session, ShopEvents& shop) {
    const Document& document = session.document();
    const Selection& selection = session.selection();
    const Board* board = selection.board ? findBoard(document, *selection.board) : nullptr;
    if (selection.blank) {
        fillForBlank(menu, document, *selection.blank, shop);
    } else if (board != nullptr) {
        fillForBoard(menu, document, *board, shop);
    }
}

} // namespace stavewright::ui
