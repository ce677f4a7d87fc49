#include "core/cutting/Search.h"

#include <algorithm>
#include <array>
#include <functional>
#include <iterator>
#include <numeric>

#include "core/cutting/BoardMenu.h"
#include "core/cutting/ClearFill.h"
#include "core/cutting/ClearStock.h"
#include "core/cutting/Groups.h"
#include "core/cutting/LatticeMenu.h"
#include "core/cutting/PlaceMenu.h"
#include "core/cutting/Random.h"
#include "core/cutting/Remix.h"
#include "core/cutting/SmallJob.h"
#include "core/cutting/WholeMix.h"
#include "core/cutting/Workers.h"

namespace stavewright::cutting {

namespace {

/// Attempts judged together; fixed, so that the number of threads does not matter.
constexpr std::size_t attemptsPerRound = 4;
/// Counted for every attempt, so that a limit in work ends even a search that finds nothing to do.
constexpr std::int64_t leastWork = 1'000;
/// Boards asked at a time for the first plan; fixed for the same reason.
constexpr std::size_t boardsAtOnce = 2;
/// Walks among known sections, side by side; fixed for the same reason.
constexpr std::size_t walksPerRound = 8;
/// Steps of a walk: so many for each section that is known, and at most.
constexpr std::size_t stepsPerSection = 10;
constexpr std::size_t mostSteps = 2'000;
/// Prices drawn at random for a round of improvement, and how far off they are, in percent.
constexpr int drawsPerRound = 16;
constexpr std::int64_t drawnOff = 20;
/// What the mix in fractions has too much of is still worth so many parts of the first guess.
constexpr Cost partsOfGuess = 5;
/// A column must promise at least this much (a hundredth of the currency).
constexpr double leastGain = 100;
/// Of solving a small job to the end; about a third of a second.
constexpr std::int64_t mostWorkPerBoard = 20'000'000;
/// Unfinished patterns kept side by side when a single clear board is filled.
constexpr std::size_t mostFillWidth = 4'000;
/// Rounds of asking for the bound, and how often improving the plan is put off for them.
constexpr int roundsOfProof = 3;
constexpr int timesProved = 6;
/// Rounds without a better plan before the bounds are asked.
constexpr int roundsStill = 2;
/// Nodes times columns that a mix of whole patterns may take: between rounds, and while the bound
/// is looked for.
constexpr std::size_t shortMix = 40'000;
constexpr std::size_t firstMix = 20'000;
constexpr std::size_t longMix = 100'000;
constexpr int fewestNodes = 200;
constexpr int mostNodes = 6'000;
/// In a turned frame a section is longer than its blanks by about the skew of its crosscuts.
constexpr Nm turnedRoom = 100'000;

/// Exact where that is quick enough to be asked again and again.
std::unique_ptr<BoardPricing> thoroughMenu(const Context& context, const BoardModel& model,
                                           const Fineness& fineness) {
    constexpr std::int64_t quick = 20'000;
    if (std::unique_ptr<PlaceMenu> exact = PlaceMenu::of(context, model);
        exact && exact->preparation() <= quick) {
        return exact;
    }
    return std::make_unique<BoardMenu>(context, model, fineness);
}

} // namespace

Search::Search(const Problem& problem, const Options& options, const Progress& progress,
               const OnImproved& improved)
    : m_problem(&problem)
    , m_options(options)
    , m_progress(&progress)
    , m_improved(&improved)
    , m_interrupt(progress.stop, options.seconds)
    , m_context(problem)
    , m_columns(problem.boards.size()) {
    for (std::size_t b = 0; b < problem.boards.size(); ++b) {
        m_models.push_back(std::make_unique<BoardModel>(problem, static_cast<int>(b)));
    }
    m_accounts = std::make_unique<Accounts>(m_context, models());
    m_prover = std::make_unique<Prover>(m_context, *m_accounts, models(), options.threads);
    m_store = std::make_unique<SectionStore>(m_context, *m_accounts, models());
    m_shares.assign(problem.boards.size(), 0);
    m_estimate = firstValues();
    m_values = m_estimate;
}

std::vector<const BoardModel*> Search::models() const {
    std::vector<const BoardModel*> models;
    models.reserve(m_models.size());
    for (const auto& model : m_models) {
        models.push_back(model.get());
    }
    return models;
}

bool Search::isOver() const {
    return (m_options.work > 0 && m_work >= m_options.work) || m_interrupt.isCalled();
}

Values Search::firstValues() const {
    // The price of an average square metre of lumber, twice over: about half of it becomes waste.
    // Long and wide blanks find fewer places, so they are worth more for their size.
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
        if (kind.isPool) {
            // A stave of the panel's average width is worth its area; narrower ones less, because a
            // panel may have only so many.
            const double average = static_cast<double>(kind.netWanted) / std::max(1, kind.most);
            values.each.push_back(static_cast<Cost>(-0.2 * worth * average));
            values.perMetre.push_back(
                static_cast<Cost>(1.2 * worth * static_cast<double>(nanometresPerMetre)));
        } else {
            values.each.push_back(static_cast<Cost>(worth * static_cast<double>(kind.width)));
            values.perMetre.push_back(0);
        }
    }
    return values;
}

