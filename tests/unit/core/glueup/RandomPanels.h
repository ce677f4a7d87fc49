#pragma once
// Panels that nobody glued, for tests and benches; the same seed gives the same panel.

#include "core/glueup/Scoring.h"

namespace stavewright::glueup::testing {

struct PanelKind {
    int staves = 5;
    int boards = 4;
    RingWish rings = RingWish::Alternate;
    bool noCentreSeam = true;
    bool rulesForbidPoses = false;
    bool photographed = false; ///< which way lines run at the edges is known of some faces
};

[[nodiscard]] ArrangeProblem randomPanel(std::uint64_t seed, const PanelKind& kind);
[[nodiscard]] ArrangeProblem randomPair(std::uint64_t seed, int left, int right);

/// An arrangement that is allowed, by chance.
[[nodiscard]] Order randomOrder(const Scoring& scoring, std::uint64_t seed);

/// The least total of every arrangement there is, tried one by one.
[[nodiscard]] Cost bruteForce(const Scoring& scoring);

} // namespace stavewright::glueup::testing
