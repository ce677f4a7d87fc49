#include "core/lumber/WarpReach.h"

#include <algorithm>

namespace stavewright {

std::vector<ReachRow> warpReach(const Board& board, const std::vector<Length>& pieces,
                                Length cleaning) {
    const Length length = lengthOf(board);
    const Length width = widthOf(board);
    std::vector<ReachRow> rows;
    const auto add = [&](Length piece) {
        const bool atFar = board.warp.where == Warp::Where::MostlyAtFarEnd;
        const Stretch along = atFar ? Stretch{length - piece, length} : Stretch{Length(), piece};
        rows.push_back({piece, reachableThickness(board, along, width, cleaning),
                        reachableThickness(board, along, width / 2, cleaning)});
    };
    for (const Length piece : pieces) {
        if (piece < length) {
            add(piece);
        }
    }
    add(length);
    return rows;
}

} // namespace stavewright
