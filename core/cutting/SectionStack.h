#pragma once
// The best stack of strips across a section, on a lattice: strips are handed in with the cell of
// their low edge, the cell in which the strip above may begin, and what they are worth at most. The
// worth of some may be a guess from above: the best stack says which of them it holds, so that only
// those need be worked out.
//
//   SectionStack stack;
//   stack.reset(rules);
//   stack.add({v, end, carries, gain, row});   // by ascending v
//   Cost most = stack.best(traced);

#include <cstdint>
#include <limits>
#include <utility>
#include <vector>

#include "core/cutting/Problem.h"

namespace stavewright::cutting {

struct StackedStrip {
    static constexpr std::uint32_t exact = std::numeric_limits<std::uint32_t>::max();
    int v = 0;
    int end = 0;               ///< lowest cell in which the next strip may begin
    int carries = 0;           ///< and so many above it, for fractions of cells
    Cost gain = 0;             ///< rips of the strip itself are not in it
    std::uint32_t row = exact; ///< what the gain guesses at
    std::uint32_t label = 0;   ///< for whom handed it in
};

struct StackRules {
    int rows = 0;    ///< strips begin in cells 0 to rows - 1
    int highest = 0; ///< no strip ends above
    Cost ripCost = 0;
    bool keepsBeside = false; ///< waste beside the strips may be worth keeping
    double offcutPerRow = 0;  ///< its worth by cell across
    int offcutRows = 0;       ///< its least width in cells
    /// Stacks that are worth less do not matter; what they hold is not taken in where that shows.
    Cost least = 0;
    /// By row: most that can be stacked from there on, beyond the last row nothing; null: unknown.
    const std::vector<Cost>* above = nullptr;
};

class SectionStack {
  public:
    void reset(const StackRules& rules);
    void add(const StackedStrip& strip);
    /// Whether a strip that begins in cell `v` and ends in `end` or higher may be in a stack that
    /// matters if it gains so much; for the highest `v` so far or one above.
    [[nodiscard]] bool mayCount(int v, int end, Cost gain);

    [[nodiscard]] StackedStrip& strip(std::size_t index) { return m_strips[index]; }

    /// Worth of the best stack; `traced`: its strips, from the highest down.
    [[nodiscard]] Cost best(std::vector<std::size_t>& traced);
    /// Worth of the best stack of strips that are not guessed.
    [[nodiscard]] Cost bestExact();
    /// Drops every strip that is in no stack worth as much as `least`.
    void keepAsGoodAs(Cost least);
    /// Of the strips just kept, the guessed ones that are in the best stacks; no more than so many,
    /// in no order.
    void bestGuesses(std::size_t count, std::vector<std::size_t>& indices);

    /// Steps taken since it was last asked.
    [[nodiscard]] std::int64_t takeSteps() { return std::exchange(m_steps, 0); }

  private:
    static constexpr std::uint32_t nobody = std::numeric_limits<std::uint32_t>::max();
    struct Reach {
        Cost value;
        std::uint32_t by; ///< strip
    };
    void begin();
    /// Says on what the strips of the rows up to `v` may stand.
    void stepUpTo(int v);
    void place(std::uint32_t index);
    void run(bool exactOnly);
    /// Finds what can be stacked on every row, and what lies below it.
    void findAbove();
    /// Most that can be stacked on a strip.
    [[nodiscard]] Cost aboveOf(const StackedStrip& strip) const;
    /// Worth of the best stack that a strip is in.
    [[nodiscard]] Cost through(const StackedStrip& strip) const;
    /// More than whatever is kept beside the strips is worth.
    [[nodiscard]] Cost mostBeside() const;

    StackRules m_rules;
    std::vector<StackedStrip> m_strips;
    std::vector<Reach> m_reach;            ///< by cell
    std::vector<Cost> m_start;             ///< by v: best that a strip may stand on
    std::vector<std::uint32_t> m_standsOn; ///< by v: the strip below
    std::vector<Cost> m_above;             ///< by cell: most that can be stacked from there on
    std::vector<double> m_keep;
    std::vector<std::uint32_t> m_keepBy;
    int m_steppedTo = -1;     ///< row
    Reach m_below{0, nobody}; ///< best of all that ends lower
    Cost m_best = 0;
    std::uint32_t m_bestBy = nobody;
    std::vector<std::pair<Cost, std::size_t>> m_ranked;
    std::int64_t m_steps = 0;
};

} // namespace stavewright::cutting