bool Search::prepare(const Fineness* fineness) {
    std::vector<std::unique_ptr<BoardPricing>> menus(m_problem->boards.size());
    const bool done = runItems(
        menus.size(), m_options.threads,
        [&](std::size_t b) {
            if (fineness == nullptr) {
                menus[b] = std::make_unique<LatticeMenu>(m_context, *m_models[b]);
            } else {
                menus[b] = thoroughMenu(m_context, *m_models[b], *fineness);
            }
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
    m_best.bound = m_prover->bound();
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
            offers[b] =
                bestWithin(m_stock, b, m_values, m_accounts->demand(), m_interrupt, work[b]);
        },
        m_interrupt);
    if (!done && m_hasBest) {
        return false;
    }
    m_work = std::accumulate(work.begin(), work.end(), m_work);
    std::vector<std::size_t> boards(count);
    std::iota(boards.begin(), boards.end(), std::size_t{0});
    Construction made = construct(m_stock, m_values, m_accounts->demand(), boards, &offers,
                                  {boardsAtOnce, m_options.threads}, m_interrupt);
    m_work += made.work;
    offer(complete(m_stock, m_values, std::move(made.patterns), boards, m_interrupt, m_work));
    return true;
}

bool Search::generateColumns(int rounds) {
    const std::size_t count = m_menus.size();
    // Where something cannot be had, a little more of it is worth all that leaving it out costs.
    const bool isShort = std::any_of(m_best.unplaced.begin(), m_best.unplaced.end(),
                                     [](int unplaced) { return unplaced > 0; });
    Master master(m_context, count, m_accounts->demand(), isShort ? nullptr : &m_estimate);
    // True when the column promises a gain at the master's duals.
    const auto take = [&](Pattern pattern, const Master* asked) {
        Column column = columnOf(m_context, *m_accounts,
                                 *m_models[static_cast<std::size_t>(pattern.board)], pattern);
        if (asked != nullptr && asked->gainOf(column) <= leastGain) {
            return false;
        }
        if (!m_columns.add(std::move(pattern), column)) {
            return false;
        }
        master.add(m_columns.size() - 1, column);
        return true;
    };
    for (std::size_t c = 0; c < m_columns.size(); ++c) {
        master.add(c, m_columns.column(c));
    }
    for (const Pattern& pattern : m_best.patterns) {
        take(pattern, nullptr);
    }
    // The master's duals leap about; prices between them and the best prices so far need fewer
    // rounds.
    Values centre = m_values;
    double centreBound = 0;
    int pull = 6; // tenths of the centre in the prices
    for (int round = 0; round < rounds && !isOver(); ++round) {
        if (!master.solve()) {
            return true; // the values stay as they are
        }
        const Values values = between(master.values(), centre, pull);
        std::vector<std::int64_t> work(count, 0);
        std::vector<Pattern> patterns(count);
        std::vector<Cost> worth(count, 0);
        const bool done = runItems(
            count, m_options.threads,
            [&](std::size_t b) {
                const BoardChoice choice = m_menus[b]->rebase(values, m_interrupt, work[b]);
                worth[b] = choice.value;
                patterns[b] = m_menus[b]->cut(values, choice);
            },
            m_interrupt);
        if (!done) {
            return false;
        }
        m_work = std::accumulate(work.begin(), work.end(), m_work);
        // Sum of demand times dual, and per board the least reduced cost when negative.
        double bound = 0;
        for (std::size_t k = 0; k < m_problem->kinds.size(); ++k) {
            const Kind& kind = m_problem->kinds[k];
            const auto open =
                static_cast<double>(std::max<std::int64_t>(0, m_accounts->demand().open[k]));
            bound += kind.isPool
                         ? static_cast<double>(values.perMetre[k]) * open /
                                   static_cast<double>(nanometresPerMetre) +
                               static_cast<double>(values.each[k]) *
                                   static_cast<double>(values.each[k] < 0
                                                           ? m_accounts->demand().staves[k]
                                                           : std::max<std::int64_t>(
                                                                 0, m_accounts->demand().fewest[k]))
                         : static_cast<double>(values.each[k]) * open;
        }
        bool anyBetter = false;
        for (std::size_t b = 0; b < count; ++b) {
            const Cost price = m_models[b]->price();
            bound += static_cast<double>(std::min<Cost>(0, price - worth[b]));
            if (!patterns[b].sections.empty()) {
                anyBetter = take(std::move(patterns[b]), &master) || anyBetter;
            }
        }
        if (round == 0 || bound > centreBound) {
            centre = values;
            centreBound = bound;
        }
        const bool isNear = master.value() - centreBound < 0.004 * master.value();
        if (isNear || (!anyBetter && pull == 0)) {
            break; // what the menus know is used up
        }
        if (!anyBetter) {
            pull = 0; // the prices between hide it: ask at the duals themselves
        } else {
            pull = 6;
        }
    }
    m_values = centre;
    if (master.solve()) {
        m_shares.assign(count, 0);
        for (const auto& [share, id] : master.shares()) {
            m_shares[m_columns.column(id).board] += share;
        }
        if (!m_boundAlone) {
            diveWhole();
            offerMix(bestMix(shortMix));
            mixSections();
        }
    }
    return !m_interrupt.isCalled();
}

