// What pointer and keys do in the board's drawing.

#include <QKeyEvent>
#include <QMouseEvent>

#include <algorithm>

#include "core/geometry/PolygonOps.h"
#include "ui/lumber/BoardSheet.h"

namespace stavewright::ui {

// ---- pointer -----------------------------------------------------------------------------------

void BoardSheet::mousePressEvent(QMouseEvent* event) {
    setFocus(Qt::MouseFocusReason);
    m_pressed = event->position();
    m_offsetAtPress = m_offset;
    m_dragging = false;
    m_toolPressed = false;
    const auto face = faceAt(event->position());
    if (!face || event->button() != Qt::LeftButton) {
        return; // the other buttons move the drawing
    }
    for (std::size_t i = 0; i < m_suggestions.size(); ++i) {
        const SuggestedMark& mark = m_suggestions[i];
        if (m_toolId == ToolId::Select && mark.face == *face &&
            toPixels(*face)
                .map(inMillimetres(mark.outline))
                .containsPoint(event->position(), Qt::OddEvenFill)) {
            pickSuggestion(static_cast<int>(i));
            return;
        }
    }
    if (m_pickedSuggestion) {
        pickSuggestion(std::nullopt);
    }
    const SheetPoint point = pointAt(*face, event->position());
    if (m_tool->wants(point)) {
        m_face = *face;
        m_toolPressed = true;
        m_tool->press(point);
        emit lookChanged();
    }
}

void BoardSheet::mouseMoveEvent(QMouseEvent* event) {
    if (m_toolPressed) {
        m_cross = pointAt(m_face, event->position());
        m_tool->move(*m_cross);
        return;
    }
    if (event->buttons() == Qt::NoButton) {
        const auto face = faceAt(event->position());
        m_cross = face ? std::optional(pointAt(*face, event->position())) : std::nullopt;
        if (m_cross) {
            m_tool->hover(*m_cross);
        }
        update();
        return;
    }
    const QPointF moved = event->position() - m_pressed;
    if (!m_dragging && moved.manhattanLength() < 4) {
        return;
    }
    m_dragging = true;
    const double up = roomOf(BoardFace::B).contains(m_pressed) ? 1 : -1;
    m_offset = m_offsetAtPress + QPointF(moved.x(), -up * moved.y());
    keepInSight();
}

void BoardSheet::mouseReleaseEvent(QMouseEvent* event) {
    if (m_toolPressed) {
        m_toolPressed = false;
        m_tool->release(pointAt(m_face, event->position()));
    } else if (!m_dragging && m_toolId == ToolId::Select && event->button() == Qt::LeftButton) {
        if (const auto face = faceAt(event->position())) {
            setFace(*face);
        }
        emit nothingPicked();
    }
    m_dragging = false;
}

void BoardSheet::mouseDoubleClickEvent(QMouseEvent* event) {
    if (m_toolId == ToolId::Select) {
        fit();
    } else {
        mousePressEvent(event);
    }
}

void BoardSheet::leaveEvent(QEvent* event) {
    QWidget::leaveEvent(event);
    if (!m_toolPressed) {
        m_cross.reset();
        update();
    }
}

// ---- keys --------------------------------------------------------------------------------------

bool BoardSheet::event(QEvent* event) {
    if (event->type() == QEvent::KeyPress) { // Tab goes from mark to mark, F6 to the next pane
        auto* key = static_cast<QKeyEvent*>(event);
        const bool tab = key->key() == Qt::Key_Tab || key->key() == Qt::Key_Backtab;
        if (tab && m_picture && m_tool->key(key)) {
            return true;
        }
    }
    if (event->type() == QEvent::ShortcutOverride) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if (key->key() == Qt::Key_Delete && key->modifiers() == Qt::NoModifier) {
            event->accept();
            return true;
        }
    }
    return QWidget::event(event);
}

void BoardSheet::keyPressEvent(QKeyEvent* event) {
    if (!m_picture) {
        QWidget::keyPressEvent(event);
        return;
    }
    if (event->key() == Qt::Key_Escape) {
        escape(event);
    } else if (!suggestionKey(event) && !m_tool->key(event) && !letterKey(event) &&
               !cursorKey(event) && !viewKey(event)) {
        QWidget::keyPressEvent(event);
    }
}

/// One level each: what is begun, the tool, what is picked.
void BoardSheet::escape(QKeyEvent* event) {
    if (m_tool->cancel()) {
        m_toolPressed = false;
    } else if (m_pickedSuggestion) {
        pickSuggestion(std::nullopt);
    } else if (m_toolId != ToolId::Select) {
        setTool(ToolId::Select);
    } else if (m_defect) {
        emit nothingPicked();
    } else {
        event->ignore();
    }
}

