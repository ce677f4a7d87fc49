// How thick a piece still comes out of a warped board, in integers.

#include <algorithm>
#include <cmath>

#include "core/cutting/BoardModel.h"
#include "core/cutting/Solve.h"

namespace stavewright::cutting {

namespace {

__extension__ typedef __int128 Wide;

/// Rounded up; all arguments at least 0, denominator above 0.
Nm share(Nm amount, Wide numerator, Wide denominator) {
    return static_cast<Nm>((static_cast<Wide>(amount) * numerator + denominator - 1) / denominator);
}

} // namespace

Nm reachable(const Board& board, Nm x0, Nm x1, Nm width) {
    const OutlineEdges edges = outlineEdges(board.outline);
    const Nm left = edges.nearEdge.corners().front().x.inNanometres();
    const Nm right = edges.nearEdge.corners().back().x.inNanometres();
    return reachable(board, {left, right, widestBetween(edges, left, right)}, x0, x1, width);
}

Nm widestBetween(const OutlineEdges& edges, Nm x0, Nm x1) {
    double widest = std::max(edges.farEdge.at(x0) - edges.nearEdge.at(x0),
                             edges.farEdge.at(x1) - edges.nearEdge.at(x1));
    for (const EdgeChain* chain : {&edges.nearEdge, &edges.farEdge}) {
        for (const Point& corner : chain->corners()) {
            const Nm x = corner.x.inNanometres();
            if (x > x0 && x < x1) {
                widest = std::max(widest, edges.farEdge.at(x) - edges.nearEdge.at(x));
            }
        }
    }
    return static_cast<Nm>(std::ceil(widest));
}

Nm reachable(const Board& board, const BoardSize& size, Nm x0, Nm x1, Nm width) {
    const Nm whole = std::max<Nm>(1, size.xEnd - size.xBegin);
    const Nm widest = std::max<Nm>(1, size.widest);
    const Wide length = std::clamp<Nm>(x1 - x0, 0, whole);
    const Wide across = std::clamp<Nm>(width, 0, widest);
    const Nm left = board.thinnest - board.cleaning;
    if (board.warpWhere != 0) {
        // Warp that sits in one third of the board is met whole there and not at all elsewhere.
        const bool meets =
            board.warpWhere == 1 ? (x0 - size.xBegin) * 3 < whole : (size.xEnd - x1) * 3 < whole;
        return meets ? left - board.bow - board.cup - (board.twist + 1) / 2 : left;
    }
    // Lengths stay below 2^39 nm here, so the products stay inside 128 bits.
    const Wide wideWhole = whole;
    const Wide wideWidest = widest;
    return left - share(board.bow, length * length, wideWhole * wideWhole) -
           share(board.cup, across * across, wideWidest * wideWidest) -
           share(board.twist, length * across, 2 * wideWhole * wideWidest);
}

} // namespace stavewright::cutting
