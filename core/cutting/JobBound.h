#pragma once
// What a plan of the whole job costs at least, from what every board can be worth at most under
// some prices (BoardBound.h).
//
// Under prices p, blanks to the worth of p d must come from the boards that are touched, each worth
// at most M_b(p) less its fills and cuts. So every plan costs at least p d + sum of min(0, c_b -
// M_b): the bound of the linear programme. Under a share s of those prices a board is worth at most
// s M_b, and 1 - s of its offcuts besides, so the best share is told at once too. And since a board
// is touched or not, the cheapest choice of whole boards with F + sum M_b(p) y_b >= p d for all
// prices p that were asked, F being what fills and cuts cost, is a bound too, and a higher one
// (support cuts; solved by Cbc).
//
//   JobBound bound(context, accounts, models);
//   values = bound.allowed(values);
//   bound.add(values, mostOfEveryBoard);
//   Cost least = bound.linear();

#include <optional>
#include <vector>

#include "core/cutting/Accounts.h"
#include "core/cutting/Interrupt.h"

namespace stavewright::cutting {

class JobBound {
  public:
    JobBound(const Context& context, const Accounts& accounts,
             const std::vector<const BoardModel*>& models);

    /// The prices lowered where that is needed for the bound to hold for plans too that leave
    /// something out, at its penalty.
    [[nodiscard]] Values allowed(Values values) const;
    /// Prices, and what each board is worth at most under them.
    void add(const Values& values, std::vector<Cost> most);
    /// What plans cost at least that touch just these boards, if each is worth so much.
    [[nodiscard]] Cost ofChoice(const Values& values, const std::vector<Cost>& most,
                                const std::vector<std::size_t>& boards) const;
    /// The best bound of the linear programme so far; none before the first prices.
    [[nodiscard]] std::optional<Cost> linear() const { return m_linear; }
    struct Whole {
        Cost least = 0;                  ///< no plan costs less
        std::vector<std::size_t> boards; ///< the choice that might cost no more
    };
    /// The bound with whole boards; no better than linear() when it was interrupted.
    [[nodiscard]] Whole whole(int nodes, const Interrupt& interrupt) const;
    /// What the boards cost that fixed blanks lie on.
    [[nodiscard]] Cost paid() const { return m_paid; }
    /// What the newest prices gave by linear().
    [[nodiscard]] Cost newest() const { return m_newest; }
    /// Prices that gave it: the newest ones, or a share of them.
    [[nodiscard]] const Values& newestPrices() const { return m_newestPrices; }

  private:
    struct Cut {
        Cost demand = 0;
        std::vector<Cost> most; ///< by board
    };
    [[nodiscard]] Cost worthOfDemand(const Values& values) const;
    /// Worth of the offcuts of a board that is nothing but offcut, in parts of its cost.
    [[nodiscard]] double shareOfOffcuts() const;
    /// Bound at a share of a cut's prices.
    [[nodiscard]] double atShare(const Cut& cut, double share) const;

    const Context* m_context;
    const Accounts* m_accounts;
    std::vector<Cost> m_boardCost;
    std::vector<Cost> m_price; ///< the same, 0 where it is paid for already
    Cost m_paid = 0;           ///< boards that fixed blanks lie on
    std::vector<Cut> m_cuts;
    std::optional<Cost> m_linear;
    Cost m_newest = 0;
    Values m_newestPrices;
};

} // namespace stavewright::cutting