namespace {

/// What a section may need beyond what a lattice gives it, whose lengths are rounded down.
constexpr Nm roomForRounding = 10'000'000;

/// `x1`, or the end of the free stretch in which `x0` lies.
Nm endWithin(const BoardModel& model, Nm x0, Nm x1) {
    for (const Stretch& stretch : model.freeStretches()) {
        if (stretch.from.inNanometres() <= x0 && x0 < stretch.to.inNanometres()) {
            return std::min(x1, stretch.to.inNanometres());
        }
    }
    return x1;
}

/// The sections of a chain, each as it stands and as short as what is best cut from it needs, one
/// behind the other.
std::vector<BoundSection> sectionsToCut(const Context& context, const BoardModel& model,
                                        const Values& values,
                                        const std::vector<BoundSection>& chain,
                                        const Interrupt& interrupt, std::int64_t& work) {
    const Limits& limits = context.problem->limits;
    std::vector<BoundSection> sections;
    Nm from = 0;
    for (const BoundSection& found : chain) {
        if (interrupt.isCalled()) {
            return {};
        }
        BoundSection section = found;
        section.x0 = std::max(found.x0, from);
        section.x1 = endWithin(model, found.x0, found.x1 + roomForRounding);
        if (section.x1 - section.x0 < context.shortest) {
            continue;
        }
        const SectionMenu menu(context, model, section.x0, section.x1, Fineness::fine(), &found);
        const SectionChoice choice = menu.best(values, work);
        if (choice.isEmpty) {
            continue;
        }
        sections.push_back(section);
        Nm last = 0;
        for (const PlacedStrip& strip : menu.cut(values, choice).strips) {
            last = std::max(last, strip.blanks.back().rect.x1.inNanometres());
        }
        const Nm needed =
            std::max(last, limits.leastFacedLength) + (menu.shape().isParallel() ? 0 : turnedRoom);
        from = std::min(section.x1, section.x0 + needed);
        if (from < section.x1) {
            section.x1 = from;
            sections.push_back(section);
        }
        from += limits.crosscutKerf;
    }
    return sections;
}

} // namespace

