#include "core/cutting/Part.h"

#include <algorithm>

#include "core/cutting/Master.h"
#include "core/cutting/WholeMix.h"

namespace stavewright::cutting {

namespace {

/// A column must promise at least this much (a hundredth of the currency).
constexpr double leastGain = 100;
/// Counted for a mixed-integer programme, by columns and nodes.
constexpr std::int64_t workPerNode = 20;

/// Boards, what they still have to give, and the columns met so far.
class Dive {
  public:
    Dive(const Stock& stock, Columns& columns, const Interrupt& interrupt, std::int64_t& work)
        : m_stock(&stock)
        , m_columns(&columns)
        , m_interrupt(&interrupt)
        , m_work(&work) {}

    /// Adds to the columns by rounds of pricing; the cost of the fractional mix.
    double price(Master& master, const Demand& open, const std::vector<std::size_t>& boards,
                 Values values, int rounds) {
        for (int round = 0; round < rounds && !m_interrupt->isCalled(); ++round) {
            if (m_columns->size() > 0 && master.solve()) {
                values = master.values();
            }
            bool better = false;
            for (const std::size_t board : boards) {
                Offer offer = bestWithin(*m_stock, board, values, open, *m_interrupt, *m_work);
                if (m_interrupt->isCalled() || offer.pattern.sections.empty()) {
                    continue;
                }
                Column column = columnOf(*m_stock->context, *m_stock->accounts,
                                         m_stock->menus[board]->model(), offer.pattern);
                if ((round == 0 || master.gainOf(column) > leastGain) &&
                    m_columns->add(std::move(offer.pattern), column)) {
                    master.add(m_columns->size() - 1, column);
                    better = true;
                }
            }
            if (!better) {
                break;
            }
        }
        return master.solve() ? master.value() : 1e30;
    }

    /// Takes columns that the mix wants most of, one in `oneIn` of those it uses, prices again for
    /// what is left, and so on.
    std::vector<std::size_t> run(Demand open, std::vector<std::size_t> boards, const Values& values,
                                 int rounds, int oneIn) {
        std::vector<std::size_t> taken;
        while (!open.isMet() && !boards.empty() && !m_interrupt->isCalled()) {
            Master master(*m_stock->context, m_stock->menus.size(), open);
            for (const std::size_t board : boards) {
                for (const std::size_t id : m_columns->ofBoard(board)) {
                    master.add(id, m_columns->column(id));
                }
            }
            price(master, open, boards, values, rounds);
            if (m_interrupt->isCalled()) {
                break;
            }
            std::vector<std::pair<double, std::size_t>> shares = master.shares();
            std::erase_if(shares, [](const auto& share) { return share.first < 1e-6; });
            if (shares.empty()) {
                break;
            }
            std::stable_sort(shares.begin(), shares.end(),
                             [](const auto& a, const auto& b) { return a.first > b.first; });
            double total = 0;
            for (const auto& share : shares) {
                total += share.first;
            }
            const auto atOnce = std::max<std::size_t>(1, static_cast<std::size_t>(total / oneIn));
            std::size_t count = 0;
            for (const auto& [share, id] : shares) {
                const Column& column = m_columns->column(id);
                const auto at = std::find(boards.begin(), boards.end(), column.board);
                if (at == boards.end() || (count >= atOnce && share < 0.999)) {
                    continue;
                }
                boards.erase(at);
                open -= column.yield;
                taken.push_back(id);
                ++count;
            }
        }
        return taken;
    }

  private:
    const Stock* m_stock;
    Columns* m_columns;
    const Interrupt* m_interrupt;
    std::int64_t* m_work;
};

/// Puts the columns from `old` on into the result.
void tellNew(const Columns& columns, std::size_t old, PartResult& result) {
    for (std::size_t id = old; id < columns.size(); ++id) {
        result.newPatterns.push_back(columns.pattern(id));
        result.newColumns.push_back(columns.column(id));
    }
}

} // namespace

PartResult solvePart(const Stock& stock, const Columns& known, const PartWish& wish,
                     const Interrupt& interrupt) {
    PartResult result;
    Columns mine(stock.menus.size());
    Master master(*stock.context, stock.menus.size(), wish.open);
    for (const std::size_t board : wish.boards) {
        for (const std::size_t id : known.ofBoard(board)) {
            if (mine.add(known.pattern(id), known.column(id))) {
                master.add(mine.size() - 1, known.column(id));
            }
        }
    }
    const std::size_t old = mine.size();
    Dive dive(stock, mine, interrupt, result.work);
    result.bestMix = dive.price(master, wish.open, wish.boards, wish.values, wish.rounds);
    if (interrupt.isCalled()) {
        return {};
    }
    // Which boards, then how to cut them.
    std::vector<std::size_t> ids(mine.size());
    for (std::size_t id = 0; id < ids.size(); ++id) {
        ids[id] = id;
    }
    std::vector<std::size_t> boards;
    if (result.bestMix < wish.below) {
        result.work += static_cast<std::int64_t>(ids.size()) * wish.nodes * workPerNode;
        Demand roomy = wish.open;
        for (std::int64_t& open : roomy.open) {
            open += open * wish.marginPercent / 100;
        }
        boards = wholeBoards(*stock.context, mine, ids, roomy, wish.dearness,
                             {wish.nodes, wish.below}, interrupt);
    }
    if (!boards.empty()) {
        for (const std::size_t id : dive.run(wish.open, boards, wish.values, wish.diveRounds, 6)) {
            result.dived.push_back(mine.pattern(id));
        }
    }
    if (interrupt.isCalled()) {
        return {};
    }
    tellNew(mine, old, result);
    if (boards.empty()) {
        return result;
    }
    ids.clear();
    for (const std::size_t board : boards) {
        ids.insert(ids.end(), mine.ofBoard(board).begin(), mine.ofBoard(board).end());
    }
    result.work += static_cast<std::int64_t>(ids.size()) * wish.nodes * workPerNode;
    for (const std::size_t id :
         wholeMix(*stock.context, mine, ids, {wish.open, stock.accounts, wish.kept},
                  {wish.nodes, wish.below}, interrupt)) {
        result.patterns.push_back(mine.pattern(id));
    }
    return result;
}

PartResult divePart(const Stock& stock, const Columns& known, const PartWish& wish, int oneIn,
                    const Interrupt& interrupt) {
    PartResult result;
    Columns mine = known;
    const std::size_t old = mine.size();
    Dive dive(stock, mine, interrupt, result.work);
    for (const std::size_t id :
         dive.run(wish.open, wish.boards, wish.values, wish.diveRounds, oneIn)) {
        result.dived.push_back(mine.pattern(id));
    }
    tellNew(mine, old, result);
    return result;
}

} // namespace stavewright::cutting
