#pragma once
// The fit behind Straighten.h: unknowns of one or several photographs, what the marks ask of them,
// and what cameras are like.

#include <optional>
#include <vector>

#include "core/photo/Constraints.h"
#include "core/photo/LeastSquares.h"
#include "core/photo/PhotoMap.h"

namespace stavewright::photo {

/// For each photograph: h0..h7, the lens, the logarithm of the focal length in half diagonals.
inline constexpr std::size_t lensAt = 8;
inline constexpr std::size_t focalAt = 9;
inline constexpr std::size_t unknownCount = 10;

/// One photograph.
struct CameraProblem {
    std::vector<Constraint> constraints;
    PhotoMap::Values frame;  ///< scale, width, height
    bool allCorners = false; ///< four corners are marked
    double perPixel = 1e-3;  ///< board lengths, in the middle of the marks

    /// `unknowns` of this photograph alone.
    [[nodiscard]] PhotoMap mapOf(const Vector& unknowns) const;
    /// How far off one may expect this constraint to be, in board lengths.
    [[nodiscard]] double off(const Constraint& constraint) const;
    /// Signed distance from what is asked, in board lengths; nothing beyond the horizon.
    [[nodiscard]] static std::optional<double> distance(const Constraint& constraint,
                                                        const PhotoMap& map);
    /// Of the marks, then of what cameras are like, each divided by how far off it may be.
    [[nodiscard]] Vector residuals(const Vector& unknowns) const;
    /// From nothing; sets perPixel. Nothing when the marks do not even fix a turn and a size.
    [[nodiscard]] std::optional<Fit> fit();
    /// The same seen from the other side, as far as that fits: the lean turned round.
    [[nodiscard]] Fit leaningOtherwise(const Fit& fit) const;
};

/// A spot that two photographs share.
struct SharedSpot {
    std::size_t left = 0;
    Pixels inLeft;
    std::size_t right = 0;
    Pixels inRight;
};

/// All photographs of a face; unknowns one after the other.
struct FaceProblem {
    std::vector<CameraProblem> photos;
    std::vector<SharedSpot> spots;

    [[nodiscard]] Vector residuals(const Vector& unknowns) const;
    [[nodiscard]] Vector unknownsOf(const Vector& all, std::size_t photo) const;
};

} // namespace stavewright::photo
