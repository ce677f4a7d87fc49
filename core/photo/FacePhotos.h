#pragma once
// Several overlapping photographs along one face, each straightened by its own stretch of tape.

#include <optional>
#include <vector>

#include "core/photo/Image.h"
#include "core/photo/Straighten.h"

namespace stavewright::photo {

/// Which photograph shows a stretch of the face.
struct FaceStretch {
    std::size_t photo = 0;
    Stretch along;
    friend bool operator==(const FaceStretch&, const FaceStretch&) = default;
};

/// Where two photographs meet, and how far one and the same spot may be apart there: the expected
/// errors of both taken together, the largest over the width.
struct FaceJoint {
    std::size_t left = 0; ///< index of the photograph on the datum's side
    std::size_t right = 0;
    Length at;
    Length expected;
};

struct FaceArrangement {
    std::vector<FaceStretch> stretches; ///< from the datum on, without overlap
    std::vector<FaceJoint> joints;
    std::vector<Stretch> unseen; ///< no photograph shows the whole width here
};

/// The part of the board of which this photograph shows the whole width; nothing when there is
/// none.
[[nodiscard]] std::optional<Stretch> shownBy(const PhotoMap& map, const BoardSize& board);

/// Chooses joints in the middle of each overlap. The order of the photographs does not matter.
[[nodiscard]] FaceArrangement arranged(const std::vector<Straightening>& photos,
                                       const BoardSize& board);

/// One straightened picture of the whole face; black where nothing is shown.
[[nodiscard]] Image facePicture(const std::vector<ImageView>& photos,
                                const std::vector<Straightening>& straightened,
                                const FaceArrangement& arrangement, const BoardSize& board,
                                double pixelsPerInch);

} // namespace stavewright::photo
