#include "core/cutting/Accounts.h"

#include <algorithm>
#include <numeric>

#include "core/cutting/CutCost.h"
#include "core/cutting/Groups.h"
#include "core/cutting/Tighten.h"

namespace stavewright::cutting {

bool Demand::isMet() const {
    return std::all_of(open.begin(), open.end(), [](std::int64_t value) { return value <= 0; });
}

Demand& Demand::operator-=(const Demand& yield) {
    for (std::size_t k = 0; k < open.size(); ++k) {
        open[k] -= yield.open[k];
        staves[k] -= yield.staves[k];
        fewest[k] -= yield.staves[k];
    }
    return *this;
}

Accounts::Accounts(const Context& context, const std::vector<const BoardModel*>& models)
    : m_context(&context)
    , m_models(models) {
    const std::vector<Kind>& kinds = context.problem->kinds;
    m_demand.open.resize(kinds.size());
    m_demand.staves.resize(kinds.size());
    m_demand.fewest.resize(kinds.size());
    m_fixedCount.resize(kinds.size());
    m_begun.resize(kinds.size());
    for (std::size_t k = 0; k < kinds.size(); ++k) {
        m_demand.open[k] = kinds[k].isPool ? kinds[k].demand * kinds[k].netWanted : kinds[k].demand;
        if (kinds[k].isPool) {
            m_demand.staves[k] = static_cast<std::int64_t>(kinds[k].most) * kinds[k].demand;
            m_demand.fewest[k] = fewestStaves(kinds[k]) * kinds[k].demand;
            m_begun[k].resize(static_cast<std::size_t>(std::max(0, kinds[k].demand)));
        }
    }
    // Fixed staves fill the panels in their order.
    for (const Fixed& fixed : context.problem->fixed) {
        const auto k = static_cast<std::size_t>(fixed.kind);
        const Kind& kind = kinds[k];
        ++m_fixedCount[k];
        if (!kind.isPool) {
            --m_demand.open[k];
            continue;
        }
        const Nm net = fixed.rect.width().inNanometres() - kind.jointAllowance;
        for (Panel& panel : m_begun[k]) {
            if (panel.net < kind.netWanted) {
                m_demand.open[k] -= std::min(net, kind.netWanted - panel.net);
                panel.net += net;
                ++panel.staves;
                --m_demand.staves[k];
                --m_demand.fewest[k];
                break;
            }
        }
    }
}

Demand Accounts::asked() const {
    // Among many staves there is nearly always a subset that closes a panel to the step; among the
    // few that are left for the last panels there is one within a few steps.
    constexpr Nm stepsToSpare = 6;
    Demand asked = m_demand;
    for (std::size_t k = 0; k < asked.open.size(); ++k) {
        const Kind& kind = m_context->problem->kinds[k];
        if (kind.isPool && asked.open[k] > kind.netWanted) {
            asked.open[k] += stepsToSpare * std::max<Nm>(1, kind.step);
        }
    }
    return asked;
}

void Accounts::addBlank(Demand& yield, std::size_t kind, Nm width) const {
    const Kind& wanted = m_context->problem->kinds[kind];
    yield.open[kind] += wanted.isPool ? width - wanted.jointAllowance : 1;
    yield.staves[kind] += wanted.isPool ? 1 : 0;
}

Demand Accounts::yieldOf(const Pattern& pattern) const {
    const std::vector<Kind>& kinds = m_context->problem->kinds;
    Demand yield;
    yield.open.resize(kinds.size());
    yield.staves.resize(kinds.size());
    yield.fewest.resize(kinds.size());
    for (const PlacedSection& section : pattern.sections) {
        for (const PlacedStrip& strip : section.strips) {
            for (const Placed& placed : strip.blanks) {
                addBlank(yield, static_cast<std::size_t>(placed.kind),
                         placed.rect.width().inNanometres());
            }
        }
    }
    return yield;
}

void removeEmpty(std::vector<Pattern>& patterns) {
    for (Pattern& pattern : patterns) {
        for (PlacedSection& section : pattern.sections) {
            std::erase_if(section.strips,
                          [](const PlacedStrip& strip) { return strip.blanks.empty(); });
        }
        std::erase_if(pattern.sections,
                      [](const PlacedSection& section) { return section.strips.empty(); });
    }
    std::erase_if(patterns, [](const Pattern& pattern) { return pattern.sections.empty(); });
}

void Accounts::dropExcess(std::vector<Pattern>& patterns, bool withStaves) const {
    const std::vector<Kind>& kinds = m_context->problem->kinds;
    std::vector<std::int64_t> excess(kinds.size(), 0);
    std::vector<Demand> yields;
    for (const Pattern& pattern : patterns) {
        yields.push_back(yieldOf(pattern));
        for (std::size_t k = 0; k < kinds.size(); ++k) {
            excess[k] += yields.back().open[k];
        }
    }
    for (std::size_t k = 0; k < kinds.size(); ++k) {
        excess[k] -= std::max<std::int64_t>(0, m_demand.open[k]);
    }
    // Whole boards first, the dearest that nobody would miss.
    std::vector<std::size_t> order(patterns.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto costOfBoard = [&](std::size_t i) {
        const BoardModel& model = *m_models[static_cast<std::size_t>(patterns[i].board)];
        return model.price();
    };
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return costOfBoard(a) > costOfBoard(b); });
    for (const std::size_t i : order) {
        bool spare = costOfBoard(i) > 0;
        for (std::size_t k = 0; k < kinds.size() && spare; ++k) {
            spare = yields[i].open[k] <= std::max<std::int64_t>(0, excess[k]) &&
                    (withStaves || !kinds[k].isPool || yields[i].open[k] == 0);
        }
        if (spare) {
            for (std::size_t k = 0; k < kinds.size(); ++k) {
                excess[k] -= yields[i].open[k];
            }
            patterns[i].sections.clear();
        }
    }
    // Then single blanks of fixed kinds, first where a whole section falls free, then anywhere.
    for (const bool wholeSections : {true, false}) {
        for (const std::size_t i : order) {
            for (PlacedSection& section : patterns[i].sections) {
                std::vector<std::int64_t> here(kinds.size(), 0);
                for (const PlacedStrip& strip : section.strips) {
                    for (const Placed& placed : strip.blanks) {
                        ++here[static_cast<std::size_t>(placed.kind)];
                    }
                }
                bool dropAll = wholeSections;
                for (std::size_t k = 0; k < kinds.size() && dropAll; ++k) {
                    dropAll = here[k] == 0 || (!kinds[k].isPool && here[k] <= excess[k]);
                }
                if (wholeSections && !dropAll) {
                    continue;
                }
                for (PlacedStrip& strip : section.strips) {
                    std::erase_if(strip.blanks, [&](const Placed& placed) {
                        const auto k = static_cast<std::size_t>(placed.kind);
                        return !kinds[k].isPool && excess[k] > 0 && excess[k]-- > 0;
                    });
                }
            }
        }
    }
    removeEmpty(patterns);
}

