#pragma once
// How much the measures of a window speak for a knot: a sum of small decision trees. The weights
// are trained offline (tests/knots says how); the search only adds them up.

#include <array>
#include <cstdint>
#include <vector>

#include "core/lumber/Defect.h"
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
    /// What it adds to the score when many windows agree, for each unit of FoundKnot::agreeing.
    float agreement = 0;

    [[nodiscard]] float score(const Measures& measures) const;
    /// The same, but given up early (a very low score) where the first trees rule a knot out.
    [[nodiscard]] float quickScore(const Measures& measures) const;
    /// 0 to 1, from a score.
    [[nodiscard]] double confidence(float score) const;
};

/// The weights that are part of the program.
[[nodiscard]] const KnotModel& trainedKnotModel();

/// What kind a knot is, from the measures of the rectangle round it: scores above 0 speak for it.
struct KindModel {
    KnotModel loose; ///< rather loose than sound
    KnotModel hole;  ///< rather a hole than loose or sound
    [[nodiscard]] DefectKind kindOf(const Measures& measures) const;
};
[[nodiscard]] const KindModel& trainedKindModel();

struct FoundKnot {
    double x0 = 0; ///< in cells of the grid
    double y0 = 0;
    double x1 = 0;
    double y1 = 0;
    float score = 0;
    float agreeing =
        0; ///< logarithm of how many windows say the same, weighed by how sure they are
};
/// The rectangle on whole cells.
[[nodiscard]] Window windowOf(const FoundKnot& knot);
/// Best first; of windows that show the same knot the best is left, moved to the middle of them.
/// Windows are looked at coarsely first, and closely where that gave hope.
[[nodiscard]] std::vector<FoundKnot> searchKnots(const GrainGrid& grid, const KnotModel& model,
                                                 double leastConfidence);

} // namespace stavewright::photo
