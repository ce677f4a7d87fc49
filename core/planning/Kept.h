#pragma once
// What a new plan leaves as it lies in the job's plan: what is locked, what is cut already, and
// what shares a section with either. The engine plans whole sections, so wood beside a kept blank
// in its section could not be used again anyway; the blanks there stay as long as they are still
// wanted and their wood is still good.

#include <set>

#include "core/planning/Statement.h"

namespace stavewright::planning {

/// `layout` is locked whole, or the section is locked or begun, or something in it is.
[[nodiscard]] bool mustStay(const BoardLayout& layout, const Section& section);

/// `specs` are those of the document.
[[nodiscard]] Kept keptOf(const Document& document, const std::vector<BlankSpec>& specs);

/// Parts with a blank that stays.
[[nodiscard]] std::set<PartId> partsOf(const Kept& kept);

/// Thicknesses that the job's plan chose for them.
[[nodiscard]] Thicknesses thicknessesOf(const Document& document, const Kept& kept);

} // namespace stavewright::planning
