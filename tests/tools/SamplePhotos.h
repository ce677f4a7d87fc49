#pragma once
// Photographs for the boards of a sample, made by our own generator: the same outline and the same
// knots as the board has, seen by a camera on a floor.

#include "core/document/Document.h"

namespace stavewright::samples {

/// Adds one of each face to the first `boards` boards, `pixels` wide, with the corners marked.
void addPhotos(Document& job, int boards, std::uint64_t seed, int pixels);

} // namespace stavewright::samples
