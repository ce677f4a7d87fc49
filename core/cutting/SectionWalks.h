#pragma once
// Walks among the sections met so far: put together anew, over and over (Remix.h), they give plans
// that no pricing has made.
//
//   SectionWalks walks(state);
//   walks.walk(state);

#include "core/cutting/SearchState.h"
#include "core/cutting/SectionStore.h"

namespace stavewright::cutting {

class SectionWalks {
  public:
    explicit SectionWalks(const SearchState& state)
        : m_store(state.context, *state.accounts, state.models()) {}

    /// Rounds of walks side by side, each from the best plan, as long as they gain much.
    void walk(SearchState& state);

  private:
    /// None where nothing is new since the last.
    void walkOnce(SearchState& state);

    SectionStore m_store;
    std::size_t m_stored = 0; ///< columns whose sections are in the store
    std::uint64_t m_walks = 0;
    Cost m_mixedFrom = -1; ///< value of the plan that the last walks began with
};

} // namespace stavewright::cutting
