#pragma once
// The mix in fractions of patterns for classes of equal boards: like Master, but a pattern may be
// taken as often as its class has boards.
//
//   StockMix mix(penalties, open, boards);
//   mix.add(id, column);  mix.solve();  mix.prices();

#include <memory>
#include <vector>

#include "core/cutting/ClearBoard.h"

class ClpSimplex;

namespace stavewright::cutting {

/// A pattern of a class of boards.
struct StockColumn {
    std::size_t boards = 0; ///< class
    ClearPattern pattern;
    std::vector<int> yield; ///< by kind
    Cost cost = 0;          ///< of the board and the cuts
};

class StockMix {
  public:
    /// By kind: cost of leaving one out, and how many are wanted; by class: how many there are.
    StockMix(const std::vector<Cost>& penalties, const std::vector<int>& open,
             const std::vector<int>& boards);
    ~StockMix();
    StockMix(const StockMix&) = delete;
    StockMix& operator=(const StockMix&) = delete;

    void add(std::size_t id, const StockColumn& column);
    [[nodiscard]] bool solve();
    [[nodiscard]] double value() const; ///< Cost
    /// What a blank is worth, by kind; rounded down.
    [[nodiscard]] std::vector<Cost> prices() const;
    /// What one more board of each class is worth, by class.
    [[nodiscard]] std::vector<double> boardWorths() const;
    /// The columns in use, the most used first: how often, and their ids.
    [[nodiscard]] std::vector<std::pair<double, std::size_t>> shares() const;

  private:
    std::size_t m_kinds = 0;
    std::size_t m_classes = 0;
    std::vector<std::size_t> m_ids;
    std::unique_ptr<ClpSimplex> m_model;
};

} // namespace stavewright::cutting
