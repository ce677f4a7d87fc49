#include "core/cutting/EqualBoards.h"

#include <algorithm>

namespace stavewright::cutting {

namespace {

bool areEqual(const Block& a, const Block& b) {
    return a.region == b.region && a.fill == b.fill && a.isFill == b.isFill && a.defect == b.defect;
}

bool areEqual(const std::vector<Block>& a, const std::vector<Block>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](const Block& x, const Block& y) { return areEqual(x, y); });
}

bool areEqual(const Board& a, const Board& b) {
    return a.outline == b.outline && a.trimAtDatum == b.trimAtDatum && a.trimAtFar == b.trimAtFar &&
           a.cost == b.cost && a.boardFeetMillionths == b.boardFeetMillionths &&
           a.material == b.material && a.thinnest == b.thinnest && a.bow == b.bow &&
           a.cup == b.cup && a.twist == b.twist && a.warpWhere == b.warpWhere &&
           a.cleaning == b.cleaning &&
           std::equal(a.layers.begin(), a.layers.end(), b.layers.begin(), b.layers.end(),
                      [](const RuleLayer& x, const RuleLayer& y) {
                          return areEqual(x.onA, y.onA) && areEqual(x.onB, y.onB);
                      });
}

} // namespace

std::vector<std::size_t> equalBoards(const Problem& problem) {
    std::vector<bool> hasFixed(problem.boards.size(), false);
    for (const Fixed& fixed : problem.fixed) {
        hasFixed[static_cast<std::size_t>(fixed.board)] = true;
    }
    std::vector<std::size_t> first;
    std::vector<std::size_t> distinct;
    for (std::size_t b = 0; b < problem.boards.size(); ++b) {
        const auto same = std::find_if(distinct.begin(), distinct.end(), [&](std::size_t other) {
            return !hasFixed[b] && !hasFixed[other] &&
                   areEqual(problem.boards[b], problem.boards[other]);
        });
        if (same == distinct.end()) {
            distinct.push_back(b);
            first.push_back(b);
        } else {
            first.push_back(*same);
        }
    }
    return first;
}

} // namespace stavewright::cutting
