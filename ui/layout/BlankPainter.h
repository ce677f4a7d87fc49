#pragma once
// Painting of one blank on its board: the body under the cuts and knots, the marks over them.

#include <QRectF>
#include <QTransform>

#include <vector>

#include "core/layout/Plan.h"

class QPainter;

namespace stavewright::ui {

struct BlankPicture;
struct BoardLook;
struct Colours;

/// Fill, outline, state and selection.
void paintBlankBody(QPainter& painter, const BlankPicture& blank, const QTransform& toPixels,
                    const BoardLook& look);

/// The quiet mark of a blank whose part is selected. It lies over everything else, so that boards
/// need not be painted again for it.
void paintRelated(QPainter& painter, const BlankPicture& blank, const QTransform& toPixels,
                  const Colours& colours);

/// Mark, size, grain arrow and pose. The small corner triangle stands at the blank's own datum
/// corner and so moves with the pose; it is filled when the blank's face A lies up in this view,
/// hollow when it lies under.
/// `obstacles` are the boxes of the board's knots in pixels: the words stand beside them.
/// False when the blank is too small to carry its name.
bool paintBlankMarks(QPainter& painter, const BlankPicture& blank,
                     const std::vector<QRectF>& obstacles, const QTransform& toPixels,
                     const BoardLook& look);

/// The sign of what is locked, hanging from the middle of its head.
void paintLockNail(QPainter& painter, QPointF head, const QColor& colour);

/// How far a piece has come, as chalk strokes whose last stands at `end`: one for crosscut, two for
/// milled and so on, struck through when it is at its final size.
void paintStateStrokes(QPainter& painter, QPointF end, CutState state, const QColor& colour);

} // namespace stavewright::ui
