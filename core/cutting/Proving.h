#pragma once
// The proof as a part of the search: what the bounds rest on is tried in earnest, and what cannot
// be had from the menus is added to them.
//
//   Proving proving(state);
//   proving.beginBelow(state.values);
//   proving.prove(state, 0, made);
//   proving.take(state, std::move(made));

#include <utility>
#include <vector>

#include "core/cutting/Prover.h"
#include "core/cutting/SearchState.h"

namespace stavewright::cutting {

class Proving {
  public:
    explicit Proving(const SearchState& state)
        : m_prover(state.context, *state.accounts, state.models(), state.options.threads) {}

    using Made = std::vector<std::pair<Pattern, Column>>;
    void beginBelow(const Values& values) { m_prover.beginBelow(values); }
    /// Raises the bound, and adds the sections that the boards' bounds rest on to their menus.
    /// `times`: how often it was done before; the first is quick. `made`: patterns that were tried
    /// for it. Columns and best plan stay as they are, so that others may read them meanwhile.
    /// False when interrupted.
    bool prove(SearchState& state, int times, Made& made);
    /// More looks into the boards say more than other prices do (Prover.h).
    [[nodiscard]] bool isFarFromTold() const { return m_prover.isFarFromTold(); }
    /// How much more a bound might say at most.
    [[nodiscard]] Cost lacks() const { return m_prover.lacks(); }
    /// Patterns that a proof has made.
    void take(SearchState& state, Made&& made);

  private:
    Prover m_prover;
    std::size_t m_learned = 0; ///< columns that the prover knows
};

} // namespace stavewright::cutting
