#pragma once
// What one strip can hold in a row: the blanks that may lie in it along its low or its high edge,
// by place along. Worked out from a lattice for one place and one height of the strip, free of
// prices; under given prices the best row takes microseconds.
//
//   StripRow row(lattice, {v, low, high});
//   row.best(lattice, prices, kinds, {cell, cell}, scratch, steps);
//   Cost most = worthUpTo(steps, end);

#include <array>
#include <cstdint>
#include <vector>

#include "core/cutting/BoundPrices.h"
#include "core/cutting/CellMost.h"
#include "core/cutting/Lattice.h"
#include "core/cutting/RowParts.h"
#include "core/cutting/RowStep.h"

namespace stavewright::cutting {

/// A strip whose low edge lies in cell `v` and that is from `low` to `high` wide.
struct StripPlace {
    int v = 0;
    Nm low = 0, high = 0;
};

/// Cells in which the section of a row may begin.
struct RowBegin {
    int first = 0, last = 0;
    bool isSquare = true; ///< what lies at its very end needs no crosscut there
    friend bool operator==(const RowBegin&, const RowBegin&) = default;
};

/// A blank of a row, in the frame of the lattice.
struct RowBlank {
    std::size_t kind = 0;
    int cell = 0; ///< of its low end
    Nm width = 0;
};

class StripRow {
  public:
    class Scratch;

    StripRow(const Lattice& lattice, const StripPlace& place);

    /// Rows of at least two blanks of these kinds (as bits, modulo 64). Paid are the rips that trim
    /// them, a crosscut behind each blank but the last, and one more where they do not touch one
    /// another from the section's end on; the rips of the strip are not.
    void best(const Lattice& lattice, const BoundPrices& prices, std::uint64_t kinds,
              const RowBegin& begin, Scratch& scratch, std::vector<RowStep>& steps) const;
    /// The blanks of the best row that ends by `end`.
    [[nodiscard]] std::vector<RowBlank> blanksOf(const Lattice& lattice, const BoundPrices& prices,
                                                 std::uint64_t kinds, const RowBegin& begin,
                                                 int end) const;

  private:
    /// From a cell on, until the kind's next run.
    struct Run {
        std::int16_t cell;
        /// Fixed widths: the level that is paid, in the first. Pools: step of the widest stave
        /// by level. -1: none.
        std::array<std::int16_t, Lattice::levels> code;
        friend bool operator==(const Run&, const Run&) = default;
    };
    struct KindRuns {
        std::uint32_t kind;
        std::uint32_t first, last;  ///< into m_runs
        std::int16_t untrimmed = 0; ///< pools: from this step on no rip trims it
        bool isTrimmed = false;     ///< fixed widths
    };

    /// Where a row comes from, by the part of a cell that it reaches.
    struct Link {
        int from = 0; ///< part of a cell that the last blank's low end is in
        std::uint32_t kind = 0;
        Nm width = 0;
        /// Of a blank in touch with the section's end: cells of those before it; else below 0.
        int touching = -1;
    };
    struct Worth {
        Cost value;
        Nm width;
    };
    struct Record {
        std::vector<Link> reached, ended;
        std::vector<int> before;    ///< by part: the one that the best before it reaches
        std::vector<Link> touching; ///< by cells behind the first
    };
    using Links = std::vector<Link> Record::*;
    /// A row of this worth gets there; where it is the best, the record (if any) says how.
    static void reach(CellMost& most, int there, Cost worth, Record* record, Links links,
                      const Link& link) {
        if (most.raise(there, worth) && record != nullptr) {
            (record->*links)[static_cast<std::size_t>(there)] = link;
        }
    }
    [[nodiscard]] Worth worthOf(const Lattice& lattice, const BoundPrices& prices,
                                const KindRuns& runs, const Run& run) const;
    void fill(const Lattice& lattice, const BoundPrices& prices, std::uint64_t kinds,
              const RowBegin& begin, Scratch& scratch, std::vector<RowStep>& steps,
              Record* record) const;
    void findArcs(const Lattice& lattice, const BoundPrices& prices, std::uint64_t kinds,
                  Scratch& scratch) const;
    /// Rows that touch the section's end with all their blanks, and what others can go on from.
    void fillTouching(const Lattice& lattice, const BoundPrices& prices, const RowBegin& begin,
                      Scratch& scratch, Record* record) const;
    /// The others.
    void fillApart(const Lattice& lattice, const BoundPrices& prices, int cell, Scratch& scratch,
                   Record* record) const;
    void addFixed(const Lattice& lattice, std::size_t k, const StripPlace& place);
    void addPool(const Lattice& lattice, std::size_t k, const StripPlace& place);
    void addRun(std::size_t first, const Run& run);

    std::vector<KindRuns> m_kinds;
    std::vector<Run> m_runs;
};

/// Space to work in; for one thread.
class StripRow::Scratch {
    friend class StripRow;
    /// A kind that a row may go on with.
    struct Arc {
        const KindRuns* runs;
        std::uint32_t next;    ///< run that begins at the next cell or later
        int length, lengthEnd; ///< parts of cells to the next blank, to the section's end
        Worth here;
    };
    /// What the blanks of rows take that touch the section's end and reach the same cell.
    struct Taken {
        Nm least = 0, most = -1;
    };
    std::vector<Arc> arcs;
    CellMost reached; ///< by parts of cells
    CellMost ended;
    CellMost touching;        ///< by cells behind the first
    std::vector<Taken> taken; ///< likewise
};

} // namespace stavewright::cutting
