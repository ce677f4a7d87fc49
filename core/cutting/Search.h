#pragma once
// The search over the whole job: a first solution built board by board, then better ones by freeing a few
// boards and filling them again with changed values. Anytime; the same seed and work give the same plan
// whatever the number of threads, because a round is a fixed number of attempts judged in their order.

#include <memory>

#include "core/cutting/Construct.h"
#include "core/cutting/Solve.h"

namespace stavewright::cutting {

class Search {
  public:
    Search(const Problem& problem, const Options& options, const Progress& progress,
           const OnImproved& improved);
    [[nodiscard]] Solution run();

  private:
    [[nodiscard]] bool isOver() const;
    bool prepare(const Fineness& fineness);
    bool buildWhole();
    void improve();
    void offer(Solution solution);
    [[nodiscard]] Values firstValues() const;

    struct Attempt {
        Solution solution;
        std::int64_t work = 0;
        bool made = false;
    };
    [[nodiscard]] Attempt attempt(std::uint64_t number) const;

    const Problem* m_problem;
    Options m_options;
    const Progress* m_progress;
    const OnImproved* m_improved;
    Interrupt m_interrupt;
    Context m_context;
    std::vector<std::unique_ptr<BoardModel>> m_models;
    std::unique_ptr<Accounts> m_accounts;
    std::vector<std::unique_ptr<BoardMenu>> m_menus;
    Stock m_stock;
    Values m_values;
    Solution m_best;
    bool m_hasBest = false;
    std::int64_t m_work = 0;
};

} // namespace stavewright::cutting
