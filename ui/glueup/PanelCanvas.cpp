#include "ui/glueup/PanelCanvas.h"

#include <QApplication>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>

namespace stavewright::ui {

namespace {
constexpr double margin = 24;
} // namespace

PanelCanvas::PanelCanvas(QWidget* parent)
    : QWidget(parent) {
    setObjectName("panelCanvas");
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("Panel as it will be glued"));
}

void PanelCanvas::setPicture(PanelPicture picture) {
    m_picture = std::move(picture);
    if (m_selected && *m_selected >= m_picture.staves.size()) {
        m_selected.reset();
    }
    update();
}

void PanelCanvas::setPhotos(PhotoOfFace photo) {
    m_photo = std::move(photo);
    update();
}

void PanelCanvas::setBadge(const QString& badge) {
    m_badge = badge;
    update();
}

void PanelCanvas::setSelected(std::optional<std::size_t> place) {
    m_selected = place && *place < m_picture.staves.size() ? place : std::nullopt;
    if (m_selected) {
        const StavePicture& stave = m_picture.staves[*m_selected];
        setAccessibleDescription(tr("Place %1 of %2: %3, board %4, %5 wide")
                                     .arg(*m_selected + 1)
                                     .arg(m_picture.staves.size())
                                     .arg(stave.label, stave.board, stave.width));
    }
    update();
}

QTransform PanelCanvas::toPixels() const {
    return fitted(m_picture, QRectF(rect()).adjusted(margin / 2, margin + 6, -margin, -margin));
}

QRectF PanelCanvas::boxOf(std::size_t place) const {
    return place < m_picture.staves.size() ? toPixels().mapRect(m_picture.staves[place].place)
                                           : QRectF();
}

std::optional<std::size_t> PanelCanvas::placeAt(QPointF spot) const {
    for (std::size_t place = 0; place < m_picture.staves.size(); ++place) {
        if (boxOf(place).contains(spot)) {
            return place;
        }
    }
    return std::nullopt;
}

void PanelCanvas::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    PanelLook look;
    look.colours = coloursOf(palette());
    look.font = font();
    look.selected = m_selected;
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
    if (hasFocus()) {
        painter.setPen(QPen(look.colours.accent, 1));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(rect().adjusted(0, 0, -1, -1));
    }
}

void PanelCanvas::pick(std::size_t place) {
    setSelected(place);
    emit picked(place);
}

void PanelCanvas::step(int upwards, bool take) {
    if (m_picture.staves.empty()) {
        return;
    }
    if (!m_selected) {
        return pick(0);
    }
    // The near edge lies below, in the view of the back above.
    const int way = m_picture.back ? -upwards : upwards;
    const auto to = static_cast<std::ptrdiff_t>(*m_selected) + way;
    if (to < 0 || to > static_cast<std::ptrdiff_t>(last())) {
        return;
    }
    const auto place = static_cast<std::size_t>(to);
    if (take) {
        emit moveWanted(*m_selected, place);
    } else {
        pick(place);
    }
}

void PanelCanvas::keyPressEvent(QKeyEvent* event) {
    const bool control = event->modifiers().testFlag(Qt::ControlModifier);
    const bool plain = event->modifiers() == Qt::NoModifier;
    switch (event->key()) {
    case Qt::Key_Up:
        return step(1, control);
    case Qt::Key_Down:
        return step(-1, control);
    case Qt::Key_Home:
        return m_picture.staves.empty() || !plain ? event->ignore() : pick(0);
    case Qt::Key_End:
        return m_picture.staves.empty() || !plain ? event->ignore() : pick(last());
    case Qt::Key_Escape:
        if (m_dragging) {
            return endDrag();
        }
        break;
    case Qt::Key_A:
        return plain ? emit arrangeWanted() : event->ignore();
    case Qt::Key_B:
        if (event->modifiers() == Qt::ShiftModifier) {
            return emit blinkAlternatelyWanted();
        }
        return plain ? emit blinkWanted() : event->ignore();
    case Qt::Key_PageUp:
        return emit nextPanelWanted(-1);
    case Qt::Key_PageDown:
        return emit nextPanelWanted(1);
    case Qt::Key_P:
        return plain ? emit photographWanted() : event->ignore();
    case Qt::Key_V:
        return plain ? emit backWanted() : event->ignore();
    default:
        break;
    }
    if (m_selected && plain) {
        switch (event->key()) {
        case Qt::Key_E:
            return emit endForEndWanted(*m_selected);
        case Qt::Key_F:
            return emit faceOverWanted(*m_selected);
        case Qt::Key_L:
            return emit lockWanted(*m_selected);
        case Qt::Key_X:
            return emit exchangeWanted(*m_selected);
        case Qt::Key_Return:
        case Qt::Key_Enter:
            return emit layoutWanted();
        default:
            break;
        }
    }
    QWidget::keyPressEvent(event);
}

void PanelCanvas::mousePressEvent(QMouseEvent* event) {
    const auto place = placeAt(event->position());
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
    if (!m_pressed || !m_selected) {
        return;
    }
    if (!m_dragging &&
        (event->position() - *m_pressed).manhattanLength() < QApplication::startDragDistance()) {
        return;
    }
    m_dragging = true;
    auto target = placeAt(event->position());
    if (target == m_selected) {
        target.reset();
    }
    if (target != m_target) {
        m_target = target;
        update();
        if (target) {
            emit swapTried(*m_selected, *target);
        } else {
            emit tryEnded();
        }
    }
}

void PanelCanvas::mouseReleaseEvent(QMouseEvent*) {
    const auto target = m_target;
    const auto from = m_selected;
    const bool dragged = m_dragging;
    endDrag();
    if (dragged && from && target) {
        emit swapWanted(*from, *target);
    }
}

void PanelCanvas::mouseDoubleClickEvent(QMouseEvent*) {
    if (m_selected) {
        emit layoutWanted();
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

void PanelCanvas::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    if (!m_selected && !m_picture.staves.empty()) {
        pick(0);
    }
    update();
}

void PanelCanvas::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    update();
}

} // namespace stavewright::ui
