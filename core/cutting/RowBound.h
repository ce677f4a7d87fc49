#pragma once
// What strips with several blanks in a row are worth at most, on a lattice and under given prices.
//
// The rows are asked for by groups of places across: in a group a blank may lie where it may lie at
// any of the group's places. A strip of a height may hold every kind that is no wider; a narrower
// blank lies anywhere within the height and pays for the rip that trims it.
//
//   RowBound rows(lattice);
//   RowBound::From from = rows.from(cell, prices, work);
//   Cost most = from.most(v / RowBound::groupRows, height, end);

#include <cstdint>
#include <vector>

#include "core/cutting/BoundPrices.h"
#include "core/cutting/Lattice.h"
#include "core/cutting/RowStep.h"
#include "core/cutting/SharedRows.h"

namespace stavewright::cutting {

class RowBound {
  public:
    static constexpr int groupRows = 4;
    static constexpr int coarseCells = 2;

    /// Strips from `low` to `high` wide. No kind's width lies between, so the same kinds fit in all
    /// of them; only a pool's staves may grow with the strip. Where they do, the height stands
    /// twice: once with their worth at `low`, then, `atHigh`, at the other end. The worth of a row
    /// is the greatest of sums that are linear in the width, so between the two it is no more than
    /// what lies on a straight line.
    struct Height {
        Nm low = 0, high = 0;
        int cells = 0;     ///< of low, rounded down
        int footprint = 0; ///< with a rip
        int carries = 0;   ///< cells that fractions of cells may add up to
        bool atHigh = false;
        int steps = 0; ///< cells between low and high where the worth grows, else 0
        int range = 0; ///< cells between low and high
    };

    explicit RowBound(const Lattice& lattice);

    [[nodiscard]] const std::vector<Height>& heights() const { return m_heights; }

    /// The rows that begin at one cell or behind it.
    class From {
      public:
        /// Most that a row of at least two blanks is worth when the section ends in cell `end` (its
        /// crosscut included); rips of the strip itself are not in it. 0: there is none.
        [[nodiscard]] Cost most(int group, std::size_t height, int end) const;
        /// The same with what is left behind the row kept as an offcut, worth so much per nm of
        /// length; at least `least` cells of it.
        [[nodiscard]] Cost mostWithOffcut(int group, std::size_t height, int end, double perCell,
                                          int least) const;

        /// That it takes.
        [[nodiscard]] std::size_t bytes() const {
            return m_first.capacity() * sizeof(m_first[0]) +
                   m_steps.capacity() * sizeof(m_steps[0]);
        }
        /// Cell up to which sections may end that are asked for.
        [[nodiscard]] int lastEnd() const { return m_lastEnd; }

      private:
        friend class RowBound;
        [[nodiscard]] std::span<const RowStep> stepsOf(int group, std::size_t height) const;
        std::vector<std::uint32_t> m_first; ///< by group and height; one more at the end
        std::vector<RowStep> m_steps;       ///< ascending in both
        std::size_t m_heights = 0;
        int m_lastEnd = 0;
    };
    /// Rows that end in cell `lastEnd` (the section's crosscut included) or before.
    [[nodiscard]] From from(int cell, int lastEnd, const BoundPrices& prices,
                            std::int64_t& work) const;

  private:
    /// Next open cell by group, for windows of 1, 2, 4, ... groups.
    struct Windows {
        std::vector<std::vector<std::uint32_t>> byLog; ///< by group: row of m_next
        /// By group: the coarse cell from which on it is like the group below.
        std::vector<std::vector<std::int16_t>> likeFrom;
        [[nodiscard]] bool isAny() const { return !byLog.empty(); }
    };
    struct KindRows {
        Windows free, paid;                            ///< fixed widths: nothing to pay, anything
        Cost price = 0;                                ///< least that is paid in `paid`
        std::vector<Windows> freeBuckets, paidBuckets; ///< pools: by bucket of widths
        std::vector<Windows> freeChunks, paidChunks;   ///< by chunk of buckets
        std::vector<int> firstStep; ///< by bucket, and one more: its narrowest width
    };
    /// A blank that a row may go on with.
    struct Arc {
        const Windows* windows;
        int groups;    ///< in which its low edge may lie, from the strip's own on
        int length;    ///< cells to the next blank
        int lengthEnd; ///< cells to the section's end
        Cost worth;
    };
    /// The same in a strip of one group.
    struct PlacedArc {
        /// Next open coarse cell by coarse cell, in the two windows that make up its groups.
        const std::int16_t* lowGroups;
        const std::int16_t* highGroups;
        int length, lengthEnd;
        bool isLikeLast; ///< as long as the arc before, and worth no more
        Cost worth;
        [[nodiscard]] int nextOpen(int cell) const;
    };
    class Pass;

    /// Of up to so many groups.
    [[nodiscard]] Windows windowsOf(std::vector<std::int16_t> next, int most);
    /// Groups in which a blank's low edge may lie that has so much play in a strip.
    [[nodiscard]] int groupsFor(Nm play) const;
    void findBuckets(std::size_t k);
    void findHeights();
    void addPool(std::size_t k);
    /// Of strips of the height, by ascending length to the end, then by descending worth.
    [[nodiscard]] std::vector<Arc> arcsOf(const Height& height, const BoundPrices& prices) const;
    /// The two windows that make up an arc's groups in a strip of one.
    struct TwoWindows {
        std::size_t log, low, high;
    };
    [[nodiscard]] TwoWindows windowsAt(const Arc& arc, int group) const;
    [[nodiscard]] PlacedArc placed(const Arc& arc, int group) const;
    /// Whether from a cell on it may lie where it may in a strip of the group below.
    [[nodiscard]] bool isLikeBelow(const Arc& arc, int group, int cell) const;

    const Lattice* m_lattice;
    int m_groups = 0;
    int m_coarse = 0;
    std::vector<Height> m_heights;
    std::vector<KindRows> m_kinds;
    SharedRows m_next; ///< by coarse cell: next coarse cell that is open
};

} // namespace stavewright::cutting
