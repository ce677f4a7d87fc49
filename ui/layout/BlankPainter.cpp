#include "ui/layout/BlankPainter.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <optional>

#include "ui/layout/BoardPainter.h"
#include "ui/layout/BoardPicture.h"
#include "ui/layout/Hatch.h"
#include "ui/layout/LabelPlace.h"
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

/// Grain runs along the board. As on the papers the line has one barb, the way to feed the planer;
/// none where that is not known.
void paintGrainArrow(QPainter& painter, QPointF from, double length, int planing,
                     const QColor& colour) {
    if (length < 14) {
        return;
    }
    painter.setPen(QPen(colour, 1));
    const QPointF to = from + QPointF(length, 0);
    painter.drawLine(from, to);
    if (planing != 0) {
        const QPointF tip = planing > 0 ? to : from;
        painter.drawLine(tip, tip + QPointF(-5.0 * planing, -3));
    }
}

QColor tintOf(const BlankPicture& blank, const Colours& colours) {
    return colours.groupTints[static_cast<std::size_t>(blank.tint) % colours.groupTints.size()];
}

} // namespace

void paintLockNail(QPainter& painter, QPointF head, const QColor& colour) {
    painter.setPen(QPen(colour, 2, Qt::SolidLine, Qt::FlatCap));
    painter.drawLine(head + QPointF(-4, 0), head + QPointF(4, 0));
    painter.setPen(Qt::NoPen);
    painter.setBrush(colour); // the shank runs to a point: else it reads as the letter T
    painter.drawPolygon(
        QPolygonF({head + QPointF(-1.5, 0), head + QPointF(1.5, 0), head + QPointF(0, 9)}));
    painter.setBrush(Qt::NoBrush);
}

void paintStateStrokes(QPainter& painter, QPointF end, CutState state, const QColor& colour) {
    constexpr double apart = 4;
    constexpr double high = 9;
    painter.setPen(QPen(colour, 1.6, Qt::SolidLine, Qt::FlatCap));
    const int strokes = static_cast<int>(state);
    const double left = end.x() - apart * (strokes - 1);
    for (int i = 0; i < strokes; ++i) {
        painter.drawLine(QPointF(left + i * apart, end.y()),
                         QPointF(left + i * apart, end.y() - high));
    }
    if (state == CutState::Final) {
        painter.drawLine(QPointF(left - 3, end.y() - high / 2),
                         QPointF(end.x() + 3, end.y() - high / 2));
    }
}

void paintBlankBody(QPainter& painter, const BlankPicture& blank, const QTransform& toPixels,
                    const BoardLook& look) {
    const Colours& c = look.colours;
    const QPolygonF polygon = toPixels.map(blank.outline);
    const bool selected = look.selectedBlank == blank.id;
    QColor fill = tintOf(blank, c);
    fill.setAlpha(c.blank.alpha());
    painter.setBrush(fill);
    const QColor edge = c.dark ? c.blankInk : c.ink;
    painter.setPen(QPen(edge, 1.5));
    painter.drawPolygon(polygon);
    painter.setBrush(Qt::NoBrush);
    constexpr double leastForTwoOutlines = 26; // below it the inner one would strike the name out
    if (blank.locked && polygon.boundingRect().height() >= leastForTwoOutlines) {
        painter.setPen(QPen(edge, 1));
        const QRectF inner = polygon.boundingRect().adjusted(3, 3, -3, -3);
        painter.drawRect(inner);
    }
    if (blank.wrong) {
        painter.setPen(QPen(c.dark ? c.wrong.darker(190) : c.wrong, 3, Qt::DashLine));
        painter.drawPolygon(polygon);
    }
    if (selected) {
        QColor tint = c.accent;
        tint.setAlpha(c.dark ? 170 : 80); // the pale accent hardly shows on pale blanks
        painter.setPen(Qt::NoPen);
        painter.setBrush(tint);
        painter.drawPolygon(polygon);
    }
}

void paintRelated(QPainter& painter, const BlankPicture& blank, const QTransform& toPixels,
                  const Colours& colours) {
    QColor tint = colours.accent;
    tint.setAlpha(30);
    painter.setBrush(tint);
    painter.setPen(QPen(colours.accent, 2));
    painter.drawPolygon(toPixels.map(blank.outline));
}

