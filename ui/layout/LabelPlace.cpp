#include "ui/layout/LabelPlace.h"

#include <algorithm>

namespace stavewright::ui {

LabelPlace placeLabel(const QRectF& room, QSizeF label, const std::vector<QRectF>& obstacles) {
    constexpr double step = 8;
    QRectF middle(QPointF(), label);
    middle.moveCenter(room.center());
    const double reach = std::max(0.0, (room.width() - label.width()) / 2);
    const double rise = std::max(0.0, (room.height() - label.height()) / 2);
    for (const double up : {0.0, -rise, rise}) { // in the middle, then along an edge
        for (double off = 0; off <= reach; off += step) {
            for (const double side : {off, -off}) {
                const QRectF candidate = middle.translated(side, up);
                if (std::none_of(obstacles.begin(), obstacles.end(), [&](const QRectF& obstacle) {
                        return obstacle.intersects(candidate);
                    })) {
                    return {candidate, true};
                }
            }
        }
    }
    return {middle, false};
}

std::optional<QRectF> placeBeside(const QRectF& named, QSizeF label, const QRectF& room,
                                  const std::vector<QRectF>& taken) {
    constexpr double gap = 3;
    const double right = named.right() + gap;
    const double left = named.left() - gap - label.width();
    const double centred = named.center().x() - label.width() / 2;
    const double above = named.top() - gap - label.height();
    const double below = named.bottom() + gap;
    const double middle = named.center().y() - label.height() / 2;
    const QPointF nearest[] = {{right, named.top() - label.height() / 2},
                               {right, named.bottom() - label.height() / 2},
                               {right, middle},
                               {centred, above},
                               {centred, below},
                               {left, middle},
                               {left, named.top() - label.height() / 2},
                               {left, named.bottom() - label.height() / 2}};
    for (const double away : {0.0, label.height() + 1}) { // then one line farther off
        for (const QPointF& corner : nearest) {
            const double up = corner.y() < middle ? -away : away;
            const QRectF place(corner + QPointF(0, up), label);
            if (room.contains(place) &&
                std::none_of(taken.begin(), taken.end(),
                             [&](const QRectF& other) { return other.intersects(place); })) {
                return place;
            }
        }
    }
    return std::nullopt;
}

} // namespace stavewright::ui
