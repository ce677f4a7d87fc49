#pragma once
// What the program would mark on a board from its picture alone: knots, holes and cracks. Never
// more than a suggestion: the maker takes or dismisses each.
//
//   const Suggestions s = suggestMarks(picture, {});
//   for (const SuggestedMark& mark : s.marks) { show(mark.outline, mark.kind, mark.confidence); }

#include <vector>

#include "core/lumber/Defect.h"
#include "core/lumber/PhotoPoint.h"
#include "core/photo/Image.h"
#include "core/photo/PhotoMap.h"

namespace stavewright::photo {

struct SuggestedMark {
    DefectKind kind = DefectKind::SoundKnot;
    double confidence = 0;       ///< 0 to 1: of so many marks as sure as this, this share was right
    std::vector<Pixels> outline; ///< in the picture, no point twice
};

struct Suggestions {
    std::vector<Pixels> board;        ///< its outline in the picture; nothing is suggested outside
    bool boardFound = false;          ///< false: the whole picture is taken as board
    std::vector<SuggestedMark> marks; ///< surest first
};

/// From here on suggestions are worth a look: on boards that were left out in training about 85 in
/// 100 knots were found and a quarter of the suggestions were wrong (bench_photo --leave-out).
inline constexpr double usefulConfidence = 0.2;

struct SuggestOptions {
    /// A picture straightened by corners shows nothing but board.
    bool boardFillsPicture = false;
    double leastConfidence = usefulConfidence;
};

/// The picture should be straightened, with the grain along x or y. Takes less than a
/// second for 12 million pixels. Deterministic.
[[nodiscard]] Suggestions suggestMarks(const ImageView& picture, const SuggestOptions& options);

/// The outline in the board frame, counter-clockwise; empty where the map does not reach.
[[nodiscard]] Polygon outlineOnBoard(const std::vector<Pixels>& outline, const PhotoMap& map);

[[nodiscard]] constexpr bool isKnot(DefectKind kind) {
    return kind == DefectKind::SoundKnot || kind == DefectKind::LooseKnot ||
           kind == DefectKind::KnotHole;
}

} // namespace stavewright::photo