bool Accounts::narrow(Pattern& pattern, const Stave& stave, Nm by) const {
    PlacedSection& section = pattern.sections[stave.section];
    PlacedStrip& strip = section.strips[stave.strip];
    Placed& placed = strip.blanks[stave.blank];
    const Limits& limits = m_context->problem->limits;
    const BoardModel& model = *m_models[static_cast<std::size_t>(pattern.board)];
    const Kind& kind = m_context->problem->kinds[static_cast<std::size_t>(placed.kind)];
    const SectionShape shape(model, section.x0, section.x1);
    const SectionPieces pieces(model, shape, m_context->rules);
    BlankPose pose{placed.kind, placed.endForEnd, placed.faceOver,
                   posedZones(kind, placed.endForEnd, placed.faceOver)};
    std::vector<Obstacle> obstacles;
    pieces.obstacles(pose, placed.rect.x0.inNanometres(), obstacles);
    const ObstacleRange range{obstacles.data(), obstacles.data() + obstacles.size()};
    const Nm v0 = placed.rect.y0.inNanometres();
    const Nm v1 = placed.rect.y1.inNanometres();
    const bool alone = strip.blanks.size() == 1;
    for (const bool fromTop : {true, false}) {
        const Nm low = fromTop ? v0 : v0 + by;
        const Nm high = fromTop ? v1 - by : v1;
        if (!isClear(range, low, high) ||
            fillsOf(range, low, high).cost > fillsOf(range, v0, v1).cost) {
            continue;
        }
        if (!alone) {
            // The other blanks keep the strip; this one gets a trimming rip along one edge.
            const Nm spare = fromTop ? strip.v1 - high : low - strip.v0;
            const bool otherEdgeFlush = fromTop ? low == strip.v0 : high == strip.v1;
            if (!otherEdgeFlush || spare < limits.ripKerf || high - low < limits.narrowestRip) {
                continue;
            }
        } else {
            strip.v0 = low;
            strip.v1 = high;
        }
        placed.rect.y0 = Length::nanometres(low);
        placed.rect.y1 = Length::nanometres(high);
        return true;
    }
    return false;
}

