#pragma once
// The search over the whole job: a first solution built board by board; then column generation,
// whose duals tell what each blank is really worth on these boards; then better solutions by
// freeing a few boards and filling them again with values near the duals. Anytime; the same seed
// and work give the same plan whatever the number of threads, because a round is a fixed number of
// attempts judged in their order.

#include <memory>

#include "core/cutting/Construct.h"
#include "core/cutting/Master.h"
#include "core/cutting/Part.h"
#include "core/cutting/Prover.h"
#include "core/cutting/SectionStore.h"
#include "core/cutting/Solve.h"

namespace stavewright::cutting {

class Search {
  public:
    Search(const Problem& problem, const Options& options, const Progress& progress,
           const OnImproved& improved);
    [[nodiscard]] Solution run();
    /// Only the bound, and no more of plans than the bound needs; none while nothing is proved.
    [[nodiscard]] std::optional<Cost> boundAlone();

  private:
    [[nodiscard]] bool isOver() const;
    [[nodiscard]] std::vector<const BoardModel*> models() const;
    /// Menus by lattice, or by sections as finely as told.
    bool prepare(const Fineness* fineness);
    bool buildWhole();
    /// Improves the values by so many rounds of pricing; false when interrupted.
    bool generateColumns(int rounds);
    using Made = std::vector<std::pair<Pattern, Column>>;
    /// A single round of asking; several; and over whole boards besides.
    enum class Proof { first, close, whole };
    /// Raises the bound, and adds the sections that the boards' bounds rest on to their menus.
    /// `made`: patterns that were tried for it. False when interrupted.
    bool prove(Proof proof, Made& made);
    /// The bound and, at the same time, the mix of whole columns in many nodes.
    bool proveAndMix(Proof proof);
    /// Patterns that a proof has made; the prover knows them already.
    void takeMade(Made made);
    /// Of the first, second and further times.
    [[nodiscard]] static Proof proofAt(int times);
    /// Dives for whole plans from the mix in fractions.
    void diveWhole();
    /// The best plan there is, where the job is small enough; true when no better one exists.
    bool trySmall();
    /// The best filling of a single board without anything to avoid; true when no better one
    /// exists.
    bool fillClearBoard();
    /// Plans for clear boards many of which are equal; true when no better one exists.
    bool mixEqualBoards();
    /// Rounds of attempts; 0: until the limits.
    void improve(int rounds);
    /// Best patterns at prices that are a little off at random.
    void drawColumns(int draws);
    /// Puts the sections met so far together anew, over and over.
    void mixSections();
    void improveUntilStill();
    void offer(Solution solution);
    [[nodiscard]] Values firstValues() const;

    struct Attempt {
        Solution solution;
        PartResult part;
        bool made = false;
    };
    [[nodiscard]] Attempt attempt(std::uint64_t number) const;
    void remember(PartResult& part);
    /// Ids of the best mix of whole columns that is cheaper than the best plan; may be none.
    [[nodiscard]] std::vector<std::size_t> bestMix(std::size_t nodeColumns) const;
    void offerMix(const std::vector<std::size_t>& ids);

    const Problem* m_problem;
    Options m_options;
    const Progress* m_progress;
    const OnImproved* m_improved;
    Interrupt m_interrupt;
    Context m_context;
    std::vector<std::unique_ptr<BoardModel>> m_models;
    std::unique_ptr<Accounts> m_accounts;
    std::vector<std::unique_ptr<BoardPricing>> m_menus;
    std::unique_ptr<Prover> m_prover;
    Stock m_stock;
    Values m_estimate; ///< before anything is known
    Values m_values;
    Columns m_columns;
    std::unique_ptr<SectionStore> m_store;
    std::size_t m_stored = 0; ///< columns whose sections are in the store
    bool m_boundAlone = false;
    std::uint64_t m_walks = 0;
    Cost m_mixedFrom = -1; ///< value of the plan that the last walks began with
    std::uint64_t m_draws = 0;
    std::size_t m_learned = 0;    ///< columns that the prover knows
    std::vector<double> m_shares; ///< by board: how much of it the mix in fractions uses
    std::uint64_t m_attempts = 0;
    Solution m_best;
    bool m_hasBest = false;
    std::int64_t m_work = 0;
};

} // namespace stavewright::cutting
