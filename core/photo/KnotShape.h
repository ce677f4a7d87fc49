#pragma once
// From a found window to an outline and a kind. Only of this folder.

#include <vector>

#include "core/lumber/Defect.h"
#include "core/photo/KnotModel.h"

namespace stavewright::photo {

struct KnotShape {
    DefectKind kind = DefectKind::SoundKnot;
    std::vector<Pixels> ring; ///< in cells of the grid
};
[[nodiscard]] KnotShape shapeOf(const GrainGrid& grid, const FoundKnot& knot);

} // namespace stavewright::photo
