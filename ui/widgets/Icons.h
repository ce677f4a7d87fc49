#pragma once
// Icons: one set of line drawings (SVG, black), coloured by the palette in use.

#include <QIcon>
#include <QPalette>

namespace stavewright::ui {

/// `name` is a file of resources/icons without its ending; an unknown name gives an empty icon.
[[nodiscard]] QIcon iconOf(const QString& name, const QPalette& palette);

} // namespace stavewright::ui
