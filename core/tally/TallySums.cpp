#include "core/tally/TallySums.h"

#include "core/geometry/PolygonOps.h"
#include "core/lumber/BoardShape.h"

namespace stavewright {

Length talliedWidth(const Board& board) {
    const Rect box = boundingBox(board.outline);
    const EndWidths ends = endWidthsOf(board.outline);
    const Length third = box.length() / 3;
    const Length x = ends.atDatum <= ends.atFar ? box.x0 + third : box.x1 - third;
    const auto across = acrossAt(board.outline, x);
    return across ? across->length() : widthOf(board);
}

BoardFeet TallySummer::add(const Board& board) {
    const BoardFeet measure =
        tallied(m_tally.add(lengthOf(board), talliedWidth(board)), board.quarter);
    ++m_sums.boards;
    m_sums.tallied += measure;
    m_sums.exact += exactBoardFeet(board);
    m_sums.cost += costOf(board);
    return measure;
}

TallySums sumsOf(const std::vector<Board>& boards) {
    TallySummer summer;
    for (const Board& board : boards) {
        summer.add(board);
    }
    return summer.sums();
}

} // namespace stavewright
