#pragma once
// What a search knows so far. Its ways to better plans (SearchPlans.h, Attempt.h, SectionWalks.h
// ...) share it; what runs on several threads only reads it.

#include <memory>
#include <optional>

#include "core/cutting/Columns.h"
#include "core/cutting/Construct.h"
#include "core/cutting/MetSections.h"
#include "core/cutting/Solve.h"

namespace stavewright::cutting {

struct SearchState {
    SearchState(const Problem& problem, const Options& options, const Progress& progress,
                const OnImproved& improved);

    /// Called off, or one of the limits is reached.
    [[nodiscard]] bool isOver() const;
    /// Menus by lattice (null), or by sections as finely as told; false when interrupted.
    bool prepare(const Fineness* fineness);
    /// Becomes the best plan when it is cheaper; then whoever watches hears of it.
    void offer(Solution solution);
    [[nodiscard]] const std::vector<const BoardModel*>& models() const { return m_models; }
    [[nodiscard]] std::vector<std::size_t> allBoards() const;
    [[nodiscard]] Column columnOf(const Pattern& pattern) const;
    /// One more pattern for others to use.
    void learn(Pattern pattern);
    /// And sections that pricing saw on its way, while its menus stand.
    void learn(const std::vector<SeenSections>& seen) { met.add(seen, options.threads, interrupt); }
    /// The values; but what the mix in fractions has too much of is still worth something.
    [[nodiscard]] Values flooredValues() const;

    const Problem& problem;
    const Options options;
    const Progress& progress;
    const OnImproved& improved;
    Interrupt interrupt;
    Context context;
    std::vector<std::unique_ptr<BoardModel>> boards;
    std::unique_ptr<Accounts> accounts;
    std::vector<std::unique_ptr<BoardPricing>> menus; ///< by board
    Stock stock;
    Values estimate; ///< before anything is known
    Values values;   ///< the best prices so far
    Columns columns;
    MetSections met;            ///< besides those of the columns
    std::vector<double> shares; ///< by board: how much of it the mix in fractions uses
    Solution best;
    bool hasBest = false;
    std::optional<Cost> bound; ///< no plan costs less
    std::int64_t work = 0;

  private:
    std::vector<const BoardModel*> m_models;
};

} // namespace stavewright::cutting
