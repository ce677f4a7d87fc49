#pragma once
// The annotated photographs in ../shared/photos beside the project, where they are there.

#include <optional>
#include <string>
#include <vector>

#include "tests/knots/KnotPicture.h"

namespace stavewright::knots {

/// Decoded by Qt. Knots whose longer side is less than a twentieth of the picture across the grain,
/// and doubtful marks, count neither way. `straightened`: photographs with the board's corners are
/// straightened first, otherwise taken whole.
[[nodiscard]] std::vector<KnotPicture> realPhotos(bool straightened = true);

/// One picture file as an upright picture; nothing when it cannot be read.
[[nodiscard]] std::optional<photo::Image> decoded(const std::string& path);

} // namespace stavewright::knots
