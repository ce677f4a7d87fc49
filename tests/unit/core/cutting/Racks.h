#pragma once
// Racks of invented knotty lumber with jobs to cut from them, for the bench and the tests. The same
// seed gives the same rack everywhere: a fixed engine and our own mapping to integers.
//
//   Problem problem = makeRack({.family = JobFamily::Table, .boards = 24, .seed = 1});

#include <string>

#include "core/cutting/Problem.h"
#include "core/cutting/Values.h"

namespace stavewright::cutting::testing {

enum class JobFamily { Table, Benches, Chest, WideTop };
inline constexpr JobFamily allFamilies[] = {JobFamily::Table, JobFamily::Benches, JobFamily::Chest,
                                            JobFamily::WideTop};
[[nodiscard]] std::string nameOf(JobFamily family);

struct RackWish {
    JobFamily family = JobFamily::Table;
    int boards = 24;
    std::uint64_t seed = 1;
    bool metric = false;
    int demandPercent = 33; ///< of the lumber's area
};
/// A board without anything to avoid, one kind of bar half an inch thick, every kerf an eighth of
/// an inch, and no prices.
[[nodiscard]] Problem barsOfAClearBoard(Nm length, Nm width, Nm barLength, Nm barWidth, int demand);

[[nodiscard]] Problem makeRack(const RackWish& wish);
/// The job with no more than `alike` blanks, or panels, of a size: what is left of a kind comes in
/// sizes of its own, near by. As when several pieces are built at once.
[[nodiscard]] Problem withManyKinds(Problem problem, int alike, std::uint64_t seed);
/// Prices by area; those of the first kind and of the others so many percent of it.
[[nodiscard]] Values pricesByArea(const Problem& problem, int percentOfFirst = 100,
                                  int percentOfOthers = 100);

/// The corners lie outside the true ellipse.
[[nodiscard]] Polygon ellipse(Nm x, Nm y, Nm halfAlong, Nm halfAcross);
[[nodiscard]] Polygon box(Nm x0, Nm y0, Nm x1, Nm y1);

inline constexpr Nm inch = 25'400'000;
inline constexpr Nm millimetre = 1'000'000;

} // namespace stavewright::cutting::testing