/// M asks for suggestions and goes through them; Enter takes the picked one, Del dismisses it.
bool BoardSheet::suggestionKey(QKeyEvent* event) {
    const Qt::KeyboardModifiers others = event->modifiers() & ~Qt::ShiftModifier;
    if (others != Qt::NoModifier && others != Qt::KeypadModifier) {
        return false;
    }
    const int count = static_cast<int>(m_suggestions.size());
    if (event->key() == Qt::Key_M && count == 0) {
        emit suggestionsWanted();
        return true;
    }
    if (event->key() == Qt::Key_M) {
        if (m_defect) {
            emit nothingPicked(); // one thing at a time answers to Enter and Del
        }
        const int by = event->modifiers().testFlag(Qt::ShiftModifier) ? -1 : 1;
        const int from = m_pickedSuggestion.value_or(by > 0 ? -1 : 0);
        pickSuggestion((from + by + count) % count);
        return true;
    }
    if (!m_pickedSuggestion) {
        return false;
    }
    const int picked = *m_pickedSuggestion;
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        emit suggestionTaken(picked);
        return true;
    }
    if (event->key() == Qt::Key_Delete) {
        emit suggestionDismissed(picked);
        return true;
    }
    return false;
}

bool BoardSheet::letterKey(QKeyEvent* event) {
    const Qt::KeyboardModifiers others = event->modifiers() & ~Qt::ShiftModifier;
    if (others != Qt::NoModifier && others != Qt::KeypadModifier) {
        return false;
    }
    if (event->key() == Qt::Key_Slash) {
        emit noteWanted();
        return true;
    }
    if (event->key() < Qt::Key_A || event->key() > Qt::Key_Z) {
        return false;
    }
    const char letter = static_cast<char>('A' + (event->key() - Qt::Key_A));
    for (const ToolId tool : allTools) {
        if (keyOf(tool) == letter) {
            setTool(tool);
            return true;
        }
    }
    switch (letter) {
    case 'F':
        setFace(other(m_face));
        return true;
    case 'J':
        emit pairWanted();
        return true;
    case 'I':
        emit photosWanted();
        return true;
    case 'Z':
        emit largeWanted();
        return true;
    default:
        break;
    }
    for (const DefectKind kind : allDefectKinds) {
        if (letterOf(kind) != letter) {
            continue;
        }
        setKind(kind);
        if (m_defect) {
            emit kindWanted(*m_defect, kind);
        } else if (m_toolId == ToolId::Select) {
            emit markWanted(kind, event->modifiers().testFlag(Qt::ShiftModifier));
        }
        return true;
    }
    return false;
}

/// With a tool in hand the arrows move the place, Space presses and lets go.
bool BoardSheet::cursorKey(QKeyEvent* event) {
    if (event->key() == Qt::Key_Delete) {
        emit removeWanted();
        return true;
    }
    if (m_toolId == ToolId::Select) {
        return false;
    }
    if (!m_cross) {
        const auto across = acrossAt(board().outline, lengthOf(board()) / 2);
        m_cross = SheetPoint{
            m_face,
            {lengthOf(board()) / 2, across ? across->from + across->length() / 2 : Length()}};
    }
    Length step = tapeStep() * 4;
    if (event->modifiers().testFlag(Qt::ShiftModifier)) {
        step = tapeStep() * 16;
    } else if (event->modifiers().testFlag(Qt::ControlModifier)) {
        step = tapeStep();
    }
    const Length up = m_cross->face == BoardFace::A ? step : -step;
    switch (event->key()) {
    case Qt::Key_Left:
        m_cross->at.x -= step;
        break;
    case Qt::Key_Right:
        m_cross->at.x += step;
        break;
    case Qt::Key_Up:
        m_cross->at.y += up;
        break;
    case Qt::Key_Down:
        m_cross->at.y -= up;
        break;
    case Qt::Key_Space:
        if (m_toolPressed) {
            m_toolPressed = false;
            m_tool->release(*m_cross);
        } else {
            m_cross->face = m_face;
            m_tool->press(*m_cross);
            m_toolPressed = m_toolId != ToolId::Corners;
        }
        update();
        return true;
    default:
        return false;
    }
    if (m_toolPressed) {
        m_tool->move(*m_cross);
    } else {
        m_tool->hover(*m_cross);
    }
    update();
    return true;
}

bool BoardSheet::viewKey(QKeyEvent* event) {
    QPointF middle(width() / 2.0, roomOf(BoardFace::A).center().y());
    if (m_defect) {
        middle = spotOf(*m_defect);
    } else if (m_cross) {
        middle = pixelOf(m_cross->face, m_cross->at);
    }
    switch (event->key()) {
    case Qt::Key_Plus:
    case Qt::Key_Equal:
        zoom(1.25, middle);
        bringIntoSight();
        return true;
    case Qt::Key_Minus:
        zoom(0.8, middle);
        bringIntoSight();
        return true;
    case Qt::Key_Home:
        fit();
        return true;
    case Qt::Key_PageDown:
        emit boardWanted(1);
        return true;
    case Qt::Key_PageUp:
        emit boardWanted(-1);
        return true;
    case Qt::Key_Left:
        m_offset.rx() += 40;
        keepInSight();
        return true;
    case Qt::Key_Right:
        m_offset.rx() -= 40;
        keepInSight();
        return true;
    default:
        return false;
    }
}

} // namespace stavewright::ui
