#pragma once
// Marks of a photograph as lines of the board frame that a pixel must lie on; all in board lengths.

#include <optional>
#include <vector>

#include "core/base/Result.h"
#include "core/lumber/PhotoControls.h"

namespace stavewright::photo {

/// a x + b y = c, with a^2 + b^2 = 1: the mark's distance from that line is a x + b y - c.
struct Constraint {
    Pixels at;
    std::optional<Pixels> minus; ///< the distance between two places is meant
    double a = 0;
    double b = 0;
    double c = 0;
    double pixelsOff = 1;   ///< how exactly the mark can be placed in the picture
    double boardOff = 0;    ///< how exactly what it stands for is known, in board lengths
    bool overruled = false; ///< by the tape
};

/// In the order corners (along, across), tape, edges, ends that are square; or what is wrong with
/// the marks.
[[nodiscard]] Result<std::vector<Constraint>> constraintsOf(const PhotoControls& controls,
                                                            const BoardSize& board);

} // namespace stavewright::photo
