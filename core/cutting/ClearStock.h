#pragma once
// A stock of clear boards, many of them equal: one board stands for its class. Column generation
// over the classes, then dives that take patterns whole, price again for what is left, and turn
// back where the mix in fractions shows that nothing better lies ahead; each dive may turn away
// from the first choice more often than the one before.
//
//   ClearStock stock(context, models, demand);
//   if (stock.isUsable()) { stock.solve(mostWork, interrupt, [&](std::vector<Pattern> p) {...}); }

#include <functional>

#include "core/cutting/Accounts.h"
#include "core/cutting/Interrupt.h"
#include "core/cutting/StockMix.h"

namespace stavewright::cutting {

class ClearStock {
  public:
    using OnBetter = std::function<void(std::vector<Pattern>)>;

    ClearStock(const Context& context, const std::vector<const BoardModel*>& models,
               const Demand& demand);

    /// All boards are clear and their tables small, and some are equal.
    [[nodiscard]] bool isUsable() const { return m_isUsable; }
    /// Tells every better plan; `mostWork` 0: no limit.
    void solve(std::int64_t mostWork, const Interrupt& interrupt, const OnBetter& better);
    /// No plan costs less than the best one.
    [[nodiscard]] bool isProved() const { return m_best <= m_bound; }
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

    [[nodiscard]] bool isOver() const;
    [[nodiscard]] StockColumn columnOf(std::size_t boards, ClearPattern pattern) const;
    /// The best pattern of a class at these prices within what is open; its worth, and at most what
    /// any pattern is worth.
    [[nodiscard]] ClearPattern price(std::size_t boards, const std::vector<Cost>& prices,
                                     const std::vector<int>& open, Cost& worth, Cost& bound);
    /// The same of every class that has boards left: use(class, pattern, worth, bound).
    template <class Use>
    void priceAll(const State& state, const std::vector<Cost>& prices, const Use& use);
    [[nodiscard]] bool isWithin(const StockColumn& column, const State& state) const;
    bool addColumn(StockColumn column);
    [[nodiscard]] std::vector<std::pair<double, std::size_t>> mix(const State& state, double& value,
                                                                  std::vector<Cost>& prices);
    void take(State& state, std::size_t column) const;
    void finish(State state, const std::vector<Cost>& prices);
    void offer(const State& state);
    void dive(const State& state, int turns);
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
    std::int64_t m_mostWork = 0;
    std::int64_t m_work = 0;
    Cost m_best = 0;
    Cost m_bound = 0;
};

} // namespace stavewright::cutting
