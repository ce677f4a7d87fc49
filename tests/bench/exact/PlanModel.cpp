#include "PlanModel.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "Fillings.h"
#include "MipModel.h"

namespace stavewright::cutting::exact {

namespace {

/// Columns with their cost in whole money, kept back until the common divisor of all is known.
class Ledger {
  public:
    int addRow(double least, double most) { return m_model.addRow(least, most); }
    int addColumn(Cost cost, double most, bool whole, std::vector<std::pair<int, double>> entries) {
        m_columns.push_back({cost, most, whole, std::move(entries)});
        return static_cast<int>(m_columns.size()) - 1;
    }

    bool solve() {
        Cost divisor = 0;
        for (const Entry& column : m_columns) {
            divisor = std::gcd(divisor, column.cost);
        }
        divisor = std::max<Cost>(1, divisor);
        for (const Entry& column : m_columns) {
            const Cost whole = column.cost / divisor;
            m_model.addColumn(static_cast<double>(whole), 0, column.most, column.whole,
                              column.entries);
        }
        return m_model.solve();
    }
    [[nodiscard]] Cost costOf(int column) const {
        return m_columns[static_cast<std::size_t>(column)].cost * times(column);
    }
    [[nodiscard]] bool isChosen(int column) const { return times(column) > 0; }
    [[nodiscard]] Cost value() const {
        Cost sum = 0;
        for (int c = 0; c < columns(); ++c) {
            sum += costOf(c);
        }
        return sum;
    }
    [[nodiscard]] int columns() const { return static_cast<int>(m_columns.size()); }

  private:
    [[nodiscard]] Cost times(int column) const { return std::llround(m_model.value(column)); }

    struct Entry {
        Cost cost = 0;
        double most = 1;
        bool whole = false;
        std::vector<std::pair<int, double>> entries;
    };
    MipModel m_model;
    std::vector<Entry> m_columns;
};

/// Pieces one behind another along an axis, as a flow from the low end: at every place stands an
/// open row (wood that is waste so far), a start row (a piece begins here) and a behind row (a
/// piece and its kerf ended here). From behind straight to start the two pieces share their cut.
class Line {
  public:
    Line(Ledger& ledger, int first, int last, int kerf, Cost sharedCut)
        : m_first(first)
        , m_kerf(kerf) {
        const int places = last - first + 1;
        for (std::vector<int>* rows : {&m_open, &m_start, &m_behind}) {
            for (int p = 0; p < places; ++p) {
                rows->push_back(ledger.addRow(0, 0));
            }
        }
        m_end = ledger.addRow(0, 0);
        const auto arc = [&](int from, int to, Cost cost) {
            ledger.addColumn(cost, 1, false, {{from, -1}, {to, 1}});
        };
        for (std::size_t p = 0; p < m_open.size(); ++p) {
            arc(m_open[p], m_start[p], 0);
            arc(m_behind[p], m_start[p], -sharedCut);
            arc(m_behind[p], m_end, 0);
            if (p + 1 < m_open.size()) {
                arc(m_open[p], m_open[p + 1], 0);
                arc(m_behind[p], m_open[p + 1], 0);
            }
        }
    }

    /// Of the column that stands for a piece in [from, to].
    [[nodiscard]] std::vector<std::pair<int, double>> piece(int from, int to) const {
        const auto behind = static_cast<std::size_t>(to + m_kerf - m_first);
        return {{m_start[static_cast<std::size_t>(from - m_first)], -1},
                {behind < m_behind.size() ? m_behind[behind] : m_end, 1}};
    }
    /// Of the column that stands for the whole line: one unit of flow, and so at least one piece.
    [[nodiscard]] std::vector<std::pair<int, double>> whole() const {
        return {{m_open.front(), 1}, {m_end, -1}};
    }

  private:
    int m_first;
    int m_kerf;
    std::vector<int> m_open, m_start, m_behind;
    int m_end = 0;
};

class PlanModel {
  public:
    explicit PlanModel(const GridJob& job)
        : m_job(job)
        , m_limits(job.problem().limits) {}

    std::optional<ExactPlan> solve() {
        for (std::size_t k = 0; k < m_job.problem().kinds.size(); ++k) {
            addDemand(k);
        }
        for (std::size_t b = 0; b < m_job.boards().size(); ++b) {
            addBoard(b);
        }
        if (!m_ledger.solve()) {
            return std::nullopt;
        }
        return written();
    }

