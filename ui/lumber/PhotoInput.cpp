// Pointer and keys in a photograph.

#include "ui/lumber/PhotoCanvas.h"

#include <QKeyEvent>
#include <QMouseEvent>

#include <cmath>

namespace stavewright::ui {

using photo::Corner;
using photo::LongEdge;
using photo::PhotoControls;
using photo::PhotoPoint;
using Of = photo::MarkResidual::Of;

void PhotoCanvas::mousePressEvent(QMouseEvent* event) {
    setFocus(Qt::MouseFocusReason);
    m_pressed = event->position();
    m_offsetAtPress = m_offset;
    m_moved = false;
    if (event->button() != Qt::LeftButton || m_levels.empty()) {
        return;
    }
    if (m_tool != Tool::Pick) {
        putDown(m_tool, toPhoto(event->position()));
        return;
    }
    const std::optional<PhotoMark> mark = markAt(event->position());
    setPicked(mark);
    if (mark) {
        m_beforeDrag = m_controls;
    }
}

void PhotoCanvas::mouseMoveEvent(QMouseEvent* event) {
    m_pointer = event->position();
    if (event->buttons() == Qt::NoButton) {
        return;
    }
    const QPointF moved = event->position() - m_pressed;
    if (!m_moved && moved.manhattanLength() < 3) {
        return;
    }
    m_moved = true;
    if (m_beforeDrag && m_picked) { // follows the hand; becomes a step when it is let go
        const photo::Pixels from = placeOf(*m_beforeDrag, *m_picked).pixels();
        setPlaceOf(m_controls, *m_picked, inside(QPointF(from.x, from.y) + moved / scale()));
        m_fit = m_refit ? m_refit(m_controls) : std::nullopt;
        update();
    } else if (m_tool == Tool::Pick || event->buttons() != Qt::LeftButton) {
        m_offset = m_offsetAtPress + moved;
        keepInSight();
    }
}

void PhotoCanvas::mouseReleaseEvent(QMouseEvent* /*event*/) {
    if (m_beforeDrag && m_moved) {
        const PhotoControls next = m_controls;
        m_controls = *m_beforeDrag;
        m_beforeDrag.reset();
        emit changed(tr("Move a mark in a photograph"), next, false);
    }
    m_beforeDrag.reset();
    m_moved = false;
}

bool PhotoCanvas::event(QEvent* event) {
    if (event->type() == QEvent::KeyPress) { // Tab goes from mark to mark, F6 to the next pane
        auto* key = static_cast<QKeyEvent*>(event);
        const bool tab = key->key() == Qt::Key_Tab || key->key() == Qt::Key_Backtab;
        if (tab && !marksOf(m_controls).empty()) {
            pickNext(key->key() == Qt::Key_Tab ? 1 : -1);
            return true;
        }
    }
    if (event->type() == QEvent::ShortcutOverride) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if (key->key() == Qt::Key_Delete && key->modifiers() == Qt::NoModifier && m_picked) {
            event->accept();
            return true;
        }
    }
    return QWidget::event(event);
}

void PhotoCanvas::keyPressEvent(QKeyEvent* event) {
    double step = 1;
    if (event->modifiers().testFlag(Qt::ShiftModifier)) {
        step = 10;
    } else if (event->modifiers().testFlag(Qt::ControlModifier)) {
        step = 0.25;
    }
    const bool plain = (event->modifiers() & ~(Qt::ShiftModifier | Qt::KeypadModifier)) == 0;
    switch (event->key()) {
    case Qt::Key_Left:
    case Qt::Key_Right:
    case Qt::Key_Up:
    case Qt::Key_Down: {
        const double x =
            event->key() == Qt::Key_Left ? -1 : (event->key() == Qt::Key_Right ? 1 : 0);
        const double y = event->key() == Qt::Key_Up ? -1 : (event->key() == Qt::Key_Down ? 1 : 0);
        if (m_picked) {
            nudge(QPointF(x, y) * step);
        } else {
            m_offset -= QPointF(x, y) * 40;
            keepInSight();
        }
        return;
    }
    case Qt::Key_Plus:
    case Qt::Key_Equal:
    case Qt::Key_Minus:
        zoom(event->key() == Qt::Key_Minus ? 0.8 : 1.25,
             m_picked ? pixelOf(placeOf(m_controls, *m_picked))
                      : QPointF(width() / 2.0, height() / 2.0));
        showPicked();
        return;
    case Qt::Key_Home:
        fit();
        return;
    case Qt::Key_PageUp:
    case Qt::Key_PageDown:
        emit anotherWanted(event->key() == Qt::Key_PageDown ? 1 : -1);
        return;
    case Qt::Key_Delete:
        removePicked();
        return;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (m_picked && (m_picked->of == Of::Tape || m_picked->of == Of::Spot)) {
            emit readingWanted();
        }
        return;
    case Qt::Key_Escape:
        if (m_beforeDrag) {
            m_controls = *m_beforeDrag;
            m_beforeDrag.reset();
            update();
        } else if (m_tool != Tool::Pick) {
            setTool(Tool::Pick);
        } else if (m_picked) {
            setPicked(std::nullopt);
        } else {
            emit leaveWanted();
        }
        return;
    default:
        break;
    }
    if (!plain || m_levels.empty()) {
        QWidget::keyPressEvent(event);
        return;
    }
    switch (event->key()) { // numbered as one walks round the board from the datum
    case Qt::Key_1:
        pickCorner(Corner::DatumNear);
        return;
    case Qt::Key_2:
        pickCorner(Corner::EndNear);
        return;
    case Qt::Key_3:
        pickCorner(Corner::EndFar);
        return;
    case Qt::Key_4:
        pickCorner(Corner::DatumFar);
        return;
    case Qt::Key_T:
        putDown(Tool::Tape, pointed());
        return;
    case Qt::Key_N:
        putDown(Tool::NearEdge, pointed());
        return;
    case Qt::Key_F:
        putDown(Tool::FarEdge, pointed());
        return;
    case Qt::Key_S:
        putDown(Tool::Spot, pointed());
        return;
    default:
        QWidget::keyPressEvent(event);
    }
}

} // namespace stavewright::ui
