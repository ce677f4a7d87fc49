#include "core/cutting/SectionMenu.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

#include "core/cutting/Facing.h"
#include "core/cutting/Places.h"

namespace stavewright::cutting {

namespace {

/// Step across of the lattice on which strips are foreseen, or near it.
constexpr Nm foreseenAcross = 1'600'000;

constexpr Nm unlimited = std::numeric_limits<Nm>::max() / 4;

} // namespace

Context::Context(const Problem& wanted)
    : problem(&wanted) {
    shortest = unlimited;
    narrowest = unlimited;
    for (std::size_t k = 0; k < wanted.kinds.size(); ++k) {
        const Kind& kind = wanted.kinds[k];
        if (kind.demand <= 0) {
            continue;
        }
        for (BlankPose& pose : distinctPoses(wanted, static_cast<int>(k))) {
            poses.push_back(std::move(pose));
        }
        for (const Zone& zone : kind.zones) {
            rules = std::max(rules, static_cast<std::size_t>(zone.rule) + 1);
        }
        shortest = std::min(shortest, kind.length);
        narrowest = std::min(narrowest, kind.width);
    }
}

SectionMenu::SectionMenu(const Context& context, const BoardModel& model, Nm x0, Nm x1,
                         const Fineness& fineness, const BoundSection* foreseen)
    : m_context(&context)
    , m_shape(model, x0, x1)
    , m_startsPerWidth(fineness.startsPerWidth)
    , m_everyStart(fineness.everyStart)
    , m_stripsPerStack(fineness.stripsPerStack) {
    const Facing facing(context, model, m_shape);
    m_mayWhole = facing.mayWhole();
    m_mayRipped = facing.mayRipped();
    if (!m_mayWhole && !m_mayRipped) {
        return;
    }
    const SectionPieces pieces(model, m_shape, context.rules);
    std::vector<std::pair<int, Group>> allowed;
    for (std::size_t p = 0; p < context.poses.size(); ++p) {
        const auto k = static_cast<std::size_t>(context.poses[p].kind);
        if (!fineness.everyPose && context.poses[p].endForEnd) {
            continue;
        }
        const Nm least = context.problem->kinds[k].width;
        if (facing.whole(k) || facing.widestRipped(k) >= least) {
            Group group;
            group.kind = static_cast<int>(k);
            group.wholeReaches = facing.whole(k);
            group.widestRipped = facing.widestRipped(k);
            allowed.emplace_back(static_cast<int>(p), group);
            m_widths.push_back(least);
        }
    }
    sortUnique(m_widths);
    if (foreseen != nullptr) {
        m_foreseen = foreseen->strips;
    }
    findOptions(pieces, fineness, allowed, foreseen);
    if (m_everyStart && !m_oneInARow) {
        findStarts();
    }
}

void SectionMenu::stripsFrom(const Values& values, bool ripped, Nm v,
                             std::vector<Asked>& strips) const {
    strips.clear();
    const Limits& limits = m_context->problem->limits;
    for (std::uint32_t g = 0; g < m_groups.size(); ++g) {
        const Group& group = m_groups[g];
        const auto add = [&](Nm v0, Nm v1, int rank) {
            if (v1 - v0 >= limits.narrowestRip) {
                strips.push_back({v0, v1, g, rank});
            }
        };
        const auto index = static_cast<std::size_t>(group.kind);
        const Kind& kind = m_context->problem->kinds[index];
        if (v + kind.width > group.top ||
            values.of(kind, index, kind.isPool ? kind.widest : kind.width) <= 0 ||
            kind.width > widestStrip(group, ripped)) {
            continue;
        }
        const ObstacleRange obstacles = obstaclesOf(group);
        for (const bool avoidFills : {false, true}) {
            if (avoidFills && !group.hasSoft) {
                break;
            }
            if (!kind.isPool) {
                const Nm v0 = lowestPlace(obstacles, kind.width, v, group.top, avoidFills);
                if (v0 >= 0) {
                    add(v0, v0 + kind.width, avoidFills ? 1 : 0);
                }
                continue;
            }
            const Nm widest = std::min(kind.widest, widestStrip(group, ripped));
            const WidePlace place =
                lowestWidePlace(obstacles, kind, v, group.top, widest, avoidFills);
            if (place.v0 < 0) {
                continue;
            }
            add(place.v0, place.v1, avoidFills ? 1 : 0);
            if (place.v1 - place.v0 == kind.width) {
                continue;
            }
            add(place.v0, place.v0 + kind.width, 3);
            const Nm step = std::max<Nm>(1, kind.step);
            const auto leaving = [&](Nm room) {
                const Nm most = m_shape.vTop() - place.v0 - room;
                if (most >= kind.width && place.v0 + most < place.v1) {
                    add(place.v0, place.v0 + kind.width + (most - kind.width) / step * step, 2);
                }
            };
            for (const Nm width : m_widths) {
                leaving(limits.ripKerf + width);
                leaving(2 * (limits.ripKerf + width));
            }
            // Two staves of nearly equal width where one would be too wide and its rest too narrow.
            leaving(limits.ripKerf + (m_shape.vTop() - place.v0 - limits.ripKerf) / 2);
        }
    }
    if (m_oneInARow) {
        return; // each stands for itself
    }
    addForeseenStrips(v, strips);
    if (m_everyStart) {
        addEveryStart(v, strips);
    }
    std::sort(strips.begin(), strips.end(), [](const Asked& a, const Asked& b) {
        return std::tie(a.v0, a.v1, a.rank) < std::tie(b.v0, b.v1, b.rank);
    });
    strips.erase(
        std::unique(strips.begin(), strips.end(),
                    [](const Asked& a, const Asked& b) { return a.v0 == b.v0 && a.v1 == b.v1; }),
        strips.end());
    // Of each width only the lowest few starts.
    std::vector<std::pair<Nm, std::size_t>> seen;
    std::erase_if(strips, [&](const Asked& strip) {
        const Nm width = strip.v1 - strip.v0;
        if (strip.rank < 0) {
            return false;
        }
        for (auto& [known, count] : seen) {
            if (known == width) {
                return ++count > m_startsPerWidth;
            }
        }
        seen.emplace_back(width, 1);
        return false;
    });
    if (strips.size() > m_stripsPerStack) {
        std::stable_sort(strips.begin(), strips.end(),
                         [](const Asked& a, const Asked& b) { return a.rank < b.rank; });
        strips.resize(m_stripsPerStack);
    }
}

void SectionMenu::addForeseenStrips(Nm v, std::vector<Asked>& strips) const {
    for (const BoundStrip& strip : m_foreseen) {
        const Nm from = std::max(v, strip.across - foreseenAcross);
        const Nm to = strip.across + 3 * foreseenAcross;
        if (v > to) {
            continue;
        }
        const auto add = [&](Nm v0) {
            if (v0 < v || v0 > to || strip.width < m_context->problem->limits.narrowestRip) {
                return;
            }
            for (const Nm width : {strip.width, strip.widest}) {
                if (v0 + width <= m_shape.vTop()) {
                    strips.push_back({v0, v0 + width, 0, -1});
                }
            }
        };
        add(v);
        add(strip.across);
        for (const BoundBlank& blank : strip.blanks) {
            for (const Group& group : m_groups) {
                if (static_cast<std::size_t>(group.kind) != blank.kind) {
                    continue;
                }
                const Nm v0 = lowestPlace(obstaclesOf(group), blank.width, from, group.top, false);
                if (v0 >= 0) {
                    add(v0);
                    add(v0 + blank.width - strip.width);
                }
            }
        }
    }
}

void SectionMenu::findStarts() {
    // A blank just clears an obstacle with its low edge at `clear`; it lies along the strip's low
    // edge or along its high edge.
    std::vector<Nm> starts;
    const auto add = [&](Nm start) {
        if (start >= 0 && start + m_widths.front() <= m_shape.vTop()) {
            starts.push_back(start);
        }
    };
    for (const Group& group : m_groups) {
        const Kind& kind = kindOf(group);
        for (const Obstacle& obstacle : obstaclesOf(group)) {
            const Nm clear = obstacle.lowOnHigh ? obstacle.below - kind.width : obstacle.below;
            add(clear);
            for (const Nm width : m_widths) {
                if (width > kind.width) {
                    add(clear + kind.width - width);
                }
            }
        }
    }
    sortUnique(starts);
    m_starts.assign(starts.begin(), starts.end()); // thousands of menus are kept
}

void SectionMenu::addEveryStart(Nm v, std::vector<Asked>& strips) const {
    const auto first = std::lower_bound(m_starts.begin(), m_starts.end(), v);
    for (const Nm width : m_widths) {
        if (width < m_context->problem->limits.narrowestRip) {
            continue;
        }
        std::size_t count = 0; // more of one width are not tried
        for (auto start = first; start != m_starts.end() && *start + width <= m_shape.vTop() &&
                                 count < m_startsPerWidth;
             ++start, ++count) {
            strips.push_back({*start, *start + width, 0, 4});
        }
    }
}

int SectionMenu::stack(const Values& values, bool ripped, Row& row, std::vector<State>& states,
                       std::int64_t& work) const {
    const Limits& limits = m_context->problem->limits;
    states.clear();
    states.push_back({});
    // Open states by ascending v; a state is worth going on from when no lower one is worth as
    // much.
    std::vector<int> open = {0};
    std::vector<Asked> strips;
    // No strip is worth more than its width at the best price there is.
    const double perWidth = worthAcross(values);
    const auto mostIn = [&](Nm width) {
        return static_cast<Cost>(std::ceil(perWidth * static_cast<double>(std::max<Nm>(0, width))));
    };
    Cost bestReached = 0;
    Cost bestClosed = -1;
    int bestState = 0;
    for (std::size_t next = 0; next < open.size(); ++next) {
        const State state = states[static_cast<std::size_t>(open[next])];
        if (state.value <= bestClosed) {
            continue;
        }
        bestClosed = state.value;
        bestState = open[next];
        if (state.value + mostIn(m_shape.vTop() - state.v) < bestReached) {
            continue;
        }
        stripsFrom(values, ripped, state.v, strips);
        work += static_cast<std::int64_t>(m_groups.size() + strips.size());
        for (const auto& [v0, v1, by, rank] : strips) {
            if (state.value + mostIn(v1 - v0) + mostIn(m_shape.vTop() - v1 - limits.ripKerf) <
                bestReached) {
                continue;
            }
            Cost value = 0;
            if (m_oneInARow) {
                value = fitIn(wantedOf(by, values, ripped), values, v0, v1).gain -
                        m_groups[by].fewestCuts;
            } else {
                const double most = fitRow(values, v0, v1, row);
                work += static_cast<std::int64_t>(row.wanted.size());
                const Cost reach = state.value + static_cast<Cost>(std::ceil(most));
                if (most <= 0 || reach <= bestClosed ||
                    reach + mostIn(m_shape.vTop() - v1 - limits.ripKerf) < bestReached) {
                    continue;
                }
                fillRow(row);
                work += static_cast<std::int64_t>(m_options.size() / 4);
                value = row.best.back();
            }
            if (value <= 0) {
                continue;
            }
            const bool oneCut = state.previous >= 0 && v0 == state.v;
            State reached;
            reached.v = v1 + limits.ripKerf;
            reached.value = state.value + value - (oneCut ? 1 : 2) * limits.ripCost;
            reached.previous = open[next];
            reached.v0 = v0;
            reached.v1 = v1;
            if (reached.value <= bestClosed) {
                continue;
            }
            bestReached = std::max(bestReached, reached.value);
            const auto at = std::upper_bound(
                open.begin() + static_cast<std::ptrdiff_t>(next) + 1, open.end(), reached,
                [&](const State& fresh, int other) {
                    const State& known = states[static_cast<std::size_t>(other)];
                    return fresh.v != known.v ? fresh.v < known.v : fresh.value > known.value;
                });
            const bool dominated =
                at != open.begin() + static_cast<std::ptrdiff_t>(next) + 1 &&
                states[static_cast<std::size_t>(*(at - 1))].value >= reached.value;
            if (!dominated) {
                const int id = static_cast<int>(states.size());
                open.insert(at, id);
                states.push_back(reached);
            }
        }
    }
    return bestState;
}

template <class Visit>
void SectionMenu::visitStrip(const Values& values, const State& state, Row& row,
                             const Visit& visit) const {
    (void)fitRow(values, state.v0, state.v1, row);
    fillRow(row);
    for (std::size_t i = m_options.size(); i > 0;) {
        if (row.best[i] == row.best[i - 1]) {
            --i;
            continue;
        }
        for (bool isJoined = true; isJoined;) {
            const Option& option = m_options[i - 1];
            visit(option, row.fits[option.group]);
            const Link& link = m_links[i - 1];
            i = link.before;
            isJoined = link.joins && row.endAt[i - 1] > row.best[i] - link.cutBefore;
            while (isJoined && m_links[i - 1].endsAlike && row.endAt[i - 2] == row.endAt[i - 1]) {
                --i;
            }
        }
    }
}

SectionChoice SectionMenu::best(const Values& values, std::int64_t& work) const {
    SectionChoice choice;
    std::vector<State> states;
    for (const bool ripped : {false, true}) {
        if ((ripped && !m_mayRipped) || (!ripped && !m_mayWhole)) {
            continue;
        }
        Row row = emptyRow(values, ripped);
        int at = stack(values, ripped, row, states, work);
        const Cost value = states[static_cast<std::size_t>(at)].value;
        if (value <= choice.value) {
            continue;
        }
        choice = {value, ripped, false, 0};
        for (; at > 0; at = states[static_cast<std::size_t>(at)].previous) {
            visitStrip(values, states[static_cast<std::size_t>(at)], row,
                       [&](const Option& option, const Fit&) {
                           choice.kinds |= std::uint64_t{1} << (m_groups[option.group].kind % 64);
                       });
        }
    }
    return choice;
}

PlacedSection SectionMenu::cut(const Values& values, const SectionChoice& choice) const {
    PlacedSection section;
    section.x0 = m_shape.x0();
    section.x1 = m_shape.x1();
    section.frame = m_shape.frame();
    section.roughRippedFirst = choice.roughRippedFirst;
    std::vector<State> states;
    std::int64_t ignored = 0;
    Row row = emptyRow(values, choice.roughRippedFirst);
    for (int at = stack(values, choice.roughRippedFirst, row, states, ignored); at > 0;
         at = states[static_cast<std::size_t>(at)].previous) {
        const State& state = states[static_cast<std::size_t>(at)];
        PlacedStrip strip;
        strip.v0 = state.v0;
        strip.v1 = state.v1;
        visitStrip(values, state, row, [&](const Option& option, const Fit& fit) {
            const BlankPose& pose = m_context->poses[static_cast<std::size_t>(option.pose)];
            Placed placed;
            placed.kind = pose.kind;
            placed.rect = {Length::nanometres(option.u0), Length::nanometres(fit.v0),
                           Length::nanometres(option.u1), Length::nanometres(fit.v1)};
            placed.endForEnd = pose.endForEnd;
            placed.faceOver = pose.faceOver;
            strip.blanks.push_back(placed);
        });
        std::reverse(strip.blanks.begin(), strip.blanks.end());
        section.strips.push_back(std::move(strip));
    }
    std::reverse(section.strips.begin(), section.strips.end());
    return section;
}

} // namespace stavewright::cutting
