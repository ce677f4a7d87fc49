#pragma once
// What is done to the photographs of a board, as edits.

#include "core/document/Edit.h"

namespace stavewright::ui {

[[nodiscard]] Edit replacingPhotos(const Board& board, std::vector<BoardPhoto> photos);
/// With an id of their own, behind those that are there.
[[nodiscard]] Edit addingPhotos(const Document& document, const Board& board,
                                std::vector<BoardPhoto> fresh);
[[nodiscard]] Edit replacingPhoto(const Board& board, const BoardPhoto& photo);
[[nodiscard]] Edit removingPhoto(const Board& board, PhotoId photo);

/// The photograph as one of the other face: its near and far marks change names, because a board
/// turned over about its length shows its near edge above.
[[nodiscard]] BoardPhoto asOfOtherFace(BoardPhoto photo);

/// Share of two outlines' common area in what they cover together, in hundredths.
[[nodiscard]] int overlapPercent(const Polygon& a, const Polygon& b);

} // namespace stavewright::ui
