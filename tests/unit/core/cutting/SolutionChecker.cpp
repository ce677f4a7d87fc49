#include "SolutionChecker.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace stavewright::cutting::testing {

namespace {

struct P {
    double x = 0, y = 0;
};
using Ring = std::vector<P>;

Nm nm(Length length) { return length.inNanometres(); }
double dbl(Length length) { return static_cast<double>(nm(length)); }

P outer(const Frame& frame, double u, double v) {
    const double run = dbl(frame.run);
    const double rise = dbl(frame.rise);
    const double size = std::hypot(run, rise);
    return {dbl(frame.origin.x) + (u * run - v * rise) / size,
            dbl(frame.origin.y) + (u * rise + v * run) / size};
}

Ring quad(const Frame& frame, double u0, double u1, double v0, double v1) {
    return {outer(frame, u0, v0), outer(frame, u1, v0), outer(frame, u1, v1), outer(frame, u0, v1)};
}

double area(const Ring& ring) {
    double twice = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const P& a = ring[i];
        const P& b = ring[(i + 1) % ring.size()];
        twice += a.x * b.y - b.x * a.y;
    }
    return twice / 2;
}

/// Subject clipped by a convex counter-clockwise ring; its area is right even where pieces hang
/// together by edges of no width.
Ring clipped(Ring subject, const Ring& convex) {
    for (std::size_t i = 0; i < convex.size() && !subject.empty(); ++i) {
        const P a = convex[i];
        const P b = convex[(i + 1) % convex.size()];
        const auto side = [&](const P& p) {
            return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
        };
        Ring next;
        for (std::size_t j = 0; j < subject.size(); ++j) {
            const P p = subject[j];
            const P q = subject[(j + 1) % subject.size()];
            const double sp = side(p);
            const double sq = side(q);
            if (sp >= 0) {
                next.push_back(p);
            }
            if ((sp > 0 && sq < 0) || (sp < 0 && sq > 0)) {
                const double t = sp / (sp - sq);
                next.push_back({p.x + t * (q.x - p.x), p.y + t * (q.y - p.y)});
            }
        }
        subject = std::move(next);
    }
    return subject;
}

Ring ringOf(const Polygon& polygon) {
    Ring ring;
    for (const Point& corner : polygon) {
        ring.push_back({dbl(corner.x), dbl(corner.y)});
    }
    if (area(ring) < 0) {
        std::reverse(ring.begin(), ring.end());
    }
    return ring;
}

/// Interiors meet by more than the two micrometres that turned frames are allowed.
bool meets(const Frame& frame, double u0, double u1, double v0, double v1, const Ring& block) {
    const double allowed = frame.isParallel() ? 0 : 2000;
    if (u1 - u0 <= 2 * allowed || v1 - v0 <= 2 * allowed) {
        return false;
    }
    const Ring inner =
        clipped(block, quad(frame, u0 + allowed, u1 - allowed, v0 + allowed, v1 - allowed));
    return inner.size() >= 3 && std::abs(area(inner)) > 1e4; // a hundredth of a square micrometre
}

double crossLength(const Ring& ring, double x) {
    double low = 1e300;
    double high = -1e300;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const P& a = ring[i];
        const P& b = ring[(i + 1) % ring.size()];
        if (std::min(a.x, b.x) > x || std::max(a.x, b.x) < x) {
            continue;
        }
        for (const double t : {0.0, 1.0}) {
            if (a.x == b.x) {
                const double y = t == 0 ? a.y : b.y;
                low = std::min(low, y);
                high = std::max(high, y);
            }
        }
        if (a.x != b.x) {
            const double y = a.y + (x - a.x) / (b.x - a.x) * (b.y - a.y);
            low = std::min(low, y);
            high = std::max(high, y);
        }
    }
    return std::max(0.0, high - low);
}

double widestOf(const Ring& ring, double x0, double x1) {
    double widest = std::max(crossLength(ring, x0), crossLength(ring, x1));
    for (const P& p : ring) {
        if (p.x > x0 && p.x < x1) {
            widest = std::max(widest, crossLength(ring, p.x));
        }
    }
    return widest;
}

