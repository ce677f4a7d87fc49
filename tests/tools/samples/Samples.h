#pragma once
// The sample jobs: invented pieces for invented clients of an invented shop.

#include "core/document/Document.h"

namespace stavewright::samples {

[[nodiscard]] Document hallShelf();    ///< small: 4 boards of white ash, inches
[[nodiscard]] Document kitchenTable(); ///< middling: 16 boards of white oak, 8/4 and 4/4, inches
[[nodiscard]] Document readingRoom();  ///< large: 60 boards of red oak, inches
[[nodiscard]] Document linenChest();   ///< metric: 14 boards of beech

} // namespace stavewright::samples