bool Search::prove(Proof proof, Made& all) {
    for (; m_learned < m_columns.size(); ++m_learned) {
        m_prover->learn(m_columns.column(m_learned));
    }
    // What a bound rests on is tried in earnest: what a menu lacks shows there.
    std::vector<Made> made(m_menus.size());
    const auto tryChain = [&](std::size_t b, const Values& prices, const BoundChain& chain,
                              std::int64_t& work) -> std::optional<Column> {
        m_menus[b]->widen(
            sectionsToCut(m_context, *m_models[b], prices, chain.sections, m_interrupt, work));
        Pattern pattern = m_menus[b]->cut(prices, m_menus[b]->best(prices, m_interrupt, work));
        if (pattern.sections.empty() || m_interrupt.isCalled()) {
            return std::nullopt;
        }
        Column column = columnOf(m_context, *m_accounts, *m_models[b], pattern);
        made[b].emplace_back(std::move(pattern), column);
        return column;
    };
    const int rounds = proof == Proof::first ? 1 : roundsOfProof;
    const bool done =
        m_prover->raise(rounds, tryChain, m_interrupt, m_work) &&
        m_prover->raiseWhole(proof == Proof::whole ? 1 : 0, tryChain, m_interrupt, m_work);
    for (Made& ofBoard : made) {
        all.insert(all.end(), std::make_move_iterator(ofBoard.begin()),
                   std::make_move_iterator(ofBoard.end()));
    }
    return done;
}

void Search::takeMade(Made made) {
    for (auto& [pattern, column] : made) {
        m_columns.add(std::move(pattern), std::move(column));
    }
    m_learned = m_columns.size(); // the prover made the new ones
}

Search::Proof Search::proofAt(int times) {
    return times == 0 ? Proof::first : times == 1 ? Proof::close : Proof::whole;
}

bool Search::proveAndMix(Proof proof) {
    Made made;
    std::vector<std::size_t> mix;
    bool proved = false;
    const bool done = runItems(
        2, m_options.threads,
        [&](std::size_t i) {
            if (i == 0) {
                proved = prove(proof, made);
            } else {
                mix = bestMix(proof == Proof::first ? firstMix : longMix);
            }
        },
        m_interrupt);
    takeMade(std::move(made));
    offerMix(mix);
    return done && proved;
}

void Search::diveWhole() {
    PartWish wish;
    wish.open = m_accounts->asked();
    wish.values = m_values;
    wish.diveRounds = 1;
    wish.boards.resize(m_menus.size());
    std::iota(wish.boards.begin(), wish.boards.end(), std::size_t{0});
    // Larger steps are quicker, smaller ones come closer.
    constexpr std::array<int, 2> steps = {4, 9};
    std::vector<PartResult> results(steps.size());
    const bool done = runItems(
        steps.size(), m_options.threads,
        [&](std::size_t i) {
            results[i] = divePart(m_stock, m_columns, wish, steps[i], m_interrupt);
        },
        m_interrupt);
    if (!done) {
        return;
    }
    for (PartResult& result : results) {
        m_work += result.work;
        remember(result);
        offer(
            complete(m_stock, m_values, std::move(result.dived), wish.boards, m_interrupt, m_work));
    }
}

