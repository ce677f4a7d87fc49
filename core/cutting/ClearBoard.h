#pragma once
// A board without anything to avoid, straight and true, on a grid of whole units: there only sizes
// count, not places, and the best pattern at given prices comes from three knapsacks, one in the
// other: blanks along a strip, strips across a section, sections along the board. Exact.
//
//   auto grid = ClearBoard::of(context, model);          // nothing when the board is not clear
//   ClearTables tables(*grid, prices, work);
//   Pattern pattern = grid->cut(tables.best());

#include <optional>

#include "core/cutting/SectionMenu.h"

namespace stavewright::cutting {

/// A kind of blank in whole units. Items go by descending width.
struct ClearItem {
    int kind = 0;
    int length = 0;
    int width = 0;
    int height = 0; ///< which of the distinct widths
};

/// Sections by their length; strips by the blanks in them, the widest first.
struct ClearPattern {
    struct Section {
        int length = 0;
        std::vector<std::vector<int>> strips; ///< items
    };
    std::vector<Section> sections;
};

/// Without what is made beyond the limits, by item; what stands behind moves up.
[[nodiscard]] ClearPattern withinLimits(ClearPattern pattern, std::vector<int> limits);

class ClearBoard {
  public:
    [[nodiscard]] static std::optional<ClearBoard> of(const Context& context,
                                                      const BoardModel& model);

    [[nodiscard]] const std::vector<ClearItem>& items() const { return m_items; }
    [[nodiscard]] const std::vector<int>& heights() const { return m_heights; } ///< descending
    /// Lengths that rows of blanks can have, ascending: those of sections.
    [[nodiscard]] const std::vector<int>& lengths() const { return m_lengths; }
    [[nodiscard]] int length() const { return m_length; }
    [[nodiscard]] int width() const { return m_width; }
    [[nodiscard]] int crosscutKerf() const { return m_crosscutKerf; }
    [[nodiscard]] int stripKerf() const { return m_stripKerf; }
    [[nodiscard]] int ripKerf() const { return m_ripKerf; }
    /// Cuts of the board's own ends that a pattern saves or needs.
    [[nodiscard]] Cost lowEndCut() const { return m_lowEndCut; }
    [[nodiscard]] Cost highEndSaved() const { return m_highEndSaved; }
    [[nodiscard]] Cost crosscutCost() const { return m_context->problem->limits.crosscutCost; }
    [[nodiscard]] Cost ripCost() const { return m_context->problem->limits.ripCost; }
    /// The item may lie in a strip of this width; `trim` is what the trimming rip costs.
    [[nodiscard]] bool fits(const ClearItem& item, int height, Cost& trim) const;
    [[nodiscard]] const Context& context() const { return *m_context; }

    [[nodiscard]] Pattern cut(const ClearPattern& pattern) const;
    /// Of the pattern's crosscuts and rips.
    [[nodiscard]] Cost cutCost(const ClearPattern& pattern) const;
    /// One strip fills the width, so that all blanks lie in one row.
    [[nodiscard]] bool isBar() const {
        return m_heights.size() == 1 && 2 * m_heights[0] + m_ripKerf > m_width &&
               m_stripKerf <= m_crosscutKerf;
    }

  private:
    ClearBoard(const Context& context, const BoardModel& model)
        : m_context(&context)
        , m_model(&model) {}
    [[nodiscard]] bool read();
    [[nodiscard]] bool isTrue() const;

    const Context* m_context;
    const BoardModel* m_model;
    Nm m_unitAlong = 1, m_unitAcross = 1;
    Nm m_begin = 0, m_end = 0;
    bool m_fromHighEnd = false;
    int m_length = 0, m_width = 0;
    int m_crosscutKerf = 0, m_stripKerf = 0, m_ripKerf = 0;
    int m_narrowestRip = 0;
    Cost m_lowEndCut = 0, m_highEndSaved = 0;
    std::vector<ClearItem> m_items;
    std::vector<int> m_heights;
    std::vector<int> m_lengths;
};

/// The three knapsacks at prices by item (0 and less: not wanted).
class ClearTables {
  public:
    /// Patterns worth no more than `floor` need not be known.
    ClearTables(const ClearBoard& board, std::vector<Cost> prices, std::int64_t& work,
                Cost floor = 0);

