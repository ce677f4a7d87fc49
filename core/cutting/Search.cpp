#include "core/cutting/Search.h"

#include <algorithm>
#include <numeric>

#include "core/cutting/Random.h"
#include "core/cutting/Workers.h"

namespace stavewright::cutting {

namespace {

/// Attempts judged together; fixed, so that the number of threads does not matter.
constexpr std::size_t attemptsPerRound = 8;

} // namespace

Search::Search(const Problem& problem, const Options& options, const Progress& progress,
               const OnImproved& improved)
    : m_problem(&problem)
    , m_options(options)
    , m_progress(&progress)
    , m_improved(&improved)
    , m_interrupt(progress.stop, options.seconds)
    , m_context(problem) {
    std::vector<const BoardModel*> models;
    for (std::size_t b = 0; b < problem.boards.size(); ++b) {
        m_models.push_back(std::make_unique<BoardModel>(problem, static_cast<int>(b)));
        models.push_back(m_models.back().get());
    }
    m_accounts = std::make_unique<Accounts>(m_context, models);
    m_values = firstValues();
}

bool Search::isOver() const {
    return (m_options.work > 0 && m_work >= m_options.work) || m_interrupt.isCalled();
}

Values Search::firstValues() const {
    // The price of an average square metre of lumber, twice over: about half of it becomes waste. Long and
    // wide blanks find fewer places, so they are worth more for their size.
    double cost = 0;
    double area = 0;
    for (const auto& model : m_models) {
        cost += static_cast<double>(model->board().cost);
        area += model->outlineArea();
    }
    const double perArea = area > 0 && cost > 0 ? 2 * cost / area : 1e-12;
    double longest = 1;
    for (const Kind& kind : m_problem->kinds) {
        longest = std::max(longest, static_cast<double>(kind.length));
    }
    Values values;
    for (const Kind& kind : m_problem->kinds) {
        const double length = static_cast<double>(kind.length);
        const double worth = perArea * length * (1 + 0.5 * length / longest);
        values.each.push_back(
            kind.isPool ? 0 : static_cast<Cost>(worth * static_cast<double>(kind.width)));
        values.perMetre.push_back(
            kind.isPool ? static_cast<Cost>(worth * static_cast<double>(nanometresPerMetre)) : 0);
    }
    return values;
}

bool Search::prepare(const Fineness& fineness) {
    std::vector<std::unique_ptr<BoardMenu>> menus(m_problem->boards.size());
    const bool done = runItems(
        menus.size(), m_options.threads,
        [&](std::size_t b) {
            menus[b] = std::make_unique<BoardMenu>(m_context, *m_models[b], fineness);
        },
        m_interrupt);
    if (!done) {
        return false;
    }
    m_menus = std::move(menus);
    m_stock = {&m_context, m_accounts.get(), {}};
    for (const auto& menu : m_menus) {
        m_stock.menus.push_back(menu.get());
        m_work += menu->preparation();
    }
    return true;
}

void Search::offer(Solution solution) {
    if (m_hasBest && solution.value >= m_best.value) {
        return;
    }
    m_best = std::move(solution);
    m_best.work = m_work;
    m_hasBest = true;
    if (m_progress->report) {
        ProgressReport report;
        report.stage = "Improving the plan";
        for (std::size_t k = 0; k < m_problem->kinds.size(); ++k) {
            report.demanded += m_problem->kinds[k].demand;
            report.placed += m_problem->kinds[k].demand - m_best.unplaced[k];
        }
        report.seconds = m_interrupt.secondsSpent();
        m_progress->report(report);
    }
    if (*m_improved) {
        (*m_improved)(m_best);
    }
}

bool Search::buildWhole() {
    const std::size_t count = m_menus.size();
    std::vector<Offer> offers(count);
    std::vector<std::int64_t> work(count, 0);
    const bool done = runItems(
        count, m_options.threads,
        [&](std::size_t b) {
            offers[b] = bestWithin(m_stock, b, m_values, m_accounts->demand(), m_interrupt,
                                   work[b]);
        },
        m_interrupt);
    if (!done && m_hasBest) {
        return false;
    }
    m_work = std::accumulate(work.begin(), work.end(), m_work);
    std::vector<std::size_t> boards(count);
    std::iota(boards.begin(), boards.end(), std::size_t{0});
    Construction made = construct(m_stock, m_values, m_accounts->demand(), boards, &offers,
                                  m_interrupt);
    m_work += made.work;
    offer(m_accounts->settle(std::move(made.patterns)));
    return true;
}

Search::Attempt Search::attempt(std::uint64_t number) const {
    Random random(m_options.seed * 0x9E3779B97F4A7C15ULL + number);
    Values values = m_values;
    for (std::size_t k = 0; k < values.each.size(); ++k) {
        const std::int64_t percent = random.between(75, 133);
        values.each[k] = values.each[k] * percent / 100;
        values.perMetre[k] = values.perMetre[k] * percent / 100;
    }
    std::vector<std::size_t> used(m_best.patterns.size());
    std::iota(used.begin(), used.end(), std::size_t{0});
    random.shuffle(used);
    const std::size_t freed = std::min(used.size(), 2 + random.below(3));

    std::vector<bool> kept(m_menus.size(), false);
    std::vector<Pattern> patterns;
    Demand open = m_accounts->demand();
    std::vector<std::size_t> boards;
    for (std::size_t i = 0; i < used.size(); ++i) {
        const Pattern& pattern = m_best.patterns[used[i]];
        const auto board = static_cast<std::size_t>(pattern.board);
        kept[board] = true;
        if (i < freed) {
            boards.push_back(board);
            continue;
        }
        const Demand yield = m_accounts->yieldOf(pattern);
        for (std::size_t k = 0; k < open.open.size(); ++k) {
            open.open[k] -= yield.open[k];
        }
        patterns.push_back(pattern);
    }
    std::vector<std::size_t> untouched;
    for (std::size_t b = 0; b < kept.size(); ++b) {
        if (!kept[b]) {
            untouched.push_back(b);
        }
    }
    random.shuffle(untouched);
    untouched.resize(std::min<std::size_t>(untouched.size(), 4));
    boards.insert(boards.end(), untouched.begin(), untouched.end());
    std::sort(boards.begin(), boards.end());

    Construction made = construct(m_stock, values, open, boards, nullptr, m_interrupt);
    Attempt result;
    result.work = made.work;
    if (m_interrupt.isCalled()) {
        return result;
    }
    for (Pattern& pattern : made.patterns) {
        patterns.push_back(std::move(pattern));
    }
    result.solution = m_accounts->settle(std::move(patterns));
    result.made = true;
    return result;
}

void Search::improve() {
    std::uint64_t number = 1;
    while (!isOver()) {
        std::vector<Attempt> attempts(attemptsPerRound);
        const bool done = runItems(
            attempts.size(), m_options.threads,
            [&](std::size_t i) { attempts[i] = attempt(number + i); },
            m_interrupt);
        if (!done) {
            break;
        }
        number += attempts.size();
        for (Attempt& made : attempts) {
            m_work += made.work;
        }
        for (Attempt& made : attempts) {
            if (made.made) {
                offer(std::move(made.solution));
            }
        }
    }
}

Solution Search::run() {
    m_best.unplaced.assign(m_problem->kinds.size(), 0);
    if (prepare(Fineness::quick())) {
        buildWhole();
        if (!isOver() && prepare(Fineness::usual()) && buildWhole()) {
            improve();
        }
    }
    if (!m_hasBest) {
        m_best = m_accounts->settle({});
    }
    m_best.work = m_work;
    return std::move(m_best);
}

} // namespace stavewright::cutting
