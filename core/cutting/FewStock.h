#pragma once
// Boards that look at a few kinds each, drawn for what is open: where a job's kinds are many, what
// a part of a plan lacks is still made of few.
//
//   FewStock few(search, boards, values, open, random, work);
//   Offer offer = bestWithin(few.stock(), board, values, open, interrupt, work);

#include <memory>

#include "core/cutting/SearchState.h"

namespace stavewright::cutting {

class FewStock {
  public:
    FewStock(const SearchState& state, const std::vector<std::size_t>& boards, const Values& values,
             const Demand& open, Random& random, std::int64_t& work);

    /// Of these boards; the menus of others are null.
    [[nodiscard]] const Stock& stock() const { return m_stock; }

  private:
    std::vector<std::unique_ptr<FewKinds>> m_kinds;
    std::vector<std::unique_ptr<BoardPricing>> m_menus;
    Stock m_stock;
};

} // namespace stavewright::cutting
