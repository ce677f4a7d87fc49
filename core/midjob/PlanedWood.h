#pragma once
// Private to core/midjob: what milling leaves of the wood, for what is cut from it later.

#include <set>

#include "core/document/Document.h"

namespace stavewright::midjob {

/// Notes on the boards that were touched how thick milled wood is, where that is not noted yet: as
/// thick as the thickest blank needs that stands in it or, by the plan before, stood in it. Planed
/// is the whole piece at once, and thinner blanks go on once they are parted. Wood that counts as
/// milled no more loses its note.
void notePlaned(const Document& before, Document& after, const std::set<BoardId>& touched);

} // namespace stavewright::midjob
