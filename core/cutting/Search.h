#pragma once
// The search over the whole job: a first solution built board by board; then column generation,
// whose duals tell what each blank is really worth on these boards; then better solutions by
// freeing a few boards and filling them again with values near the duals. Anytime; the same seed
// and work give the same plan whatever the number of threads, because a round is a fixed number of
// attempts judged in their order.

#include "core/cutting/Proving.h"
#include "core/cutting/SectionWalks.h"

namespace stavewright::cutting {

class Search {
  public:
    Search(const Problem& problem, const Options& options, const Progress& progress,
           const OnImproved& improved)
        : m_state(problem, options, progress, improved)
        , m_proving(m_state)
        , m_walks(m_state) {}

    [[nodiscard]] Solution run();
    /// Only the bound, and no more of plans than the bound needs; none while nothing is proved.
    [[nodiscard]] std::optional<Cost> boundAlone();

  private:
    /// Proves and improves until a limit; leaves the best plan in the state.
    void proveAndImprove();
    /// Rounds of pricing, and plans from what they found; false when interrupted.
    bool generate(int rounds);
    /// The bound and, at the same time, the mix of whole columns in many nodes; false when
    /// interrupted. `times`: how often it was done before.
    bool proveAndMix(int times);
    /// A mix of whole columns, by their ids; none: it found nothing.
    void take(const std::vector<std::size_t>& mix);
    /// Looking on into the boards at the same prices is worth more than looking for better plans.
    [[nodiscard]] bool proofsShowMost() const;
    /// Where the kinds are many the programme mixes patterns of few of them at a time, and proofs
    /// take long: plans first. `workSoFar`: until then.
    void improveFirst(std::int64_t workSoFar);
    /// The same programme with other few kinds again and again, until its prices are worth proving
    /// something at.
    void mixManyKinds();
    void drawAndWalk(int draws);
    [[nodiscard]] int drawsBetweenProofs() const;
    /// So many times what asks every board: all of them share what is told, each time within these.
    [[nodiscard]] int timesFor(int shared, int fewest, int most) const;
    /// A round of them, side by side; false when interrupted.
    bool attemptAll();
    /// Rounds of attempts; 0: until the limits.
    void improve(int rounds);
    /// Until it gives no more, and for a share at least of the work that a proof took.
    void improveUntilStill(std::int64_t workOfProof);

    SearchState m_state;
    Proving m_proving;
    SectionWalks m_walks;
    std::uint64_t m_draws = 0;
    std::uint64_t m_attempts = 0;
    /// What is slow rests the longer the more often in a row it gave nothing.
    class Rest {
      public:
        /// It rests for so many rounds first.
        explicit Rest(int rounds = 0)
            : m_left(rounds) {}
        /// Whether it is tried in this round.
        [[nodiscard]] bool isOver();
        void note(bool gained);

      private:
        int m_vain = 0;
        int m_left;
    };
    Rest m_restOfAttempts, m_restOfMixing;
    Rest m_restOfMending{1}; ///< after a first proof draws gain more, and quicker
};

} // namespace stavewright::cutting
