#include "ui/layout/LabelPlace.h"

#include <algorithm>

namespace stavewright::ui {

LabelPlace placeLabel(const QRectF& room, QSizeF label, const std::vector<QRectF>& obstacles) {
    constexpr double step = 8;
    QRectF middle(QPointF(), label);
    middle.moveCenter(room.center());
    const double reach = std::max(0.0, (room.width() - label.width()) / 2);
    for (double off = 0; off <= reach; off += step) {
        for (const double side : {off, -off}) {
            const QRectF candidate = middle.translated(side, 0);
            if (std::none_of(obstacles.begin(), obstacles.end(), [&](const QRectF& obstacle) {
                    return obstacle.intersects(candidate);
                })) {
                return {candidate, true};
            }
        }
    }
    return {middle, false};
}

} // namespace stavewright::ui
