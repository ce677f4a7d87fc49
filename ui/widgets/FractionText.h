#pragma once
// Fractions set as fractions, everywhere in the window: a text such as "27 1/2 x 3 1/16" is drawn
// with a raised numerator, a bar and a lowered denominator. Quarters of the trade ("8/4") stay as
// they are typed, because there the numerator is not smaller than the denominator.
//
//   drawFractionText(painter, rect, Qt::AlignRight | Qt::AlignVCenter, "27 1/2");

#include <QFont>
#include <QRectF>
#include <QString>

class QPainter;

namespace stavewright::ui {

[[nodiscard]] double fractionTextWidth(const QString& text, const QFont& font);

/// One line in the painter's pen and font; elided at the right when it is too wide.
void drawFractionText(QPainter& painter, const QRectF& rect, Qt::Alignment alignment,
                      const QString& text);

/// Several lines, broken at spaces; '\n' starts a new line. Returns the height used.
double drawWrappedFractionText(QPainter& painter, const QRectF& rect, const QString& text);
[[nodiscard]] double wrappedFractionTextHeight(const QString& text, const QFont& font,
                                               double width);

} // namespace stavewright::ui