Search::Attempt Search::attempt(std::uint64_t number) const {
    Random random(m_options.seed * 0x9E3779B97F4A7C15ULL + number);
    // At random, but rather boards on which the plan and the mix in fractions disagree.
    const auto inOrder = [&](std::vector<std::size_t> items, const auto& likelihood) {
        std::vector<std::pair<double, std::size_t>> keyed;
        keyed.reserve(items.size());
        for (const std::size_t item : items) {
            keyed.emplace_back(likelihood(item) + static_cast<double>(random.below(1000)) / 1000,
                               item);
        }
        std::sort(keyed.begin(), keyed.end(), std::greater<>());
        for (std::size_t i = 0; i < items.size(); ++i) {
            items[i] = keyed[i].second;
        }
        return items;
    };
    std::vector<std::size_t> used(m_best.patterns.size());
    std::iota(used.begin(), used.end(), std::size_t{0});
    // Now and then one board is cut for a group that is apart; what gave parts of it is freed.
    constexpr std::uint64_t oneInGathers = 4;
    const std::optional<Gathering> gathering =
        number % oneInGathers == 0 ? gatheringFor(*m_problem, m_best.patterns, random)
                                   : std::nullopt;
    const auto isConcerned = [&](const Pattern& pattern) {
        return gathering && (static_cast<std::size_t>(pattern.board) == gathering->board ||
                             holds(*m_problem, pattern, gathering->group));
    };
    used = inOrder(std::move(used), [&](std::size_t i) {
        return 1 - m_shares[static_cast<std::size_t>(m_best.patterns[i].board)] +
               (isConcerned(m_best.patterns[i]) ? 10 : 0);
    });
    std::size_t freed = 3 + random.below(6);
    freed = std::max<std::size_t>(
        freed, static_cast<std::size_t>(
                   std::count_if(m_best.patterns.begin(), m_best.patterns.end(), isConcerned)));
    freed = std::min(used.size(), freed);

    std::vector<bool> taken(m_menus.size(), false);
    std::vector<Pattern> patterns;
    double keptCost = 0;
    PartWish wish;
    wish.open = m_accounts->asked();
    wish.values = m_values;
    std::int64_t workOfGathering = 0;
    if (gathering) {
        taken[gathering->board] = true;
        Offer offer =
            bestWithin(m_stock, gathering->board, favouring(*m_problem, m_values, gathering->group),
                       wish.open, m_interrupt, workOfGathering);
        if (m_interrupt.isCalled()) {
            return {};
        }
        if (!offer.pattern.sections.empty()) {
            wish.open -= m_accounts->yieldOf(offer.pattern);
            keptCost += static_cast<double>(
                columnOf(m_context, *m_accounts, *m_models[gathering->board], offer.pattern).cost);
            patterns.push_back(std::move(offer.pattern));
        }
    }
    for (std::size_t i = 0; i < used.size(); ++i) {
        const Pattern& pattern = m_best.patterns[used[i]];
        const auto board = static_cast<std::size_t>(pattern.board);
        if (gathering && board == gathering->board) {
            continue; // it has its pattern
        }
        taken[board] = true;
        if (i < freed) {
            wish.boards.push_back(board);
            continue;
        }
        wish.open -= m_accounts->yieldOf(pattern);
        keptCost +=
            static_cast<double>(columnOf(m_context, *m_accounts, *m_models[board], pattern).cost);
        patterns.push_back(pattern);
    }
    std::vector<std::size_t> untouched;
    for (std::size_t b = 0; b < taken.size(); ++b) {
        if (!taken[b]) {
            untouched.push_back(b);
        }
    }
    untouched = inOrder(std::move(untouched), [&](std::size_t b) { return m_shares[b]; });
    untouched.resize(std::min<std::size_t>(untouched.size(), 8));
    wish.boards.insert(wish.boards.end(), untouched.begin(), untouched.end());
    std::sort(wish.boards.begin(), wish.boards.end());

    wish.marginPercent = static_cast<int>(random.below(13));
    wish.rounds = 1;
    wish.below = static_cast<double>(m_best.value) - keptCost - 1;
    for (std::size_t b = 0; b < m_menus.size(); ++b) {
        wish.dearness.push_back(random.between(90, 110));
    }

    wish.kept = patterns;
    Attempt result;
    result.part = solvePart(m_stock, m_columns, wish, m_interrupt);
    result.part.work += workOfGathering;
    if (m_interrupt.isCalled()) {
        return result;
    }
    for (const std::vector<Pattern>* proposal : {&result.part.patterns, &result.part.dived}) {
        std::vector<Pattern> whole = patterns;
        whole.insert(whole.end(), proposal->begin(), proposal->end());
        Solution solution = complete(m_stock, m_values, std::move(whole), wish.boards, m_interrupt,
                                     result.part.work);
        if (!result.made || solution.value < result.solution.value) {
            result.solution = std::move(solution);
            result.made = true;
        }
    }
    return result;
}

