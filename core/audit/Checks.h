#pragma once
// The families of checks, one file each. Every one reads the case and writes into the report.

#include "core/audit/Case.h"

namespace stavewright::audit_detail {

/// Sections inside the board's length, in order, apart by the crosscut's kerf.
void checkSections(const Case& opened, Report& report);
/// Strips on wood, in order, apart by the rip's kerf; nothing ripped narrower than the saw allows.
void checkStrips(const Case& opened, Report& report);
/// Blanks in their strips, apart by the kerf, nowhere on one another, trimmed by one rip at most.
void checkBlanks(const Case& opened, Report& report);
/// Blanks inside the outline, between their crosscuts, clear of the raw ends.
void checkOutlines(const Case& opened, Report& report);
/// Thickness that warp leaves, and what the jointer and the planer take.
void checkFacing(const Case& opened, Report& report);
/// Boards that are much thicker than a blank's milling needs.
void checkPlaning(const Case& opened, Report& report);
/// Boards kept for one part, and parts kept off a board.
void checkRules(const Case& opened, Report& report);
/// Rough sizes, species, widths of staves.
void checkSizes(const Case& opened, Report& report);
/// Every wanted blank once, panels filled, the unplaced list true.
void checkDemand(const Case& opened, Report& report);
/// Stretches under blanks that nobody has looked at: remarks.
void checkSeen(const Case& opened, Report& report);
/// Parts that should match and do not come from one place: remarks.
void checkGroups(const Case& opened, Report& report);
/// Offcuts large enough to keep, on wood, clear of everything else.
void checkOffcuts(const Case& opened, Report& report);
/// States that contradict each other; ids given twice.
void checkStates(const Case& opened, Report& report);
void checkIds(const Case& opened, Report& report);

/// Defects against zones; returns the fills that the plan needs.
[[nodiscard]] std::vector<Fill> checkZones(const Case& opened, Report& report);

/// The plan's sums, counted here.
[[nodiscard]] PlanTotals countTotals(const Case& opened, int fills);
/// The plan's claims against them.
void checkTotals(const Case& opened, const PlanTotals& counted, Report& report);

} // namespace stavewright::audit_detail
