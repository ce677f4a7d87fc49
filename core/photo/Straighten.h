#pragma once
// From the marks in a photograph to its map into the board frame, with how well each mark agrees.
//
//   Result<Straightening> s = straighten(controls, board);
//   if (s) { std::optional<Point> knot = s.value().map.toBoard({812.5, 377}); }
//
// A camera that looks at a plane gives eight unknowns, the bend of its lens one more. All of them
// are fitted to all marks at once (least squares, each mark with how exactly one can place it).
// Readings of the tape overrule the corners along the board as soon as there are two. What the
// marks leave open is filled from what cameras are like (square pixels, looking through the middle
// of the picture, lenses that bend a little), loosely enough that marks always win. With four
// corners, places on the edges that face each other tell the bend of the lens by the widths between
// them; both edges bowing the same way is the board's crook.

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/base/Result.h"
#include "core/lumber/PhotoControls.h"
#include "core/photo/PhotoMap.h"

namespace stavewright::photo {

/// How far a mark lies, on the board, from where it ought to be: found less known.
struct MarkResidual {
    enum class Of { Corner, Tape, Edge, Spot };
    Of of = Of::Corner;
    std::size_t index = 0;  ///< in its list of PhotoControls
    Length along;           ///< 0 for an edge mark
    Length across;          ///< 0 for a tape reading
    bool overruled = false; ///< a corner whose place along the board the tape decides
    bool alone = false;     ///< a spot that no other photograph shows: nothing is known of it
};

class Straightening {
  public:
    PhotoMap map;
    /// Another map that the marks allow (nearly) as well: a tape and two edges do not tell from
    /// which side the camera leans. Corners or a spot marked in two photographs do.
    std::optional<PhotoMap> otherwise;
    std::vector<MarkResidual> residuals; ///< corners, tape, edges, spots, in the order given
    Length rms; ///< of all residuals that are not overruled; with four corners of widths, not edges
    Length worst; ///< the largest of them

    /// How far off a place found in this photograph may be (one standard deviation), from how
    /// exactly the marks could be placed, how well they agree, and what they leave open, such as
    /// the bend of the lens where only the corners are marked.
    [[nodiscard]] Length expectedError(Point at) const;
    /// The largest expected error over the part of the board that the marks enclose.
    Length worstExpected;

    /// `covariance`: 10 x 10, of h0..h7, the lens and the focal length.
    Straightening(const PhotoMap& fitted, std::vector<double> covariance)
        : map(fitted)
        , m_covariance(std::move(covariance)) {}

  private:
    std::vector<double> m_covariance;
};

/// Fails with a sentence when marks are outside the picture, contradict each other grossly, or are
/// too few: four corners will do; so will three readings with two places on each edge.
[[nodiscard]] Result<Straightening> straighten(const PhotoControls& controls,
                                               const BoardSize& board);

/// One and the same spot of the face, marked in two photographs.
struct SameSpot {
    std::size_t left = 0; ///< index of a photograph
    PhotoPoint inLeft;
    std::size_t right = 0;
    PhotoPoint inRight;
    friend bool operator==(const SameSpot&, const SameSpot&) = default;
};
/// Several overlapping photographs of one face, fitted together. The error's place names the
/// photograph ("photo 2").
[[nodiscard]] Result<std::vector<Straightening>>
straightenFace(const std::vector<PhotoControls>& photos, const std::vector<SameSpot>& spots,
               const BoardSize& board);

/// Between the near and the far edge, where the board was measured or between.
[[nodiscard]] Length widthAt(const BoardSize& board, Length x);
/// Where a corner lies in the board frame.
[[nodiscard]] Point placeOf(Corner corner, const BoardSize& board);

} // namespace stavewright::photo
