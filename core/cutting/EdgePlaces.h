#pragma once
// Where the low and high edges of pieces in a line need to stand, when each piece is pushed towards
// the low end until something stops it. What is flush, or shares a cut, moves as one, so that the
// piece that stops the others may stand anywhere in the row: the places are those of the stops and
// every place that lengths and kerfs lead to from them, in both directions.
//
//   EdgePlaces places = edgePlaces({begin, stops...}, {}, lengths, kerfs, begin, end, 100);

#include <vector>

#include "core/cutting/Problem.h"

namespace stavewright::cutting {

struct EdgePlaces {
    std::vector<Nm> lows;    ///< ascending
    std::vector<Nm> highs;   ///< ascending
    bool isComplete = false; ///< no place had to be left out
};

/// From the stops `lows` and `highs`, by the pieces' `lengths` and the kerfs between them, inside
/// [begin, end]; no more than `most` of either, those nearest to the stops first.
[[nodiscard]] EdgePlaces edgePlaces(const std::vector<Nm>& lows, const std::vector<Nm>& highs,
                                    const std::vector<Nm>& lengths, const std::vector<Nm>& kerfs,
                                    Nm begin, Nm end, std::size_t most);

} // namespace stavewright::cutting
