#pragma once
// Hatches drawn as clipped lines, never as a toolkit pattern: those have device size and print as
// flat tint.

#include <QColor>
#include <QFont>
#include <QRectF>

class QPainter;

namespace stavewright::ui {

enum class HatchLean { Rising, Falling };

/// Lines at 45 degrees over the rectangle, inside the painter's present clip; they stay in place on
/// the device grid of the rectangle's own corner.
void paintHatch(QPainter& painter, const QRectF& area, const QColor& colour, double spacing,
                HatchLean lean);

/// Fine dots: wood that nobody has looked at.
void paintDots(QPainter& painter, const QRectF& area, const QColor& colour, double spacing);

/// Text centred at a point with a light edge behind, so that it reads on any wood.
void paintHaloText(QPainter& painter, QPointF centre, const QString& text, const QFont& font,
                   const QColor& ink, const QColor& halo);

} // namespace stavewright::ui
