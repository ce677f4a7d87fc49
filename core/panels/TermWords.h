#pragma once
// The terms of an arrangement in words, for window, papers and command line alike.

#include <string>
#include <vector>

#include "core/document/Document.h"
#include "core/glueup/Arrange.h"

namespace stavewright::panels {

/// "Planing direction"
[[nodiscard]] std::string nameOf(GlueTerm term);
/// What it counts and why, one sentence.
[[nodiscard]] std::string meaningOf(GlueTerm term);
/// "2 staves", "0.4 mm", "0.016 in", "1.5 joints", in the job's units.
[[nodiscard]] std::string valueText(const glueup::TermValue& value, const JobInfo& info);
/// The same as fine as it is needed to tell it from `other`; where even a thousandth does not tell
/// them apart, as fine as that.
[[nodiscard]] std::string valueBeside(const glueup::TermValue& value,
                                      const glueup::TermValue& other, const JobInfo& info);
/// "10 for each stave"
[[nodiscard]] std::string weightText(const glueup::TermValue& value, const JobInfo& info);
/// "12.5"
[[nodiscard]] std::string pointsText(glueup::Cost cost);
/// "alternate", "heart side up", "best face up"
[[nodiscard]] std::string nameOf(RingWish wish);
/// "proved best" or "best found"
[[nodiscard]] std::string nameOf(glueup::Proved proved);
/// A small length with its unit in thousandths: "0.012 in", "0.31 mm".
[[nodiscard]] std::string fineText(Length length, const JobInfo& info);

/// "shrinks in width by 0.2 in", "grows in width by 1.2 mm", "keeps its width"
[[nodiscard]] std::string widthChangeText(Length change, const JobInfo& info);

/// Terms whose value is worse in `after`: "Knots near joints: 1 knot, it was 0 knots"; those that
/// have no weight too, and that they do not count.
[[nodiscard]] std::vector<std::string>
whatGotWorse(const glueup::Score& before, const glueup::Score& after, const JobInfo& info);

} // namespace stavewright::panels
