#include "ui/layout/BlankPainter.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <array>

#include "ui/layout/BoardPainter.h"
#include "ui/layout/BoardPicture.h"
#include "ui/layout/Hatch.h"
#include "ui/widgets/FractionText.h"

namespace stavewright::ui {

namespace {

constexpr double cornerSize = 8;

/// The blank's own datum corner as it lies: near edge and datum end, moved by its pose.
QPointF datumCorner(const QRectF& box, const Pose& pose, BoardFace face) {
    // Seen from face A the near edge of the board is at the foot of the picture, from face B at its
    // head.
    bool atFoot = face == BoardFace::A;
    if (pose.endForEnd != pose.faceOver) {
        atFoot = !atFoot; // one of the two turns swaps near and far edge; both together do not
    }
    return {pose.endForEnd ? box.right() : box.left(), atFoot ? box.bottom() : box.top()};
}

void paintCorner(QPainter& painter, const QRectF& box, const BlankPicture& blank,
                 const BoardLook& look) {
    const double size = std::min({cornerSize, box.width() / 3, box.height() / 2});
    if (size < 4) {
        return;
    }
    const QRectF inner = box.adjusted(1.5, 1.5, -1.5, -1.5);
    const QPointF corner = datumCorner(inner, blank.pose, look.face);
    const double dx = corner.x() < box.center().x() ? size : -size;
    const double dy = corner.y() < box.center().y() ? size : -size;
    const bool faceAUp = blank.pose.faceOver == (look.face == BoardFace::B);
    painter.setPen(QPen(look.colours.blankInk, 1));
    painter.setBrush(faceAUp ? QBrush(look.colours.blankInk) : QBrush(Qt::NoBrush));
    painter.drawPolygon(QPolygonF({corner, corner + QPointF(dx, 0), corner + QPointF(0, dy)}));
}

/// Grain runs along the board; the arrow is one line with one barb.
void paintGrainArrow(QPainter& painter, QPointF from, double length, const QColor& colour) {
    if (length < 14) {
        return;
    }
    painter.setPen(QPen(colour, 1));
    const QPointF to = from + QPointF(length, 0);
    painter.drawLine(from, to);
    painter.drawLine(to, to + QPointF(-5, -3));
}

void paintNail(QPainter& painter, QPointF head, const QColor& colour) {
    painter.setPen(QPen(colour, 1.6, Qt::SolidLine, Qt::RoundCap));
    painter.drawLine(head + QPointF(-3, 0), head + QPointF(3, 0));
    painter.drawLine(head, head + QPointF(0, 8));
}

} // namespace

void paintBlankBody(QPainter& painter, const BlankPicture& blank, const QTransform& toPixels,
                    const BoardLook& look) {
    const Colours& c = look.colours;
    const QPolygonF polygon = toPixels.map(blank.outline);
    const bool selected = look.selectedBlank == blank.id;
    const bool related = !selected && look.selectedPart == blank.part;
    QColor fill = c.groupTints[static_cast<std::size_t>(blank.tint) % c.groupTints.size()];
    fill.setAlpha(c.blank.alpha());
    painter.setBrush(fill);
    const QColor edge = c.dark ? c.blankInk : c.ink;
    painter.setPen(QPen(edge, 1.5));
    painter.drawPolygon(polygon);
    painter.setBrush(Qt::NoBrush);
    if (blank.locked) {
        painter.setPen(QPen(edge, 1));
        const QRectF inner = polygon.boundingRect().adjusted(3, 3, -3, -3);
        painter.drawRect(inner);
    }
    if (blank.wrong) {
        painter.setPen(QPen(c.dark ? c.wrong.darker(190) : c.wrong, 3, Qt::DashLine));
        painter.drawPolygon(polygon);
    }
    if (selected || related) {
        QColor accent = c.dark ? QColor("#0F4C66") : c.accent;
        QColor tint = accent;
        tint.setAlpha(selected ? 60 : 24);
        painter.setBrush(tint);
        painter.setPen(QPen(accent, selected ? 3.5 : 2));
        painter.drawPolygon(polygon);
    }
}

void paintBlankMarks(QPainter& painter, const BlankPicture& blank, const QTransform& toPixels,
                     const BoardLook& look) {
    const QRectF box = toPixels.map(blank.outline).boundingRect();
    if (!box.intersects(QRectF(painter.window()))) {
        return;
    }
    const Colours& c = look.colours;
    painter.save();
    paintCorner(painter, box, blank, look);
    if (blank.locked) {
        paintNail(painter, {box.right() - 8, box.top() + 5}, c.blankInk);
    }
    // What is seen of a long blank carries its mark, wherever the view stands.
    const QRectF seen = box.intersected(QRectF(painter.window())).adjusted(4, 0, -4, 0);
    QFont markFont = sized(look.font, TextSize::Body, QFont::DemiBold);
    QFont sizeFont = sized(look.font, TextSize::Caption);
    for (int tries = 0; tries < 3 && QFontMetricsF(markFont).capHeight() + 2 > box.height();
         ++tries) {
        markFont.setPointSizeF(markFont.pointSizeF() * 0.86);
    }
    const double markWidth = fractionTextWidth(blank.mark, markFont);
    const double sizeWidth = fractionTextWidth(blank.size, sizeFont);
    const double markHigh = QFontMetricsF(markFont).height();
    const double sizeHigh = QFontMetricsF(sizeFont).height();
    const double roomy = seen.width() - 2 * cornerSize;
    painter.setPen(c.blankInk);
    const auto put = [&](const QRectF& where, const QFont& font, const QString& text) {
        painter.setFont(font);
        painter.setPen(c.blankInk);
        drawFractionText(painter, where, Qt::AlignLeft | Qt::AlignVCenter, text);
    };
    const double middle = seen.center().y();
    const double cx = seen.center().x();
    if (markHigh + sizeHigh - 4 <= box.height() && std::max(markWidth, sizeWidth) <= roomy) {
        put({cx - markWidth / 2, middle - (markHigh + sizeHigh - 4) / 2, markWidth + 1, markHigh},
            markFont, blank.mark);
        put({cx - sizeWidth / 2, middle + (markHigh - sizeHigh - 4) / 2 + 4, sizeWidth + 1,
             sizeHigh},
            sizeFont, blank.size);
        const double beside = cx + std::max(markWidth, sizeWidth) / 2 + 10;
        paintGrainArrow(painter, {beside, middle},
                        std::min(36.0, seen.right() - cornerSize - beside - 4), c.blankInk);
    } else if (markWidth + sizeWidth + 8 <= roomy && sizeHigh - 4 <= box.height()) {
        const double total = markWidth + 8 + sizeWidth;
        put({cx - total / 2, middle - markHigh / 2, markWidth + 1, markHigh}, markFont, blank.mark);
        put({cx - total / 2 + markWidth + 8, middle - sizeHigh / 2, sizeWidth + 1, sizeHigh},
            sizeFont, blank.size);
        const double beside = cx + total / 2 + 10;
        paintGrainArrow(painter, {beside, middle},
                        std::min(36.0, seen.right() - cornerSize - beside - 4), c.blankInk);
    } else if (markWidth <= seen.width() && markHigh * 0.7 <= box.height()) {
        put({cx - markWidth / 2, middle - markHigh / 2, markWidth + 1, markHigh}, markFont,
            blank.mark);
    } else if (markHigh * 0.7 <= box.width() && markWidth <= box.height()) {
        painter.translate(cx, middle); // a short wide blank: read from the far end
        painter.rotate(-90);
        put({-markWidth / 2, -markHigh / 2, markWidth + 1, markHigh}, markFont, blank.mark);
    }
    painter.restore();
}

} // namespace stavewright::ui
