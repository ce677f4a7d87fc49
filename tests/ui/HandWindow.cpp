#include "tests/ui/HandWindow.h"

#include <QApplication>
#include <QMouseEvent>

#include "core/hand/Drag.h"
#include "core/hand/PlanTree.h"
#include "tests/tools/samples/Samples.h"
#include "ui/layout/BoardItem.h"

namespace stavewright::testing_ui {

using namespace ui;

void HandWindow::openShelf() {
    open({samples::hallShelf, 1, 3'000});
    connect(&rack(), &RackView::hint, this, [this](const QString& text) { m_hint = text; });
}

Rect HandWindow::boxOf(BlankId id) {
    const hand::TreePlace place = *hand::placeOf(*document().plan, id);
    return hand::boxOnBoard(hand::sectionAt(*document().plan, place),
                            hand::blankAt(*document().plan, place).rect);
}

BoardId HandWindow::boardOf(BlankId id) {
    return document().plan->boards[hand::placeOf(*document().plan, id)->board].board;
}

QPoint HandWindow::pixelOf(BoardId board, QPointF onBoard) {
    const BoardItem* item = rack().rack().itemOf(board);
    return rack().mapFromScene(item->mapToScene(item->boardToItem().map(onBoard)));
}

void HandWindow::pointerTo(QPoint to, Qt::KeyboardModifiers with) {
    QMouseEvent move(QEvent::MouseMove, QPointF(to), QPointF(rack().viewport()->mapToGlobal(to)),
                     Qt::NoButton, Qt::LeftButton, with);
    QApplication::sendEvent(rack().viewport(), &move);
}

std::optional<hand::Laying> HandWindow::elsewhere(BlankId id) {
    const Result<hand::Drag> drag = hand::Drag::lift(document(), id);
    if (!drag) {
        return std::nullopt;
    }
    const Rect now = boxOf(id);
    for (const Board& board : document().boards) {
        const Length length = lengthOf(board);
        for (Length x; x < length; x += Length::inches(2)) {
            const auto found = drag.value().nearest(board.id, {x, Length::inches(1)}, {});
            const bool isFar = found && (found->board != boardOf(id) ||
                                         abs(toOuter(found->bed.frame, Point{found->along, {}}).x -
                                             now.x0) > Length::inches(3));
            if (isFar) {
                return found;
            }
        }
    }
    return std::nullopt;
}

} // namespace stavewright::testing_ui
