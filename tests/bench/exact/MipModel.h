#pragma once
// A mixed-integer programme in columns, solved by Cbc.
//
//   MipModel model;
//   int row = model.addRow(2, 2);
//   int column = model.addColumn(cost, 0, 1, true, {{row, 1.0}});
//   if (model.solve()) { model.value(column); }

#include <utility>
#include <vector>

namespace stavewright::cutting::exact {

class MipModel {
  public:
    int addRow(double least, double most);
    /// `entries` may name rows that were added before.
    int addColumn(double cost, double least, double most, bool whole,
                  const std::vector<std::pair<int, double>>& entries);

    /// All costs are whole numbers, so the search stops when nothing a whole unit cheaper is left.
    /// False when it was not solved to the end.
    [[nodiscard]] bool solve();
    [[nodiscard]] double value(int column) const {
        return m_values[static_cast<std::size_t>(column)];
    }
    [[nodiscard]] int columns() const { return static_cast<int>(m_costs.size()); }
    [[nodiscard]] int rows() const { return static_cast<int>(m_rowLeast.size()); }

  private:
    std::vector<double> m_rowLeast, m_rowMost;
    std::vector<double> m_costs, m_least, m_most;
    std::vector<char> m_whole;
    std::vector<int> m_starts = {0};
    std::vector<int> m_indices;
    std::vector<double> m_entries;
    std::vector<double> m_values;
};

} // namespace stavewright::cutting::exact