std::vector<std::vector<std::size_t>> Accounts::shareOut(const std::vector<Stave>& staves,
                                                         std::size_t k, bool wideFirst) const {
    const Kind& kind = m_context->problem->kinds[k];
    std::vector<std::vector<std::size_t>> shares(m_begun[k].size());
    std::vector<bool> taken(staves.size(), false); // staves stand by descending width
    for (std::size_t number = 0; number < shares.size(); ++number) {
        Panel panel = m_begun[k][number];
        while (panel.net < kind.netWanted && panel.staves < kind.most) {
            const Nm open = kind.netWanted - panel.net;
            // What the widest staves could still add behind the one that is picked now.
            Nm others = 0;
            if (!wideFirst) {
                int left = kind.most - panel.staves - 1;
                for (std::size_t i = 0; i < staves.size() && left > 0; ++i) {
                    if (!taken[i]) {
                        others += staves[i].net;
                        --left;
                    }
                }
            }
            // The narrowest that is enough; the widest when none is.
            std::size_t pick = staves.size();
            for (std::size_t i = 0; i < staves.size(); ++i) {
                if (taken[i]) {
                    continue;
                }
                if (pick == staves.size() || staves[i].net + others >= open) {
                    pick = i;
                }
                if (staves[i].net + others < open) {
                    break;
                }
            }
            if (pick == staves.size()) {
                break;
            }
            taken[pick] = true;
            shares[number].push_back(pick);
            panel.net += staves[pick].net;
            ++panel.staves;
        }
    }
    return shares;
}

void Accounts::makePanels(std::vector<Pattern>& patterns, std::size_t k, Settled& settled) const {
    const Kind& kind = m_context->problem->kinds[k];
    const Nm least = kind.width - kind.jointAllowance;
    std::vector<Stave> staves;
    for (std::size_t p = 0; p < patterns.size(); ++p) {
        for (std::size_t s = 0; s < patterns[p].sections.size(); ++s) {
            const PlacedSection& section = patterns[p].sections[s];
            for (std::size_t t = 0; t < section.strips.size(); ++t) {
                for (std::size_t b = 0; b < section.strips[t].blanks.size(); ++b) {
                    const Placed& placed = section.strips[t].blanks[b];
                    if (placed.kind == static_cast<int>(k)) {
                        staves.push_back(
                            {p, s, t, b, placed.rect.width().inNanometres() - kind.jointAllowance});
                    }
                }
            }
        }
    }
    std::stable_sort(staves.begin(), staves.end(),
                     [](const Stave& a, const Stave& b) { return a.net > b.net; });
    // Three ways to share them out; the one that closes most panels and misses least.
    std::vector<Nm> nets;
    nets.reserve(staves.size());
    for (const Stave& stave : staves) {
        nets.push_back(stave.net);
    }
    std::vector<std::vector<std::vector<std::size_t>>> ways;
    if (auto exactly = shareStaves(kind, nets, m_begun[k])) {
        ways.push_back(std::move(*exactly));
    }
    // Wide staves first makes the fewest joints; where the number of staves is short, narrow ones
    // first leaves the wide ones to the panels that come last.
    ways.push_back(shareOut(staves, k, true));
    ways.push_back(shareOut(staves, k, false));
    const auto missingOf = [&](const std::vector<std::vector<std::size_t>>& shared) {
        Nm missing = 0;
        for (std::size_t number = 0; number < shared.size(); ++number) {
            Nm net = m_begun[k][number].net;
            for (const std::size_t member : shared[number]) {
                net += staves[member].net;
            }
            missing += std::max<Nm>(0, kind.netWanted - net);
        }
        return missing;
    };
    const std::vector<std::vector<std::size_t>> shares =
        *std::min_element(ways.begin(), ways.end(), [&](const auto& a, const auto& b) {
            return missingOf(a) < missingOf(b);
        });
    std::vector<bool> taken(staves.size(), false);
    const Nm step = std::max<Nm>(1, kind.step);
    Nm missing = 0;
    int incomplete = 0;
    for (std::size_t number = 0; number < m_begun[k].size(); ++number) {
        Panel panel = m_begun[k][number];
        std::vector<std::size_t> members = shares[number];
        for (const std::size_t member : members) {
            taken[member] = true;
            panel.net += staves[member].net;
            ++panel.staves;
        }
        // Too wide a panel: trim the last stave, then the others, in steps.
        for (auto member = members.rbegin(); member != members.rend() && panel.net > kind.netMost;
             ++member) {
            Stave& stave = staves[*member];
            const Nm steps =
                std::min((panel.net - kind.netMost + step - 1) / step, (stave.net - least) / step);
            for (Nm by = steps * step; by > 0; by -= step) {
                if (narrow(patterns[stave.pattern], stave, by)) {
                    stave.net -= by;
                    panel.net -= by;
                    break;
                }
            }
        }
        const bool complete = panel.net >= kind.netWanted && panel.net <= kind.netMost &&
                              panel.staves >= kind.fewest && panel.staves <= kind.most;
        if (panel.net > kind.netMost) {
            // Could not be trimmed to size: the last stave goes back.
            while (!members.empty() && panel.net > kind.netMost) {
                panel.net -= staves[members.back()].net;
                taken[members.back()] = false;
                members.pop_back();
            }
        }
        if (!complete) {
            ++incomplete;
            missing += std::max(step, kind.netWanted - panel.net);
        }
        for (const std::size_t member : members) {
            const Stave& stave = staves[member];
            patterns[stave.pattern]
                .sections[stave.section]
                .strips[stave.strip]
                .blanks[stave.blank]
                .panel = static_cast<int>(number);
        }
    }
    // What no panel took is not cut. Later places first, so that earlier indices stay right.
    std::vector<Stave> spare;
    for (std::size_t i = 0; i < staves.size(); ++i) {
        if (!taken[i]) {
            spare.push_back(staves[i]);
        }
    }
    std::sort(spare.begin(), spare.end(),
              [](const Stave& a, const Stave& b) { return a.blank > b.blank; });
    for (const Stave& stave : spare) {
        auto& blanks = patterns[stave.pattern].sections[stave.section].strips[stave.strip].blanks;
        blanks.erase(blanks.begin() + static_cast<std::ptrdiff_t>(stave.blank));
    }
    settled.missing.open[k] = missing;
    settled.missing.staves[k] = static_cast<std::int64_t>(incomplete) * kind.most;
    settled.solution.unplaced[k] = incomplete;
    settled.solution.value +=
        static_cast<Cost>(static_cast<double>(kind.penaltyUnplaced) * static_cast<double>(missing) /
                          static_cast<double>(std::max<Nm>(1, kind.netWanted)));
}

