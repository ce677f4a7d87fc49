// What is selected on the rack, and the keys that walk from blank to blank.

#include <QKeyEvent>

#include <algorithm>
#include <cmath>
#include <limits>

#include "ui/layout/BoardItem.h"
#include "ui/layout/RackView.h"
#include "ui/layout/TapeRuler.h"
#include "ui/session/DocumentSession.h"

namespace stavewright::ui {

void RackView::selectBlank(BlankId id) {
    const BoardItem* item = m_scene.itemOf(id);
    if (item == nullptr) {
        return;
    }
    for (const BlankPicture& blank : item->picture().blanks) {
        if (blank.id == id) {
            Selection selection;
            selection.board = item->picture().board.id;
            selection.part = blank.part;
            selection.blank = id;
            m_session.select(selection);
        }
    }
}

void RackView::showSelection() {
    const Selection& selection = m_session.selection();
    m_scene.setSelection(selection);
    m_marked = QPixmap();
    viewport()->update();
    showBracket();
    reveal();
}

void RackView::showBracket() {
    const std::optional<BlankId>& blank = m_session.selection().blank;
    const QRectF held = m_hand.heldBox();
    const QRectF box = !held.isEmpty() ? held : blank ? m_scene.boxOf(*blank) : QRectF();
    const double first = m_scene.datumLines().front(); // the tape counts from the first datum line
    m_tape->setBracket(box.isEmpty() ? std::nullopt
                                     : std::make_optional(std::make_pair(box.left() - first,
                                                                         box.right() - first)));
}

void RackView::say(const QString& text) {
    m_saidAt = m_pointer;
    emit hint(text);
    emit answered(text);
}

void RackView::reveal() {
    const Selection& selection = m_session.selection();
    QRectF box;
    if (selection.blank) {
        box = m_scene.boxOf(*selection.blank);
    } else if (selection.board && selection.defect) {
        box = m_scene.boxOf(*selection.board, *selection.defect);
    } else if (selection.board) {
        box = m_scene.boxOf(*selection.board);
        box.setWidth(1); // the datum end; a whole board may be wider than the view
    }
    if (!box.isNull()) {
        ensureVisible(box, 24, 50);
    }
}

QPoint RackView::viewportPointOf(BlankId id) const {
    return mapFromScene(m_scene.boxOf(id).center());
}

bool RackView::stepBlank(int by) {
    std::vector<BlankId> order;
    for (const BoardItem* item : m_scene.boards()) {
        for (const BlankPicture& blank : item->picture().blanks) {
            order.push_back(blank.id);
        }
    }
    if (order.empty()) {
        return false;
    }
    const std::optional<BlankId> now = m_session.selection().blank;
    const auto found = now ? std::find(order.begin(), order.end(), *now) : order.end();
    if (found == order.end()) {
        selectBlank(by > 0 ? order.front() : order.back());
        return true;
    }
    const auto next = (found - order.begin()) + by;
    if (next < 0 || next >= static_cast<std::ptrdiff_t>(order.size())) {
        return false;
    }
    selectBlank(order[static_cast<std::size_t>(next)]);
    return true;
}

/// To the blank of the next board that lies nearest along the tape.
bool RackView::stepBoard(int by) {
    const std::optional<BlankId> now = m_session.selection().blank;
    const BoardItem* here = now ? m_scene.itemOf(*now) : nullptr;
    if (here == nullptr) {
        return stepBlank(by);
    }
    const double x = m_scene.boxOf(*now).center().x() - here->pos().x();
    const std::vector<BoardItem*>& boards = m_scene.boards();
    auto at = std::find(boards.begin(), boards.end(), here) - boards.begin() + by;
    for (; at >= 0 && at < static_cast<std::ptrdiff_t>(boards.size()); at += by) {
        const BoardPicture& picture = boards[static_cast<std::size_t>(at)]->picture();
        double nearest = std::numeric_limits<double>::max();
        std::optional<BlankId> best;
        for (const BlankPicture& blank : picture.blanks) {
            const double off = std::abs(blank.outline.boundingRect().center().x() - x);
            if (off < nearest) {
                nearest = off;
                best = blank.id;
            }
        }
        if (best) {
            selectBlank(*best);
            return true;
        }
    }
    return true;
}

bool RackView::event(QEvent* event) {
    // Tab walks the blanks; past the last one it leaves the rack as everywhere else.
    if (event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event); // the type was asked above
        if (key->key() == Qt::Key_Tab && stepBlank(1)) {
            return true;
        }
        if (key->key() == Qt::Key_Backtab && stepBlank(-1)) {
            return true;
        }
    }
    if (event->type() == QEvent::PaletteChange || event->type() == QEvent::FontChange ||
        event->type() == QEvent::StyleChange) {
        forgetStill();
    }
    return QGraphicsView::event(event);
}

void RackView::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Control) {
        setSnapping(false); // at once, not only when the pointer moves on
    }
    if (m_cuts.isHolding() ? cutKey(event) : m_hand.isHolding() ? handKey(event) : planKey(event)) {
        m_isAtPointer = false;
        return;
    }
    switch (event->key()) {
    case Qt::Key_Right:
        stepBlank(1);
        return;
    case Qt::Key_Left:
        stepBlank(-1);
        return;
    case Qt::Key_Down:
        stepBoard(1);
        return;
    case Qt::Key_Up:
        stepBoard(-1);
        return;
    case Qt::Key_Escape:
        if (m_swapping) {
            m_swapping.reset();
            say(tr("Nothing changes places."));
            return;
        }
        m_session.select({});
        return;
    case Qt::Key_Space:
        if (!event->isAutoRepeat()) {
            m_spaceHeld = true;
            viewport()->setCursor(Qt::OpenHandCursor);
        }
        return;
    default:
        QGraphicsView::keyPressEvent(event);
    }
}

void RackView::keyReleaseEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Control) {
        setSnapping(true);
    }
    if (event->key() == Qt::Key_Space && !event->isAutoRepeat()) {
        m_spaceHeld = false;
        viewport()->setCursor(Qt::ArrowCursor);
        return;
    }
    QGraphicsView::keyReleaseEvent(event);
}

} // namespace stavewright::ui
