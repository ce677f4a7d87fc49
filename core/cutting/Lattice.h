#pragma once
// One free stretch of a board as a lattice: where along it and across it a blank of each kind may
// lie. Worked out once; then the worth of any section under any prices takes microseconds.
//
// Across, the lattice follows the near edge: v is the height above it, as it is in a section whose
// edge lies on the near edge. A cell stands for all places in it, and a blank may lie in a cell
// when it may lie at any of them. On a board with a straight near edge no place is missed so; where
// the edge bends, a section's frame leaves it a little: with the slack of EdgeSlack.h still no
// place is missed, without it the lattice is a close guess.
//
//   Lattice lattice(context, model, stretch, {inch / 8, inch / 16});

#include <algorithm>
#include <array>
#include <cstdint>
#include <vector>

#include "core/cutting/BoardModel.h"
#include "core/cutting/EdgeSlack.h"
#include "core/cutting/LatticeReach.h"
#include "core/cutting/SectionMenu.h"

namespace stavewright::cutting {

struct LatticeStep {
    Nm along = 0;
    Nm across = 0;
    /// Lengths along are rounded up to whole cells, so that the sections of a chain have room one
    /// behind the other; the worth is then no bound.
    bool roomy = false;
};

/// The step across that the kinds' free widths ask for, else a sixteenth of an inch.
[[nodiscard]] Nm stepAcross(const Problem& problem);

class Lattice {
  public:
    using Word = std::uint64_t;
    [[nodiscard]] static bool isSet(const Word* bits, int at) {
        return (bits[at >> 6] >> (at & 63) & 1) != 0;
    }
    /// What a blank pays for the defects it takes along, in steps (levelPrice).
    static constexpr int levels = 6;
    static constexpr std::size_t dearest = levels - 1; ///< whatever is paid

    /// Cells along in a block; a block stands for any place in its cells.
    static constexpr int blockCells = 16;

    /// Where the edges of a free width may stand, in one pose; by place along, then across.
    struct PoolRows {
        std::vector<Word> lowOpen, highOpen;
        /// By level: while less is paid than the price of the next one. By low edge: highest high
        /// edge. A roomy lattice has the dearest level only.
        LatticeReach<levels> upTo;
    };
    struct PoolPose {
        PoolRows cell, block;
    };
    struct KindCells {
        bool isHere = false; ///< the board's material and size can give it
        int length = 0;      ///< cells that a blank and its crosscut take
        int width = 0;       ///< cells that the least width takes
        int footprint = 0;   ///< the same with a rip
        /// Fixed widths: by cell along, then words. Empty at a level that is like the one before.
        std::vector<Word> open[levels];
        std::vector<Word> block[levels]; ///< the same by block
        bool hasLevel[levels] = {};      ///< any bit that the one before has not
        /// The dearest level that is not like the one before.
        [[nodiscard]] int lastLevel() const {
            int last = 0;
            for (int level = 1; level < levels; ++level) {
                last = hasLevel[level] ? level : last;
            }
            return last;
        }
        std::vector<PoolPose> poses; ///< free widths
        /// Fixed widths that fit twice along the stretch of a roomy lattice: by row across, then
        /// cell along, the first cell from there on where one may begin; cells() where none may.
        std::vector<std::int16_t> next;
        std::vector<char> isLikeBelow; ///< `next`, by row across: it is that of the row below
        /// Cells along that are not like the one before; not of a roomy lattice.
        std::vector<std::int16_t> changes;
        int widths = 0;    ///< number of widths
        int stepCells = 1; ///< between them
        /// Widths are not a whole number of cells: from a low edge in one cell, high edges lie in
        /// two.
        bool highCarries = false;
    };

    /// With the slack of the sections that are asked for, no place of theirs is missed.
    Lattice(const Context& context, const BoardModel& model, const Stretch& stretch,
            LatticeStep step, EdgeSlack slack = {});

    [[nodiscard]] const Context& context() const { return *m_context; }
    [[nodiscard]] const BoardModel& model() const { return *m_model; }
    [[nodiscard]] Nm begin() const { return m_begin; }
    [[nodiscard]] Nm end() const { return m_end; }
    [[nodiscard]] LatticeStep step() const { return m_step; }
    [[nodiscard]] const EdgeSlack& slack() const { return m_slack; }
    [[nodiscard]] int cells() const { return m_cells; }
    /// Cell in which the crosscut behind a section at the far end of the stretch ends.
    [[nodiscard]] int lastEnd() const {
        return static_cast<int>((m_end - m_begin + m_context->problem->limits.crosscutKerf) /
                                m_step.along);
    }
    [[nodiscard]] int blocks() const { return (m_cells + blockCells - 1) / blockCells; }
    [[nodiscard]] int rows() const { return m_rows; } ///< edges across: 0 to rows - 1
    [[nodiscard]] int words() const { return m_words; }
    [[nodiscard]] Nm xOf(int cell) const { return m_begin + cell * m_step.along; }
    [[nodiscard]] const KindCells& kind(std::size_t k) const { return m_kinds[k]; }
    /// A stave's high edge may lie in the cell, or where its widths leave fractions of cells in the
    /// next one up. `highOpen`: of a pose, at a place along.
    [[nodiscard]] bool isHighOpen(const KindCells& pool, const Word* highOpen, int high) const {
        return isSet(highOpen, high) ||
               (pool.highCarries && high + 1 < m_rows && isSet(highOpen, high + 1));
    }
    /// Price of a level; at most what the blank really pays.
    [[nodiscard]] Cost levelPrice(int level) const { return m_levelPrice[level]; }
    /// Cells along that a length takes.
    [[nodiscard]] int cellsOf(Nm length) const {
        return static_cast<int>((length + (m_step.roomy ? m_step.along - 1 : 0)) / m_step.along);
    }
    /// Cells from the one in which a section with a blank of the kind begins to the one in which it
    /// ends, its crosscut included, at least.
    [[nodiscard]] int leastCells(const Kind& kind) const {
        return static_cast<int>(
            std::max<Nm>(0,
                         kind.length + m_context->problem->limits.crosscutKerf - m_slack.longer()) /
            m_step.along);
    }
    /// Height of the board above its near edge at a cell.
    [[nodiscard]] Nm heightAt(int cell) const { return m_height[static_cast<std::size_t>(cell)]; }

  private:
    /// Prices of the levels on a board with these fills.
    void findLevels(std::vector<Cost> fills);
    void fillBlocks(KindCells& cells) const;
    void findChanges(KindCells& cells) const;
    void addPose(const BlankPose& pose, KindCells& cells);
    template <class Visit>
    void visitBlocks(const BlankPose& pose, const Visit& visit) const;

    const Context* m_context;
    const BoardModel* m_model;
    Nm m_begin = 0, m_end = 0;
    LatticeStep m_step;
    EdgeSlack m_slack;
    int m_cells = 0;
    int m_rows = 0;
    int m_words = 0;
    Cost m_levelPrice[levels] = {};
    std::vector<Nm> m_height; ///< by cell: highest in it
    /// A piece above a section's edge, as low and as high as any section has it there.
    struct Straight {
        Piece lowest, highest;
    };
    [[nodiscard]] Straight straightened(const Piece& piece) const;
    // Needed only until the poses are added.
    std::vector<std::vector<Straight>> m_straight; ///< by 2 * rule + onB
    std::vector<Nm> m_raisedAt; ///< by cell: so high the edge of a section stands in it at least
    std::vector<KindCells> m_kinds;
};

} // namespace stavewright::cutting
