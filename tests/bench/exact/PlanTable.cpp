#include "PlanTable.h"

#include <algorithm>
#include <functional>
#include <limits>
#include <map>

namespace stavewright::cutting::exact {

namespace {

/// How many of each fixed kind, and net width and staves of each pool; one byte each.
using Yield = std::uint64_t;
/// The least cost of each yield.
using Table = std::map<Yield, Cost>;

void lower(Table& table, Yield yield, Cost cost) {
    const auto [place, isNew] = table.try_emplace(yield, cost);
    if (!isNew) {
        place->second = std::min(place->second, cost);
    }
}

class Tables {
  public:
    explicit Tables(const GridJob& job)
        : m_job(job)
        , m_limits(job.problem().limits) {
        for (const Kind& kind : job.problem().kinds) {
            m_firstByte.push_back(m_most.size());
            if (kind.isPool) {
                m_most.push_back(static_cast<int>(kind.netMost / job.unit()));
                m_most.push_back(kind.most);
            } else {
                m_most.push_back(kind.demand);
            }
        }
    }

    [[nodiscard]] Cost best() const {
        Table all = {{0, 0}};
        for (std::size_t b = 0; b < m_job.boards().size(); ++b) {
            Table with = all;
            addSums(with, all, ofBoard(b), m_job.problem().boards[b].cost);
            all = std::move(with);
        }
        Cost least = std::numeric_limits<Cost>::max();
        for (const auto& [yield, cost] : all) {
            least = std::min(least, cost + missing(yield));
        }
        return least;
    }

  private:
    [[nodiscard]] int byteOf(Yield yield, std::size_t byte) const {
        return static_cast<int>(yield >> (8 * byte) & 255);
    }
    [[nodiscard]] bool isWanted(Yield yield) const {
        for (std::size_t byte = 0; byte < m_most.size(); ++byte) {
            if (byteOf(yield, byte) > m_most[byte]) {
                return false;
            }
        }
        return true;
    }
    [[nodiscard]] Yield yieldOf(const Item& item) const {
        const std::size_t byte = m_firstByte[static_cast<std::size_t>(item.kind)];
        return m_job.kindOf(item).isPool
                   ? static_cast<Yield>(item.net) << (8 * byte) | Yield{1} << (8 * (byte + 1))
                   : Yield{1} << (8 * byte);
    }
    [[nodiscard]] Cost missing(Yield yield) const {
        Cost sum = 0;
        for (std::size_t k = 0; k < m_firstByte.size(); ++k) {
            const Kind& kind = m_job.problem().kinds[k];
            const std::size_t byte = m_firstByte[k];
            sum += kind.isPool
                       ? m_job.panelPenalty(kind, byteOf(yield, byte), byteOf(yield, byte + 1))
                       : (kind.demand - byteOf(yield, byte)) * kind.penaltyUnplaced;
        }
        return sum;
    }
    void addSums(Table& to, const Table& a, const Table& b, Cost cost) const {
        for (const auto& [yieldA, costA] : a) {
            for (const auto& [yieldB, costB] : b) {
                if (isWanted(yieldA + yieldB)) {
                    lower(to, yieldA + yieldB, costA + costB + cost);
                }
            }
        }
    }

    using Emit = std::function<void(int end, const Table& piece)>;
    /// Pieces one behind another in [first, last]: `pieces(p, emit)` names all that begin at p.
    /// Each pays `lowCut` unless it shares that cut with the piece before or begins at `freeAt`.
    [[nodiscard]] Table inLine(int first, int last, int kerf, Cost lowCut, int freeAt,
                               const std::function<void(int, const Emit&)>& pieces) const {
        std::vector<Table> endedAt(static_cast<std::size_t>(last - first + 1));
        const auto ended = [&](int place) -> Table& {
            return endedAt[static_cast<std::size_t>(place - first)];
        };
        Table loose = {{0, 0}}; // ended early enough, with waste behind
        Table result;
        for (int p = first; p < last; ++p) {
            Table start;
            for (const auto& [yield, cost] : loose) {
                lower(start, yield, cost + (p == freeAt ? 0 : lowCut));
            }
            if (p - kerf >= first) {
                for (const auto& [yield, cost] : ended(p - kerf)) {
                    lower(start, yield, cost);
                    lower(loose, yield, cost);
                }
            }
            pieces(p, [&](int end, const Table& piece) { addSums(ended(end), start, piece, 0); });
        }
        for (const Table& table : endedAt) {
            for (const auto& [yield, cost] : table) {
                lower(result, yield, cost);
            }
        }
        return result;
    }

    [[nodiscard]] Table ofBoard(std::size_t b) const {
        const GridBoard& board = m_job.boards()[b];
        return inLine(board.first, board.last, m_job.crosscutKerf(), m_limits.crosscutCost, 0,
                      [&](int x0, const Emit& emit) {
                          for (int x1 = x0 + 1; x1 <= board.last; ++x1) {
                              const Cost cut = x1 != board.length ? m_limits.crosscutCost : 0;
                              emit(x1, dearer(ofSection(b, x0, x1), cut));
                          }
                      });
    }

    [[nodiscard]] Table ofSection(std::size_t b, int x0, int x1) const {
        return inLine(0, m_job.boards()[b].width, m_job.ripKerf(), m_limits.ripCost, -1,
                      [&](int y0, const Emit& emit) {
                          for (int y1 = y0 + std::max(1, m_job.narrowestRip());
                               y1 <= m_job.boards()[b].width; ++y1) {
                              emit(y1, dearer(ofStrip(b, x0, x1, y0, y1), m_limits.ripCost));
                          }
                      });
    }

    [[nodiscard]] Table ofStrip(std::size_t b, int x0, int x1, int y0, int y1) const {
        return inLine(
            x0, x1, m_job.stripKerf(), m_limits.crosscutCost, x0, [&](int x, const Emit& emit) {
                for (std::size_t i = 0; i < m_job.items().size(); ++i) {
                    const Item& item = m_job.items()[i];
                    if (x + item.length > x1) {
                        continue;
                    }
                    Table piece;
                    for (const int y : m_job.lowEdges(item, y0, y1)) {
                        if (const auto& lie = m_job.lie(b, i, x, y)) {
                            lower(piece, yieldOf(item),
                                  lie->fills + (item.width < y1 - y0 ? m_limits.ripCost : 0) +
                                      (x + item.length < x1 ? m_limits.crosscutCost : 0));
                        }
                    }
                    emit(x + item.length, piece);
                }
            });
    }

    [[nodiscard]] static Table dearer(Table table, Cost by) {
        for (auto& [yield, cost] : table) {
            cost += by;
        }
        return table;
    }

    const GridJob& m_job;
    const Limits& m_limits;
    std::vector<std::size_t> m_firstByte; ///< per kind
    std::vector<int> m_most;              ///< per byte
};

} // namespace

Cost bestByTables(const GridJob& job) { return Tables(job).best(); }

} // namespace stavewright::cutting::exact
