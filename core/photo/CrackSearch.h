#pragma once
// Thin dark lines along the grain. Only of this folder.

#include <vector>

#include "core/photo/GrainGrid.h"

namespace stavewright::photo {

struct FoundCrack {
    std::vector<Pixels> ring; ///< in cells of the grid
    double confidence = 0;    ///< at most 0.7: a dark vein looks alike
};
[[nodiscard]] std::vector<FoundCrack> searchCracks(const GrainGrid& grid);

} // namespace stavewright::photo
