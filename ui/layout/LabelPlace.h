#pragma once
// Where a label stands on a piece of wood: as near the middle as the marks on it leave room.

#include <QRectF>
#include <QSizeF>

#include <optional>
#include <vector>

namespace stavewright::ui {

struct LabelPlace {
    QRectF rect;
    bool free = true; ///< false: nowhere is free; the label needs a plate behind it
};

[[nodiscard]] LabelPlace placeLabel(const QRectF& room, QSizeF label,
                                    const std::vector<QRectF>& obstacles);

/// Beside what the label names, inside the room and off everything that is taken; nothing when
/// there is no such place near it.
[[nodiscard]] std::optional<QRectF> placeBeside(const QRectF& named, QSizeF label,
                                                const QRectF& room,
                                                const std::vector<QRectF>& taken);

} // namespace stavewright::ui
