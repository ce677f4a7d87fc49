#pragma once
// Kinds that should come from one board. Each board beyond the first that gives something of a
// group counts against a solution; that term does not split by board, so the bounds leave it out
// (it is never less than nothing), and prices and patterns know nothing of it: the search tries
// whole boards that hold as much of a group as they can.

#include <optional>

#include "core/cutting/Problem.h"
#include "core/cutting/Random.h"
#include "core/cutting/Values.h"

namespace stavewright::cutting {

/// What the patterns, and what is fixed, count because groups come from several boards.
[[nodiscard]] Cost groupsApart(const Problem& problem, const std::vector<Pattern>& patterns);

/// A group and the board that it shall come from.
struct Gathering {
    int group = 0;
    std::size_t board = 0;
};

/// For a group that comes from several boards: any board that suits one of its kinds, rather one
/// that gives some of it already. Nothing, and no random number taken, where no group is apart.
[[nodiscard]] std::optional<Gathering>
gatheringFor(const Problem& problem, const std::vector<Pattern>& patterns, Random& random);

/// Something of the group is cut by this pattern.
[[nodiscard]] bool holds(const Problem& problem, const Pattern& pattern, int group);

/// Values at which the group is cut before anything else.
[[nodiscard]] Values favouring(const Problem& problem, Values values, int group);

} // namespace stavewright::cutting