  private:
    struct Section {
        std::size_t board = 0;
        int x0 = 0, x1 = 0;
        int column = 0;
    };
    struct Strip {
        std::size_t section = 0;
        int y0 = 0, y1 = 0;
        Filling filling;
        int column = 0;
    };
    /// What a panel may come to.
    struct PanelEnd {
        std::size_t kind = 0;
        bool complete = false;
        int column = 0;
    };

    void addDemand(std::size_t k) {
        const Kind& kind = m_job.problem().kinds[k];
        if (!kind.isPool) {
            const int row = m_ledger.addRow(kind.demand, kind.demand);
            m_unplaced.push_back(
                m_ledger.addColumn(kind.penaltyUnplaced, kind.demand, true, {{row, 1}}));
            m_countRows.push_back(row);
            m_netRows.push_back(-1);
            return;
        }
        const int net = m_ledger.addRow(0, 0);
        const int staves = m_ledger.addRow(0, 0);
        const int one = m_ledger.addRow(kind.demand, kind.demand);
        m_unplaced.push_back(-1);
        m_countRows.push_back(staves);
        m_netRows.push_back(net);
        for (int n = 0; n * m_job.unit() <= kind.netMost; ++n) {
            for (int s = n == 0 ? 0 : 1; s <= (n == 0 ? 0 : kind.most); ++s) {
                m_panelEnds.push_back({k, m_job.isComplete(kind, n, s),
                                       m_ledger.addColumn(m_job.panelPenalty(kind, n, s), 1, true,
                                                          {{one, 1},
                                                           {net, -static_cast<double>(n)},
                                                           {staves, -static_cast<double>(s)}})});
            }
        }
    }

    void addBoard(std::size_t b) {
        const GridBoard& board = m_job.boards()[b];
        const Line line(m_ledger, board.first, board.last, m_job.crosscutKerf(),
                        m_limits.crosscutCost);
        m_ledger.addColumn(m_job.problem().boards[b].cost, 1, true, line.whole());
        for (int x0 = board.first; x0 < board.last; ++x0) {
            for (int x1 = x0 + 1; x1 <= board.last; ++x1) {
                addSection(b, x0, x1, line);
            }
        }
    }

    void addSection(std::size_t b, int x0, int x1, const Line& along) {
        const GridBoard& board = m_job.boards()[b];
        std::vector<Strip> strips;
        bool low = false;
        bool high = false;
        for (int y0 = 0; y0 < board.width; ++y0) {
            for (int y1 = y0 + std::max(1, m_job.narrowestRip()); y1 <= board.width; ++y1) {
                for (Filling& filling : fillings(m_job, b, x0, x1, y0, y1)) {
                    const Standing& last = filling.blanks.back();
                    low = low || filling.blanks.front().x == x0;
                    high = high || last.x + m_job.items()[last.item].length == x1;
                    strips.push_back({m_sections.size(), y0, y1, std::move(filling), 0});
                }
            }
        }
        if (!low || !high) {
            return; // one that is as long as its blanks costs no more, as with strips
        }
        const Line across(m_ledger, 0, board.width, m_job.ripKerf(), m_limits.ripCost);
        std::vector<std::pair<int, double>> entries = across.whole();
        const auto piece = along.piece(x0, x1);
        entries.insert(entries.end(), piece.begin(), piece.end());
        const int cuts = (x0 != 0 ? 1 : 0) + (x1 != board.length ? 1 : 0);
        m_sections.push_back(
            {b, x0, x1,
             m_ledger.addColumn(cuts * m_limits.crosscutCost, 1, true, std::move(entries))});
        for (Strip& strip : strips) {
            addStrip(std::move(strip), across);
        }
    }

    void addStrip(Strip strip, const Line& across) {
        std::vector<std::pair<int, double>> entries = across.piece(strip.y0, strip.y1);
        std::vector<int> count(m_countRows.size(), 0);
        std::vector<int> net(m_countRows.size(), 0);
        for (const Standing& standing : strip.filling.blanks) {
            const Item& item = m_job.items()[standing.item];
            ++count[static_cast<std::size_t>(item.kind)];
            net[static_cast<std::size_t>(item.kind)] += item.net;
        }
        for (std::size_t k = 0; k < count.size(); ++k) {
            if (count[k] > 0) {
                entries.emplace_back(m_countRows[k], count[k]);
            }
            if (net[k] > 0 && m_netRows[k] >= 0) {
                entries.emplace_back(m_netRows[k], net[k]);
            }
        }
        strip.column = m_ledger.addColumn(2 * m_limits.ripCost + strip.filling.cost, 1, true,
                                          std::move(entries));
        m_strips.push_back(std::move(strip));
    }

