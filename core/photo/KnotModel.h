#pragma once
// How much the measures of a window speak for a knot: a sum of small decision trees. The weights
// are trained offline (tests/knots says how); the search only adds them up.

#include <array>
#include <cstdint>
#include <vector>

#include "core/photo/KnotWindow.h"

namespace stavewright::photo {

/// Two questions deep: question 0, then 1 (answer: below) or 2 (not below).
struct KnotTree {
    std::array<std::uint8_t, 3> measure{};
    std::array<float, 3> below{};
    std::array<float, 4> says{};

    [[nodiscard]] float answer(const Measures& m) const {
        return m[measure[0]] < below[0] ? (m[measure[1]] < below[1] ? says[0] : says[1])
                                        : (m[measure[2]] < below[2] ? says[2] : says[3]);
    }
};

struct KnotModel {
    std::vector<KnotTree> trees;
    /// Score at which half of what is found is a knot, and how quickly that changes.
    float even = 0;
    float slope = 1;

    [[nodiscard]] float score(const Measures& measures) const;
    /// The same, but given up early (a very low score) where the first trees rule a knot out.
    [[nodiscard]] float quickScore(const Measures& measures) const;
    /// 0 to 1, from a score.
    [[nodiscard]] double confidence(float score) const;
};

/// The weights that are part of the program.
[[nodiscard]] const KnotModel& trainedKnotModel();

struct FoundKnot {
    double x0 = 0; ///< in cells of the grid
    double y0 = 0;
    double x1 = 0;
    double y1 = 0;
    float score = 0;
};
/// Best first; of windows that show the same knot the best is left, moved to the middle of them.
[[nodiscard]] std::vector<FoundKnot> searchKnots(const GrainGrid& grid, const KnotModel& model,
                                                 double leastConfidence);

} // namespace stavewright::photo
