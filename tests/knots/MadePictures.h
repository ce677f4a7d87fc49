#pragma once
// Photographs of made boards, straightened by their true corners; every knot counts.

#include <cstdint>
#include <vector>

#include "tests/boards/MadePhoto.h"
#include "tests/knots/KnotPicture.h"

namespace stavewright::knots {

/// The photograph of one made board; sizes, woods, light and traps differ from seed to seed.
[[nodiscard]] boards::MadePhoto madePhoto(std::uint64_t seed, int width, boards::MadeBoard& board,
                                          bool varied = false);
/// `varied`: knots differ in how far they stand out (for learning).
[[nodiscard]] KnotPicture madePicture(std::uint64_t seed, int width = 2400, bool varied = false);

} // namespace stavewright::knots
