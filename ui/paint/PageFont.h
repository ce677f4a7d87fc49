#pragma once
// The bundled type at one large size, so that widths scale without rounding and painting only
// scales the painter: what was measured is what is painted.

#include <QFont>

#include "core/papers/PageModel.h"

namespace stavewright::ui {

/// Pixel size of pageFont(); widths and outlines are divided by it.
inline constexpr int pageFontPixels = 100;

[[nodiscard]] QFont pageFont(papers::Weight weight);

/// Advance of one line without fractions.
[[nodiscard]] Length plainWidthOf(const std::string& utf8, double points, papers::Weight weight);

} // namespace stavewright::ui