void Search::remember(PartResult& part) {
    for (std::size_t i = 0; i < part.newPatterns.size(); ++i) {
        m_columns.add(std::move(part.newPatterns[i]), std::move(part.newColumns[i]));
    }
}

std::vector<std::size_t> Search::bestMix(std::size_t nodeColumns) const {
    std::vector<std::size_t> ids(m_columns.size());
    std::iota(ids.begin(), ids.end(), std::size_t{0});
    const auto nodes = static_cast<int>(nodeColumns / (m_columns.size() + 1));
    return wholeMix(m_context, m_columns, ids, {m_accounts->asked(), m_accounts.get(), {}},
                    {std::clamp(nodes, fewestNodes, mostNodes), static_cast<double>(m_best.value)},
                    m_interrupt);
}

void Search::offerMix(const std::vector<std::size_t>& ids) {
    if (ids.empty() || m_interrupt.isCalled()) {
        return;
    }
    std::vector<Pattern> patterns;
    patterns.reserve(ids.size());
    for (const std::size_t id : ids) {
        patterns.push_back(m_columns.pattern(id));
    }
    std::vector<std::size_t> boards(m_menus.size());
    std::iota(boards.begin(), boards.end(), std::size_t{0});
    offer(complete(m_stock, m_values, std::move(patterns), boards, m_interrupt, m_work));
}

void Search::drawColumns(int draws) {
    std::vector<Values> values;
    Random random(m_options.seed * 0xD1B54A32D192ED03ULL + m_draws++);
    for (int draw = 0; draw < draws; ++draw) {
        Values drawn = m_values;
        for (std::size_t k = 0; k < drawn.each.size(); ++k) {
            const std::int64_t percent = random.between(100 - drawnOff, 100 + drawnOff);
            drawn.each[k] = drawn.each[k] * percent / 100;
            drawn.perMetre[k] = drawn.perMetre[k] * percent / 100;
        }
        values.push_back(std::move(drawn));
    }
    const std::size_t count = m_menus.size();
    std::vector<Pattern> patterns(count * values.size());
    std::vector<std::int64_t> work(patterns.size(), 0);
    const bool done = runItems(
        patterns.size(), m_options.threads,
        [&](std::size_t i) {
            const Values& drawn = values[i / count];
            const BoardPricing& menu = *m_menus[i % count];
            patterns[i] = menu.cut(drawn, menu.best(drawn, m_interrupt, work[i]));
        },
        m_interrupt);
    if (!done) {
        return;
    }
    m_work = std::accumulate(work.begin(), work.end(), m_work);
    for (Pattern& pattern : patterns) {
        if (!pattern.sections.empty()) {
            Column column = columnOf(m_context, *m_accounts,
                                     *m_models[static_cast<std::size_t>(pattern.board)], pattern);
            m_columns.add(std::move(pattern), std::move(column));
        }
    }
}

