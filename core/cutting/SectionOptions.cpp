// Which blanks a section can give, and where along it each may stand.
#include <algorithm>
#include <set>

#include "core/cutting/Places.h"
#include "core/cutting/SectionMenu.h"

namespace stavewright::cutting {

namespace {

/// Step along of the lattice on which blanks are foreseen, or near it.
constexpr Nm foreseenStep = 4'000'000;
/// Places tried for a blank that is foreseen.
constexpr std::size_t foreseenPlaces = 6;

} // namespace

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
    linkOptions();
    for (std::uint32_t g = 0; g < m_groups.size(); ++g) {
        m_byWidth.push_back(g);
    }
    std::stable_sort(m_byWidth.begin(), m_byWidth.end(), [&](std::uint32_t a, std::uint32_t b) {
        return kindOf(m_groups[a]).width < kindOf(m_groups[b]).width;
    });
}

void SectionMenu::linkOptions() {
    const Limits& limits = m_context->problem->limits;
    // Where the section leans, both ends of each blank must be cut square to it.
    const bool isSquare = m_shape.isParallel();
    for (std::size_t i = 0; i < m_options.size(); ++i) {
        const Option& option = m_options[i];
        const Nm latest = option.u0 - limits.stripCrosscutKerf;
        const auto end =
            std::partition_point(m_options.begin(), m_options.end(),
                                 [&](const Option& other) { return other.u1 <= latest; });
        Link link;
        link.group = option.group;
        link.before = static_cast<std::uint32_t>(end - m_options.begin());
        link.joins = link.before > 0 && m_options[link.before - 1].u1 == latest;
        link.endsAlike = i > 0 && m_options[i - 1].u1 == option.u1;
        link.cutBefore = isSquare && option.u0 == m_shape.uLow() ? 0 : limits.crosscutCost;
        link.cutBehind = isSquare && option.u1 == m_shape.uHigh() ? 0 : limits.crosscutCost;
        m_links.push_back(link);
        Cost& fewest = m_groups[option.group].fewestCuts;
        fewest = std::min(fewest, link.cutBefore + link.cutBehind);
        m_oneInARow = m_oneInARow && link.before == 0;
    }
}

std::uint32_t SectionMenu::groupLike(const Group& group) {
    const ObstacleRange obstacles = obstaclesOf(group);
    // Those of a kind stand together.
    for (std::size_t g = m_groups.size(); g-- > 0 && m_groups[g].kind == group.kind;) {
        const Group& other = m_groups[g];
        const ObstacleRange others = obstaclesOf(other);
        if (other.top == group.top &&
            std::equal(obstacles.begin(), obstacles.end(), others.begin(), others.end())) {
            m_obstacles.resize(group.firstObstacle);
            return static_cast<std::uint32_t>(g);
        }
    }
    m_groups.push_back(group);
    m_groups.back().fewestCuts = 2 * m_context->problem->limits.crosscutCost;
    m_groups.back().hasSoft = std::any_of(obstacles.begin(), obstacles.end(),
                                          [](const Obstacle& o) { return !o.isHard(); });
    return static_cast<std::uint32_t>(m_groups.size() - 1);
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

} // namespace stavewright::cutting
