#include "core/cutting/Construct.h"

#include <algorithm>

#include "core/cutting/FewKinds.h"
#include "core/cutting/Surplus.h"
#include "core/cutting/Tighten.h"
#include "core/cutting/Workers.h"

namespace stavewright::cutting {

namespace {

/// So many blanks are few: worth filling a board section by section for.
constexpr std::int64_t fewBlanks = 12;

Values wantedOnly(Values values, const Demand& open) {
    for (std::size_t k = 0; k < open.open.size(); ++k) {
        if (open.open[k] <= 0) {
            values.each[k] = 0;
            values.perMetre[k] = 0;
        }
    }
    return values;
}

Cost priceOf(const BoardModel& model) {
    return model.hasFixed() ? 1 : std::max<Cost>(1, model.board().cost);
}

/// Few of the kinds that are wanted, where they are many.
Values fewWanted(const Stock& stock, std::size_t board, const Values& values, const Demand& open) {
    const Problem& problem = *stock.context->problem;
    const std::vector<double> worth =
        worthOn(problem, stock.menus[board]->model(), worthOpen(problem, values, open.open));
    const auto wanted = static_cast<std::uint64_t>(
        std::count_if(worth.begin(), worth.end(), [](double each) { return each > 0; }));
    Random random(board * 0x9E3779B97F4A7C15ULL + wanted);
    return only(values, drawKinds(problem, worth, random));
}

/// Always the section that gives most of what is still wanted, then the best of what is left of the
/// board beside it.
Offer sectionBySection(const Stock& stock, std::size_t board, const Values& values, Demand open,
                       const Interrupt& interrupt, std::int64_t& work) {
    const Problem& problem = *stock.context->problem;
    const BoardPricing& menu = *stock.menus[board];
    const auto kinds = open.open.size();
    Offer built;
    built.pattern.board = menu.model().index();
    built.yield.open.resize(kinds);
    built.yield.staves.resize(kinds);
    built.yield.fewest.resize(kinds);
    std::vector<Stretch> taken;
    while (!interrupt.isCalled()) {
        const Values wanted = wantedOnly(values, open);
        Pattern pattern = withoutSurplus(
            *stock.context, menu.model(),
            menu.cut(wanted, menu.bestBeside(taken, wanted, interrupt, work)), wanted, open);
        PlacedSection* most = nullptr;
        Cost mostValue = 0;
        Demand mostYield;
        for (PlacedSection& section : pattern.sections) {
            Demand yield = stock.accounts->yieldOf({pattern.board, {section}});
            const Cost value = wantedValue(problem, values, yield, open);
            if (value > mostValue) {
                most = &section;
                mostValue = value;
                mostYield = std::move(yield);
            }
        }
        if (most == nullptr) {
            break;
        }
        built.value += mostValue;
        strikeOut(*most, problem, open);
        tighten(problem, menu.model(), *most);
        mostYield = stock.accounts->yieldOf({pattern.board, {*most}});
        taken.push_back({Length::nanometres(most->x0), Length::nanometres(most->x1)});
        open -= mostYield;
        for (std::size_t k = 0; k < kinds; ++k) {
            built.yield.open[k] += mostYield.open[k];
            built.yield.staves[k] += mostYield.staves[k];
        }
        built.pattern.sections.push_back(std::move(*most));
    }
    std::sort(built.pattern.sections.begin(), built.pattern.sections.end(),
              [](const PlacedSection& a, const PlacedSection& b) { return a.x0 < b.x0; });
    return built;
}

} // namespace

Stock knowingAllKinds(const Stock& stock) {
    Stock all = stock;
    if (!stock.rough.empty()) {
        all.menus = stock.rough;
        all.rough.clear();
        all.asksForFew = true;
    }
    return all;
}

Cost wantedValue(const Problem& problem, const Values& values, const Demand& yield,
                 const Demand& open) {
    Cost value = 0;
    for (std::size_t k = 0; k < yield.open.size(); ++k) {
        const std::int64_t wanted =
            std::min(yield.open[k], std::max<std::int64_t>(0, open.open[k]));
        value += problem.kinds[k].isPool ? values.perMetre[k] * wanted / nanometresPerMetre
                                         : values.each[k] * wanted;
    }
    return value;
}

Offer bestWithin(const Stock& stock, std::size_t board, const Values& values, const Demand& open,
                 const Interrupt& interrupt, std::int64_t& work, int times,
                 std::vector<SeenSections>* seen) {
    const Problem& problem = *stock.context->problem;
    const BoardPricing& menu = *stock.menus[board];
    Values guess = wantedOnly(values, open);
    if (stock.asksForFew) {
        guess = fewWanted(stock, board, guess, open);
    }
    Offer best;
    for (int time = 0; time < times; ++time) {
        const BoardChoice choice = menu.best(guess, interrupt, work);
        if (choice.value <= 0) {
            break;
        }
        Offer offer;
        offer.pattern = menu.cut(guess, choice);
        if (seen != nullptr && !choice.near.empty()) {
            seen->push_back({board, guess, choice.near});
        }
        offer.yield = stock.accounts->yieldOf(offer.pattern);
        offer.value = wantedValue(problem, values, offer.yield, open);
        const auto takeIfBetter = [&](Offer&& made) {
            if (made.value > best.value) {
                best = std::move(made);
            }
        };
        bool tooMuch = false;
        for (std::size_t k = 0; k < open.open.size(); ++k) {
            // A pool may overshoot by a stave: the last one is trimmed.
            const Kind& kind = problem.kinds[k];
            const std::int64_t slack = kind.isPool ? kind.widest : 0;
            if (offer.yield.open[k] > open.open[k] + slack &&
                guess.each[k] + guess.perMetre[k] > 0) {
                tooMuch = true;
                const auto share = [&](Cost value) {
                    return static_cast<Cost>(static_cast<double>(value) *
                                             static_cast<double>(open.open[k]) /
                                             static_cast<double>(offer.yield.open[k]));
                };
                guess.each[k] = share(guess.each[k]);
                guess.perMetre[k] = share(guess.perMetre[k]);
            }
        }
        if (tooMuch) {
            Offer even;
            even.pattern =
                withoutSurplus(*stock.context, menu.model(), offer.pattern, values, open);
            even.yield = stock.accounts->yieldOf(even.pattern);
            even.value = wantedValue(problem, values, even.yield, open);
            takeIfBetter(std::move(even));
        }
        takeIfBetter(std::move(offer));
        if (!tooMuch) {
            return best;
        }
    }
    // Where much is wanted, other boards take up what one pattern makes too much of.
    std::int64_t blanks = 0;
    for (std::size_t k = 0; k < open.open.size(); ++k) {
        blanks += problem.kinds[k].isPool ? 0 : std::max<std::int64_t>(0, open.open[k]);
    }
    if (blanks > fewBlanks) {
        return best;
    }
    Offer bySections = sectionBySection(stock, board, values, open, interrupt, work);
    return bySections.value > best.value ? std::move(bySections) : std::move(best);
}

Construction construct(const Stock& stock, const Values& values, Demand open,
                       const std::vector<std::size_t>& boards, const std::vector<Offer>* known,
                       Asking asking, const Interrupt& interrupt) {
    struct Candidate {
        std::size_t board = 0;
        Offer offer;
        double score = 0;
        int age = 0; ///< round in which the offer was made
    };
    Construction made;
    std::vector<Candidate> candidates;
    const Problem& problem = *stock.context->problem;
    const auto take = [&](Candidate& candidate, Offer offer, int round) {
        candidate.offer = std::move(offer);
        candidate.score = static_cast<double>(candidate.offer.value) /
                          static_cast<double>(priceOf(stock.menus[candidate.board]->model()));
        candidate.age = round;
    };
    const auto ask = [&](std::size_t board, std::int64_t& work) {
        return bestWithin(stock, board, values, open, interrupt, work, asking.times);
    };
    for (const std::size_t board : boards) {
        Candidate candidate;
        candidate.board = board;
        if (known == nullptr && interrupt.isCalled()) {
            break;
        }
        take(candidate, known != nullptr ? (*known)[board] : ask(board, made.work), 0);
        candidates.push_back(std::move(candidate));
    }
    // An old offer that is still wanted whole is fresh: nothing else can have become better.
    const auto isFresh = [&](Candidate& candidate, int round) {
        if (candidate.age != round &&
            wantedValue(problem, values, candidate.offer.yield, open) == candidate.offer.value) {
            candidate.age = round;
        }
        return candidate.age == round;
    };
    for (int round = 0; !open.isMet() && !candidates.empty() && !interrupt.isCalled();) {
        // Offers only lose worth as the demand shrinks, so an old score is a bound: ask for the
        // best anew until the best is fresh.
        std::sort(candidates.begin(), candidates.end(), [](const Candidate& a, const Candidate& b) {
            return a.score != b.score ? a.score > b.score : a.board < b.board;
        });
        const auto top = candidates.begin();
        if (top->score <= 0) {
            break;
        }
        if (!isFresh(*top, round)) {
            std::vector<Candidate*> old;
            for (auto it = top; it != candidates.end() && old.size() < asking.atOnce; ++it) {
                if (it->score > 0 && !isFresh(*it, round)) {
                    old.push_back(&*it);
                }
            }
            std::vector<Offer> offers(old.size());
            std::vector<std::int64_t> work(old.size(), 0);
            runItems(
                old.size(), asking.threads,
                [&](std::size_t i) { offers[i] = ask(old[i]->board, work[i]); }, interrupt);
            for (std::size_t i = 0; i < old.size(); ++i) {
                take(*old[i], std::move(offers[i]), round);
                made.work += work[i];
            }
            continue;
        }
        open -= top->offer.yield;
        made.patterns.push_back(std::move(top->offer.pattern));
        candidates.erase(top);
        ++round;
    }
    made.open = std::move(open);
    return made;
}

Solution complete(const Stock& stock, const Values& values, std::vector<Pattern> patterns,
                  const std::vector<std::size_t>& candidates, const Interrupt& interrupt,
                  std::int64_t& work) {
    Settled settled = stock.accounts->settle(patterns);
    const Stock others = knowingAllKinds(stock);
    for (int round = 0; round < 4 && !settled.missing.isMet() && !interrupt.isCalled(); ++round) {
        std::vector<std::size_t> boards;
        for (const std::size_t board : candidates) {
            const bool used = std::any_of(patterns.begin(), patterns.end(), [&](const Pattern& p) {
                return p.board == static_cast<int>(board);
            });
            if (!used) {
                boards.push_back(board);
            }
        }
        Construction more =
            construct(others, values, settled.missing, boards, nullptr, {}, interrupt);
        work += more.work;
        if (more.patterns.empty()) {
            break;
        }
        for (Pattern& pattern : more.patterns) {
            patterns.push_back(std::move(pattern));
        }
        Settled next = stock.accounts->settle(patterns);
        if (next.solution.value >= settled.solution.value) {
            break;
        }
        settled = std::move(next);
    }
    return std::move(settled.solution);
}

} // namespace stavewright::cutting