double thicknessOf(const Board& board, const Ring& ring, double x0, double x1, double width) {
    double left = 1e300;
    double right = -1e300;
    for (const P& p : ring) {
        left = std::min(left, p.x);
        right = std::max(right, p.x);
    }
    const double whole = right - left;
    const double widest = widestOf(ring, left, right);
    const double l = (x1 - x0) / whole;
    const double w = std::min(1.0, width / widest);
    const double start = static_cast<double>(board.thinnest - board.cleaning);
    if (board.warpWhere != 0) {
        const bool in = board.warpWhere == 1 ? x0 - left < whole / 3 : right - x1 < whole / 3;
        return in ? start - static_cast<double>(board.bow + board.cup) -
                        static_cast<double>(board.twist) / 2
                  : start;
    }
    return start - static_cast<double>(board.bow) * l * l - static_cast<double>(board.cup) * w * w -
           static_cast<double>(board.twist) / 2 * l * w;
}

struct ZoneSpan {
    double u0, u1, v0, v1;
    bool onB;
    int rule;
};

std::vector<ZoneSpan> zoneSpans(const Kind& kind, const Placed& placed) {
    std::vector<ZoneSpan> spans;
    const Nm length = nm(placed.rect.length());
    const Nm width = nm(placed.rect.width());
    for (const Zone& zone : kind.zones) {
        Nm a0 = std::max<Nm>(0, zone.x0.in(length));
        Nm a1 = std::min(length, zone.x1.in(length));
        Nm b0 = zone.y0.in(width);
        Nm b1 = zone.y1.in(width);
        bool onB = zone.onB;
        if (placed.endForEnd) {
            std::swap(a0, a1);
            a0 = length - a0;
            a1 = length - a1;
            std::swap(b0, b1);
            b0 = width - b0;
            b1 = width - b1;
        }
        if (placed.faceOver) {
            std::swap(b0, b1);
            b0 = width - b0;
            b1 = width - b1;
            onB = !onB;
        }
        if (a0 < a1 && b0 < b1) {
            spans.push_back({dbl(placed.rect.x0) + static_cast<double>(a0),
                             dbl(placed.rect.x0) + static_cast<double>(a1),
                             dbl(placed.rect.y0) + static_cast<double>(b0),
                             dbl(placed.rect.y0) + static_cast<double>(b1), onB, zone.rule});
        }
    }
    return spans;
}

class Checker {
  public:
    explicit Checker(const Problem& problem)
        : m_problem(problem) {}

    std::vector<std::string> run(const Solution& solution) {
        std::set<int> seen;
        for (const Pattern& pattern : solution.patterns) {
            expect(pattern.board >= 0 &&
                       pattern.board < static_cast<int>(m_problem.boards.size()) &&
                       seen.insert(pattern.board).second,
                   "a board stands twice or does not exist");
            expect(!pattern.sections.empty(), "a pattern has no section");
            checkPattern(pattern);
        }
        checkDemand(solution);
        return m_faults;
    }

  private:
    void expect(bool holds, const std::string& fault) {
        if (!holds) {
            m_faults.push_back(m_where + fault);
        }
    }

    void checkPattern(const Pattern& pattern) {
        const Board& board = m_problem.boards[static_cast<std::size_t>(pattern.board)];
        const Ring outline = ringOf(board.outline);
        double left = 1e300;
        double right = -1e300;
        for (const P& p : outline) {
            left = std::min(left, p.x);
            right = std::max(right, p.x);
        }
        for (std::size_t s = 0; s < pattern.sections.size(); ++s) {
            const PlacedSection& section = pattern.sections[s];
            m_where = board.name + ", section " + std::to_string(s + 1) + ": ";
            expect(section.x0 < section.x1, "runs backwards");
            expect(static_cast<double>(section.x0) >= left + static_cast<double>(board.trimAtDatum),
                   "begins in the raw end");
            expect(static_cast<double>(section.x1) <= right - static_cast<double>(board.trimAtFar),
                   "ends in the raw end");
            if (s > 0) {
                expect(section.x0 - pattern.sections[s - 1].x1 >= m_problem.limits.crosscutKerf,
                       "no kerf before it");
            }
            expect(m_problem.limits.leastFacedLength == 0 ||
                       section.x1 - section.x0 >= m_problem.limits.leastFacedLength,
                   "is too short to be faced");
            for (const Fixed& fixed : m_problem.fixed) {
                if (fixed.board == pattern.board) {
                    expect(section.x1 + m_problem.limits.crosscutKerf <= nm(fixed.rect.x0) ||
                               section.x0 >= nm(fixed.rect.x1) + m_problem.limits.crosscutKerf,
                           "meets a fixed blank");
                }
            }
            checkSection(board, outline, section);
        }
        m_where.clear();
    }

