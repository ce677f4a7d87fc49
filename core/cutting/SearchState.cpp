#include "core/cutting/SearchState.h"

#include <algorithm>
#include <numeric>

#include "core/cutting/AreaBound.h"
#include "core/cutting/BoardMenu.h"
#include "core/cutting/FewStock.h"
#include "core/cutting/FirstValues.h"
#include "core/cutting/LatticeMenu.h"
#include "core/cutting/PlaceMenu.h"
#include "core/cutting/Workers.h"

namespace stavewright::cutting {

namespace {

/// Sections that a board tells besides its best pattern, and with how many boards it does: with
/// more of them there is enough to choose from, and writing them out takes longer than it is worth.
constexpr std::size_t mostNear = 12;
constexpr std::size_t boardsThatTell = 16;

/// Exact where that is quick enough to be asked again and again.
std::unique_ptr<BoardPricing> thoroughMenu(const Context& context, const BoardModel& model,
                                           const Fineness& fineness, const Context* whole) {
    constexpr std::int64_t quick = 20'000;
    if (std::unique_ptr<PlaceMenu> exact = PlaceMenu::of(context, model);
        exact && exact->preparation() <= quick) {
        return exact;
    }
    return std::make_unique<BoardMenu>(context, model, fineness, whole);
}

} // namespace

SearchState::SearchState(const Problem& askedProblem, const Options& askedOptions,
                         const Progress& told, const OnImproved& onImproved)
    : problem(askedProblem)
    , options(askedOptions)
    , progress(told)
    , improved(onImproved)
    , interrupt(told.stop, askedOptions.seconds)
    , context(askedProblem)
    , columns(askedProblem.boards.size())
    , hasManyKinds(areMany(askedProblem)) {
    for (std::size_t b = 0; b < problem.boards.size(); ++b) {
        boards.push_back(std::make_unique<BoardModel>(problem, static_cast<int>(b)));
        m_models.push_back(boards.back().get());
    }
    accounts = std::make_unique<Accounts>(context, m_models);
    byArea = boundByArea(context, *accounts, m_models);
    shares.assign(boards.size(), 0);
    best.unplaced.assign(problem.kinds.size(), 0);
    estimate = firstValues(problem, m_models);
    values = estimate;
}

std::vector<std::size_t> SearchState::allBoards() const {
    std::vector<std::size_t> all(boards.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    return all;
}

Column SearchState::columnOf(const Pattern& pattern) const {
    return cutting::columnOf(context, *accounts, *boards[static_cast<std::size_t>(pattern.board)],
                             pattern);
}

void SearchState::learn(Pattern pattern) {
    Column column = columnOf(pattern);
    columns.add(std::move(pattern), std::move(column));
}

Values SearchState::flooredValues() const {
    constexpr Cost partsOfEstimate = 5;
    Values floored = values;
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        if (!problem.kinds[k].isPool) {
            floored.each[k] = std::max(floored.each[k], estimate.each[k] / partsOfEstimate);
        }
        floored.perMetre[k] = std::max(floored.perMetre[k], estimate.perMetre[k] / partsOfEstimate);
    }
    return floored;
}

bool SearchState::isOver() const {
    return (options.work > 0 && work >= options.work) || interrupt.isCalled();
}

std::vector<std::unique_ptr<FewKinds>> SearchState::drawFew() {
    const std::vector<double> worth = worthOpen(problem, flooredValues(), accounts->demand().open);
    Random random(options.seed * 0x9E3779B97F4A7C15ULL + m_drawn++);
    std::vector<std::unique_ptr<FewKinds>> few;
    for (std::size_t b = 0; b < problem.boards.size(); ++b) {
        few.push_back(std::make_unique<FewKinds>(
            problem, drawKinds(problem, worthOn(problem, *boards[b], worth), random)));
    }
    return few;
}

bool SearchState::prepare(const Fineness* fineness) {
    std::vector<std::unique_ptr<BoardPricing>> made(problem.boards.size());
    std::vector<std::unique_ptr<FewKinds>> few;
    if (fineness != nullptr && hasManyKinds) {
        few = drawFew();
    }
    const bool done = runItems(
        made.size(), options.threads,
        [&](std::size_t b) {
            if (fineness == nullptr) {
                made[b] = std::make_unique<LatticeMenu>(context, *boards[b]);
            } else {
                made[b] = few.empty()
                              ? thoroughMenu(context, *boards[b], *fineness, nullptr)
                              : thoroughMenu(few[b]->context, *boards[b], *fineness, &context);
                made[b]->tellNear(made.size() <= boardsThatTell ? mostNear : 0);
            }
        },
        interrupt);
    if (!done) {
        return false;
    }
    if (!few.empty() && m_rough.empty()) {
        m_rough = std::move(menus);
    }
    menus = std::move(made);
    m_few = std::move(few);
    stock = {&context, accounts.get(), {}, hasManyKinds && fineness == nullptr, {}};
    for (const auto& menu : m_rough) {
        stock.rough.push_back(menu.get());
    }
    for (const auto& menu : menus) {
        stock.menus.push_back(menu.get());
        work += menu->preparation();
    }
    return true;
}

Offer SearchState::bestFor(std::size_t board, const Values& asked, const Demand& open,
                           Random& random, std::int64_t& spent,
                           std::vector<SeenSections>* seen) const {
    if (!hasManyKinds) {
        return bestWithin(stock, board, asked, open, interrupt, spent, timesAsked, seen);
    }
    const FewStock few(*this, {board}, asked, open, random, spent);
    return bestWithin(few.stock(), board, asked, open, interrupt, spent);
}

void SearchState::offer(Solution solution) {
    if (hasBest && solution.value >= best.value) {
        return;
    }
    best = std::move(solution);
    best.bound = std::max(bound, byArea);
    best.work = work;
    hasBest = true;
    if (progress.report) {
        ProgressReport report;
        report.stage = "Improving the plan";
        for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
            report.demanded += problem.kinds[k].demand;
            report.placed += problem.kinds[k].demand - best.unplaced[k];
        }
        report.seconds = interrupt.secondsSpent();
        progress.report(report);
    }
    if (improved) {
        improved(best);
    }
}

} // namespace stavewright::cutting