    /// Most that a pattern gives, where that is more than the floor.
    [[nodiscard]] Cost value() const { return m_value; }
    [[nodiscard]] ClearPattern best();

    /// From now on whatever can be part of a pattern worth more than `floor` is known; below 0 that
    /// is worth more for what these prices leave out.
    void know(Cost floor);
    /// There is room for strips() to be kept.
    [[nodiscard]] bool canKeepStrips() const;
    /// At most, in what is left: of a strip, of a section behind a strip and its kerf, of the board
    /// behind a section and its kerf. Nothing below 0.
    [[nodiscard]] Cost row(int height, int room) const {
        return room < 0 ? 0 : m_row[at(height, room)];
    }
    /// Worked out when first asked for.
    [[nodiscard]] Cost strips(int lengthIndex, int room);
    /// A section of the length can be part of a pattern worth more than the floor, or than the
    /// best.
    [[nodiscard]] bool isKnown(int lengthIndex) const { return section(lengthIndex) >= 0; }
    [[nodiscard]] Cost section(int lengthIndex) const {
        return m_section[static_cast<std::size_t>(lengthIndex)];
    }
    [[nodiscard]] Cost sections(int room) const {
        return room < 0 ? 0 : m_sections[static_cast<std::size_t>(room)];
    }

  private:
    struct Choice {
        int size = 0;
        Cost worth = 0;
    };
    [[nodiscard]] std::size_t at(int height, int room) const {
        return static_cast<std::size_t>(height) * m_along + static_cast<std::size_t>(room);
    }
    void fillRows();
    /// As often as there is room, in rows by exact length.
    void addToRow(std::size_t item, Cost trim, Cost* exact);
    /// Worth of the best strip of a height in a section of a length.
    [[nodiscard]] Cost stripWorth(std::size_t height, std::size_t lengthIndex) const {
        return m_stripWorth[lengthIndex * m_board->heights().size() + height];
    }
    void fillStripWorths();
    /// Of strips over the whole width; `floor` where they are worth no more.
    [[nodiscard]] Cost bestStack(std::size_t lengthIndex, Cost floor);
    /// Strips by room across.
    void stackStrips(std::size_t lengthIndex, std::vector<Cost>& strips);
    void fillSections(Cost floor);
    void fillBoard();
    /// Bounds: of a section, and of a board with such a section, by length.
    [[nodiscard]] Cost mostOfSection(std::size_t lengthIndex) const;
    [[nodiscard]] std::vector<Cost> mostOfBoards() const;
    void ask(std::size_t lengthIndex, Cost floor);
    [[nodiscard]] std::vector<int> bestRow(int height, int room) const;

    const ClearBoard* m_board;
    std::vector<Cost> m_prices;
    std::size_t m_along = 0, m_across = 0;
    std::vector<Cost> m_exact;              ///< by height and length: row that fills it to the end
    std::vector<Cost> m_stripWorth;         ///< by length index and height
    std::vector<Cost> m_row;                ///< by height and room
    std::vector<Cost> m_strips;             ///< by room across, for lengths that differ
    std::vector<std::size_t> m_rowOfStrips; ///< by length, where they begin
    std::vector<Cost> m_mostOfSection, m_mostOfBoard; ///< by length
    std::vector<Choice> m_choices;                    ///< of strips
    std::vector<Cost> m_section;                      ///< by length
    std::vector<Cost> m_exactSections;
    std::vector<Cost> m_sections; ///< by room along
    Cost m_value = 0;
    std::int64_t m_steps = 0;
};

} // namespace stavewright::cutting
