#pragma once
// The photographs of one face as the maker marked them: each straightened by its own marks, and
// those that show the same spots fitted together, so that they meet at their joints.
//
//   const TiedPhotos face = tiedPhotos({{&first.controls, first.size}, {&second.controls, ...}});

#include <vector>

#include "core/base/Result.h"
#include "core/photo/Straighten.h"

namespace stavewright::photo {

struct MarkedPhoto {
    const PhotoControls* controls = nullptr;
    BoardSize size; ///< the board as it was measured for this photograph
};

struct TiedPhotos {
    /// In the order given; the residuals of spots say how far a spot lies from where the other
    /// photographs put it. An error is about the marks of that photograph alone.
    std::vector<Result<Straightening>> photos;
    /// Photographs whose spots could not be used, and why; each then stands by its own marks.
    std::vector<Error> untied;
};

[[nodiscard]] TiedPhotos tiedPhotos(const std::vector<MarkedPhoto>& photos);

/// More photographs than these are not fitted together: it would take too long while one drags.
inline constexpr std::size_t mostTied = 12;

/// The lowest number that no photograph has; 0 when there is none left.
[[nodiscard]] int freeSpot(const PhotoControls& into,
                           const std::vector<const PhotoControls*>& others);
/// The number for the next spot in `into` while nobody knows what it shows: the lowest that another
/// photograph of the face has and this one lacks, else a free one.
[[nodiscard]] int nextSpot(const PhotoControls& into,
                           const std::vector<const PhotoControls*>& others);

} // namespace stavewright::photo
