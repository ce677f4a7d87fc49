#pragma once
// A stock of clear boards, many of them equal: one board stands for its class. Column generation
// over the classes, then dives that take patterns whole, price again for what is left, and turn
// back where the mix in fractions shows that nothing better lies ahead; each dive may turn away
// from the first choice more often than the one before. Between dives a few boards of the best plan
// are freed and cut anew, again and again (StockRounds.cpp).
//
//   ClearStock stock(context, models, demand);
//   if (stock.isUsable()) { stock.solve(limits, interrupt, [&](std::vector<Pattern> p) {...}); }

#include <functional>
#include <optional>

#include "core/cutting/Accounts.h"
#include "core/cutting/Interrupt.h"
#include "core/cutting/StockMix.h"

namespace stavewright::cutting {

struct StockLimits {
    std::int64_t work = 0; ///< 0: no limit
    int threads = 1;
    std::uint64_t seed = 1;
    int dives = 0; ///< 0: no limit
};

class ClearStock {
  public:
    using OnBetter = std::function<void(std::vector<Pattern>)>;

    ClearStock(const Context& context, const std::vector<const BoardModel*>& models,
               const Demand& demand);

    /// All boards are clear and their tables small, and some are equal.
    [[nodiscard]] bool isUsable() const { return m_isUsable; }
    /// Tells every better plan, until the limits or until none can be better.
    void solve(const StockLimits& limits, const Interrupt& interrupt, const OnBetter& better);
    /// No plan costs less, not counting what offcuts are worth; none while nothing is proved.
    [[nodiscard]] std::optional<Cost> bound() const;
    [[nodiscard]] std::int64_t work() const { return m_work; }

  private:
    struct Class {
        ClearBoard board;
        std::vector<std::size_t> boards; ///< that belong to it
        Cost price = 0;
    };
    struct State {
        std::vector<int> open; ///< by kind
        std::vector<int> left; ///< boards, by class
        std::vector<std::size_t> taken;
        Cost cost = 0;
    };

    /// A few boards of the best plan cut anew: which they were, and what came out.
    struct Remade {
        std::vector<std::size_t> freed;
        std::vector<StockColumn> columns;
        Cost saved = 0;
        std::int64_t work = 0;
    };

    /// For what a few boards gave and what is left out, on as many of each class as are free.
    ClearStock(const ClearStock& whole, State start);

    [[nodiscard]] bool isOver() const;
    [[nodiscard]] bool isPaused() const;
    /// Nothing that is missing can be cheaper than what is known.
    [[nodiscard]] bool isDone() const { return m_best <= m_bound; }
    [[nodiscard]] StockColumn columnOf(std::size_t boards, ClearPattern pattern) const;
    /// The best pattern of a class at these prices within what is open; its worth, and at most what
    /// any pattern is worth.
    [[nodiscard]] ClearPattern price(std::size_t boards, const std::vector<Cost>& prices,
                                     const std::vector<int>& open, double enough, Cost& worth,
                                     Cost& bound);
    /// The same of every class that has boards left: use(class, pattern, worth, bound).
    /// `enough(class)`: a pattern worth clearly more need not be the best.
    template <class Enough, class Use>
    void priceAll(const State& state, const std::vector<Cost>& prices, const Enough& enough,
                  const Use& use);
    [[nodiscard]] bool isWithin(const StockColumn& column, const State& state) const;
    bool addColumn(StockColumn column);
    [[nodiscard]] std::vector<std::pair<double, std::size_t>> mix(const State& state, double& value,
                                                                  std::vector<Cost>& prices);
    void take(State& state, std::size_t column) const;
    /// What is open and left beside such columns.
    [[nodiscard]] State beside(const std::vector<StockColumn>& plan) const;
    /// Always the pattern that is worth most for its board; `quickly`: as it comes from prices
    /// alone, less what is too much.
    void finish(State state, const std::vector<Cost>& prices, bool quickly = false);
    void offer(const State& state);
    void tell(std::vector<StockColumn> plan, Cost cost);
    void dive(const State& state, int turns);
    /// Takes each column that is known so many whole times.
    void mixWhole();
    /// `dives`: thoroughly; else always the pattern worth most at prices drawn for it.
    void remakeRounds(int rounds, bool dives);
    /// The best plan with a few boards cut anew, where it is still as it was for them.
    bool replace(const Remade& made, std::vector<std::optional<StockColumn>>& plan);
    [[nodiscard]] Remade remake(std::uint64_t seed, bool dives) const;
    [[nodiscard]] std::vector<std::size_t> boardsToFree(std::uint64_t seed) const;
    [[nodiscard]] double filled(const StockColumn& column) const;
    [[nodiscard]] Cost leftOut(const State& state) const;
    /// The next cost a plan can have.
    [[nodiscard]] Cost roundedUp(double value) const;

    const Context* m_context;
    bool m_isUsable = false;
    std::vector<Class> m_classes;
    State m_start;
    std::vector<Cost> m_penalties; ///< by kind
    Cost m_grain = 1;              ///< every cost is a multiple of it
    std::vector<StockColumn> m_columns;
    const Interrupt* m_interrupt = nullptr;
    const OnBetter* m_better = nullptr;
    StockLimits m_limits;
    std::int64_t m_work = 0;
    std::int64_t m_pricings = 0;
    std::size_t m_width = 6;         ///< of the searches for patterns
    std::int64_t m_pause = 0;        ///< work at which a dive or rounds end; 0: none
    std::vector<Cost> m_prices;      ///< by kind, of the mix over all boards
    std::vector<StockColumn> m_plan; ///< the best
    Cost m_best = 0;
    Cost m_bound = 0;
    std::uint64_t m_remakes = 0;
};

} // namespace stavewright::cutting
