#include "core/cutting/SectionMenu.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <tuple>

#include "core/cutting/Facing.h"
#include "core/cutting/Places.h"

namespace stavewright::cutting {

namespace {

/// Steps of the lattice on which strips are foreseen, or near them.
constexpr Nm foreseenStep = 4'000'000;
constexpr Nm foreseenAcross = 1'600'000;
/// Places tried for a blank that is foreseen.
constexpr std::size_t foreseenPlaces = 6;

constexpr Nm unlimited = std::numeric_limits<Nm>::max() / 4;

} // namespace

Context::Context(const Problem& wanted)
    : problem(&wanted) {
    shortest = unlimited;
    narrowest = unlimited;
    for (std::size_t k = 0; k < wanted.kinds.size(); ++k) {
        const Kind& kind = wanted.kinds[k];
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
}

void SectionMenu::findOptions(const SectionPieces& pieces, const Fineness& fineness,
                              const std::vector<std::pair<int, Group>>& allowed,
                              const BoundSection* foreseen) {
    const Nm low = m_shape.uLow();
    const Nm high = m_shape.uHigh();
    const Nm kerf = m_context->problem->limits.stripCrosscutKerf;

    // Places of low ends: at the ends, just past and just before each defect.
    std::vector<std::vector<Nm>> places(allowed.size());
    std::vector<Nm> lengths;
    std::vector<Nm> shared;
    for (std::size_t i = 0; i < allowed.size(); ++i) {
        const Nm length = kindOf(allowed[i].second).length;
        lengths.push_back(length);
        std::vector<Nm>& own = places[i];
        pieces.clearPlaces(m_context->poses[static_cast<std::size_t>(allowed[i].first)], own);
        own.push_back(low);
        own.push_back(high - length);
        std::erase_if(own, [&](Nm u) { return u < low || u > high - length; });
        own = thinned(std::move(own), fineness.placesPerSection);
        shared.insert(shared.end(), own.begin(), own.end());
    }
    // And behind another blank that stands at one of these, as long as there is room.
    std::vector<Nm> distinctLengths = lengths;
    sortUnique(distinctLengths);
    sortUnique(shared);
    if (!distinctLengths.empty() && high - low >= 2 * distinctLengths.front() + kerf) {
        std::vector<Nm> chained = {low};
        for (std::size_t next = 0;
             next < chained.size() && chained.size() < fineness.placesPerSection; ++next) {
            for (const Nm length : distinctLengths) {
                const Nm behind = chained[next] + length + kerf;
                if (behind + distinctLengths.front() <= high) {
                    chained.push_back(behind);
                }
            }
            if (next == 0) {
                chained.insert(chained.end(), shared.begin(), shared.end());
            }
        }
        sortUnique(chained);
        for (std::size_t i = 0; i < allowed.size(); ++i) {
            for (const Nm u : chained) {
                if (u >= low && u + lengths[i] <= high) {
                    places[i].push_back(u);
                }
            }
            sortUnique(places[i]);
        }
    }

    if (foreseen != nullptr) {
        addForeseenPlaces(*foreseen, pieces, allowed, places);
    }

    std::set<std::pair<Nm, std::uint32_t>> known; // poses that ask the same at one place
    for (std::size_t i = 0; i < allowed.size(); ++i) {
        const auto& [pose, like] = allowed[i];
        const Kind& kind = kindOf(like);
        for (const Nm u : places[i]) {
            Group group = like;
            group.top = m_shape.clearTop(u, u + lengths[i]);
            group.firstObstacle = static_cast<std::uint32_t>(m_obstacles.size());
            pieces.obstacles(m_context->poses[static_cast<std::size_t>(pose)], u, m_obstacles);
            group.lastObstacle = static_cast<std::uint32_t>(m_obstacles.size());
            const bool fits =
                kind.isPool
                    ? lowestWidePlace(obstaclesOf(group), kind, 0, group.top, kind.widest, false)
                              .v0 >= 0
                    : lowestPlace(obstaclesOf(group), kind.width, 0, group.top, false) >= 0;
            if (!fits) {
                m_obstacles.resize(group.firstObstacle);
                continue;
            }
            Option option;
            option.pose = pose;
            option.group = groupLike(group);
            option.u0 = u;
            option.u1 = u + lengths[i];
            if (known.emplace(u, option.group).second) {
                m_options.push_back(option);
            }
        }
    }
    std::stable_sort(m_options.begin(), m_options.end(),
                     [](const Option& a, const Option& b) { return a.u1 < b.u1; });
    for (const Option& option : m_options) {
        const auto end =
            std::partition_point(m_options.begin(), m_options.end(),
                                 [&](const Option& other) { return other.u1 + kerf <= option.u0; });
        m_links.push_back({option.group, static_cast<std::uint32_t>(end - m_options.begin())});
        m_oneInARow = m_oneInARow && m_links.back().before == 0;
    }
    for (std::uint32_t g = 0; g < m_groups.size(); ++g) {
        m_byWidth.push_back(g);
    }
    std::stable_sort(m_byWidth.begin(), m_byWidth.end(), [&](std::uint32_t a, std::uint32_t b) {
        return m_groups[a].width < m_groups[b].width;
    });
}

std::uint32_t SectionMenu::groupLike(const Group& group) {
    const ObstacleRange obstacles = obstaclesOf(group);
    for (std::size_t g = 0; g < m_groups.size(); ++g) {
        const Group& other = m_groups[g];
        const ObstacleRange others = obstaclesOf(other);
        if (other.kind == group.kind && other.top == group.top &&
            std::equal(obstacles.begin(), obstacles.end(), others.begin(), others.end())) {
            m_obstacles.resize(group.firstObstacle);
            return static_cast<std::uint32_t>(g);
        }
    }
    m_groups.push_back(group);
    m_groups.back().width = kindOf(group).width;
    m_groups.back().hasSoft = std::any_of(obstacles.begin(), obstacles.end(),
                                          [](const Obstacle& o) { return !o.isHard(); });
    return static_cast<std::uint32_t>(m_groups.size() - 1);
}

SectionMenu::Fit SectionMenu::fitIn(const Group& group, const Values& values, bool ripped, Nm v0,
                                    Nm v1) const {
    const Limits& limits = m_context->problem->limits;
    const auto index = static_cast<std::size_t>(group.kind);
    const Kind& kind = m_context->problem->kinds[index];
    const Nm strip = v1 - v0;
    if (v0 + kind.width > std::min(v1, group.top) || !allows(group, ripped, strip)) {
        return {};
    }
    const ObstacleRange obstacles = obstaclesOf(group);
    Fit best;
    // As wide as the strip, or with room for the rip that trims it.
    const auto consider = [&](Nm low, Nm width) {
        const bool trimmed = width < strip;
        if (width <= 0 || low + width > group.top ||
            (trimmed && (strip - width < limits.ripKerf || width < limits.narrowestRip))) {
            return;
        }
        const Cost gain = values.of(kind, index, width) - (trimmed ? limits.ripCost : 0) -
                          (group.hasSoft ? fillsOf(obstacles, low, low + width).cost : 0);
        if (gain > best.gain) {
            best = {gain, low, low + width};
        }
    };
    if (!kind.isPool) {
        for (const Nm low : {v0, v1 - kind.width}) {
            if (isClear(obstacles, low, low + kind.width)) {
                consider(low, kind.width);
            }
            if (strip == kind.width) {
                break;
            }
        }
        return best;
    }
    // Pools: as wide as it can be along either edge, with fills or without.
    for (const bool avoidFills : {false, true}) {
        if (avoidFills && !group.hasSoft) {
            break;
        }
        const Nm most = std::min({strip, kind.widest, group.top - v0});
        Nm width = widestFrom(obstacles, kind, v0, most, avoidFills);
        if (width == strip) {
            consider(v0, width);
            continue;
        }
        const Nm trimmed = std::min(strip - limits.ripKerf, kind.widest);
        if (width > trimmed) {
            width = widestFrom(obstacles, kind, v0, trimmed, avoidFills);
        }
        consider(v0, width);
        if (v1 <= group.top) {
            width = widestUpTo(obstacles, kind, v1, trimmed, avoidFills);
            consider(v1 - width, width);
        }
    }
    return best;
}

double SectionMenu::worthAcross(const Values& values) const {
    double most = 0; // money per area
    int known = -1;
    for (const Group& group : m_groups) {
        if (group.kind == known) {
            continue;
        }
        known = group.kind;
        const Kind& kind = kindOf(group);
        for (const Nm width : {kind.width, kind.isPool ? kind.widest : kind.width}) {
            const Cost worth = values.of(kind, static_cast<std::size_t>(group.kind), width);
            most = std::max(most, static_cast<double>(worth) / static_cast<double>(width) /
                                      static_cast<double>(kind.length));
        }
    }
    return most * static_cast<double>(m_shape.uHigh() - m_shape.uLow());
}

SectionMenu::Row SectionMenu::emptyRow(const Values& values) const {
    Row row;
    row.fits.resize(m_groups.size());
    row.gains.resize(m_groups.size());
    for (const std::uint32_t g : m_byWidth) {
        const auto index = static_cast<std::size_t>(m_groups[g].kind);
        const Kind& kind = m_context->problem->kinds[index];
        if (values.of(kind, index, kind.width) > 0 ||
            (kind.isPool && values.of(kind, index, kind.widest) > 0)) {
            row.wanted.push_back(g);
        }
    }
    return row;
}

double SectionMenu::fitRow(const Values& values, bool ripped, Nm v0, Nm v1, Row& row) const {
    std::fill(row.gains.begin(), row.gains.end(), -1);
    const Cost crosscut = m_context->problem->limits.crosscutCost;
    const Nm strip = v1 - v0;
    double most = 0; // by length
    for (const std::uint32_t g : row.wanted) {
        const Group& group = m_groups[g];
        if (group.width > strip) {
            break;
        }
        if (v0 + group.width > group.top) {
            continue;
        }
        const Fit fit = fitIn(group, values, ripped, v0, v1);
        if (fit.v0 >= 0 && fit.gain > crosscut) {
            row.fits[g] = fit;
            row.gains[g] = fit.gain - crosscut;
            most = std::max(most, static_cast<double>(row.gains[g]) /
                                      static_cast<double>(kindOf(group).length));
        }
    }
    return most * static_cast<double>(m_shape.uHigh() - m_shape.uLow());
}

void SectionMenu::fillRow(Row& row) const {
    row.best.resize(m_options.size() + 1);
    Cost* best = row.best.data();
    best[0] = 0;
    for (std::size_t i = 0; i < m_options.size(); ++i) {
        const Link& link = m_links[i];
        best[i + 1] = std::max(best[i], best[link.before] + row.gains[link.group]);
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
            !allows(group, ripped, kind.width)) {
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
            const Nm widest = ripped ? std::min(kind.widest, group.widestRipped) : kind.widest;
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

void SectionMenu::addForeseenPlaces(const BoundSection& foreseen, const SectionPieces& pieces,
                                    const std::vector<std::pair<int, Group>>& allowed,
                                    std::vector<std::vector<Nm>>& places) const {
    const Nm kerf = m_context->problem->limits.stripCrosscutKerf;
    const Nm low = m_shape.uLow();
    std::vector<std::vector<Nm>> clear(allowed.size());
    for (std::size_t i = 0; i < allowed.size(); ++i) {
        pieces.clearPlaces(m_context->poses[static_cast<std::size_t>(allowed[i].first)], clear[i]);
    }
    for (const BoundStrip& strip : foreseen.strips) {
        std::vector<Nm> behind = {low}; // ends of the blank before, the crosscut included
        Nm late = foreseenStep;         // how much later than foreseen a blank may begin
        for (const BoundBlank& blank : strip.blanks) {
            const Nm about = blank.along - m_shape.x0();
            std::vector<Nm> tried;
            for (std::size_t i = 0; i < allowed.size(); ++i) {
                if (static_cast<std::size_t>(allowed[i].second.kind) != blank.kind) {
                    continue;
                }
                const Nm most = m_shape.uHigh() - kindOf(allowed[i].second).length;
                std::vector<Nm> own = {about, about + foreseenStep / 2, about + foreseenStep, most};
                own.insert(own.end(), clear[i].begin(), clear[i].end());
                own.insert(own.end(), behind.begin(), behind.end());
                std::erase_if(own, [&](Nm u) {
                    return u < std::max(low, about - foreseenStep) ||
                           u > std::min(most, about + late);
                });
                own = thinned(std::move(own), foreseenPlaces);
                places[i].insert(places[i].end(), own.begin(), own.end());
                tried.insert(tried.end(), own.begin(), own.end());
                sortUnique(places[i]);
            }
            behind.clear();
            const Nm length = m_context->problem->kinds[blank.kind].length + kerf;
            for (const Nm u : tried) {
                behind.push_back(u + length);
            }
            late += foreseenStep;
        }
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

void SectionMenu::addEveryStart(Nm v, std::vector<Asked>& strips) const {
    // A blank just clears an obstacle with its low edge at `clear`; it lies along the strip's low
    // edge or along its high edge.
    std::vector<Nm> starts;
    for (const Group& group : m_groups) {
        const Kind& kind = kindOf(group);
        for (const Obstacle& obstacle : obstaclesOf(group)) {
            const Nm clear = obstacle.lowOnHigh ? obstacle.below - kind.width : obstacle.below;
            starts.push_back(clear);
            for (const Nm width : m_widths) {
                if (width > kind.width) {
                    starts.push_back(clear + kind.width - width);
                }
            }
        }
    }
    std::erase_if(starts, [&](Nm start) { return start < v; });
    sortUnique(starts);
    for (const Nm start : starts) {
        for (const Nm width : m_widths) {
            if (start + width <= m_shape.vTop() &&
                width >= m_context->problem->limits.narrowestRip) {
                strips.push_back({start, start + width, 0, 4});
            }
        }
    }
}

int SectionMenu::stack(const Values& values, bool ripped, std::vector<State>& states,
                       std::int64_t& work) const {
    const Limits& limits = m_context->problem->limits;
    states.clear();
    states.push_back({});
    // Open states by ascending v; a state is worth going on from when no lower one is worth as
    // much.
    std::vector<int> open = {0};
    std::vector<Asked> strips;
    Row row = emptyRow(values);
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
                value = fitIn(m_groups[by], values, ripped, v0, v1).gain - limits.crosscutCost;
            } else {
                const double most = fitRow(values, ripped, v0, v1, row);
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
void SectionMenu::visitStrip(const Values& values, bool ripped, const State& state, Row& row,
                             const Visit& visit) const {
    (void)fitRow(values, ripped, state.v0, state.v1, row);
    fillRow(row);
    for (std::size_t i = m_options.size(); i > 0;) {
        if (row.best[i] == row.best[i - 1]) {
            --i;
            continue;
        }
        const Option& option = m_options[i - 1];
        visit(option, row.fits[option.group]);
        i = m_links[i - 1].before;
    }
}

SectionChoice SectionMenu::best(const Values& values, std::int64_t& work) const {
    SectionChoice choice;
    std::vector<State> states;
    Row row = emptyRow(values);
    for (const bool ripped : {false, true}) {
        if ((ripped && !m_mayRipped) || (!ripped && !m_mayWhole)) {
            continue;
        }
        int at = stack(values, ripped, states, work);
        const Cost value = states[static_cast<std::size_t>(at)].value;
        if (value <= choice.value) {
            continue;
        }
        choice = {value, ripped, false, 0};
        for (; at > 0; at = states[static_cast<std::size_t>(at)].previous) {
            visitStrip(values, ripped, states[static_cast<std::size_t>(at)], row,
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
    Row row = emptyRow(values);
    for (int at = stack(values, choice.roughRippedFirst, states, ignored); at > 0;
         at = states[static_cast<std::size_t>(at)].previous) {
        const State& state = states[static_cast<std::size_t>(at)];
        PlacedStrip strip;
        strip.v0 = state.v0;
        strip.v1 = state.v1;
        visitStrip(
            values, choice.roughRippedFirst, state, row, [&](const Option& option, const Fit& fit) {
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