    void checkSection(const Board& board, const Ring& outline, const PlacedSection& section) {
        const double x0 = static_cast<double>(section.x0);
        const double x1 = static_cast<double>(section.x1);
        const double width = widestOf(outline, x0, x1);
        if (!section.roughRippedFirst && m_problem.limits.jointerWidth > 0) {
            expect(width <= static_cast<double>(m_problem.limits.jointerWidth) + 1,
                   "is faced whole but wider than the jointer");
        }
        for (std::size_t t = 0; t < section.strips.size(); ++t) {
            const PlacedStrip& strip = section.strips[t];
            expect(strip.v1 - strip.v0 >= m_problem.limits.narrowestRip, "a strip is too narrow");
            expect(!strip.blanks.empty(), "a strip is empty");
            if (t > 0) {
                expect(strip.v0 - section.strips[t - 1].v1 >= m_problem.limits.ripKerf,
                       "no kerf between strips");
            }
            const double facedWidth =
                section.roughRippedFirst ? static_cast<double>(strip.v1 - strip.v0) : width;
            if (section.roughRippedFirst && m_problem.limits.jointerWidth > 0) {
                expect(strip.v1 - strip.v0 <= m_problem.limits.jointerWidth,
                       "a strip is wider than the jointer");
            }
            const double thickness = thicknessOf(board, outline, x0, x1, facedWidth);
            for (std::size_t b = 0; b < strip.blanks.size(); ++b) {
                const Placed& placed = strip.blanks[b];
                if (b > 0) {
                    expect(nm(placed.rect.x0) - nm(strip.blanks[b - 1].rect.x1) >=
                               m_problem.limits.stripCrosscutKerf,
                           "no kerf between blanks");
                }
                checkBlank(board, outline, section, strip, placed, thickness);
            }
        }
    }

    void checkBlank(const Board& board, const Ring& outline, const PlacedSection& section,
                    const PlacedStrip& strip, const Placed& placed, double thickness) {
        const Kind& kind = m_problem.kinds[static_cast<std::size_t>(placed.kind)];
        const Limits& limits = m_problem.limits;
        expect(kind.material == board.material, kind.name + " is of another material");
        expect(nm(placed.rect.length()) == kind.length, kind.name + " has the wrong length");
        const Nm width = nm(placed.rect.width());
        if (kind.isPool) {
            expect(width >= kind.width && width <= kind.widest &&
                       (width - kind.width) % std::max<Nm>(1, kind.step) == 0,
                   kind.name + " has a width that is not allowed");
        } else {
            expect(width == kind.width, kind.name + " has the wrong width");
        }
        expect(thickness >= static_cast<double>(kind.thickness) - 1,
               kind.name + " does not reach its thickness");
        expect((kind.mayTurn || !placed.endForEnd) && (kind.mayFaceOver || !placed.faceOver),
               kind.name + " lies in a pose it may not have");
        const Nm low = nm(placed.rect.y0) - strip.v0;
        const Nm high = strip.v1 - nm(placed.rect.y1);
        expect(low >= 0 && high >= 0, kind.name + " leaves its strip");
        expect(low == 0 || high == 0, kind.name + " needs two trimming rips");
        const Nm spare = std::max(low, high);
        expect(spare == 0 || (spare >= limits.ripKerf && width >= limits.narrowestRip),
               kind.name + " leaves less than a kerf beside it");

        const double u0 = dbl(placed.rect.x0);
        const double u1 = dbl(placed.rect.x1);
        const double v0 = dbl(placed.rect.y0);
        const double v1 = dbl(placed.rect.y1);
        const Ring blank = quad(section.frame, u0, u1, v0, v1);
        for (const P& corner : blank) {
            // The corner came through a square root; a thousandth of a nanometre is its rounding.
            constexpr double rounding = 1e-3;
            expect(corner.x >= static_cast<double>(section.x0) - rounding &&
                       corner.x <= static_cast<double>(section.x1) + rounding,
                   kind.name + " crosses a crosscut of its section");
        }
        const double inside = std::abs(area(clipped(outline, blank)));
        // One nanometre along the blank's longer side.
        expect(area(blank) - inside <= (u1 - u0) + (v1 - v0),
               kind.name + " leaves the outline of its board");
        for (const ZoneSpan& zone : zoneSpans(kind, placed)) {
            if (static_cast<std::size_t>(zone.rule) >= board.layers.size()) {
                continue;
            }
            const RuleLayer& layer = board.layers[static_cast<std::size_t>(zone.rule)];
            for (const Block& block : zone.onB ? layer.onB : layer.onA) {
                expect(block.fill.has_value() || !meets(section.frame, zone.u0, zone.u1, zone.v0,
                                                        zone.v1, ringOf(block.region)),
                       kind.name + " has a forbidden defect in a zone");
            }
        }
    }

