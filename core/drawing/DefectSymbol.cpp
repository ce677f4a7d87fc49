#include "core/drawing/DefectSymbol.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "core/drawing/Clip.h"
#include "core/drawing/OutlineShape.h"
#include "core/drawing/Scatter.h"

namespace stavewright::drawing {

namespace {

constexpr double fullTurn = 2 * std::numbers::pi;

/// Strokes one way across a symbol at most, however fine the hatch that is asked for.
constexpr double mostSteps = 48;
/// And at least so many, so that a small symbol still tells its kind.
constexpr double leastSteps = 4;

class SymbolMaker {
  public:
    SymbolMaker(const Polygon& outline, Length spacing)
        : m_outline(outline)
        , m_ring(curveOf(outline))
        , m_extent(extentOf(m_ring))
        , m_heart(roomiestSpot(m_ring)) {
        const double longer = std::max(m_extent.length(), m_extent.width());
        const double shorter = std::min(m_extent.length(), m_extent.width());
        const double asked = static_cast<double>(spacing.inNanometres());
        m_step = std::clamp(asked, longer / mostSteps,
                            std::max(longer / mostSteps, shorter / leastSteps));
    }

    /// False for an outline without length or width, in which nothing can be drawn.
    [[nodiscard]] bool hasRoom() const { return m_extent.length() > 0 && m_extent.width() > 0; }
    [[nodiscard]] Spot heart() const { return m_heart; }
    std::vector<Stroke> takeStrokes() { return std::move(m_strokes); }

    void outline(StrokeRole role) { m_strokes.push_back({m_outline, true, false, role}); }

    /// Rings round the heart like the knot's own; `broken` leaves gaps in them.
    void rings(bool broken) {
        const double room = std::max(distanceToEdge(m_heart, m_ring), 1.0);
        const int count = std::clamp(static_cast<int>(room / (1.4 * m_step)), 1, 4);
        for (int ring = 1; ring <= count; ++ring) {
            const double size = static_cast<double>(ring) / (count + 1);
            const Curve whole = scaledOutline(size);
            if (!broken) {
                inside(whole, StrokeRole::Hatch);
                continue;
            }
            constexpr int arcs = 3;
            for (int arc = 0; arc < arcs; ++arc) {
                // Each ring's gaps are turned against its neighbour's.
                inside(stretchOf(whole, (arc + 0.33 * ring) / arcs, 0.6 / arcs), StrokeRole::Hatch);
            }
        }
    }

    /// Lines along the grain that follow the outline's middle: `share` of the half width off it,
    /// with a bow of `bow` half widths.
    void alongGrain(double share, double bow, StrokeRole role) {
        inside(midline(share, bow), role);
    }

    /// Long dash, dot, long dash ... along the middle.
    void dashDot() {
        const Curve line = midline(0, 0);
        constexpr double dash = 0.5; // shares of one period: dash, gap, dot, gap
        constexpr double gap = 0.2;
        constexpr double dot = 0.1;
        const int periods = std::clamp(static_cast<int>(m_extent.length() / (8 * m_step)), 1, 8);
        const double whole = periods + dash; // ends with a dash as it began
        for (int i = 0; i <= periods; ++i) {
            inside(stretchOf(line, i / whole, dash / whole), StrokeRole::Axis);
            if (i < periods) {
                inside(stretchOf(line, (i + dash + gap) / whole, dot / whole), StrokeRole::Axis);
            }
        }
    }

    /// Lines at 45 degrees through the whole outline; with `bark` broken into strokes of uneven
    /// length.
    void slantedHatch(bool bark) {
        const double reach = m_extent.length() + m_extent.width();
        const int lines = static_cast<int>(reach / m_step) + 1;
        for (int line = -lines; line <= lines; ++line) {
            const double offset = line * m_step * std::numbers::sqrt2;
            const Spot low{m_heart.x + offset - reach, m_heart.y - reach};
            const Spot high{m_heart.x + offset + reach, m_heart.y + reach};
            for (const Curve& part : insideParts({low, high}, m_ring)) {
                bark ? barkStrokes(part, line) : add(part, StrokeRole::Hatch);
            }
        }
    }

    /// A lens along the middle, filled but for a gap that leaves room for the letter.
    void filledLens() {
        constexpr double gap = 0.16; // half of it, as a share of the length
        const double middle = (m_heart.x - m_extent.lowX) / m_extent.length();
        lensHalf(0.06, middle - gap);
        lensHalf(middle + gap, 0.94);
    }

