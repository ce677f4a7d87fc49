#pragma once
// What a search knows so far. Its ways to better plans (SearchPlans.h, Attempt.h, SectionWalks.h
// ...) share it; what runs on several threads only reads it.

#include <memory>
#include <optional>

#include "core/cutting/Columns.h"
#include "core/cutting/Construct.h"
#include "core/cutting/FewKinds.h"
#include "core/cutting/MetSections.h"
#include "core/cutting/Solve.h"

namespace stavewright::cutting {

struct SearchState {
    SearchState(const Problem& problem, const Options& options, const Progress& progress,
                const OnImproved& improved);

    /// Called off, or one of the limits is reached.
    [[nodiscard]] bool isOver() const;
    /// Menus by lattice (null), or by sections as finely as told; false when interrupted. Where the
    /// kinds are many, those by sections know a few for each board, others each time.
    bool prepare(const Fineness* fineness);
    /// Becomes the best plan when it is cheaper; then whoever watches hears of it.
    void offer(Solution solution);
    [[nodiscard]] const std::vector<const BoardModel*>& models() const { return m_models; }
    [[nodiscard]] std::vector<std::size_t> allBoards() const;
    /// bestWithin() for what is open; where the kinds are many, among some of those that are open.
    [[nodiscard]] Offer bestFor(std::size_t board, const Values& asked, const Demand& open,
                                Random& random, std::int64_t& spent,
                                std::vector<SeenSections>* seen = nullptr) const;
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
    double mixed = 0;           ///< what that mix costs; no bound
    Solution best;
    bool hasBest = false;
    std::optional<Cost> bound;  ///< no plan costs less, by what boards can give
    std::optional<Cost> byArea; ///< nor less than this, which was known before
    std::int64_t work = 0;

    const bool hasManyKinds;

  private:
    /// For all boards: kinds that are looked at together.
    [[nodiscard]] std::vector<std::unique_ptr<FewKinds>> drawFew();

    std::vector<const BoardModel*> m_models;
    std::vector<std::unique_ptr<BoardPricing>> m_rough; ///< know all kinds, where these are many
    std::vector<std::unique_ptr<FewKinds>> m_few;       ///< that the menus know
    std::uint64_t m_drawn = 0;                          ///< times, so far
};

} // namespace stavewright::cutting
