#pragma once
// The best pattern of a clear board when only so many of each kind are of use. Prices are lowered
// for what the best pattern without limits makes too much of (a Lagrangian, whose value is an upper
// bound); then patterns are built up blank by blank, at each filled share of the board keeping
// those that can still become best by that bound. Wider searches keep more; when nothing had to be
// left out, the pattern is the best there is.
//
//   ClearFill fill(board, values, limits);      // by item
//   fill.lowerPrices(60, interrupt);
//   while (!fill.isProved() && !interrupt.isCalled()) { fill.search(width, interrupt); width *= 3;
//   } Pattern pattern = board.cut(fill.best());

#include <algorithm>
#include <array>

#include "core/cutting/ClearBoard.h"
#include "core/cutting/Interrupt.h"

namespace stavewright::cutting {

class ClearFill {
  public:
    /// A search builds with so many items, those that fill the board best; the bound is of all.
    static constexpr std::size_t mostItems = 64;

    /// Worth of a blank and how many are of use, by item. Patterns worth no more than `floor` are
    /// of no interest.
    ClearFill(const ClearBoard& board, std::vector<Cost> values, std::vector<int> limits,
              Cost floor = 0);

    /// False when the board has too many units to be searched.
    [[nodiscard]] bool isUsable() const { return m_tables->canKeepStrips(); }
    void lowerPrices(int rounds, const Interrupt& interrupt);
    /// Keeps `width` unfinished patterns at each share of the board.
    void search(std::size_t width, const Interrupt& interrupt);

    [[nodiscard]] const ClearPattern& best() const { return m_best; }
    [[nodiscard]] Cost value() const { return m_value; }
    /// No pattern within the limits is worth more; never less than the floor.
    [[nodiscard]] Cost bound() const { return m_bound; }
    [[nodiscard]] bool isProved() const { return atLeast() >= m_bound; }
    [[nodiscard]] std::int64_t work() const { return m_work; }

  private:
    struct Step {
        int previous = -1;
        int item = -1;    ///< -1: opens a section
        int section = -1; ///< index of its length
        bool newStrip = false;
    };
    struct Node {
        std::array<std::uint8_t, mostItems> used{}; ///< by slot
        Cost value = 0;                             ///< when it is left as it is
        Cost slack = 0;                             ///< price reductions of what may still be used
        Cost bound = 0;
        int behind = 0;  ///< end of the closed sections, with their kerf
        int length = -1; ///< index of the open section's
        int across = 0;  ///< end of its closed strips, with their kerf
        int height = -1; ///< of the open strip
        int along = 0;   ///< end of its blanks, with the kerf
        int first = 0;   ///< item that began the open strip
        int last = 0;    ///< item that was placed last
        Step step;       ///< how it came about
    };

    /// What a pattern must be worth more than.
    [[nodiscard]] Cost atLeast() const { return std::max(m_value, m_floor); }
    void consider(const ClearPattern& pattern);
    [[nodiscard]] Cost worthOf(const ClearPattern& pattern) const;
    void grow(const Node& node);
    void openSections(const Node& node, int step);
    void addBlank(const Node& node, int step, std::size_t item, bool newStrip);
    void offer(Node node);
    void chooseItems();
    void chooseLengths();
    [[nodiscard]] std::size_t shareOf(const Node& node) const;
    [[nodiscard]] ClearPattern written(const Step& last) const;

    const ClearBoard* m_board;
    std::vector<Cost> m_values;
    std::vector<int> m_limits;
    std::vector<Cost> m_lowered;         ///< by item
    std::vector<std::size_t> m_searched; ///< items that are built with, ascending
    std::vector<std::size_t> m_slots;    ///< by item: which of them
    std::vector<int> m_opened;           ///< lengths of sections that are tried, ascending
    std::optional<ClearTables> m_tables;
    Cost m_allSlack = 0;
    ClearPattern m_best;
    Cost m_floor = 0;
    Cost m_value = 0;
    Cost m_bound = 0;
    std::int64_t m_work = 0;
    std::size_t m_width = 0;
    bool m_leftOut = false;
    std::vector<std::vector<Node>> m_open; ///< by share of the board
    std::vector<Step> m_steps;
    std::optional<Step> m_bestStep;
};

} // namespace stavewright::cutting
