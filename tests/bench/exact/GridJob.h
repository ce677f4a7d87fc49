#pragma once
// A small cutting problem on a coarse grid: the ground that the exact models stand on. It shares
// nothing with the engine but the problem itself; blanks, poses and defects are judged here anew,
// in whole units of the grid, by rectangles alone.
//
// Boards are rectangles from (0, 0) without warp; all sizes, kerfs and defects lie on the grid.
// Then an optimal plan does too: once it is chosen which blanks stand where in the cut tree and
// which cuts are shared, what is left are differences of two places with whole right sides.
//
// Not modelled: worth of offcuts, fixed blanks, limits of machines but the narrowest rip.

#include <optional>
#include <string>
#include <vector>

#include "core/cutting/Problem.h"

namespace stavewright::cutting::exact {

/// A kind in one of the widths it may have.
struct Item {
    int kind = 0;
    int length = 0;
    int width = 0;
    int net = 0; ///< of a stave
};

struct Lie {
    Cost fills = 0;
    bool endForEnd = false;
    bool faceOver = false;
};

struct GridBoard {
    int length = 0;
    int width = 0;
    int first = 0, last = 0; ///< sections lie between
};

class GridJob {
  public:
    /// Nothing where the problem does not lie on the grid or asks for what is not modelled.
    [[nodiscard]] static std::optional<GridJob> on(const Problem& problem, Nm unit);

    [[nodiscard]] const Problem& problem() const { return *m_problem; }
    [[nodiscard]] Nm unit() const { return m_unit; }
    [[nodiscard]] const std::vector<GridBoard>& boards() const { return m_boards; }
    [[nodiscard]] const std::vector<Item>& items() const { return m_items; }
    [[nodiscard]] const Kind& kindOf(const Item& item) const {
        return m_problem->kinds[static_cast<std::size_t>(item.kind)];
    }
    [[nodiscard]] int crosscutKerf() const { return m_crosscutKerf; }
    [[nodiscard]] int ripKerf() const { return m_ripKerf; }
    [[nodiscard]] int stripKerf() const { return m_stripKerf; }
    [[nodiscard]] int narrowestRip() const { return m_narrowestRip; }

    /// The cheapest of the poses with the low corner at (x, y); nothing when none is allowed.
    [[nodiscard]] const std::optional<Lie>& lie(std::size_t board, std::size_t item, int x,
                                                int y) const;
    /// Low edges that the item may have in the strip [y0, y1]: flush with either edge, the rest
    /// taken off by one trimming rip.
    [[nodiscard]] std::vector<int> lowEdges(const Item& item, int y0, int y1) const;
    /// What a panel costs that got this much.
    [[nodiscard]] Cost panelPenalty(const Kind& pool, int net, int staves) const;
    [[nodiscard]] bool isComplete(const Kind& pool, int net, int staves) const;

  private:
    GridJob(const Problem& problem, Nm unit)
        : m_problem(&problem)
        , m_unit(unit) {}
    [[nodiscard]] bool read();
    [[nodiscard]] bool readBoard(const Board& board);
    [[nodiscard]] bool readKind(std::size_t index);
    [[nodiscard]] bool toGrid(Nm length, int& units) const;
    void findLies();
    [[nodiscard]] std::optional<Lie> cheapestLie(const Board& board, const Item& item, int x,
                                                 int y) const;

    const Problem* m_problem;
    Nm m_unit;
    std::vector<GridBoard> m_boards;
    std::vector<Item> m_items;
    int m_crosscutKerf = 0, m_ripKerf = 0, m_stripKerf = 0, m_narrowestRip = 0;
    std::vector<std::vector<std::vector<std::optional<Lie>>>> m_lies; ///< board, item, place
};

} // namespace stavewright::cutting::exact
