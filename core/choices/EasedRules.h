#pragma once
// Rule sets eased by one step: the next larger knot, or a looser set that the shop has already.

#include <string>
#include <vector>

#include "core/document/Edit.h"

namespace stavewright::choices {

struct EasedRules {
    std::string words; ///< `allowing filled knots up to 1"`
    RuleSet rules;     ///< without an id and with a name of its own
};

/// The size a maker would name next above `size`: from a short ladder of round sizes, in inches or
/// millimetres; nothing above the ladder. Common practice, no source.
[[nodiscard]] std::optional<Length> nextSize(Length size, UnitSystem units);

/// Sound knots allowed up to the next size, and open ones filled up to the next size; where none
/// are, up to the first of the ladder. What is allowed at any size is not eased.
[[nodiscard]] std::vector<EasedRules> easedRules(const RuleSet& rules, const JobInfo& info);

/// The defect may lie there, filled or not.
[[nodiscard]] bool isLetIn(const RuleSet& rules, const Defect& defect);

/// `a` lets in what `b` does, with no larger margin, and more besides.
[[nodiscard]] bool isLooser(const RuleSet& a, const RuleSet& b);

/// Gives zone number `zone` of zonesOrDefaults() these rules: a set that the shop has already where
/// one says the same, otherwise a new one.
[[nodiscard]] Edit withRules(const Document& document, const Part& part, std::size_t zone,
                             const RuleSet& rules);

} // namespace stavewright::choices
