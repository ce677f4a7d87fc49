#include "core/cutting/Groups.h"

#include <algorithm>
#include <set>
#include <vector>

namespace stavewright::cutting {

namespace {

int groupOf(const Problem& problem, int kind) {
    return problem.kinds[static_cast<std::size_t>(kind)].group;
}

/// By group: the boards that give something of it.
std::vector<std::set<int>> boardsOf(const Problem& problem, const std::vector<Pattern>& patterns) {
    int last = -1;
    for (const Kind& kind : problem.kinds) {
        last = std::max(last, kind.group);
    }
    std::vector<std::set<int>> boards(static_cast<std::size_t>(last + 1));
    if (last < 0) {
        return boards;
    }
    const auto meet = [&](int kind, int board) {
        if (const int group = groupOf(problem, kind); group >= 0) {
            boards[static_cast<std::size_t>(group)].insert(board);
        }
    };
    for (const Fixed& fixed : problem.fixed) {
        meet(fixed.kind, fixed.board);
    }
    for (const Pattern& pattern : patterns) {
        for (const PlacedSection& section : pattern.sections) {
            for (const PlacedStrip& strip : section.strips) {
                for (const Placed& placed : strip.blanks) {
                    meet(placed.kind, pattern.board);
                }
            }
        }
    }
    return boards;
}

} // namespace

Cost groupsApart(const Problem& problem, const std::vector<Pattern>& patterns) {
    if (problem.limits.groupApart == 0) {
        return 0;
    }
    Cost sum = 0;
    for (const std::set<int>& boards : boardsOf(problem, patterns)) {
        sum +=
            boards.empty() ? 0 : problem.limits.groupApart * (static_cast<Cost>(boards.size()) - 1);
    }
    return sum;
}

std::optional<Gathering> gatheringFor(const Problem& problem, const std::vector<Pattern>& patterns,
                                      Random& random) {
    if (problem.limits.groupApart == 0) {
        return std::nullopt;
    }
    const std::vector<std::set<int>> boards = boardsOf(problem, patterns);
    std::vector<int> apart;
    for (std::size_t group = 0; group < boards.size(); ++group) {
        if (boards[group].size() > 1) {
            apart.push_back(static_cast<int>(group));
        }
    }
    if (apart.empty()) {
        return std::nullopt;
    }
    const int group = apart[random.below(apart.size())];
    std::vector<std::size_t> candidates;
    for (std::size_t b = 0; b < problem.boards.size(); ++b) {
        const bool isSuited =
            std::any_of(problem.kinds.begin(), problem.kinds.end(), [&](const Kind& kind) {
                return kind.group == group && kind.demand > 0 && suits(kind, problem.boards[b]);
            });
        if (isSuited) {
            candidates.push_back(b);
        }
    }
    const std::set<int>& present = boards[static_cast<std::size_t>(group)];
    // Half of the times a board that gives some of it already.
    if (candidates.empty() || random.below(2) == 0) {
        const auto chosen =
            std::next(present.begin(), static_cast<std::ptrdiff_t>(random.below(present.size())));
        return Gathering{group, static_cast<std::size_t>(*chosen)};
    }
    return Gathering{group, candidates[random.below(candidates.size())]};
}

bool holds(const Problem& problem, const Pattern& pattern, int group) {
    for (const PlacedSection& section : pattern.sections) {
        for (const PlacedStrip& strip : section.strips) {
            for (const Placed& placed : strip.blanks) {
                if (groupOf(problem, placed.kind) == group) {
                    return true;
                }
            }
        }
    }
    return false;
}

Values favouring(const Problem& problem, Values values, int group) {
    // Twice the dearest board for the least of it outweighs all that a board could give besides.
    Cost dearest = 1;
    for (const Board& board : problem.boards) {
        dearest = std::max(dearest, board.cost);
    }
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Kind& kind = problem.kinds[k];
        if (kind.group != group) {
            continue;
        }
        if (kind.isPool) {
            values.perMetre[k] += static_cast<Cost>(
                2 * static_cast<double>(dearest) * static_cast<double>(nanometresPerMetre) /
                static_cast<double>(std::max<Nm>(1, kind.width - kind.jointAllowance)));
        } else {
            values.each[k] += 2 * dearest;
        }
    }
    return values;
}

} // namespace stavewright::cutting
