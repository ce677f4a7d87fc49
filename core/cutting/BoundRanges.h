#pragma once
// The sections of a stretch in ranges, each with what a section of it is worth at most as far as
// that is known, and the best chain of ranges along the stretch: with its crosscuts, and with the
// offcuts between its sections.

#include <algorithm>
#include <limits>
#include <memory>
#include <optional>
#include <vector>

#include "core/cutting/BoundStretch.h"
#include "core/cutting/LengthWorth.h"
#include "core/cutting/SectionCeilings.h"
#include "core/cutting/WoodWorth.h"

namespace stavewright::cutting {

/// What is known of a range.
struct BoundRange {
    SectionRange cells;
    Cost most = 0;
    /// How it is known: from the wood that blanks can cover, or looked into, with the rows guessed
    /// or worked out.
    enum class Known : std::uint8_t { estimated, roughly, exactly } known = Known::estimated;
    bool isSplit = false;   ///< its parts stand for it
    bool isSettled = false; ///< some section of it is worth that much
    bool isRest = false;    ///< what was left over when its shortest section was taken out
    std::optional<SectionBound::Room> room;
    std::size_t standsOn = 0; ///< in the last chain
    Cost upTo = 0;            ///< worth of the best chain that ends with it
};

/// Worth of a square nanometre of a board's waste that is large enough.
[[nodiscard]] double offcutWorth(const Context& context, const BoardModel& model);

class BoundRanges {
  public:
    /// Begins with what is known under the prices before, if anything is.
    BoundRanges(const BoundStretch& stretch, const BoundPrices& prices, const KnownRanges& known);

    /// Worth of the best chain; its ranges, from the last to the first.
    [[nodiscard]] Cost best(std::vector<std::size_t>& chain);
    /// Leaves out the ranges of which no chain is worth more than `enough`, by the last best().
    void leaveOut(Cost enough);
    /// Takes them in again where no more than this is enough.
    void expect(Cost enough);

    [[nodiscard]] BoundRange& at(std::size_t index) { return m_ranges[index]; }
    [[nodiscard]] std::size_t size() const { return m_ranges.size(); }
    /// Nothing when no section fits in it; `most`: known of it.
    BoundRange* add(const SectionRange& cells, Cost most);
    /// Cuts a range in up to four; false when it is a single cell each way.
    bool halve(std::size_t index);
    /// Cuts out what holds all that a section from room.begin to room.end holds, of which the worth
    /// is `most`.
    void split(std::size_t index, const SectionBound::Room& room, Cost most);

    [[nodiscard]] double offcut() const { return m_offcut; }
    /// As they are, for the next prices.
    void leaveTo(KnownRanges& known) const;
    [[nodiscard]] const WoodByCell& wood() const { return m_wood; }

  private:
    void weighAreas();
    void recall(const KnownRanges& known);
    void order();
    /// Less the crosscut behind it, where that is sure to be needed.
    [[nodiscard]] Cost worthCut(const BoundRange& range) const;

    static constexpr std::size_t none = std::numeric_limits<std::size_t>::max();
    struct Best {
        Cost value = 0;
        std::size_t by = none;
    };

    const BoundStretch* m_stretch;
    const BoundPrices* m_prices;
    const Lattice* m_lattice;
    const Limits* m_limits;
    double m_offcut = 0;        ///< offcutWorth
    std::vector<double> m_area; ///< up to a cell
    WoodByCell m_wood;
    /// The worth of a section told by the wood alone.
    struct ByWood {
        ByWood(const BoundStretch& stretch, const BoundPrices& prices)
            : byPlaces(stretch.lattice(), stretch.usable(), prices)
            , byLines(stretch.lattice(), stretch.lines(), prices) {}
        [[nodiscard]] double of(const SectionRange& cells) const {
            return std::min(
                byPlaces.of(cells.firstBegin, cells.lastEnd, cells.lastEnd - cells.firstBegin),
                byLines.of(cells.firstBegin, cells.lastEnd));
        }
        WoodWorth byPlaces;
        LengthWorth byLines;
    };
    ByWood m_byWood;
    /// Of sections that lean: every blank of a row costs a crosscut at least.
    std::optional<ByWood> m_leaning;
    std::vector<BoundRange> m_ranges;
    std::vector<std::size_t> m_live; ///< those that chains are made of
    Cost m_mostLeftOut = 0;          ///< no chain with a range that was left out is worth more
    std::vector<Cost> m_behind;      ///< by cell: most that a chain adds from there on
    std::vector<std::size_t> m_order, m_firstAt, m_next; ///< by last begin
    std::vector<Best> m_reach, m_touch, m_at;
};

} // namespace stavewright::cutting
