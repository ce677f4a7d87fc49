#pragma once
// Proves what the job costs at least (JobBound.h): column generation over what the boards' bounds
// rest on, so that the prices become those at which the bounds say most.
//
// Its programme mixes the patterns that are known with the chains of sections that bounds rested on
// before; whether such a chain can be cut just so does not matter to a bound. The nearer the mix
// comes to what was proved, the less is left to gain. After that the choice of whole boards: for
// the cheapest choice that the proof still allows, the prices at which it must fail are asked for.

#include <functional>

#include "core/cutting/BoardBound.h"
#include "core/cutting/Columns.h"
#include "core/cutting/JobBound.h"
#include "core/cutting/Master.h"

namespace stavewright::cutting {

class Prover {
  public:
    Prover(const Context& context, const Accounts& accounts,
           const std::vector<const BoardModel*>& models, int threads);

    /// Called for a board whose bound says more than its patterns give: what it rests on, under
    /// which prices. Answers with the columns of patterns. From several threads, for different
    /// boards.
    using OnChain = std::function<std::vector<Column>(std::size_t board, const Values& prices,
                                                      const BoardBound& bound,
                                                      const BoundChain& chain, std::int64_t& work)>;

    /// A pattern that can be cut.
    void learn(const Column& column);
    /// Prices to begin with: somewhat lower than these, under which the patterns known so far are
    /// the best.
    void beginBelow(const Values& values);

    /// Rounds of asking every board; those that tell all they can are quick and do not count. False
    /// when interrupted, true when done or nothing is left to gain.
    bool raise(int rounds, const OnChain& onChain, const Interrupt& interrupt, std::int64_t& work);
    /// The same with boards that are used whole or not at all.
    bool raiseWhole(int rounds, const OnChain& onChain, const Interrupt& interrupt,
                    std::int64_t& work);

    /// No plan costs less; none before the first round.
    [[nodiscard]] std::optional<Cost> bound() const { return m_bound; }
    /// Under the last prices of the linear programme boards may be worth much less than was found
    /// by then.
    [[nodiscard]] bool isFarFromTold() const;
    /// How much more a bound might say at most at the last prices of the linear programme.
    [[nodiscard]] Cost lacks() const { return m_lacks; }
    /// The prices at which most was proved.
    [[nodiscard]] const Values& prices() const { return m_centre; }

  private:
    struct Known {
        std::vector<Column> columns;
        std::size_t possible = 0; ///< the first so many can be cut, the others are chains
    };
    /// A choice of whole boards that the proof still allows, the prices at which it must fail, and
    /// what every board is known to be worth under them.
    struct Choice {
        Values prices;
        std::vector<Cost> most;
        std::vector<std::size_t> boards;
    };
    /// Each as if what is known were all that the boards can give.
    [[nodiscard]] std::vector<Choice> choicesToAsk(const Interrupt& interrupt) const;
    /// What is known of a board under the prices that are asked.
    struct Asked {
        BoundGoal goal;
        Cost paysFrom = 0; ///< worth less it does not matter
        bool isKnown = false;
        Cost most = 0;
        int looks = 0;
        std::int64_t work = 0;
        [[nodiscard]] Cost lacks() const { return std::max<Cost>(0, most - goal.enough); }
    };
    /// Looks at every board; the first times no more often than all of them share. False when
    /// interrupted.
    bool look(const Values& prices, std::vector<Asked>& asked, const Interrupt& interrupt);
    bool lookAt(const Values& prices, std::vector<Asked>& asked,
                const std::vector<std::size_t>& boards, const Interrupt& interrupt);
    /// Asks every board under these prices, those closely that shall be taken whole. False when
    /// interrupted.
    bool ask(const Values& prices, const std::vector<std::size_t>& whole, const OnChain& onChain,
             const Interrupt& interrupt, std::int64_t& work);
    /// Gives back the memory that going on at the same prices needs.
    void leavePrices();
    bool raiseLinear(int rounds, const OnChain& onChain, const Interrupt& interrupt,
                     std::int64_t& work);
    /// What the boards are worth at most under prices.
    void conclude(const Values& prices, const std::vector<Asked>& asked, bool isLinear);
    /// The bound with whole boards, by all prices that were asked.
    JobBound::Whole proveWhole(const Interrupt& interrupt);
    /// What a board is worth under prices by what is known of it, less fills and cuts.
    [[nodiscard]] Cost worthKnown(std::size_t board, const Values& prices, bool possible) const;
    void add(Column column, bool possible);

    const Context* m_context;
    const Accounts* m_accounts;
    std::vector<const BoardModel*> m_models;
    int m_threads;
    std::vector<std::unique_ptr<BoardBound>> m_boards; ///< those that were asked
    std::vector<Known> m_known;                        ///< by board
    Master m_master;
    JobBound m_jobBound;
    /// What every board was found to be worth at most the last time, under which prices of the
    /// linear programme.
    std::vector<Cost> m_most;
    std::optional<Values> m_mostAt;
    Values m_centre;
    Cost m_centreBound = 0;
    Cost m_lacks = 0;       ///< how much nearer the boards' bounds might come under the last prices
    double m_looksEach = 0; ///< that every board had in the last round, if it needed them
    int m_asks = 0;         ///< of all boards, so far
    bool m_isNew = true;    ///< something was learnt since the last column
    std::optional<Cost> m_bound;
};

} // namespace stavewright::cutting