void Search::mixSections() {
    bool isNew = m_best.value != m_mixedFrom;
    for (; m_stored < m_columns.size(); ++m_stored) {
        isNew = m_store->add(m_columns.pattern(m_stored)) || isNew;
    }
    if (!isNew) {
        return; // the last walks went everywhere from here
    }
    m_mixedFrom = m_best.value;
    RemixWish wish;
    wish.values = m_values;
    for (std::size_t k = 0; k < m_problem->kinds.size(); ++k) {
        if (!m_problem->kinds[k].isPool) {
            wish.values.each[k] = std::max(wish.values.each[k], m_estimate.each[k] / partsOfGuess);
        }
        wish.values.perMetre[k] =
            std::max(wish.values.perMetre[k], m_estimate.perMetre[k] / partsOfGuess);
    }
    wish.open = m_accounts->demand();
    wish.asked = m_accounts->asked();
    wish.from = m_best.patterns;
    for (const Pattern& pattern : wish.from) {
        m_store->add(pattern);
        wish.columns.push_back(columnOf(
            m_context, *m_accounts, *m_models[static_cast<std::size_t>(pattern.board)], pattern));
    }
    std::size_t known = 0;
    for (std::size_t b = 0; b < m_store->boards(); ++b) {
        known += m_store->sectionsOf(b);
    }
    const auto steps = static_cast<int>(std::min(mostSteps, stepsPerSection * known));
    std::vector<Remixed> remixed(walksPerRound);
    const bool done = runItems(
        remixed.size(), m_options.threads,
        [&](std::size_t i) {
            remixed[i] =
                remix(*m_store, *m_problem, *m_accounts, wish,
                      m_options.seed * 0x9E3779B97F4A7C15ULL + m_walks + i, steps, m_interrupt);
        },
        m_interrupt);
    m_walks += remixed.size();
    if (!done) {
        return;
    }
    for (Remixed& mixed : remixed) {
        m_work += mixed.work;
        for (std::vector<Pattern>& plan : mixed.plans) {
            for (const Pattern& pattern : plan) {
                m_columns.add(pattern, columnOf(m_context, *m_accounts,
                                                *m_models[static_cast<std::size_t>(pattern.board)],
                                                pattern));
            }
            offer(m_accounts->settle(std::move(plan)).solution);
        }
    }
}

void Search::improve(int rounds) {
    for (int round = 0; (rounds == 0 || round < rounds) && !isOver(); ++round) {
        drawColumns(drawsPerRound);
        mixSections();
        std::vector<Attempt> attempts(attemptsPerRound);
        const bool done = runItems(
            attempts.size(), m_options.threads,
            [&](std::size_t i) { attempts[i] = attempt(m_attempts + i); }, m_interrupt);
        if (!done) {
            break;
        }
        m_attempts += attempts.size();
        for (Attempt& made : attempts) {
            m_work += made.part.work + leastWork;
            remember(made.part);
        }
        for (Attempt& made : attempts) {
            if (made.made) {
                offer(std::move(made.solution));
            }
        }
    }
}

bool Search::trySmall() {
    const std::int64_t most =
        m_options.work > 0 ? std::min(mostWorkPerBoard, m_options.work - m_work) : mostWorkPerBoard;
    auto plan = solveSmall(m_context, models(), m_accounts->demand(), most, m_options.threads,
                           m_interrupt, m_work);
    if (!plan) {
        return false;
    }
    Solution solution = m_accounts->settle(std::move(plan->patterns)).solution;
    const bool isBest = solution.value <= plan->value;
    offer(std::move(solution));
    return isBest;
}

bool Search::mixEqualBoards() {
    ClearStock stock(m_context, models(), m_accounts->demand());
    if (!stock.isUsable()) {
        return false;
    }
    stock.solve(m_options.work > 0 ? m_options.work - m_work : 0, m_interrupt,
                [&](std::vector<Pattern> patterns) {
                    offer(m_accounts->settle(std::move(patterns)).solution);
                });
    m_work += stock.work();
    return stock.isProved();
}