std::vector<Nm> Accounts::netsOf(std::span<const Pattern> patterns, std::size_t pool) const {
    std::vector<Nm> nets;
    for (const Pattern& pattern : patterns) {
        for (const PlacedSection& section : pattern.sections) {
            for (const PlacedStrip& strip : section.strips) {
                for (const Placed& blank : strip.blanks) {
                    if (blank.kind == static_cast<int>(pool)) {
                        nets.push_back(blank.rect.width().inNanometres() -
                                       m_context->problem->kinds[pool].jointAllowance);
                    }
                }
            }
        }
    }
    return nets;
}

Settled Accounts::settle(std::vector<Pattern> patterns) const {
    Settled kept = settleOnce(patterns, false);
    Settled dropped = settleOnce(std::move(patterns), true);
    return dropped.solution.value < kept.solution.value ? std::move(dropped) : std::move(kept);
}

Settled Accounts::settleOnce(std::vector<Pattern> patterns, bool withStaves) const {
    const std::vector<Kind>& kinds = m_context->problem->kinds;
    Settled settled;
    settled.missing.open.assign(kinds.size(), 0);
    settled.missing.staves.assign(kinds.size(), 0);
    settled.missing.fewest.assign(kinds.size(), 0);
    Solution& solution = settled.solution;
    solution.unplaced.assign(kinds.size(), 0);
    removeEmpty(patterns);
    dropExcess(patterns, withStaves);
    std::vector<int> placed = m_fixedCount;
    for (std::size_t k = 0; k < kinds.size(); ++k) {
        if (kinds[k].isPool) {
            makePanels(patterns, k, settled);
        }
    }
    removeEmpty(patterns);
    for (Pattern& pattern : patterns) {
        for (PlacedSection& section : pattern.sections) {
            tighten(*m_context->problem, *m_models[static_cast<std::size_t>(pattern.board)],
                    section);
        }
    }
    for (const Pattern& pattern : patterns) {
        for (const PlacedSection& section : pattern.sections) {
            for (const PlacedStrip& strip : section.strips) {
                for (const Placed& blank : strip.blanks) {
                    ++placed[static_cast<std::size_t>(blank.kind)];
                }
            }
        }
    }
    for (std::size_t k = 0; k < kinds.size(); ++k) {
        if (!kinds[k].isPool) {
            solution.unplaced[k] = std::max(0, kinds[k].demand - placed[k]);
            settled.missing.open[k] = solution.unplaced[k];
            solution.value += solution.unplaced[k] * kinds[k].penaltyUnplaced;
        }
    }
    std::vector<bool> touched(m_models.size(), false);
    for (const Pattern& pattern : patterns) {
        touched[static_cast<std::size_t>(pattern.board)] = true;
        solution.value +=
            patternCost(*m_context, *m_models[static_cast<std::size_t>(pattern.board)], pattern)
                .total;
    }
    for (std::size_t b = 0; b < m_models.size(); ++b) {
        if (touched[b] || m_models[b]->hasFixed()) {
            solution.value += m_models[b]->board().cost;
        }
    }
    solution.groupsApart = groupsApart(*m_context->problem, patterns);
    solution.value += solution.groupsApart;
    std::sort(patterns.begin(), patterns.end(),
              [](const Pattern& a, const Pattern& b) { return a.board < b.board; });
    solution.patterns = std::move(patterns);
    return settled;
}

} // namespace stavewright::cutting
