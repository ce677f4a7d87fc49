#pragma once
// Painting of a panel as it will be glued: wood, knots, joints, names, planing arrows, rings at its
// end, and the maker's triangle across its staves. Lines and letters have one size at every zoom.

#include <QFont>
#include <QTransform>

#include <optional>

#include "ui/glueup/PanelPicture.h"
#include "ui/widgets/Theme.h"

class QPainter;

namespace stavewright::ui {

struct PanelLook {
    Colours colours;
    QFont font;
    std::optional<std::size_t> selected; ///< place from the near edge
    std::optional<std::size_t> target;   ///< where a dragged stave would go
    bool focused = false;
    PhotoOfFace photo; ///< empty: drawn figure
};

/// Room at the left of the panel for the rings of its end, in pixels.
inline constexpr double endViewRoom = 64;

/// The largest scale at which the panel and its end view fit into `room`; y runs upwards, the near
/// edge lies below.
[[nodiscard]] QTransform fitted(const PanelPicture& picture, const QRectF& room);

void paintPanel(QPainter& painter, const PanelPicture& picture, const QTransform& toPixels,
                const PanelLook& look);

} // namespace stavewright::ui