    void dots() {
        scattered(1.0, [&](Spot at) {
            const double half = m_step / 10;
            inside({{at.x - half, at.y}, {at.x + half, at.y}}, StrokeRole::Hatch);
        });
    }

    void smallRings() {
        scattered(1.7, [&](Spot at) {
            constexpr int corners = 8;
            const double radius = m_step * 0.45;
            if (isInside(at, m_ring) && distanceToEdge(at, m_ring) > radius) {
                Curve ring;
                for (int i = 0; i < corners; ++i) {
                    const double turn = fullTurn * i / corners;
                    ring.push_back(
                        {at.x + radius * std::cos(turn), at.y + radius * std::sin(turn)});
                }
                m_strokes.push_back({pointsOf(ring), true, false, StrokeRole::Hatch});
            }
        });
    }

    void waves() {
        const double apart = 1.6 * m_step;
        const int rows = static_cast<int>(m_extent.width() / apart) + 1;
        const double period = std::max(4 * m_step, m_extent.length() / 12);
        const int points = 12 * (static_cast<int>(m_extent.length() / period) + 1);
        for (int row = -rows; row <= rows; ++row) {
            Curve wave;
            for (int i = 0; i <= points; ++i) {
                const double x = m_extent.lowX + m_extent.length() * i / points;
                const double rise = 0.45 * m_step * std::sin(fullTurn * (x - m_heart.x) / period);
                wave.push_back({x, m_heart.y + row * apart + rise});
            }
            inside(wave, StrokeRole::Hatch);
        }
    }

  private:
    void add(const Curve& curve, StrokeRole role) {
        m_strokes.push_back({pointsOf(curve), false, false, role});
    }
    void inside(const Curve& curve, StrokeRole role) {
        for (const Curve& part : insideParts(curve, m_ring)) {
            add(part, role);
        }
    }

    [[nodiscard]] Curve scaledOutline(double size) const {
        Curve ring;
        for (const Spot& corner : m_ring) {
            ring.push_back({m_heart.x + (corner.x - m_heart.x) * size,
                            m_heart.y + (corner.y - m_heart.y) * size});
        }
        ring.push_back(ring.front());
        return ring;
    }

    /// The stretch of a curve from `from` on, `length` long, both as shares of its whole length;
    /// runs on from the curve's beginning where it passes its end.
    [[nodiscard]] static Curve stretchOf(const Curve& curve, double from, double length) {
        double whole = 0;
        for (std::size_t i = 0; i + 1 < curve.size(); ++i) {
            whole += std::hypot(curve[i + 1].x - curve[i].x, curve[i + 1].y - curve[i].y);
        }
        const double begin = (from - std::floor(from)) * whole;
        const double end = begin + length * whole;
        Curve stretch;
        double passed = 0;
        for (std::size_t step = 0; step < 2 * (curve.size() - 1) && passed < end; ++step) {
            const Spot& a = curve[step % (curve.size() - 1)];
            const Spot& b = curve[step % (curve.size() - 1) + 1];
            const double size = std::hypot(b.x - a.x, b.y - a.y);
            const auto at = [&](double distance) {
                const double share = size == 0 ? 0 : (distance - passed) / size;
                return Spot{a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share};
            };
            if (passed + size > begin) {
                if (stretch.empty()) {
                    stretch.push_back(at(std::max(begin, passed)));
                }
                stretch.push_back(at(std::min(end, passed + size)));
            }
            passed += size;
        }
        return stretch;
    }

    [[nodiscard]] Curve midline(double share, double bow) const {
        constexpr int steps = 24;
        constexpr double end = 0.02; // stays clear of the outline's tips
        Curve line;
        for (int i = 0; i <= steps; ++i) {
            const double along = end + (1 - 2 * end) * i / steps;
            const double x = m_extent.lowX + m_extent.length() * along;
            if (const auto run = longestRunAt(m_ring, x)) {
                const double bowed = bow * (4 * along * (1 - along) - 0.5);
                // A pair of lines stays a pair, however wide the outline.
                const double apart = std::clamp(share * run->half(), -0.8 * m_step, 0.8 * m_step);
                line.push_back({x, run->middle() + run->half() * bowed + apart});
            }
        }
        return line;
    }

    void barkStrokes(const Curve& line, int row) {
        const Spot& a = line.front();
        const Spot& b = line.back();
        const double length = std::hypot(b.x - a.x, b.y - a.y);
        const auto strokes = static_cast<std::uint64_t>(length / (1.5 * m_step)) + 1;
        const auto seed = static_cast<std::uint64_t>(row);
        for (std::uint64_t i = 0; i < strokes; ++i) {
            const double from = (static_cast<double>(i) + 0.25 * scatter(seed, 2 * i)) /
                                static_cast<double>(strokes);
            const double share = 0.45 + 0.25 * scatter(seed, 2 * i + 1);
            add(stretchOf(line, from, share / static_cast<double>(strokes)), StrokeRole::Hatch);
        }
    }

