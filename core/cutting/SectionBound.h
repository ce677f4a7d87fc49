#pragma once
// What a section is worth at most that begins in one range of cells and ends in another. Exact for
// the lattice when both ranges are one cell, but for rows of several blanks (RowBound.h); for wider
// ranges the section may begin with the first cell and end with the last.

#include <array>
#include <optional>
#include <span>

#include "core/cutting/BoundSection.h"
#include "core/cutting/Interrupt.h"
#include "core/cutting/KnownRows.h"
#include "core/cutting/RowBound.h"
#include "core/cutting/SectionStack.h"
#include "core/cutting/StripRows.h"

namespace stavewright::cutting {

/// Holds scratch space: one for each thread.
class SectionBound {
  public:
    /// `rows` may be those of a lattice that begins so many cells earlier.
    SectionBound(const Lattice& lattice, const RowBound& rows, StripRows& strips, int earlier = 0);

    /// Once it is called, rows are no longer worked out; what is said then is higher, but holds.
    void watch(const Interrupt& interrupt) { m_interrupt = &interrupt; }

    /// `behind`: rows that begin at the first cell or before; null: rows of several do not fit.
    /// `offcut`: worth of a square nanometre of waste that is large enough.
    /// `rows`: guessed ones are quicker and worth more, or as much.
    /// `least`: how much less than that it is does not matter, then it is `least`.
    /// `above`: what the wood above a row of the sections can be worth (WoodAbove.h); null:
    /// unknown.
    enum class Rows { guessed, exact };
    [[nodiscard]] Cost most(const SectionRange& range, const BoundPrices& prices,
                            const RowBound::From* behind, double offcut, Rows rows = Rows::exact,
                            Cost least = 0, const std::vector<Cost>* above = nullptr);

    /// Since it was last asked.
    [[nodiscard]] std::int64_t takeWork();

    /// Gives back what it works in, until most() is asked again; what rows are worth stays known.
    void rest();

    /// Where the best of the last most() has room: every section of its range that begins by
    /// `begin` and ends in `end` or behind it holds it too, as far as can be told. Not known where
    /// offcuts count or rows are guessed, nor when it was `least`.
    struct Room {
        int begin, end;
    };
    [[nodiscard]] const std::optional<Room>& room() const { return m_room; }

    /// What the most() asked for last rests on; with the same prices and rows.
    [[nodiscard]] BoundSection found(const BoundPrices& prices, const RowBound::From* behind);

  private:
    using Word = Lattice::Word;
    struct FixedChoice {
        const Lattice::KindCells* cells;
        Cost worth;
        bool carries;
        std::size_t open; ///< into m_open, levels * words
        std::size_t kind;
        int firstStart, lastStart;
    };
    struct PoolPlace {
        const Word* lowOpen;
        const Word* highOpen;
        std::array<const std::int16_t*, Lattice::levels> upTo; ///< by level
        std::size_t reach; ///< into m_reach, words: where the high edge may lie in a cell or above
    };
    struct PoolChoice {
        std::size_t kind;
        const Lattice::KindCells* cells;
        int widths;
        bool carries;
        std::size_t firstPlace, lastPlace;
        std::size_t firstWorth; ///< into m_worths, by width
        int firstStart, lastStart;
    };

    /// How a kind may be had from every section of the range.
    struct Faced {
        bool whole = false; ///< the section goes over the machines as the crosscut leaves it
        Nm ripped = 0;      ///< rough-ripped first: no strip of it may be wider
        int lastStart = 0;  ///< cell
    };

    /// False when none can be had.
    [[nodiscard]] bool face(const BoundPrices& prices);
    /// Kinds (as bits, modulo 64) that reach their thickness in a strip.
    [[nodiscard]] std::uint64_t allowedIn(Nm width, bool ripped) const;
    [[nodiscard]] Cost stackUp(const BoundPrices& prices, const RowBound::From* behind,
                               bool ripped);
    void addFixed(std::size_t k, int lastStart, Cost worth);
    /// `paid`: for the crosscut that a stave shorter than the section needs.
    void addPool(std::size_t k, const BoundPrices& prices, int lastStart, Cost paid,
                 double offcutPerRow, int widths);
    void addStrips(int v);
    void addStaves(int v, std::size_t index);
    /// Cells in which a strip of one blank can begin, at the price that its worth counts.
    struct Starts {
        int first, last;
    };
    /// Starts up to cell `until`.
    [[nodiscard]] Starts startsOf(const FixedChoice& choice, int v, int until) const;
    [[nodiscard]] Starts startsOf(const PoolChoice& choice, int v, int high, int until) const;
    [[nodiscard]] Starts startsOf(const StackedStrip& strip, int until) const;
    [[nodiscard]] Room roomOf(const BoundPrices& prices, bool ripped);
    /// Of a row's strip.
    [[nodiscard]] StripPlace placeOf(const StackedStrip& strip) const;
    void guessRows(const RowBound::From& behind);
    /// Rows of a strip in sections of the range that begin at a cell or behind it.
    [[nodiscard]] std::span<const RowStep> rowsFrom(int cell, const StackedStrip& strip,
                                                    const BoundPrices& prices, bool ripped);
    /// Where all sections lean, so many crosscuts at the ends of a row; else none is sure.
    [[nodiscard]] Cost endCuts(int count) const {
        return m_isLeaning ? count * m_lattice->context().problem->limits.crosscutCost : 0;
    }
    [[nodiscard]] RowBegin beginAt(int cell) const {
        return {cell, std::max(cell, m_range.lastBegin), !m_isLeaning};
    }
    [[nodiscard]] Cost rowWorth(const StackedStrip& strip, const BoundPrices& prices, bool ripped);
    [[nodiscard]] double offcutPerCell(const RowBound::Height& height) const;
    [[nodiscard]] static bool covers(const PoolPlace& a, const PoolPlace& b, std::size_t words,
                                     std::size_t rows);

    const Lattice* m_lattice;
    const RowBound* m_rows;
    StripRows* m_strips;
    const Interrupt* m_interrupt = nullptr;
    int m_earlier = 0; ///< cells that the rows' lattice begins before this one
    SectionRange m_range;
    Nm m_longest = 0;           ///< of its sections
    bool m_isLeaning = false;   ///< all of them
    double m_offcut = 0;        ///< worth of a square nanometre
    double m_offcutPerCell = 0; ///< worth of a cell along, per nanometre across
    int m_offcutCells = 0;
    Rows m_rowsAre = Rows::exact;
    Cost m_least = 0;
    const std::vector<Cost>* m_above = nullptr;
    bool m_ripped = false; ///< what the last bound rests on
    std::optional<Room> m_room;
    std::vector<Faced> m_faced;
    std::vector<FixedChoice> m_fixed;
    std::vector<PoolChoice> m_pools;
    std::vector<PoolPlace> m_places;
    std::vector<Word> m_open;
    std::vector<Word> m_reach;
    std::vector<Cost> m_worths;         ///< of pools' staves, fills aside
    std::vector<std::size_t> m_heights; ///< of rows that the machines allow
    SectionStack m_stack;
    GuessedRows m_guesses;
    std::vector<std::size_t> m_traced;
    std::vector<Cost> m_byStep;       ///< of a pool at one place across
    std::int64_t m_rowsWorkedOut = 0; ///< since work was last asked for
    StripRow::Scratch m_scratch;
    KnownRows m_known;
    std::vector<RowStep> m_steps; ///< of the row that is worked out
};

} // namespace stavewright::cutting
