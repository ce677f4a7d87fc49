#pragma once
// The four variants in which one-board optima are listed, by stages and by the direction of the
// first cuts. V is the engine's own: crosscuts first. H is V with the axes exchanged.

#include "published/BoardPrice.h"
#include "published/Families.h"

namespace stavewright::cutting::bench {

/// Prices the sheet in each variant that `known` lists and prints the rows.
void printVariants(const Sheet& sheet, const KnownLine& known, const std::string& instance,
                   const std::string& group, double seconds, FamilyTable& table);

} // namespace stavewright::cutting::bench
