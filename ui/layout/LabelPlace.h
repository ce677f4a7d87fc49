#pragma once
// Where a label stands on a piece of wood: as near the middle as the marks on it leave room.

#include <QRectF>
#include <QSizeF>

#include <vector>

namespace stavewright::ui {

struct LabelPlace {
    QRectF rect;
    bool free = true; ///< false: nowhere is free; the label needs a plate behind it
};

[[nodiscard]] LabelPlace placeLabel(const QRectF& room, QSizeF label,
                                    const std::vector<QRectF>& obstacles);

} // namespace stavewright::ui
