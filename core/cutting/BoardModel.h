#pragma once
// One board prepared for the search: its near and far edge as chains over x, its blocked regions
// cut into convex pieces, and the stretches that fixed blanks keep for themselves. Board frame,
// nanometres.
//
//   BoardModel model(problem, boardIndex);
//   Nm y = model.nearEdge().highest(x0, x1); // nothing of the near edge stands above y there

#include <vector>

#include "core/cutting/Problem.h"

namespace stavewright::cutting {

/// A point in doubles of nanometres. Board coordinates stay below 2^40, so sums are exact and a
/// turned coordinate is good to far less than a nanometre; decisions round to the safe side.
struct Spot {
    double x = 0;
    double y = 0;
};

/// One edge of an outline: y as a function of x, straight between the corners.
class EdgeChain {
  public:
    EdgeChain() = default;
    explicit EdgeChain(std::vector<Point> corners)
        : m_corners(std::move(corners)) {}

    [[nodiscard]] double at(Nm x) const;
    /// Extremes over [x0, x1].
    [[nodiscard]] double highest(Nm x0, Nm x1) const;
    [[nodiscard]] double lowest(Nm x0, Nm x1) const;
    [[nodiscard]] const std::vector<Point>& corners() const { return m_corners; }

  private:
    std::vector<Point> m_corners; ///< by ascending x
};

/// Lower and upper edge of an outline that is one run in y at every x.
struct OutlineEdges {
    EdgeChain nearEdge;
    EdgeChain farEdge;
};
[[nodiscard]] OutlineEdges outlineEdges(const Polygon& outline);

/// Greatest width square to x between x0 and x1, rounded up.
[[nodiscard]] Nm widestBetween(const OutlineEdges& edges, Nm x0, Nm x1);

/// What warp is measured against: the whole board.
struct BoardSize {
    Nm xBegin = 0;
    Nm xEnd = 0;
    Nm widest = 0;
};
/// reachable() of Solve.h for a board whose size is known.
[[nodiscard]] Nm reachable(const Board& board, const BoardSize& size, Nm x0, Nm x1, Nm width);

/// [x0, x1] leaves a crosscut's kerf to each of the stretches.
[[nodiscard]] bool isBeside(const std::vector<Stretch>& taken, Nm x0, Nm x1, Nm kerf);

/// Convex part of a Block.
struct Piece {
    std::vector<Spot> corners; ///< counter-clockwise
    Spot low, high;            ///< bounding box
    Cost fill = -1;            ///< below 0: forbidden
    bool isFill = false;
    int defect = -1;
};

class BoardModel {
  public:
    BoardModel(const Problem& problem, int index);

    [[nodiscard]] int index() const { return m_index; }
    [[nodiscard]] const Board& board() const { return *m_board; }
    [[nodiscard]] const OutlineEdges& edges() const { return m_edges; }
    [[nodiscard]] const EdgeChain& nearEdge() const { return m_edges.nearEdge; }
    [[nodiscard]] const EdgeChain& farEdge() const { return m_edges.farEdge; }
    [[nodiscard]] const BoardSize& size() const { return m_size; }
    [[nodiscard]] double outlineArea() const { return m_area; } ///< nm^2
    /// Stretches of x where sections may lie: inside the end trims, clear of fixed blanks.
    [[nodiscard]] const std::vector<Stretch>& freeStretches() const { return m_free; }
    [[nodiscard]] bool hasFixed() const { return m_hasFixed; }
    /// What cutting from the board adds to the job: nothing where fixed blanks lie on it already.
    [[nodiscard]] Cost price() const { return m_hasFixed ? 0 : m_board->cost; }
    /// Convex pieces of layer `rule` on one face.
    [[nodiscard]] const std::vector<Piece>& pieces(int rule, bool onB) const;

  private:
    int m_index = 0;
    const Board* m_board = nullptr;
    OutlineEdges m_edges;
    BoardSize m_size;
    double m_area = 0;
    bool m_hasFixed = false;
    std::vector<Stretch> m_free;
    std::vector<std::vector<Piece>> m_pieces; ///< by 2 * rule + onB
};

/// Convex pieces whose union is the polygon (the polygon itself where it is convex).
[[nodiscard]] std::vector<std::vector<Spot>> convexPieces(const Polygon& polygon);

} // namespace stavewright::cutting
