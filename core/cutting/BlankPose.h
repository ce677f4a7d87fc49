#pragma once
// A kind of blank in one of its four poses, with its zones turned the way the blank lies, so that
// the search needs no more thought about ends and faces. Poses that ask the same of the wood are
// one pose.

#include <vector>

#include "core/cutting/Problem.h"

namespace stavewright::cutting {

/// A zone as it lies on the board: x from the blank's low end, y by marks from its low or high
/// edge.
struct PosedZone {
    int rule = 0;
    bool onB = false; ///< the board's face B
    Nm x0 = 0, x1 = 0;
    Mark y0, y1;
    friend bool operator==(const PosedZone&, const PosedZone&) = default;
};

struct BlankPose {
    int kind = 0;
    bool endForEnd = false;
    bool faceOver = false;
    std::vector<PosedZone> zones;
};

/// The distinct poses of one kind, the plain one first.
[[nodiscard]] std::vector<BlankPose> distinctPoses(const Problem& problem, int kind);

/// The zones of a blank of this kind as they lie in this pose.
[[nodiscard]] std::vector<PosedZone> posedZones(const Kind& kind, bool endForEnd, bool faceOver);

} // namespace stavewright::cutting
