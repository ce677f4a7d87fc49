#include "core/cutting/SectionFit.h"

#include <algorithm>

#include "core/cutting/Places.h"

namespace stavewright::cutting {

namespace {

/// Steps of the lattice on which places are foreseen, or near them.
constexpr Nm foreseenAlong = 4'000'000;
constexpr Nm foreseenAcross = 1'600'000;
/// How much later, and higher, than foreseen a place may be.
constexpr Nm mostLater = 4 * foreseenAlong;
constexpr Nm mostHigher = 4 * foreseenAcross;
/// Steps by which staves may be narrower than foreseen.
constexpr int mostNarrower = 6;

} // namespace

SectionFit::SectionFit(const Context& context, const BoardModel& model, const BoundSection& wanted,
                       Nm x0, Nm x1)
    : m_context(&context)
    , m_shape(model, x0, x1)
    , m_facing(context, model, m_shape)
    , m_pieces(model, m_shape, context.rules)
    , m_clear(context.poses.size()) {
    m_section.x0 = x0;
    m_section.x1 = x1;
    m_section.frame = m_shape.frame();
    m_section.roughRippedFirst = needsRipping(wanted);
    if (m_section.roughRippedFirst && !m_facing.mayRipped()) {
        return;
    }
    for (std::size_t p = 0; p < context.poses.size(); ++p) {
        m_pieces.clearPlaces(context.poses[p], m_clear[p]);
        sortUnique(m_clear[p]);
    }
    std::size_t all = 0;
    for (const BoundStrip& strip : wanted.strips) {
        all += strip.blanks.size();
    }
    std::vector<BoundStrip> strips = wanted.strips;
    take(stackOf(strips));
    // A strip of free width takes the room that one above it may lack.
    for (std::size_t s = 0; s + 1 < strips.size() && m_blanks < all; ++s) {
        for (int narrower = 0; narrower < mostNarrower && m_blanks < all; ++narrower) {
            if (!narrow(strips[s])) {
                break;
            }
            take(stackOf(strips));
        }
        strips[s] = wanted.strips[s];
    }
}

std::vector<PlacedStrip> SectionFit::stackOf(const std::vector<BoundStrip>& strips) const {
    std::vector<PlacedStrip> stack;
    Nm v = 0;
    for (const BoundStrip& strip : strips) {
        PlacedStrip placed = fitStrip(strip, v);
        if (!placed.blanks.empty()) {
            v = placed.v1 + m_context->problem->limits.ripKerf;
            stack.push_back(std::move(placed));
        }
    }
    return stack;
}

void SectionFit::take(std::vector<PlacedStrip>&& stack) {
    std::size_t blanks = 0;
    for (const PlacedStrip& strip : stack) {
        blanks += strip.blanks.size();
    }
    if (blanks <= m_blanks) {
        return;
    }
    m_blanks = blanks;
    m_last = 0;
    for (const PlacedStrip& strip : stack) {
        m_last = std::max(m_last, strip.blanks.back().rect.x1.inNanometres());
    }
    m_section.strips = std::move(stack);
}

bool SectionFit::narrow(BoundStrip& strip) const {
    Nm widest = 0;
    Nm step = 1;
    for (const BoundBlank& blank : strip.blanks) {
        if (blank.width > widest) {
            widest = blank.width;
            step = std::max<Nm>(1, kindOf(blank).step);
        }
    }
    const std::vector<Nm> widths = widthsWithin(strip, widest - step);
    for (std::size_t i = 0; i < widths.size(); ++i) {
        strip.blanks[i].width = widths[i];
    }
    return !widths.empty();
}

Nm SectionFit::lengthNeeded() const {
    return m_shape.lengthFor(std::max(m_last, m_context->problem->limits.leastFacedLength));
}

bool SectionFit::needsRipping(const BoundSection& wanted) const {
    return !m_facing.mayWhole() ||
           std::any_of(wanted.strips.begin(), wanted.strips.end(), [&](const BoundStrip& strip) {
               return std::any_of(
                   strip.blanks.begin(), strip.blanks.end(),
                   [&](const BoundBlank& blank) { return !m_facing.whole(blank.kind); });
           });
}

template <class Visit>
void SectionFit::visitPoses(std::size_t kind, const Visit& visit) const {
    for (std::size_t p = 0; p < m_context->poses.size(); ++p) {
        if (static_cast<std::size_t>(m_context->poses[p].kind) == kind) {
            visit(m_context->poses[p], m_clear[p]);
        }
    }
}

std::vector<Nm> SectionFit::widthsWithin(const BoundStrip& strip, Nm most) const {
    std::vector<Nm> widths;
    for (const BoundBlank& blank : strip.blanks) {
        const Kind& kind = kindOf(blank);
        Nm width = blank.width;
        if (kind.isPool && width > most) {
            const Nm step = std::max<Nm>(1, kind.step);
            width = most < kind.width ? most : kind.width + (most - kind.width) / step * step;
        }
        if (width > most || width < kind.width) {
            return {};
        }
        widths.push_back(width);
    }
    return widths;
}

std::vector<Nm> SectionFit::startsOf(const BoundStrip& strip, const std::vector<Nm>& widths,
                                     Nm width, Nm v) const {
    const Nm from = std::max(v, strip.across - 2 * foreseenAcross);
    const Nm to = std::max(v, strip.across) + mostHigher;
    std::vector<Nm> starts = {from, std::max(v, strip.across)};
    std::vector<Obstacle> obstacles;
    for (std::size_t i = 0; i < strip.blanks.size(); ++i) {
        const Nm about = strip.blanks[i].along - m_shape.x0();
        visitPoses(strip.blanks[i].kind, [&](const BlankPose& pose, const std::vector<Nm>&) {
            for (const Nm u : {about, about + foreseenAlong / 2, about + foreseenAlong}) {
                obstacles.clear();
                m_pieces.obstacles(pose, u, obstacles);
                for (const Obstacle& obstacle : obstacles) {
                    // Along the strip's low edge, or along its high one.
                    const Nm low = obstacle.lowOnHigh ? obstacle.below - widths[i] : obstacle.below;
                    starts.push_back(low);
                    starts.push_back(low + widths[i] - width);
                }
            }
        });
    }
    std::erase_if(starts, [&](Nm start) {
        return start < from || start > to || start + width > m_shape.vTop();
    });
    sortUnique(starts);
    return starts;
}

PlacedStrip SectionFit::fitStrip(const BoundStrip& strip, Nm v) const {
    Nm widest = 0;
    Nm step = foreseenAcross;
    for (const BoundBlank& blank : strip.blanks) {
        widest = std::max(widest, blank.width);
        step = kindOf(blank).isPool ? std::max<Nm>(1, kindOf(blank).step) : step;
    }
    PlacedStrip best;
    for (int narrower = 0; narrower <= mostNarrower; ++narrower) {
        const std::vector<Nm> widths = widthsWithin(strip, widest - narrower * step);
        if (widths.empty()) {
            break;
        }
        const Nm width = *std::max_element(widths.begin(), widths.end());
        for (const Nm v0 : startsOf(strip, widths, width, v)) {
            PlacedStrip placed = fitRow(strip, widths, v0, v0 + width);
            if (placed.blanks.size() == strip.blanks.size()) {
                return placed;
            }
            if (placed.blanks.size() > best.blanks.size()) {
                best = std::move(placed);
            }
        }
    }
    return best;
}

PlacedStrip SectionFit::fitRow(const BoundStrip& strip, const std::vector<Nm>& widths, Nm v0,
                               Nm v1) const {
    const Limits& limits = m_context->problem->limits;
    PlacedStrip placed{v0, v1, {}};
    if (v1 - v0 < limits.narrowestRip) {
        return placed;
    }
    Nm from = m_shape.uLow();
    for (std::size_t i = 0; i < strip.blanks.size(); ++i) {
        const BoundBlank& blank = strip.blanks[i];
        if (!m_facing.allows(blank.kind, m_section.roughRippedFirst, v1 - v0)) {
            continue;
        }
        if (const std::optional<Placed> found = fitBlank(blank, widths[i], from, v0, v1)) {
            from = found->rect.x1.inNanometres() + limits.stripCrosscutKerf;
            placed.blanks.push_back(*found);
        }
    }
    return placed;
}

std::optional<Placed> SectionFit::fitBlank(const BoundBlank& blank, Nm width, Nm from, Nm v0,
                                           Nm v1) const {
    const Limits& limits = m_context->problem->limits;
    const Nm trimmed = v1 - v0 - width;
    if (trimmed > 0 && (trimmed < limits.ripKerf || width < limits.narrowestRip)) {
        return std::nullopt;
    }
    const Nm length = kindOf(blank).length;
    const Nm to =
        std::min(m_shape.uHigh() - length, std::max(from, blank.along - m_shape.x0()) + mostLater);
    std::optional<Placed> best;
    Cost bestFill = 0;
    std::vector<Obstacle> obstacles;
    const auto tryAt = [&](const BlankPose& pose, Nm u) {
        obstacles.clear();
        m_pieces.obstacles(pose, u, obstacles);
        const ObstacleRange range{obstacles.data(), obstacles.data() + obstacles.size()};
        const Nm top = m_shape.clearTop(u, u + length);
        for (const Nm low : {v0, v1 - width}) {
            if (low + width > top || !isClear(range, low, low + width)) {
                continue;
            }
            const Cost fill = fillsOf(range, low, low + width).cost;
            const bool isNearer = !best || u < best->rect.x0.inNanometres();
            if (!best || fill < bestFill || (fill == bestFill && isNearer)) {
                best = {pose.kind,
                        0,
                        {Length::nanometres(u), Length::nanometres(low),
                         Length::nanometres(u + length), Length::nanometres(low + width)},
                        pose.endForEnd,
                        pose.faceOver};
                bestFill = fill;
            }
        }
    };
    visitPoses(blank.kind, [&](const BlankPose& pose, const std::vector<Nm>& clear) {
        if (from <= to) {
            tryAt(pose, from);
        }
        for (auto u = std::upper_bound(clear.begin(), clear.end(), from);
             u != clear.end() && *u <= to; ++u) {
            tryAt(pose, *u);
        }
    });
    return best;
}

} // namespace stavewright::cutting