    void checkDemand(const Solution& solution) {
        std::vector<int> count(m_problem.kinds.size(), 0);
        std::map<std::pair<int, int>, std::pair<Nm, int>> panels;
        for (const Pattern& pattern : solution.patterns) {
            for (const PlacedSection& section : pattern.sections) {
                for (const PlacedStrip& strip : section.strips) {
                    for (const Placed& placed : strip.blanks) {
                        ++count[static_cast<std::size_t>(placed.kind)];
                        const Kind& kind = m_problem.kinds[static_cast<std::size_t>(placed.kind)];
                        auto& panel = panels[{placed.kind, placed.panel}];
                        panel.first += nm(placed.rect.width()) - kind.jointAllowance;
                        ++panel.second;
                    }
                }
            }
        }
        for (const Fixed& fixed : m_problem.fixed) {
            ++count[static_cast<std::size_t>(fixed.kind)];
        }
        expect(solution.unplaced.size() == m_problem.kinds.size(), "the unplaced list is short");
        for (std::size_t k = 0; k < m_problem.kinds.size() && m_faults.empty(); ++k) {
            const Kind& kind = m_problem.kinds[k];
            if (!kind.isPool) {
                expect(count[k] + solution.unplaced[k] == kind.demand,
                       kind.name + ": placed and unplaced do not add up to the demand");
                continue;
            }
            if (!m_problem.fixed.empty()) {
                continue; // which panel a fixed stave belongs to is not told
            }
            int complete = 0;
            for (int panel = 0; panel < kind.demand; ++panel) {
                const auto found = panels.find({static_cast<int>(k), panel});
                if (found == panels.end()) {
                    continue;
                }
                const auto& [net, staves] = found->second;
                expect(net <= kind.netMost && staves <= kind.most,
                       kind.name + ": a panel is too wide or has too many staves");
                complete += net >= kind.netWanted && staves >= kind.fewest ? 1 : 0;
            }
            expect(complete + solution.unplaced[k] == kind.demand,
                   kind.name + ": complete and unplaced panels do not add up to the demand");
        }
    }

    const Problem& m_problem;
    std::vector<std::string> m_faults;
    std::string m_where;
};

} // namespace

std::vector<std::string> checkSolution(const Problem& problem, const Solution& solution) {
    return Checker(problem).run(solution);
}

Count countSolution(const Problem& problem, const Solution& solution) {
    Count result;
    std::set<int> touched;
    for (const Fixed& fixed : problem.fixed) {
        touched.insert(fixed.board);
    }
    std::vector<Nm> net(problem.kinds.size(), 0);
    for (const Pattern& pattern : solution.patterns) {
        touched.insert(pattern.board);
        const Board& board = problem.boards[static_cast<std::size_t>(pattern.board)];
        for (const PlacedSection& section : pattern.sections) {
            for (const PlacedStrip& strip : section.strips) {
                for (const Placed& placed : strip.blanks) {
                    ++result.placed;
                    const Kind& kind = problem.kinds[static_cast<std::size_t>(placed.kind)];
                    net[static_cast<std::size_t>(placed.kind)] +=
                        nm(placed.rect.width()) - kind.jointAllowance;
                    std::map<int, Cost> byDefect;
                    for (const ZoneSpan& zone : zoneSpans(kind, placed)) {
                        if (static_cast<std::size_t>(zone.rule) >= board.layers.size()) {
                            continue;
                        }
                        const RuleLayer& layer = board.layers[static_cast<std::size_t>(zone.rule)];
                        for (const Block& block : zone.onB ? layer.onB : layer.onA) {
                            if (!block.fill || !meets(section.frame, zone.u0, zone.u1, zone.v0,
                                                      zone.v1, ringOf(block.region))) {
                                continue;
                            }
                            if (block.defect < 0) {
                                result.fills += *block.fill;
                            } else {
                                Cost& paid = byDefect[block.defect];
                                paid = std::max(paid, *block.fill);
                            }
                        }
                    }
                    for (const auto& [defect, paid] : byDefect) {
                        result.fills += paid;
                    }
                }
            }
        }
    }
    for (const int board : touched) {
        result.boards += problem.boards[static_cast<std::size_t>(board)].cost;
        result.touchedBoardFeetMillionths +=
            problem.boards[static_cast<std::size_t>(board)].boardFeetMillionths;
    }
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Kind& kind = problem.kinds[k];
        result.demanded += kind.demand;
        if (!kind.isPool) {
            result.penalties += solution.unplaced[k] * kind.penaltyUnplaced;
        }
    }
    return result;
}

} // namespace stavewright::cutting::testing