bool Search::fillClearBoard() {
    if (m_models.size() != 1) {
        return false;
    }
    const auto board = ClearBoard::of(m_context, *m_models[0]);
    if (!board || board->items().size() > ClearFill::mostItems) {
        return false;
    }
    std::vector<Cost> values;
    std::vector<int> limits;
    for (const ClearItem& item : board->items()) {
        const auto k = static_cast<std::size_t>(item.kind);
        values.push_back(m_problem->kinds[k].penaltyUnplaced);
        limits.push_back(static_cast<int>(std::max<std::int64_t>(0, m_accounts->demand().open[k])));
    }
    ClearFill fill(*board, std::move(values), std::move(limits));
    if (!fill.isUsable()) {
        return false;
    }
    fill.lowerPrices(100, m_interrupt);
    std::int64_t counted = 0;
    for (std::size_t width = 4; width <= mostFillWidth && !isOver(); width *= 3) {
        fill.search(width, m_interrupt);
        m_work += fill.work() - counted;
        counted = fill.work();
        offer(m_accounts->settle({board->cut(fill.best())}).solution);
        if (fill.isProved()) {
            return true;
        }
    }
    return false;
}

void Search::improveUntilStill() {
    for (int still = 0; still < roundsStill && !isOver();) {
        const Cost before = m_best.value;
        improve(1);
        still = m_best.value < before ? 0 : still + 1;
    }
}

std::optional<Cost> Search::boundAlone() {
    // What a round must gain at least for another one to be worth its time, in parts of the bound.
    constexpr Cost leastRaise = 500;
    m_boundAlone = true;
    const Fineness quick = Fineness::quick();
    if (!prepare(nullptr)) {
        return std::nullopt;
    }
    buildWhole();
    if (isOver() || !prepare(&quick) || !generateColumns(12)) {
        return std::nullopt;
    }
    m_prover->beginBelow(m_values);
    for (int times = 0; times < timesProved && !isOver(); ++times) {
        const Cost before = m_prover->bound().value_or(0);
        Made made;
        const bool done = prove(proofAt(times), made);
        takeMade(std::move(made));
        const Cost raised = m_prover->bound().value_or(0) - before;
        if (!done || (times > 1 && raised < before / leastRaise) || !generateColumns(6)) {
            break;
        }
    }
    return m_prover->bound();
}

Solution Search::run() {
    m_best.unplaced.assign(m_problem->kinds.size(), 0);
    const Fineness quick = Fineness::quick();
    const Fineness usual = Fineness::usual();
    // Ways that may end with proof, the clear boards first: they have a plan at once.
    // What they prove does not count groups.
    if (fillClearBoard() || (mixEqualBoards() && m_best.groupsApart == 0)) {
        m_best.work = m_work;
        return std::move(m_best);
    }
    if (prepare(nullptr)) {
        buildWhole();
        if (!isOver() && trySmall()) {
            m_best.work = m_work;
            return std::move(m_best);
        }
        if (!isOver() && prepare(&quick) && generateColumns(12)) {
            if (!isOver() && prepare(&usual) && generateColumns(20)) {
                drawColumns(drawsPerRound);
                mixSections();
                m_prover->beginBelow(m_values);
                // Each time the bounds know the prices better, and the menus the sections.
                for (int times = 0; times < timesProved && !isOver(); ++times) {
                    const Proof proof = proofAt(times);
                    if (!proveAndMix(proof) || !generateColumns(6)) {
                        break;
                    }
                    if (proof == Proof::first) {
                        improve(1);
                    } else {
                        improveUntilStill();
                    }
                }
                improve(0);
            }
        }
    }
    if (!m_hasBest) {
        m_best = m_accounts->settle({}).solution;
    }
    // Evened out it may be cheaper, and then whoever watches hears of it; else it is no dearer.
    Solution evened = m_accounts->evened(m_best);
    offer(evened);
    m_best = std::move(evened);
    m_best.bound = m_prover->bound();
    m_best.work = m_work;
    return std::move(m_best);
}

} // namespace stavewright::cutting
