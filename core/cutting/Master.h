#pragma once
// The master problem of column generation: which mix of patterns covers the demand at least cost,
// in fractions. Its duals are the values at which the boards are priced next.
//
//   Master master(context, models, demand);
//   master.add(board, pattern yield, staves, cost);
//   master.solve();  master.values();

#include <memory>

#include "core/cutting/Columns.h"
#include "core/cutting/Interrupt.h"
#include "core/cutting/Values.h"

class ClpSimplex;

namespace stavewright::cutting {

class Master {
  public:
    /// With an `estimate` of what blanks are worth, leaving one out costs no more than a few times
    /// that, so that the first duals are not mere penalties.
    Master(const Context& context, std::size_t boards, const Demand& demand,
           const Values* estimate = nullptr);
    ~Master();
    Master(const Master&) = delete;
    Master& operator=(const Master&) = delete;

    /// `id` names the column in shares().
    void add(std::size_t id, const Column& column);
    /// Solves again from where it stood; false when that failed.
    bool solve();
    /// Cost of the best fractional mix of the columns so far.
    [[nodiscard]] double value() const;
    /// What a blank is worth to the mix. Rounded down.
    [[nodiscard]] Values values() const;
    /// What the mix would gain by one more of this column: its negative reduced cost.
    [[nodiscard]] double gainOf(const Column& column) const;
    /// How much of each column the mix takes, with its id.
    [[nodiscard]] std::vector<std::pair<double, std::size_t>> shares() const;

  private:
    const Context* m_context;
    std::size_t m_kinds = 0;
    std::size_t m_slacks = 0;       ///< columns before the first pattern
    std::vector<double> m_unit;     ///< per kind: demand units in one unit of its row
    std::vector<std::size_t> m_ids; ///< of the columns in the model
    std::unique_ptr<ClpSimplex> m_model;
};

} // namespace stavewright::cutting
