#pragma once
// Boosting (the gentle kind) of trees with two questions on binned measures.

#include <optional>
#include <vector>

#include "core/lumber/Defect.h"
#include "core/photo/KnotModel.h"

namespace stavewright::knots {

struct Example {
    photo::Measures measures{};
    bool knot = false;
    double weight = 1;
    std::optional<DefectKind> kind; ///< of a knot, where it is known
};

/// Knots and wood get the same weight in all at the start. Deterministic.
[[nodiscard]] photo::KnotModel boosted(const std::vector<Example>& examples, int trees,
                                       double pace);

} // namespace stavewright::knots
