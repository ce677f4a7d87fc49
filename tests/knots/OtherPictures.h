#pragma once
// Pictures of boards drawn in quite another way than the made boards, with many woods, knots,
// lights and backgrounds. Never learned from: they tell how suggestions fare on pictures of a kind
// that nobody had seen.

#include <cstdint>

#include "tests/knots/KnotPicture.h"

namespace stavewright::knots {

/// The same seed draws the same picture, 600 to 4000 pixels long. Knots of half an inch and more
/// count, smaller ones neither way. The board is to be looked for.
[[nodiscard]] KnotPicture otherPicture(std::uint64_t seed);

} // namespace stavewright::knots
