// What the pointer does on the rack: it selects, drags, pans, and is told what lies under it.

#include <QApplication>
#include <QHelpEvent>
#include <QMouseEvent>
#include <QScrollBar>
#include <QToolTip>

#include <algorithm>

#include "ui/layout/BoardItem.h"
#include "ui/layout/RackView.h"
#include "ui/layout/TapeRuler.h"
#include "ui/session/DocumentSession.h"

namespace stavewright::ui {

namespace {
constexpr int keepWordsPixels = 24; // that the pointer may move before an answer gives way
constexpr int rimPixels = 28;       // from the edge of the view, where a drag scrolls it
} // namespace

void RackView::mousePressEvent(QMouseEvent* event) {
    setFocus(Qt::MouseFocusReason);
    m_pointer = event->position().toPoint();
    if (event->button() == Qt::MiddleButton || (event->button() == Qt::LeftButton && m_spaceHeld)) {
        m_panFrom = event->position().toPoint();
        viewport()->setCursor(Qt::ClosedHandCursor);
        return;
    }
    if (event->button() != Qt::LeftButton) {
        return;
    }
    if (m_hand.isHolding()) { // picked up by key, laid down where the pointer is
        m_hand.lay();
        return;
    }
    const QPointF scenePoint = mapToScene(event->position().toPoint());
    if (m_cuts.isHolding()) { // it stayed in the hand over a place that is not good
        m_cuts.holdAt(scenePoint, true);
        m_cuts.lay();
        return;
    }
    m_pressedCut = m_planIsOwn && !m_swapping ? m_cuts.cutAt(scenePoint) : std::nullopt;
    const RackHit hit = m_scene.hitAt(scenePoint);
    if (m_pressedCut) {
        m_pressedAt = event->position().toPoint();
    }
    if (hit.blank) {
        if (m_swapping) {
            swapWith(*hit.blank);
            return;
        }
        selectBlank(*hit.blank);
        m_pressedAt = event->position().toPoint();
    } else {
        if (m_swapping) {
            m_swapping.reset();
            say(tr("Nothing changes places: no blank lies there."));
        }
        Selection selection;
        selection.board = hit.board;
        selection.defect = hit.defect;
        m_session.select(selection);
    }
}

void RackView::mouseMoveEvent(QMouseEvent* event) {
    const QPoint at = event->position().toPoint();
    m_pointer = at;
    if (m_panFrom) {
        const QPoint by = at - *m_panFrom;
        m_panFrom = at;
        horizontalScrollBar()->setValue(horizontalScrollBar()->value() - by.x());
        verticalScrollBar()->setValue(verticalScrollBar()->value() - by.y());
        return;
    }
    const QPointF scenePoint = mapToScene(at);
    if (dragCut(event)) {
        return;
    }
    if (m_pressedAt || m_hand.isHolding()) {
        dragTo(event);
        return;
    }
    m_tape->setPointer(scenePoint.x() - m_scene.datumLines().front());
    const RackHit hit = m_scene.hitAt(scenePoint);
    const auto cut = m_planIsOwn && !m_swapping ? m_cuts.cutAt(scenePoint) : std::nullopt;
    if (!m_spaceHeld) {
        viewport()->setCursor(m_swapping   ? Qt::CrossCursor
                              : !cut       ? Qt::ArrowCursor
                              : cut->isRip ? Qt::SplitVCursor
                                           : Qt::SplitHCursor);
    }
    if (m_saidAt && (at - *m_saidAt).manhattanLength() < keepWordsPixels) {
        return; // what was said just now is still to be read
    }
    m_saidAt.reset();
    if (m_swapping) {
        emit hint(swapWords(hit.blank));
    } else {
        emit hint(cut ? m_cuts.about(*cut) : describe(hit));
    }
}

/// A cut that was pressed goes with the pointer; false where none was.
bool RackView::dragCut(QMouseEvent* event) {
    const QPoint at = event->position().toPoint();
    if (m_pressedCut && m_pressedAt && !m_cuts.isHolding()) {
        if ((at - *m_pressedAt).manhattanLength() < 4) {
            return true;
        }
        const CutTool::Found found = *m_pressedCut;
        m_pressedAt.reset();
        m_pressedCut.reset();
        if (!m_cuts.take(found)) {
            return true;
        }
    }
    if (!m_cuts.isHolding()) {
        return false;
    }
    m_isSnapping = !event->modifiers().testFlag(Qt::ControlModifier);
    holdAtPointer(at);
    return true;
}

void RackView::dragTo(QMouseEvent* event) {
    const QPoint at = event->position().toPoint();
    const auto far = QApplication::startDragDistance() / 2; // so that a click moves nothing
    const std::optional<BlankId> blank = m_session.selection().blank;
    if (m_pressedAt && !m_hand.isHolding()) {
        if ((at - *m_pressedAt).manhattanLength() < std::max(far, 4) || !blank) {
            return;
        }
        const QPoint pressed = *m_pressedAt;
        m_pressedAt.reset();
        m_isDragging = isOnOwnPlan() && m_hand.lift(*blank, mapToScene(pressed));
        if (!m_isDragging) {
            return;
        }
        viewport()->setCursor(Qt::ClosedHandCursor);
    }
    const bool overTray =
        m_tray != nullptr &&
        m_tray->rect().contains(m_tray->mapFromGlobal(event->globalPosition().toPoint()));
    if (overTray) {
        m_rim.stop();
        m_hand.holdOverTray();
        return;
    }
    m_isSnapping = !event->modifiers().testFlag(Qt::ControlModifier);
    holdAtPointer(at);
    if (m_isDragging) { // with the button held; a blank picked up by key scrolls by wheel and keys
        m_rim.start();
    }
}

void RackView::holdAtPointer(QPoint at) {
    m_dragAt = at;
    m_isAtPointer = true;
    const QPointF scenePoint = mapToScene(at);
    m_tape->setPointer(scenePoint.x() - m_scene.datumLines().front());
    if (m_cuts.isHolding()) {
        m_cuts.holdAt(scenePoint, m_isSnapping);
        return;
    }
    m_hand.holdAt(scenePoint,
                  m_isSnapping ? HandTool::Snapping::On : HandTool::Snapping::Suspended);
}

void RackView::setSnapping(bool on) {
    if (m_isAtPointer && m_isSnapping != on && (m_hand.isHolding() || m_cuts.isHolding())) {
        m_isSnapping = on;
        holdAtPointer(m_dragAt);
    }
}

void RackView::scrollAtRim() {
    if (!m_isDragging || !m_hand.isHolding()) {
        m_rim.stop();
        return;
    }
    const QRect inside = viewport()->rect().adjusted(0, rimPixels, 0, -rimPixels);
    const int over = m_dragAt.y() < inside.top()      ? m_dragAt.y() - inside.top()
                     : m_dragAt.y() > inside.bottom() ? m_dragAt.y() - inside.bottom()
                                                      : 0;
    QScrollBar* bar = verticalScrollBar();
    const int before = bar->value();
    bar->setValue(before + std::clamp(over, -rimPixels, rimPixels) / 2);
    if (bar->value() != before) {
        holdAtPointer(m_dragAt);
    }
}

void RackView::revealHeld() {
    const QRectF box = m_hand.heldBox();
    if (!box.isEmpty()) {
        ensureVisible(box, 24, 50);
    }
}

void RackView::mouseReleaseEvent(QMouseEvent* event) {
    m_panFrom.reset();
    m_pressedAt.reset();
    m_pressedCut.reset();
    if (m_cuts.isHolding() && event->button() == Qt::LeftButton) {
        m_cuts.lay(); // else it stays in the hand: N, Enter or Esc decide
        return;
    }
    if (m_isDragging && event->button() == Qt::LeftButton) {
        m_isDragging = false;
        const QPoint global = event->globalPosition().toPoint();
        if (m_tray != nullptr && m_tray->rect().contains(m_tray->mapFromGlobal(global))) {
            m_hand.layInTray();
        } else if (!m_hand.lay() && m_hand.isHolding()) {
            // It stays in the hand over the place that is not legal: N, Enter or Esc decide.
            viewport()->setCursor(Qt::OpenHandCursor);
            return;
        }
    }
    viewport()->setCursor(m_spaceHeld ? Qt::OpenHandCursor : Qt::ArrowCursor);
}

void RackView::leaveEvent(QEvent* event) {
    m_tape->setPointer(std::nullopt);
    if (!m_saidAt && !m_swapping) {
        emit hint({});
    }
    QGraphicsView::leaveEvent(event);
}

/// What a small blank has no room to say.
bool RackView::viewportEvent(QEvent* event) {
    if (event->type() != QEvent::ToolTip) {
        return QGraphicsView::viewportEvent(event);
    }
    const auto* help = static_cast<QHelpEvent*>(event);
    const RackHit hit = m_scene.hitAt(mapToScene(help->pos()));
    const QString text = describe(hit);
    QToolTip::showText(help->globalPos(), text, viewport());
    return true;
}

QString RackView::describe(const RackHit& hit) const {
    const BoardItem* item = hit.board ? m_scene.itemOf(*hit.board) : nullptr;
    if (item == nullptr) {
        return {};
    }
    const BoardPicture& picture = item->picture();
    for (const BlankPicture& blank : picture.blanks) {
        if (hit.blank == blank.id) {
            return tr("%1, %2, on %3").arg(blank.names, blank.size, picture.title.toLower());
        }
    }
    for (const DefectPicture& defect : picture.defects) {
        if (hit.defect == defect.id) {
            const auto name = nameOf(defect.kind);
            return tr("%1 %2 on %3")
                .arg(QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size())),
                     defect.mark, picture.title.toLower());
        }
    }
    QString text = tr("%1: %2").arg(picture.title, picture.facts);
    if (picture.touched) {
        text += tr("; %1, gives %2").arg(picture.yield, picture.contents);
    }
    return text;
}

} // namespace stavewright::ui
