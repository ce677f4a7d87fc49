#include "ui/glueup/BlockCanvas.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>
#include <cmath>

#include "ui/widgets/Theme.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

constexpr double left = 90;
constexpr double top = 44;
constexpr double mostHigh = 130;
constexpr double shape = 4; ///< of a ply's end: so many times as wide as it is thick

/// Rings at the end of a ply, hollow towards the heart: upwards where the heart is towards face A;
/// dotted where nobody noted it.
void paintRings(QPainter& painter, const QRectF& end, int heartUp, const QColor& ink) {
    painter.save();
    painter.setClipRect(end, Qt::IntersectClip);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(ink, 1.2, heartUp == 0 ? Qt::DotLine : Qt::SolidLine));
    for (int ring = 1; ring <= 4; ++ring) {
        const double y = end.top() + end.height() * ring / 5;
        if (heartUp == 0) {
            painter.drawLine(QPointF(end.left(), y), QPointF(end.right(), y));
            continue;
        }
        const double radius = end.width() * 0.9;
        const QPointF heart(end.center().x(), heartUp > 0 ? y - radius : y + radius);
        painter.drawEllipse(heart, radius, radius);
    }
    painter.restore();
}

} // namespace

BlockCanvas::BlockCanvas(QWidget* parent)
    : QWidget(parent) {
    setObjectName("blockCanvas");
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("Laminated block from its end"));
}

void BlockCanvas::setBlock(std::optional<panels::Block> block) {
    m_block = std::move(block);
    if (!m_block || (m_selected && *m_selected >= m_block->plies.size())) {
        m_selected.reset();
    }
    update();
}

void BlockCanvas::setSelected(std::optional<std::size_t> ply) {
    m_selected = ply && m_block && *ply < m_block->plies.size() ? ply : std::nullopt;
    if (m_selected) {
        const panels::BlockPly& picked = m_block->plies[*m_selected];
        setAccessibleDescription(tr("Ply %1 of %2 from face A: %3, board %4")
                                     .arg(*m_selected + 1)
                                     .arg(m_block->plies.size())
                                     .arg(words(picked.label), words(picked.boardMark)));
    }
    update();
}

QRectF BlockCanvas::boxOf(std::size_t ply) const {
    if (!m_block || ply >= m_block->plies.size()) {
        return {};
    }
    const double high = std::clamp(
        (height() - 2 * top) / static_cast<double>(m_block->plies.size()), 16.0, mostHigh);
    const double wide = std::min(high * shape, std::max(60.0, (width() - left) * 0.5));
    return {left, top + high * static_cast<double>(ply), wide, high};
}

void BlockCanvas::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Colours& colours = coloursOf(palette());
    painter.fillRect(rect(), colours.ground);
    if (!m_block) {
        return;
    }
    painter.setFont(sized(font(), TextSize::Heading));
    painter.setPen(colours.ink);
    painter.drawText(QRectF(20, 8, width() - 40, 30), Qt::AlignLeft | Qt::AlignVCenter,
                     tr("%1, from its end").arg(words(m_block->label)));
    for (std::size_t i = 0; i < m_block->plies.size(); ++i) {
        const panels::BlockPly& ply = m_block->plies[i];
        const QRectF box = boxOf(i);
        painter.setPen(QPen(colours.woodInk, 1.4));
        painter.setBrush(colours.wood);
        painter.drawRect(box);
        paintRings(painter, box, ply.heartUp, colours.woodInk);
        if (m_selected == i) {
            painter.setPen(QPen(colours.accent, hasFocus() ? 3 : 2));
            painter.setBrush(Qt::NoBrush);
            painter.drawRect(box.adjusted(2, 2, -2, -2));
        }
        const QRectF text(box.right() + 14, box.top(), width() - box.right() - 20, box.height());
        painter.setPen(colours.ink);
        painter.setFont(sized(font(), TextSize::Body, QFont::DemiBold));
        painter.drawText(text.adjusted(0, 0, 0, -text.height() / 2),
                         Qt::AlignLeft | Qt::AlignBottom, words(ply.label));
        painter.setFont(sized(font(), TextSize::Caption));
        painter.setPen(colours.quietInk);
        const QString lies =
            ply.pose.faceOver
                ? (ply.pose.endForEnd ? tr("rolled over, end for end") : tr("rolled over"))
                : (ply.pose.endForEnd ? tr("end for end") : tr("as it lay"));
        painter.drawText(text.adjusted(0, text.height() / 2, 0, 0), Qt::AlignLeft | Qt::AlignTop,
                         tr("board %1, %2").arg(words(ply.boardMark), lies));
    }
    painter.setFont(sized(font(), TextSize::Caption));
    painter.setPen(colours.quietInk);
    const QRectF first = boxOf(0);
    const QRectF last = boxOf(m_block->plies.size() - 1);
    painter.drawText(QRectF(0, first.top() - 2, left - 8, 20), Qt::AlignRight | Qt::AlignTop,
                     tr("face A"));
    painter.drawText(QRectF(0, last.bottom() - 18, left - 8, 20), Qt::AlignRight | Qt::AlignBottom,
                     tr("face B"));
    if (hasFocus()) {
        painter.setPen(QPen(colours.accent, 1));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(rect().adjusted(0, 0, -1, -1));
    }
}

void BlockCanvas::pick(std::size_t ply) {
    setSelected(ply);
    emit picked(ply);
}

void BlockCanvas::step(int downwards, bool take) {
    if (!m_block || m_block->plies.empty()) {
        return;
    }
    if (!m_selected) {
        return pick(0);
    }
    const auto to = static_cast<std::ptrdiff_t>(*m_selected) + downwards;
    if (to < 0 || to >= static_cast<std::ptrdiff_t>(m_block->plies.size())) {
        return;
    }
    if (take) {
        emit swapWanted(*m_selected, static_cast<std::size_t>(to));
    } else {
        pick(static_cast<std::size_t>(to));
    }
}

void BlockCanvas::keyPressEvent(QKeyEvent* event) {
    const bool control = event->modifiers().testFlag(Qt::ControlModifier);
    const bool plain = event->modifiers() == Qt::NoModifier;
    switch (event->key()) {
    case Qt::Key_Up:
        return step(-1, control);
    case Qt::Key_Down:
        return step(1, control);
    default:
        break;
    }
    if (event->key() == Qt::Key_PageUp || event->key() == Qt::Key_PageDown) {
        return emit nextPanelWanted(event->key() == Qt::Key_PageUp ? -1 : 1);
    }
    if (plain && event->key() == Qt::Key_A) {
        return emit pairWanted();
    }
    if (plain && m_selected) {
        switch (event->key()) {
        case Qt::Key_E:
            return emit endForEndWanted(*m_selected);
        case Qt::Key_F:
            return emit faceOverWanted(*m_selected);
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

void BlockCanvas::mousePressEvent(QMouseEvent* event) {
    for (std::size_t i = 0; m_block && i < m_block->plies.size(); ++i) {
        if (event->button() == Qt::LeftButton && boxOf(i).contains(event->position())) {
            return pick(i);
        }
    }
}

void BlockCanvas::mouseDoubleClickEvent(QMouseEvent*) {
    if (m_selected) {
        emit layoutWanted();
    }
}

void BlockCanvas::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    if (m_block && !m_selected && !m_block->plies.empty()) {
        pick(0);
    }
    update();
}

void BlockCanvas::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    update();
}

} // namespace stavewright::ui
