#pragma once
// Walks among the sections met so far: put together anew, over and over (Remix.h), they give plans
// that no pricing has made.
//
//   SectionWalks walks(state);
//   walks.walk(state);

#include "core/cutting/Remix.h"
#include "core/cutting/SearchState.h"

namespace stavewright::cutting {

class SectionWalks {
  public:
    explicit SectionWalks(const SearchState& state)
        : m_store(state.context, *state.accounts, state.models()) {}

    /// Rounds of walks side by side, each from the best plan, as long as they gain much.
    void walk(SearchState& state);
    /// Plans of boards that cost less than the best plan but lack a little; each by its patterns.
    [[nodiscard]] std::vector<std::vector<Pattern>> plansThatLack(SearchState& state);

  private:
    /// None where nothing is new since the last.
    void walkOnce(SearchState& state);
    /// True when a section was new.
    bool learn(SearchState& state);
    /// From the best plan.
    [[nodiscard]] RemixWish wishOf(const SearchState& state);
    /// Side by side, each with its ceiling or 0; empty when interrupted.
    [[nodiscard]] std::vector<Remixed> sideBySide(SearchState& state, const RemixWish& wish,
                                                  const std::vector<Cost>& ceilings);

    /// While walks find better plans, shorter ones find them sooner: down to so many parts of the
    /// longest.
    static constexpr std::size_t shortestParts = 4;

    SectionStore m_store;
    std::size_t m_parts = shortestParts; ///< of a longest walk, that walks are now
    std::size_t m_stored = 0;            ///< columns whose sections are in the store
    std::uint64_t m_walks = 0;
    Cost m_mixedFrom = -1; ///< value of the plan that the last walks began with
};

} // namespace stavewright::cutting
