#include "ui/glueup/PanelCanvas.h"

#include <QApplication>
#include <QKeyEvent>
#include <QMenu>
#include <QMouseEvent>
#include <QPainter>

namespace stavewright::ui {

namespace {
constexpr double margin = 24;
} // namespace

PanelCanvas::PanelCanvas(QWidget* parent)
    : PieceCanvas(parent) {
    setObjectName("panelCanvas");
    setAccessibleName(tr("Panel as it will be glued"));
}

void PanelCanvas::setPicture(PanelPicture picture) {
    m_picture = std::move(picture);
    piecesChanged();
}

void PanelCanvas::setPhotos(PhotoOfFace photo) {
    m_photo = std::move(photo);
    update();
}

void PanelCanvas::setBadge(const QString& badge) {
    m_badge = badge;
    update();
}

QString PanelCanvas::described(std::size_t place) const {
    const StavePicture& stave = m_picture.staves[place];
    QString text =
        tr("Place %1 of %2: %3, board %4, face %5 seen, %6 wide")
            .arg(place + 1)
            .arg(m_picture.staves.size())
            .arg(stave.label, stave.board, stave.face == BoardFace::A ? "A" : "B", stave.width);
    if (stave.turned) {
        text += tr(", turned end for end");
    }
    if (stave.locked) {
        text += tr(", locked in its place");
    }
    if (stave.flagged) {
        text += tr(", refused where it lies");
    }
    return text;
}

QTransform PanelCanvas::toPixels() const {
    return fitted(m_picture, QRectF(rect()).adjusted(margin / 2, margin + 6, -margin, -margin));
}

QRectF PanelCanvas::boxOf(std::size_t place) const {
    return place < m_picture.staves.size() ? toPixels().mapRect(m_picture.staves[place].place)
                                           : QRectF();
}

void PanelCanvas::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    PanelLook look;
    look.colours = coloursOf(palette());
    look.font = font();
    look.selected = selected();
    look.target = m_target;
    look.focused = hasFocus();
    look.photo = m_photo;
    painter.fillRect(rect(), look.colours.ground);
    if (m_picture.staves.empty()) {
        return;
    }
    paintPanel(painter, m_picture, toPixels(), look);
    painter.setFont(sized(font(), TextSize::Caption));
    painter.setPen(look.colours.quietInk);
    const QRectF panel = toPixels().mapRect(m_picture.whole);
    painter.drawText(QRectF(panel.left(), panel.bottom() + 3, panel.width(), margin),
                     Qt::AlignLeft | Qt::AlignTop,
                     m_picture.back ? tr("far edge") : tr("near edge"));
    if (!m_badge.isEmpty()) {
        painter.setFont(sized(font(), TextSize::Body, QFont::DemiBold));
        painter.setPen(look.colours.caution);
        painter.drawText(QRectF(margin, 6, width() - 2 * margin, margin),
                         Qt::AlignRight | Qt::AlignVCenter, m_badge);
    }
    paintFocus(painter, look.colours);
}

void PanelCanvas::keyPressEvent(QKeyEvent* event) {
    const bool plain = event->modifiers() == Qt::NoModifier;
    if (event->key() == Qt::Key_B && event->modifiers() == Qt::ShiftModifier) {
        return emit blinkAlternatelyWanted();
    }
    if (event->key() == Qt::Key_Escape && m_dragging) {
        return endDrag();
    }
    if (plain) {
        switch (event->key()) {
        case Qt::Key_B:
            return emit blinkWanted();
        case Qt::Key_P:
            return emit photographWanted();
        case Qt::Key_V:
            return emit backWanted();
        case Qt::Key_L:
            return selected() ? emit lockWanted(*selected()) : event->ignore();
        default:
            break;
        }
    }
    PieceCanvas::keyPressEvent(event);
}

void PanelCanvas::addToMenu(QMenu& menu, std::size_t place) {
    menu.addAction(
        (m_picture.staves[place].locked ? tr("Unlock its place") : tr("Lock its place")) + "\tL",
        this, [this, place] { emit lockWanted(place); });
}

void PanelCanvas::mousePressEvent(QMouseEvent* event) {
    const auto place = pieceAt(event->position());
    if (event->button() != Qt::LeftButton) {
        return;
    }
    if (!place) {
        const bool isBeside =
            !m_picture.beside.empty() &&
            toPixels()
                .mapRect(m_picture.beside.front().whole.translated(0, m_picture.besideAt))
                .contains(event->position());
        return isBeside ? emit besideWanted() : void();
    }
    m_pressed = event->position();
    pick(*place);
}

void PanelCanvas::mouseMoveEvent(QMouseEvent* event) {
    if (!m_pressed || !selected()) {
        return;
    }
    if (!m_dragging &&
        (event->position() - *m_pressed).manhattanLength() < QApplication::startDragDistance()) {
        return;
    }
    m_dragging = true;
    auto target = pieceAt(event->position());
    if (target == selected()) {
        target.reset();
    }
    if (target != m_target) {
        m_target = target;
        update();
        if (target) {
            emit swapTried(*selected(), *target);
        } else {
            emit tryEnded();
        }
    }
}

void PanelCanvas::mouseReleaseEvent(QMouseEvent*) {
    const auto target = m_target;
    const auto from = selected();
    const bool dragged = m_dragging;
    endDrag();
    if (dragged && from && target) {
        emit swapWanted(*from, *target);
    }
}

void PanelCanvas::endDrag() {
    m_pressed.reset();
    m_dragging = false;
    if (m_target) {
        m_target.reset();
        emit tryEnded();
    }
    update();
}

} // namespace stavewright::ui
