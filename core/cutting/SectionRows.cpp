// What a row across a section is worth: the blanks that fit between two rips, one behind the other.
#include <algorithm>
#include <limits>

#include "core/cutting/Places.h"
#include "core/cutting/SectionMenu.h"

namespace stavewright::cutting {

namespace {

constexpr Cost nothing = std::numeric_limits<Cost>::min() / 4;

} // namespace

SectionMenu::Wanted SectionMenu::wantedOf(std::uint32_t index, const Values& values,
                                          bool ripped) const {
    const Group& group = m_groups[index];
    const Kind& kind = kindOf(group);
    Wanted wanted;
    wanted.group = index;
    wanted.width = kind.width;
    wanted.top = group.top;
    wanted.widest = widestStrip(group, ripped);
    wanted.worth = values.of(kind, static_cast<std::size_t>(group.kind), kind.width);
    wanted.length = static_cast<double>(kind.length);
    wanted.obstacles = obstaclesOf(group);
    wanted.isPool = kind.isPool;
    wanted.hasSoft = group.hasSoft;
    return wanted;
}

SectionMenu::Fit SectionMenu::fitIn(const Wanted& wanted, const Values& values, Nm v0,
                                    Nm v1) const {
    if (wanted.width > v1 - v0 || v0 + wanted.width > wanted.top || v1 - v0 > wanted.widest) {
        return {};
    }
    return wanted.isPool ? fitPool(wanted, values, v0, v1) : fitFixed(wanted, v0, v1);
}

std::optional<Cost> SectionMenu::trimming(Nm strip, Nm width) const {
    const Limits& limits = m_context->problem->limits;
    if (width == strip) {
        return 0;
    }
    const bool hasRoom = strip - width >= limits.ripKerf && width >= limits.narrowestRip;
    return hasRoom ? std::optional(limits.ripCost) : std::nullopt;
}

SectionMenu::Fit SectionMenu::fitFixed(const Wanted& wanted, Nm v0, Nm v1) const {
    const std::optional<Cost> trim = trimming(v1 - v0, wanted.width);
    if (!trim) {
        return {};
    }
    const Cost worth = wanted.worth - *trim;
    Fit best;
    const auto consider = [&](Nm low) {
        const Nm high = low + wanted.width;
        if (worth <= best.gain || high > wanted.top || !isClear(wanted.obstacles, low, high)) {
            return;
        }
        const Cost gain = worth - (wanted.hasSoft ? fillsOf(wanted.obstacles, low, high).cost : 0);
        if (gain > best.gain) {
            best = {gain, low, high};
        }
    };
    consider(v0);
    if (wanted.width < v1 - v0) {
        consider(v1 - wanted.width);
    }
    return best;
}

SectionMenu::Fit SectionMenu::fitPool(const Wanted& wanted, const Values& values, Nm v0,
                                      Nm v1) const {
    const Limits& limits = m_context->problem->limits;
    const Group& group = m_groups[wanted.group];
    const Kind& kind = kindOf(group);
    const ObstacleRange obstacles = wanted.obstacles;
    const Nm strip = v1 - v0;
    Fit best;
    const auto consider = [&](Nm low, Nm width) {
        const std::optional<Cost> trim = trimming(strip, width);
        if (width <= 0 || low + width > wanted.top || !trim) {
            return;
        }
        const Cost gain = values.of(kind, static_cast<std::size_t>(group.kind), width) - *trim -
                          (wanted.hasSoft ? fillsOf(obstacles, low, low + width).cost : 0);
        if (gain > best.gain) {
            best = {gain, low, low + width};
        }
    };
    // As wide as it can be along either edge, with fills or without.
    for (const bool avoidFills : {false, true}) {
        if (avoidFills && !wanted.hasSoft) {
            break;
        }
        const Nm most = std::min({strip, kind.widest, wanted.top - v0});
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
        if (v1 <= wanted.top) {
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

SectionMenu::Row SectionMenu::emptyRow(const Values& values, bool ripped) const {
    Row row;
    row.fits.resize(m_groups.size());
    row.gains.resize(m_groups.size());
    for (const std::uint32_t g : m_byWidth) {
        const auto index = static_cast<std::size_t>(m_groups[g].kind);
        const Kind& kind = m_context->problem->kinds[index];
        const Wanted wanted = wantedOf(g, values, ripped);
        if (wanted.worth > 0 || (kind.isPool && values.of(kind, index, kind.widest) > 0)) {
            row.wanted.push_back(wanted);
        }
    }
    return row;
}

double SectionMenu::fitRow(const Values& values, Nm v0, Nm v1, Row& row) const {
    std::fill(row.gains.begin(), row.gains.end(), -1);
    const Cost crosscut = m_context->problem->limits.crosscutCost;
    const Nm strip = v1 - v0;
    double most = 0; // by length
    for (const Wanted& wanted : row.wanted) {
        if (wanted.width > strip) {
            break;
        }
        const Fit fit = fitIn(wanted, values, v0, v1);
        if (fit.v0 >= 0 && fit.gain > 0) {
            row.fits[wanted.group] = fit;
            row.gains[wanted.group] = fit.gain;
            most = std::max(most, static_cast<double>(fit.gain - crosscut) / wanted.length);
        }
    }
    // All but one of its blanks cost a crosscut at least.
    return most * static_cast<double>(m_shape.uHigh() - m_shape.uLow()) +
           static_cast<double>(crosscut);
}

void SectionMenu::fillRow(Row& row) const {
    row.best.resize(m_options.size() + 1);
    row.endAt.resize(m_options.size());
    Cost* best = row.best.data();
    Cost* endAt = row.endAt.data();
    best[0] = 0;
    for (std::size_t i = 0; i < m_options.size(); ++i) {
        const Link& link = m_links[i];
        const Cost gain = row.gains[link.group];
        Cost value = nothing;
        if (gain > 0) {
            value = gain - link.cutBehind +
                    std::max(best[link.before] - link.cutBefore,
                             link.joins ? endAt[link.before - 1] : nothing);
        }
        endAt[i] = link.endsAlike ? std::max(endAt[i - 1], value) : value;
        best[i + 1] = std::max(best[i], value);
    }
}

} // namespace stavewright::cutting
