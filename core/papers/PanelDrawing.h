#pragma once
// A panel on paper as it is laid on the bench: its wood (photographs of the boards where there are
// any), knots, names, planing arrows, the rings at its end and the maker's triangle.

#include <functional>

#include "core/panels/Panels.h"
#include "core/papers/Pen.h"

namespace stavewright::papers {

/// From `top` downwards, as large as a whole scale allows in `area`; returns where it ends.
/// Somewhat smaller where the rest of the page `fits` only then below its end.
Length drawPanel(Pen& pen, const Document& document, const panels::Panel& panel, const Rect& area,
                 Length top, const std::function<bool(Length end)>& fits);

} // namespace stavewright::papers