    [[nodiscard]] ExactPlan written() const {
        ExactPlan plan;
        plan.columns = m_ledger.columns();
        Solution& solution = plan.solution;
        solution.value = m_ledger.value();
        for (std::size_t b = 0; b < m_job.boards().size(); ++b) {
            Pattern pattern;
            pattern.board = static_cast<int>(b);
            for (std::size_t s = 0; s < m_sections.size(); ++s) {
                if (m_sections[s].board == b && m_ledger.isChosen(m_sections[s].column)) {
                    pattern.sections.push_back(written(s));
                }
            }
            if (!pattern.sections.empty()) {
                solution.patterns.push_back(std::move(pattern));
            }
        }
        solution.unplaced.assign(m_unplaced.size(), 0);
        for (std::size_t k = 0; k < m_unplaced.size(); ++k) {
            solution.unplaced[k] = m_job.problem().kinds[k].demand;
        }
        for (const PlacedSection* section : sectionsOf(solution)) {
            for (const PlacedStrip& strip : section->strips) {
                for (const Placed& placed : strip.blanks) {
                    const auto k = static_cast<std::size_t>(placed.kind);
                    solution.unplaced[k] -= m_job.problem().kinds[k].isPool ? 0 : 1;
                }
            }
        }
        for (const PanelEnd& end : m_panelEnds) {
            plan.unplaced += m_ledger.costOf(end.column);
            if (end.complete && m_ledger.isChosen(end.column)) {
                --solution.unplaced[end.kind];
            }
        }
        for (const int column : m_unplaced) {
            plan.unplaced += column >= 0 ? m_ledger.costOf(column) : 0;
        }
        return plan;
    }

    [[nodiscard]] static std::vector<const PlacedSection*> sectionsOf(const Solution& solution) {
        std::vector<const PlacedSection*> sections;
        for (const Pattern& pattern : solution.patterns) {
            for (const PlacedSection& section : pattern.sections) {
                sections.push_back(&section);
            }
        }
        return sections;
    }

    [[nodiscard]] PlacedSection written(std::size_t index) const {
        const Section& from = m_sections[index];
        PlacedSection section;
        section.x0 = from.x0 * m_job.unit();
        section.x1 = from.x1 * m_job.unit();
        section.frame.origin = {Length::nanometres(section.x0), Length()};
        section.frame.run = Length::nanometres(section.x1 - section.x0);
        for (const Strip& strip : m_strips) {
            if (strip.section != index || !m_ledger.isChosen(strip.column)) {
                continue;
            }
            PlacedStrip cut{strip.y0 * m_job.unit(), strip.y1 * m_job.unit(), {}};
            for (const Standing& standing : strip.filling.blanks) {
                const Item& item = m_job.items()[standing.item];
                const Lie& lie = *m_job.lie(from.board, standing.item, standing.x, standing.y);
                const auto at = [&](int units) { return Length::nanometres(units * m_job.unit()); };
                Placed placed;
                placed.kind = item.kind;
                placed.rect = {at(standing.x - from.x0), at(standing.y),
                               at(standing.x - from.x0 + item.length), at(standing.y + item.width)};
                placed.endForEnd = lie.endForEnd;
                placed.faceOver = lie.faceOver;
                cut.blanks.push_back(placed);
            }
            section.strips.push_back(std::move(cut));
        }
        std::sort(section.strips.begin(), section.strips.end(),
                  [](const PlacedStrip& a, const PlacedStrip& b) { return a.v0 < b.v0; });
        return section;
    }

    const GridJob& m_job;
    const Limits& m_limits;
    Ledger m_ledger;
    std::vector<int> m_countRows, m_netRows; ///< per kind
    std::vector<int> m_unplaced;             ///< per kind
    std::vector<PanelEnd> m_panelEnds;
    std::vector<Section> m_sections;
    std::vector<Strip> m_strips;
};

} // namespace

std::optional<ExactPlan> bestByModel(const GridJob& job) { return PlanModel(job).solve(); }

} // namespace stavewright::cutting::exact
