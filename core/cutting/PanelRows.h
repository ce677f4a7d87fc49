#pragma once
// Staves that have to come out even in several panels of one kind, as rows of a mixed-integer
// programme of whole columns. Widths that would do in sum may not do in panels of their own: which
// stave goes into which panel is decided together with the columns.
//
//   std::vector<Nm> given = accounts.netsOf(kept, k);
//   addPanelRows(pool, openPanels(pool, begun), nets, given, leftOut, programme);

#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

#include <coin/CoinPackedMatrix.hpp>
#include <coin/CoinPackedVector.hpp>

#include "core/cutting/Accounts.h"

namespace stavewright::cutting {

/// The programme as Cbc takes it; rows and columns are added behind those that are there.
struct MixRows {
    CoinPackedMatrix matrix{true, 0, 0};
    std::vector<double> cost, lower, upper, rowLow, rowHigh;
    std::vector<int> whole; ///< columns that must be whole

    /// Its index.
    int addColumn(const CoinPackedVector& column, double price, double most);
    void addRow(const CoinPackedVector& row, double low, double high);
};

/// Panels of the pool that still want staves.
[[nodiscard]] std::vector<BegunPanel> openPanels(const Kind& pool,
                                                 const std::vector<BegunPanel>& panels);

/// Adds them for a pool of which more than one panel is open; does nothing where there is one, or
/// where there are so many that there is nearly always a way to share the staves out.
///
/// `open`: the open panels. `nets`: of each column of the programme that gives staves of the pool,
/// their net widths. `given`: net widths of staves that are there anyway. `leftOut`: the
/// programme's column of what the pool lacks in width, metres. The width that the panels want
/// besides what is given, nm; none when no rows were added.
std::optional<Nm> addPanelRows(const Kind& pool, const std::vector<BegunPanel>& open,
                               const std::vector<std::pair<int, std::vector<Nm>>>& nets,
                               const std::vector<Nm>& given, int leftOut, MixRows& programme);

} // namespace stavewright::cutting
