#include "ui/layout/Hatch.h"

#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <cmath>

namespace stavewright::ui {

namespace {

/// The part of the area that can be seen at all: a zoomed-in board is far larger than the window.
QRectF visiblePart(const QPainter& painter, const QRectF& area) {
    const QRectF clip = painter.clipBoundingRect();
    const QRectF window(painter.window());
    return area.intersected(clip.isEmpty() ? window : clip.intersected(window));
}

} // namespace

void paintHatch(QPainter& painter, const QRectF& area, const QColor& colour, double spacing,
                HatchLean lean) {
    const QRectF seen = visiblePart(painter, area);
    if (seen.isEmpty()) {
        return;
    }
    painter.save();
    painter.setClipRect(seen, Qt::IntersectClip);
    painter.setPen(QPen(colour, 1));
    // Each line meets the top edge of the whole area at left + k * step.
    const double step = spacing * std::sqrt(2.0);
    const double height = area.height();
    const double above = seen.top() - area.top();
    const double below = seen.bottom() - area.top();
    QVector<QLineF> lines;
    const auto add = [&](double k) {
        const double x = area.left() + k * step;
        if (lean == HatchLean::Falling) {
            lines << QLineF(x + above, seen.top(), x + below, seen.bottom());
        } else {
            lines << QLineF(x + height - above, seen.top(), x + height - below, seen.bottom());
        }
    };
    const double first = std::floor((seen.left() - area.left() - height) / step) - 1;
    const double last = std::ceil((seen.right() - area.left() + height) / step) + 1;
    for (double k = first; k <= last; ++k) {
        add(k);
    }
    painter.drawLines(lines);
    painter.restore();
}

void paintDots(QPainter& painter, const QRectF& area, const QColor& colour, double spacing) {
    const QRectF seen = visiblePart(painter, area);
    if (seen.isEmpty()) {
        return;
    }
    painter.save();
    painter.setPen(QPen(colour, 1.4, Qt::SolidLine, Qt::RoundCap));
    QPolygonF dots;
    const double rows = std::floor((seen.top() - area.top()) / spacing);
    const double columns = std::floor((seen.left() - area.left()) / spacing);
    for (double row = rows; area.top() + row * spacing < seen.bottom(); ++row) {
        const double shift = std::fmod(row, 2.0) != 0 ? spacing / 2 : 0;
        for (double column = columns; area.left() + column * spacing < seen.right(); ++column) {
            dots << QPointF(area.left() + column * spacing + shift, area.top() + row * spacing);
        }
    }
    painter.drawPoints(dots);
    painter.restore();
}

void paintHaloText(QPainter& painter, QPointF centre, const QString& text, const QFont& font,
                   const QColor& ink, const QColor& halo) {
    const QFontMetricsF metrics(font);
    QPainterPath path;
    path.addText(centre.x() - metrics.horizontalAdvance(text) / 2,
                 centre.y() + metrics.capHeight() / 2, font, text);
    painter.save();
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(halo, 3, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.drawPath(path);
    painter.fillPath(path, ink);
    painter.restore();
}

} // namespace stavewright::ui
