#include "MipModel.h"

#include <coin/Cbc_C_Interface.h>

namespace stavewright::cutting::exact {

int MipModel::addRow(double least, double most) {
    m_rowLeast.push_back(least);
    m_rowMost.push_back(most);
    return rows() - 1;
}

int MipModel::addColumn(double cost, double least, double most, bool whole,
                        const std::vector<std::pair<int, double>>& entries) {
    m_costs.push_back(cost);
    m_least.push_back(least);
    m_most.push_back(most);
    m_whole.push_back(whole ? 1 : 0);
    for (const auto& [row, entry] : entries) {
        m_indices.push_back(row);
        m_entries.push_back(entry);
    }
    m_starts.push_back(static_cast<int>(m_indices.size()));
    return columns() - 1;
}

bool MipModel::solve() {
    Cbc_Model* model = Cbc_newModel();
    Cbc_setParameter(model, "logLevel", "0");
    Cbc_setParameter(model, "allowableGap", "0.9");
    Cbc_setParameter(model, "ratioGap", "0");
    Cbc_setParameter(model, "randomSeed", "1");
    Cbc_loadProblem(model, columns(), rows(), m_starts.data(), m_indices.data(), m_entries.data(),
                    m_least.data(), m_most.data(), m_costs.data(), m_rowLeast.data(),
                    m_rowMost.data());
    for (int c = 0; c < columns(); ++c) {
        if (m_whole[static_cast<std::size_t>(c)] != 0) {
            Cbc_setInteger(model, c);
        }
    }
    Cbc_solve(model);
    const bool optimal = Cbc_isProvenOptimal(model) != 0;
    if (optimal) {
        const double* solution = Cbc_getColSolution(model);
        m_values.assign(solution, solution + columns());
    }
    Cbc_deleteModel(model);
    return optimal;
}

} // namespace stavewright::cutting::exact
