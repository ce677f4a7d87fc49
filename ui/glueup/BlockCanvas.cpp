#include "ui/glueup/BlockCanvas.h"

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

QString liesText(Pose pose) {
    return pose.faceOver
               ? (pose.endForEnd ? BlockCanvas::tr("rolled over, end for end")
                                 : BlockCanvas::tr("rolled over"))
               : (pose.endForEnd ? BlockCanvas::tr("end for end") : BlockCanvas::tr("as it lay"));
}

} // namespace

BlockCanvas::BlockCanvas(QWidget* parent)
    : PieceCanvas(parent) {
    setObjectName("blockCanvas");
    setAccessibleName(tr("Laminated block from its end"));
}

void BlockCanvas::setBlock(std::optional<panels::Block> block) {
    m_block = std::move(block);
    piecesChanged();
}

QString BlockCanvas::described(std::size_t ply) const {
    const panels::BlockPly& picked = m_block->plies[ply];
    return tr("Ply %1 of %2 from face A: %3, board %4, heart %5, %6")
        .arg(ply + 1)
        .arg(m_block->plies.size())
        .arg(words(picked.label), words(picked.boardMark),
             picked.heartUp == 0  ? tr("not noted")
             : picked.heartUp > 0 ? tr("towards face A")
                                  : tr("towards face B"),
             liesText(picked.pose));
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
        if (selected() == i) {
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
        painter.drawText(text.adjusted(0, text.height() / 2, 0, 0), Qt::AlignLeft | Qt::AlignTop,
                         tr("board %1, %2").arg(words(ply.boardMark), liesText(ply.pose)));
    }
    painter.setFont(sized(font(), TextSize::Caption));
    painter.setPen(colours.quietInk);
    const QRectF first = boxOf(0);
    const QRectF last = boxOf(m_block->plies.size() - 1);
    painter.drawText(QRectF(0, first.top() - 2, left - 8, 20), Qt::AlignRight | Qt::AlignTop,
                     tr("face A"));
    painter.drawText(QRectF(0, last.bottom() - 18, left - 8, 20), Qt::AlignRight | Qt::AlignBottom,
                     tr("face B"));
    paintFocus(painter, colours);
}

} // namespace stavewright::ui