bool paintBlankMarks(QPainter& painter, const BlankPicture& blank,
                     const std::vector<QRectF>& obstacles, const QTransform& toPixels,
                     const BoardLook& look) {
    const QRectF box = toPixels.map(blank.outline).boundingRect();
    if (!box.intersects(QRectF(painter.window()))) {
        return true;
    }
    const Colours& c = look.colours;
    // Out of sight nothing is painted; whether the name finds room is told all the same.
    const bool isSeen =
        !painter.hasClipping() || painter.clipBoundingRect().intersects(box.adjusted(-4, -4, 4, 4));
    painter.save();
    if (isSeen && look.selectedBlank == blank.id) { // over the cuts, which share its edges
        painter.setBrush(Qt::NoBrush);
        const QPolygonF edge = toPixels.map(blank.outline);
        if (c.dark) { // else the pale accent runs into the pale wood
            painter.setPen(QPen(c.blankInk, 7));
            painter.drawPolygon(edge);
        }
        painter.setPen(QPen(c.accent, 4));
        painter.drawPolygon(edge);
    }
    if (isSeen) {
        paintCorner(painter, box, blank, look);
    }
    std::vector<QRectF> taken = obstacles; // and the signs of the blank itself
    if (blank.locked) {
        paintLockNail(painter, {box.right() - 8, box.top() + 5}, c.blankInk);
        taken.emplace_back(box.right() - 14, box.top() + 3, 12, 13);
    }
    const double strokesWide = 4.0 * static_cast<int>(blank.state) + 8;
    if (blank.state != CutState::Planned && box.width() > strokesWide + 8 && box.height() > 14) {
        paintStateStrokes(painter, {box.right() - 5, box.bottom() - 3}, blank.state, c.blankInk);
        taken.emplace_back(box.right() - strokesWide - 3, box.bottom() - 14, strokesWide + 3, 13);
    }
    // What is seen of a long blank carries its mark, wherever the view stands.
    const QRectF seen =
        box.intersected(QRectF(painter.window())).adjusted(cornerSize + 2, 1, -cornerSize - 2, -1);
    QFont markFont = sized(look.font, TextSize::Body, QFont::DemiBold);
    const QFont sizeFont = sized(look.font, TextSize::Caption);
    for (int tries = 0; tries < 3 && QFontMetricsF(markFont).capHeight() + 2 > box.height();
         ++tries) {
        markFont.setPointSizeF(markFont.pointSizeF() * 0.86);
    }
    const auto sizeOf = [&](const QString& text, const QFont& font) {
        return QSizeF(fractionTextWidth(text, font) + 1, QFontMetricsF(font).height());
    };
    const QSizeF mark = sizeOf(blank.mark, markFont);
    const QSizeF size = sizeOf(blank.size, sizeFont);
    const auto put = [&](const QRectF& where, const QFont& font, const QString& text) {
        if (!isSeen) {
            return;
        }
        painter.setFont(font);
        painter.setPen(c.blankInk);
        drawFractionText(painter, where, Qt::AlignHCenter | Qt::AlignVCenter, text);
    };
    // A place for a label where it fits and covers no mark.
    const auto freePlace = [&](QSizeF label) -> std::optional<QRectF> {
        if (label.width() > seen.width() || label.height() - 5 > seen.height()) {
            return std::nullopt;
        }
        const LabelPlace found = placeLabel(seen, label, taken);
        return found.free ? std::make_optional(found.rect) : std::nullopt;
    };
    const auto arrowAfter = [&](const QRectF& label) {
        if (!isSeen) {
            return;
        }
        const QRectF room(label.right() + 8, seen.center().y() - 4,
                          std::min(36.0, seen.right() - label.right() - 10), 8);
        if (std::none_of(taken.begin(), taken.end(),
                         [&](const QRectF& obstacle) { return obstacle.intersects(room); })) {
            // Rolled over, the grain runs out the other way.
            const int planing = look.face == BoardFace::A ? blank.planing : -blank.planing;
            paintGrainArrow(painter, {room.left(), room.center().y()}, room.width(), planing,
                            c.blankInk);
        }
    };
    // The name with the size under it, beside it, or alone.
    const auto putName = [&](const QString& text) {
        constexpr double overlap = 3; // of the two lines' boxes, which hold room for descenders
        const QSizeF name = sizeOf(text, markFont);
        const QSizeF stacked(std::max(name.width(), size.width()),
                             name.height() + size.height() - overlap);
        const QSizeF inRow(name.width() + 8 + size.width(), std::max(name.height(), size.height()));
        const bool twoLines = stacked.height() <= seen.height();
        if (const auto where = twoLines ? freePlace(stacked) : std::nullopt) {
            put(QRectF(where->left(), where->top(), where->width(), name.height()), markFont, text);
            put(QRectF(where->left(), where->bottom() - size.height(), where->width(),
                       size.height()),
                sizeFont, blank.size);
            arrowAfter(*where);
        } else if (const auto row = freePlace(inRow)) {
            put(QRectF(row->topLeft(), name), markFont, text);
            put(QRectF(row->right() - size.width(), row->top(), size.width(), row->height()),
                sizeFont, blank.size);
            arrowAfter(*row);
        } else if (const auto alone = freePlace(name)) {
            put(*alone, markFont, text);
        } else {
            return false;
        }
        return true;
    };
    bool named = putName(blank.names) || (blank.names != blank.mark && putName(blank.mark));
    if (!named && mark.width() <= box.width() - 4 && mark.height() * 0.7 <= box.height()) {
        QRectF middle(QPointF(), mark); // marks everywhere: the words get an edge of their own
        middle.moveCenter(box.center());
        if (isSeen) {
            paintHaloText(painter, middle.center(), blank.mark, markFont, c.blankInk,
                          tintOf(blank, c));
        }
        named = true;
    } else if (!named && mark.height() * 0.7 <= box.width() && mark.width() <= box.height()) {
        painter.translate(box.center()); // a short wide blank: read from the far end
        painter.rotate(-90);
        put(QRectF(QPointF(-mark.width() / 2, -mark.height() / 2), mark), markFont, blank.mark);
        named = true;
    }
    painter.restore();
    return named;
}

} // namespace stavewright::ui
