#pragma once
// The best stack of strips across a section, on a lattice: strips are handed in with the cell of
// their low edge, the cell in which the strip above may begin, and what they are worth at most. The
// worth of some may be a guess from above: the best stack says which of them it holds, so that only
// those need be worked out.
//
//   SectionStack stack;
//   stack.reset(rules, &guesses);              // GuessedRows.h; or none
//   stack.add({v, end, carries, gain, label}); // by ascending v
//   Cost most = stack.worth();                 // all that is asked of many sections, or
//   stack.keepAsGoodAs(std::max(least, stack.bestExact()));
//   most = stack.best(traced);

#include <cstdint>
#include <limits>
#include <utility>
#include <vector>

#include "core/cutting/GuessedRows.h"
#include "core/cutting/StackPass.h"

namespace stavewright::cutting {

struct StackedStrip {
    int v = 0;
    int end = 0;             ///< lowest cell in which the next strip may begin
    int carries = 0;         ///< and so many above it, for fractions of cells
    Cost gain = 0;           ///< rips of the strip itself are not in it
    std::uint32_t label = 0; ///< for whom handed it in
    bool isGuess = false;    ///< the gain is one
};

class SectionStack {
  public:
    /// `guesses`: by row of all the rows; must stay as they are until they are kept. `onlyWorth`:
    /// nothing else is asked.
    void reset(const StackRules& rules, const GuessedRows* guesses, bool onlyWorth);
    /// One whose worth is known.
    void add(const StackedStrip& strip);
    /// Strips like one, each so many cells wider than the one before and with its own gain, and the
    /// label one more; those that gain nothing do not count.
    void addWiderAndWider(StackedStrip strip, int cells, const std::vector<Cost>& gains);

    /// Worth of the best stack.
    [[nodiscard]] Cost worth();
    /// Worth of the best stack of strips that are not guessed.
    [[nodiscard]] Cost bestExact();
    /// Drops every strip that is in no stack worth as much as `least`; before, guesses cannot be
    /// traced.
    void keepAsGoodAs(Cost least);

    [[nodiscard]] StackedStrip& strip(std::size_t index) { return m_strips[index]; }
    /// Worth of the best stack; `traced`: its strips, from the highest down.
    [[nodiscard]] Cost best(std::vector<std::size_t>& traced);
    /// Of the strips just kept, the guessed ones that are in the best stacks; no more than so many,
    /// in no order.
    void bestGuesses(std::size_t count, std::vector<std::size_t>& indices);

    /// Gives back what it works in, until the next reset; the steps taken stay counted.
    void rest() {
        const std::int64_t steps = m_steps;
        *this = {};
        m_steps = steps;
    }

    /// Steps taken since it was last asked.
    [[nodiscard]] std::int64_t takeSteps() { return std::exchange(m_steps, 0); }

  private:
    static constexpr std::uint32_t nobody = std::numeric_limits<std::uint32_t>::max();
    struct Reach {
        Cost value = 0;
        std::uint32_t by = nobody; ///< strip
        [[nodiscard]] bool isBefore(const Reach& other) const { return by < other.by; }
    };
    /// Places the guesses of the rows below `v`, and of it.
    void stepUpTo(int v);
    void placeGuesses(int v);
    template <class Visit>
    void visitGuesses(int v, const Visit& visit) const;
    /// Whether a strip that begins there may be in a stack that matters.
    [[nodiscard]] bool mayCount(int v, int end, Cost gain) const {
        return m_pass.startAt(v).value + gain + m_rules.mostAbove(end) + m_beside >= m_rules.least;
    }
    void run(bool exactOnly);
    /// Finds what can be stacked on every row.
    void findAbove();
    void setAbove(int v, Cost most);
    /// Most that can be stacked on a strip.
    [[nodiscard]] Cost aboveOf(int end, int carries) const {
        return m_above[static_cast<std::size_t>(carries)][static_cast<std::size_t>(end)];
    }
    /// Worth of the best stack that a strip is in.
    [[nodiscard]] Cost through(const StackedStrip& strip) const;
    /// What is guessed becomes strips like others.
    void takeInGuesses(Cost least);

    StackRules m_rules;
    Cost m_beside = 0; ///< more than whatever is kept beside the strips is worth
    const GuessedRows* m_guesses = nullptr;
    bool m_onlyWorth = false;
    StackPass<StackWorthOnly> m_pass; ///< of all that was handed in
    std::int64_t m_count = 0;         ///< of strips; of those handed in that may count
    std::vector<StackedStrip> m_strips;
    StackPass<Reach> m_traced; ///< the last run
    /// By what a strip carries, then by cell: most that can be stacked from there on.
    std::array<std::vector<Cost>, StackPass<Reach>::mostCarries + 1> m_above;
    std::vector<std::pair<Cost, std::size_t>> m_ranked;
    std::vector<StackedStrip> m_kept;
    std::int64_t m_steps = 0;
};

} // namespace stavewright::cutting
