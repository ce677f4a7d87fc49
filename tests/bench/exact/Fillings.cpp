#include "Fillings.h"

#include <algorithm>

namespace stavewright::cutting::exact {

namespace {

class Enumeration {
  public:
    Enumeration(const GridJob& job, std::size_t board, int x0, int x1, int y0, int y1)
        : m_job(job)
        , m_board(board)
        , m_x0(x0)
        , m_x1(x1)
        , m_y0(y0)
        , m_y1(y1)
        , m_left(job.problem().kinds.size()) {
        m_row.count.resize(job.items().size(), 0);
        for (std::size_t k = 0; k < m_left.size(); ++k) {
            const Kind& kind = job.problem().kinds[k];
            m_left[k] = kind.isPool ? kind.most * kind.demand : kind.demand;
        }
    }

    std::vector<Filling> run() {
        extend();
        std::vector<Filling> found;
        for (auto& [count, filling] : m_best) {
            found.push_back(std::move(filling));
        }
        return found;
    }

  private:
    void extend() {
        const int kerf = m_job.stripKerf();
        const bool first = m_row.blanks.empty();
        const int end =
            first ? 0 : m_row.blanks.back().x + m_job.items()[m_row.blanks.back().item].length;
        for (int x = first ? m_x0 : end + kerf; x < m_x1; ++x) {
            const bool cutBefore = first ? x != m_x0 : x != end + kerf;
            for (std::size_t i = 0; i < m_job.items().size(); ++i) {
                const Item& item = m_job.items()[i];
                int& left = m_left[static_cast<std::size_t>(item.kind)];
                if (left == 0 || x + item.length > m_x1) {
                    continue;
                }
                const bool cutBehind = x + item.length != m_x1;
                for (const int y : m_job.lowEdges(item, m_y0, m_y1)) {
                    const std::optional<Lie>& lie = m_job.lie(m_board, i, x, y);
                    if (!lie) {
                        continue;
                    }
                    const Limits& limits = m_job.problem().limits;
                    const Cost cost = (cutBefore ? limits.crosscutCost : 0) +
                                      (cutBehind ? limits.crosscutCost : 0) +
                                      (item.width < m_y1 - m_y0 ? limits.ripCost : 0) + lie->fills;
                    --left;
                    ++m_row.count[i];
                    m_row.cost += cost;
                    m_row.blanks.push_back({i, x, y});
                    keep();
                    extend();
                    m_row.blanks.pop_back();
                    m_row.cost -= cost;
                    --m_row.count[i];
                    ++left;
                }
            }
        }
    }

    void keep() {
        bool low = false;
        bool high = false;
        for (const Standing& standing : m_row.blanks) {
            low = low || standing.y == m_y0;
            high = high || standing.y + m_job.items()[standing.item].width == m_y1;
        }
        if (!low || !high) {
            return;
        }
        const auto [place, isNew] = m_best.try_emplace(m_row.count, m_row);
        if (!isNew && m_row.cost < place->second.cost) {
            place->second = m_row;
        }
    }

    const GridJob& m_job;
    std::size_t m_board;
    int m_x0, m_x1, m_y0, m_y1;
    std::vector<int> m_left; ///< per kind
    Filling m_row;
    std::map<std::vector<int>, Filling> m_best;
};

} // namespace

std::vector<Filling> fillings(const GridJob& job, std::size_t board, int x0, int x1, int y0,
                              int y1) {
    return Enumeration(job, board, x0, x1, y0, y1).run();
}

} // namespace stavewright::cutting::exact
