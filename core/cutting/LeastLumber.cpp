#include "core/cutting/LeastLumber.h"

#include "core/cutting/Search.h"

namespace stavewright::cutting {

namespace {

/// The engine's money is sized for ten-thousandths; a board foot stands for a unit of the currency.
constexpr std::int64_t millionthsPerCost = 100;
/// Leaving out a panel costs so many times all the boards, and a part of it a part of that.
constexpr Cost boardsPerPanel = 16;

/// The same boards and blanks where only touching a board costs anything: its board feet.
Problem inBoardFeet(const Problem& problem) {
    Problem lumber = problem;
    Cost all = 0;
    for (Board& board : lumber.boards) {
        board.cost = board.boardFeetMillionths / millionthsPerCost; // rounded down: still a bound
        all += board.cost;
        for (RuleLayer& layer : board.layers) {
            for (std::vector<Block>* blocks : {&layer.onA, &layer.onB}) {
                std::erase_if(*blocks, [](const Block& block) { return block.fill.has_value(); });
            }
        }
    }
    lumber.limits.crosscutCost = 0;
    lumber.limits.ripCost = 0;
    lumber.limits.offcutLength = 0;
    lumber.limits.offcutWorthPercent = 0;
    lumber.limits.groupApart = 0;
    for (Kind& kind : lumber.kinds) {
        kind.penaltyUnplaced = kind.isPool ? boardsPerPanel * all : all;
    }
    return lumber;
}

} // namespace

std::optional<std::int64_t> leastBoardFeet(const Problem& problem, const Options& options,
                                           const Progress& progress) {
    const Problem lumber = inBoardFeet(problem);
    const OnImproved nobody;
    const std::optional<Cost> least = Search(lumber, options, progress, nobody).boundAlone();
    return least ? std::optional(*least * millionthsPerCost) : std::nullopt;
}

} // namespace stavewright::cutting
