#pragma once
// Everything that one board can give, exactly: for each yield the cheapest pattern, over all the
// places where edges need to stand (EdgePlaces). For small jobs only: the number of yields and of
// places grows quickly.
//
// Sections, strips and blanks each stand in a line and are put together by the same steps: from
// what ended far enough below, or flush with one cut shared, with the next piece. A row of blanks
// depends on where its section begins, not on where it ends, so it is worked out once for all ends.
// That needs a near edge that runs straight along x, where all sections lie in one frame, and a far
// edge that never rises towards the far end.
//
//   BoardTable table(context, model, space, items, ceiling);
//   if (table.fill(mostWork, interrupt)) { Pattern pattern = table.cut(table.labels()[i]); }

#include <optional>

#include "core/cutting/Facing.h"
#include "core/cutting/Interrupt.h"
#include "core/cutting/PlaceGrid.h"

namespace stavewright::cutting {

class BoardTable {
  public:
    /// `ceiling`, by index of a yield: what it can be worth at most. What costs more is left out.
    BoardTable(const Context& context, const BoardModel& model, const YieldSpace& space,
               const std::vector<PlaceItem>& items, const std::vector<Cost>& ceiling);

    /// False when the board is not straight, has too many places, takes too much work or the
    /// interrupt came.
    bool fill(std::int64_t mostWork, const Interrupt& interrupt);
    /// Cheapest patterns; costs are of cuts and fills, without the board's own.
    [[nodiscard]] const std::vector<Label>& labels() const { return m_labels; }
    [[nodiscard]] std::int64_t work() const { return m_work; }
    /// The pattern that a label stands for.
    [[nodiscard]] Pattern cut(const Label& label);

  private:
    /// Blanks of one strip from one place on, for all ends.
    struct Row {
        std::uint64_t allowed = 0;             ///< items, as bits
        std::vector<std::vector<Label>> ended; ///< by high edge
        std::vector<Label> below;              ///< those that ended below `merged`
        std::size_t merged = 0;
    };
    /// A row as a strip of a section.
    struct StripEnd {
        int row = -1; ///< node of the row
        std::size_t bottom = 0, top = 0;
    };
    struct SectionEnd {
        std::size_t grid = 0, low = 0, high = 0;
        bool ripped = false;
        Yield yield;
    };
    [[nodiscard]] std::uint64_t allowedItems(const Facing& facing, bool ripped, Nm width) const;
    [[nodiscard]] bool isWorth(const Label& label, Cost cut) const;
    void fillRow(PlaceGrid& grid, std::size_t from, Nm v0, Nm v1, Row& row);
    Row& rowOf(PlaceGrid& grid, std::size_t from, std::size_t bottom, std::size_t top,
               std::uint64_t allowed);
    /// Calls found(high, ripped, labels) for the sections that begin at `from`, in the order of
    /// their high edges; `only`, when given, is the one that is asked for.
    template <class Found>
    bool sectionsFrom(std::size_t grid, std::size_t from, std::optional<std::size_t> only,
                      const Found& found);
    void stack(PlaceGrid& grid, std::size_t from, std::size_t high, const Facing& facing,
               bool ripped, std::vector<Label>& labels);
    [[nodiscard]] PlacedSection cutSection(const SectionEnd& end);
    [[nodiscard]] bool isOver() const;

    const Context* m_context;
    const BoardModel* m_model;
    const YieldSpace* m_space;
    const std::vector<PlaceItem>* m_items;
    const std::vector<Cost>* m_ceiling;
    const Interrupt* m_interrupt = nullptr;
    std::int64_t m_mostWork = 0;
    std::int64_t m_work = 0;
    Cheapest m_cheapest;
    std::vector<PlaceGrid> m_grids; ///< free stretches
    std::vector<Label> m_labels;
    std::vector<LabelNode> m_nodes; ///< of chains; pieces are section ends
    std::vector<SectionEnd> m_sections;
    // Of the sections that begin at one place:
    std::vector<std::vector<Row>> m_rows; ///< by bottom and top
    std::vector<LabelNode> m_rowNodes;    ///< pieces are blanks
    std::vector<LabelNode> m_stackNodes;  ///< pieces are strip ends
    std::vector<StripEnd> m_strips;
};

} // namespace stavewright::cutting