    void lensHalf(double from, double to) {
        constexpr int steps = 10;
        Curve upper;
        Curve lower;
        for (int i = 0; i <= steps; ++i) {
            const double along = from + (to - from) * i / steps;
            const auto run = longestRunAt(m_ring, m_extent.lowX + m_extent.length() * along);
            if (!run) {
                continue;
            }
            const double half = 0.75 * run->half() * std::sin(std::numbers::pi * along);
            const double x = m_extent.lowX + m_extent.length() * along;
            lower.push_back({x, run->middle() - half});
            upper.push_back({x, run->middle() + half});
        }
        lower.insert(lower.end(), upper.rbegin(), upper.rend());
        if (to > from && lower.size() >= 6 && outsideParts(lower, m_ring).empty()) {
            m_strokes.push_back({pointsOf(lower), true, true, StrokeRole::Hatch});
        }
    }

    /// Calls `put` at the spots of a staggered grid through the heart, `apart` steps wide.
    template <class Put>
    void scattered(double apart, const Put& put) {
        const double pitch = apart * m_step;
        const int rows = static_cast<int>(m_extent.width() / pitch) + 1;
        const int columns = static_cast<int>(m_extent.length() / pitch) + 1;
        for (int row = -rows; row <= rows; ++row) {
            for (int column = -columns; column <= columns; ++column) {
                const double stagger = row % 2 == 0 ? 0 : 0.5;
                put({m_heart.x + (column + stagger) * pitch, m_heart.y + row * pitch});
            }
        }
    }

    const Polygon& m_outline;
    Curve m_ring;
    Extent m_extent;
    Spot m_heart;
    double m_step = 1;
    std::vector<Stroke> m_strokes;
};

void draw(SymbolMaker& maker, DefectKind kind) {
    switch (kind) {
    case DefectKind::SoundKnot:
        maker.outline(StrokeRole::Outline);
        return maker.rings(false);
    case DefectKind::LooseKnot:
        maker.outline(StrokeRole::BrokenOutline);
        return maker.rings(true);
    case DefectKind::KnotHole:
        return maker.outline(StrokeRole::HeavyOutline);
    case DefectKind::Check:
        maker.outline(StrokeRole::Outline);
        return maker.alongGrain(0, 0, StrokeRole::Outline);
    case DefectKind::Split:
        maker.outline(StrokeRole::Outline);
        maker.alongGrain(-0.4, 0, StrokeRole::Outline);
        return maker.alongGrain(0.4, 0, StrokeRole::Outline);
    case DefectKind::Shake:
        maker.outline(StrokeRole::BrokenOutline);
        maker.alongGrain(-0.3, 1.1, StrokeRole::Outline);
        return maker.alongGrain(0.3, 1.1, StrokeRole::Outline);
    case DefectKind::Wane:
        maker.outline(StrokeRole::Outline);
        return maker.slantedHatch(true);
    case DefectKind::Pith:
        maker.outline(StrokeRole::BrokenOutline);
        return maker.dashDot();
    case DefectKind::BarkPocket:
        maker.outline(StrokeRole::Outline);
        return maker.filledLens();
    case DefectKind::Sapwood:
        maker.outline(StrokeRole::BrokenOutline);
        return maker.dots();
    case DefectKind::Stain:
        maker.outline(StrokeRole::BrokenOutline);
        return maker.waves();
    case DefectKind::WormHoles:
        maker.outline(StrokeRole::Outline);
        return maker.smallRings();
    case DefectKind::Other:
        maker.outline(StrokeRole::Outline);
        return maker.slantedHatch(false);
    }
}

} // namespace

DefectSymbol symbolOf(DefectKind kind, const Polygon& outline, Length spacing) {
    DefectSymbol symbol;
    symbol.letter = letterOf(kind);
    if (outline.size() < 3) {
        symbol.letterAt = outline.empty() ? Point() : outline.front();
        return symbol;
    }
    SymbolMaker maker(outline, spacing);
    maker.hasRoom() ? draw(maker, kind) : maker.outline(StrokeRole::Outline);
    symbol.strokes = maker.takeStrokes();
    symbol.letterAt = pointOf(maker.heart());
    return symbol;
}

} // namespace stavewright::drawing
