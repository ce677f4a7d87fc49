#include "ui/glueup/PieceCanvas.h"

#include <QContextMenuEvent>
#include <QKeyEvent>
#include <QMenu>
#include <QMouseEvent>
#include <QPainter>

#include "ui/widgets/Theme.h"

namespace stavewright::ui {

PieceCanvas::PieceCanvas(QWidget* parent)
    : QWidget(parent) {
    setFocusPolicy(Qt::StrongFocus);
}

void PieceCanvas::setSelected(std::optional<std::size_t> piece) {
    m_selected = piece && *piece < pieces() ? piece : std::nullopt;
    piecesChanged();
}

void PieceCanvas::piecesChanged() {
    if (m_selected && *m_selected >= pieces()) {
        m_selected.reset();
    }
    setAccessibleDescription(m_selected ? described(*m_selected) : QString());
    update();
}

void PieceCanvas::pick(std::size_t piece) {
    setSelected(piece);
    emit picked(piece);
}

std::optional<std::size_t> PieceCanvas::pieceAt(QPointF spot) const {
    for (std::size_t piece = 0; piece < pieces(); ++piece) {
        if (boxOf(piece).contains(spot)) {
            return piece;
        }
    }
    return std::nullopt;
}

void PieceCanvas::step(int by, bool take) {
    if (pieces() == 0) {
        return;
    }
    if (!m_selected) {
        return pick(0);
    }
    const auto to = static_cast<std::ptrdiff_t>(*m_selected) + by;
    if (to < 0 || to >= static_cast<std::ptrdiff_t>(pieces())) {
        return;
    }
    if (take) {
        emit moveWanted(*m_selected, static_cast<std::size_t>(to));
    } else {
        pick(static_cast<std::size_t>(to));
    }
}

bool PieceCanvas::takesKey(int key) {
    switch (key) {
    case Qt::Key_E:
        emit endForEndWanted(*m_selected);
        return true;
    case Qt::Key_F:
        emit faceOverWanted(*m_selected);
        return true;
    case Qt::Key_X:
        emit exchangeWanted(*m_selected);
        return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        emit layoutWanted();
        return true;
    default:
        return false;
    }
}

void PieceCanvas::keyPressEvent(QKeyEvent* event) {
    const bool control = event->modifiers() == Qt::ControlModifier;
    // Enter of the block of figures is as good as the other.
    const bool plain = (event->modifiers() & ~Qt::KeypadModifier) == Qt::NoModifier;
    const int key = event->key();
    if ((key == Qt::Key_Up || key == Qt::Key_Down) && (plain || control)) {
        return step(key == Qt::Key_Up ? upwards() : -upwards(), control);
    }
    if (plain && (key == Qt::Key_Home || key == Qt::Key_End) && pieces() > 0) {
        return pick(key == Qt::Key_Home ? 0 : pieces() - 1);
    }
    if (plain && (key == Qt::Key_PageUp || key == Qt::Key_PageDown)) {
        return emit nextPanelWanted(key == Qt::Key_PageUp ? -1 : 1);
    }
    if (plain && key == Qt::Key_A) {
        return emit arrangeWanted();
    }
    if (!plain || !m_selected || !takesKey(key)) {
        QWidget::keyPressEvent(event);
    }
}

void PieceCanvas::mousePressEvent(QMouseEvent* event) {
    const auto piece = pieceAt(event->position());
    if (piece && event->button() == Qt::LeftButton) {
        pick(*piece);
    }
}

void PieceCanvas::mouseDoubleClickEvent(QMouseEvent* event) {
    if (m_selected && pieceAt(event->position()) == m_selected) {
        emit layoutWanted();
    }
}

void PieceCanvas::contextMenuEvent(QContextMenuEvent* event) {
    const bool byKey = event->reason() == QContextMenuEvent::Keyboard;
    const auto piece = byKey ? m_selected : pieceAt(event->pos());
    if (!piece) {
        return;
    }
    pick(*piece);
    auto* menu = new QMenu(this);
    menu->setAttribute(Qt::WA_DeleteOnClose);
    menu->addAction(tr("End for end") + "\tE", this,
                    [this, at = *piece] { emit endForEndWanted(at); });
    menu->addAction(tr("Face over") + "\tF", this,
                    [this, at = *piece] { emit faceOverWanted(at); });
    addToMenu(*menu, *piece);
    menu->addSeparator();
    menu->addAction(tr("Exchange...") + "\tX", this,
                    [this, at = *piece] { emit exchangeWanted(at); });
    menu->addAction(tr("Show on its board") + "\t" + tr("Enter"), this, &PieceCanvas::layoutWanted);
    menu->popup(byKey ? mapToGlobal(boxOf(*piece).center().toPoint()) : event->globalPos());
}

void PieceCanvas::addToMenu(QMenu& /*menu*/, std::size_t /*piece*/) {}

void PieceCanvas::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    if (!m_selected && pieces() > 0) {
        pick(0);
    }
    update();
}

void PieceCanvas::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    update();
}

void PieceCanvas::paintFocus(QPainter& painter, const Colours& colours) const {
    if (hasFocus()) {
        painter.setPen(QPen(colours.accent, 2));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(rect().adjusted(1, 1, -1, -1));
    }
}

} // namespace stavewright::ui
