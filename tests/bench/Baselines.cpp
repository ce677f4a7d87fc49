#include "Baselines.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <memory>
#include <numeric>
#include <tuple>

#include "core/cutting/Accounts.h"
#include "core/cutting/Obstacles.h"
#include "core/cutting/Places.h"
#include "core/cutting/SectionShape.h"
#include "core/cutting/Solve.h"

namespace stavewright::cutting::bench {

namespace {

/// A section being filled by hand.
struct Bench {
    Bench(const Context& context, const BoardModel& model, Nm x0, Nm x1)
        : shape(model, x0, x1)
        , pieces(model, shape, context.rules) {
        const Limits& limits = context.problem->limits;
        mayWhole = limits.jointerWidth == 0 || shape.fullWidth() <= limits.jointerWidth;
        wholeReach = reachable(model.board(), model.size(), x0, x1, shape.fullWidth());
    }
    SectionShape shape;
    SectionPieces pieces;
    bool mayWhole = false;
    Nm wholeReach = 0;
    bool ripped = false;
    std::vector<PlacedStrip> strips;
};

/// A place for one blank: in a section that is there, or in a new one.
struct Placement {
    double leftOver = std::numeric_limits<double>::infinity();
    std::size_t board = 0;
    int section = -1; ///< below 0: new
    Nm x0 = 0, x1 = 0;
    bool ripped = false;
    int strip = -1; ///< below 0: new
    Nm v0 = 0, v1 = 0;
    Placed blank;
};

class Hand {
  public:
    explicit Hand(const Problem& problem)
        : m_problem(problem)
        , m_context(problem) {
        for (std::size_t b = 0; b < problem.boards.size(); ++b) {
            m_models.push_back(std::make_unique<BoardModel>(problem, static_cast<int>(b)));
        }
        m_sections.resize(problem.boards.size());
        m_version.resize(problem.boards.size(), 0);
    }

    /// One blank of this kind, of this width: begun boards first, else the new board with least
    /// left over.
    bool place(std::size_t kind, Nm width) {
        for (const bool begun : {true, false}) {
            Placement best;
            for (std::size_t b = 0; b < m_models.size(); ++b) {
                if ((!m_sections[b].empty()) == begun) {
                    consider(b, kind, width, width, best);
                }
            }
            if (std::isfinite(best.leftOver)) {
                take(best);
                return true;
            }
        }
        return false;
    }

    /// The widest stave that any board gives, boards in the order given; 0 when there is none.
    Nm placeWidest(std::size_t kind, Nm most) {
        const Kind& pool = m_problem.kinds[kind];
        Placement best;
        Nm bestWidth = 0;
        for (const bool begun : {true, false}) {
            for (std::size_t b = 0; b < m_models.size(); ++b) {
                if ((!m_sections[b].empty()) != begun) {
                    continue;
                }
                Placement here;
                consider(b, kind, pool.width, most, here);
                const Nm width = here.v1 - here.v0;
                // A begun board is used up before a new one is opened, unless it gives much less.
                if (std::isfinite(here.leftOver) &&
                    (bestWidth == 0 || width > bestWidth * (begun ? 100 : 130) / 100)) {
                    best = here;
                    bestWidth = width;
                }
            }
        }
        if (bestWidth > 0) {
            take(best);
        }
        return bestWidth;
    }

    [[nodiscard]] Solution finish() const {
        std::vector<const BoardModel*> models;
        std::vector<Pattern> patterns;
        for (std::size_t b = 0; b < m_models.size(); ++b) {
            models.push_back(m_models[b].get());
            Pattern pattern;
            pattern.board = static_cast<int>(b);
            for (const Bench& bench : m_sections[b]) {
                PlacedSection section;
                section.x0 = bench.shape.x0();
                section.x1 = bench.shape.x1();
                section.frame = bench.shape.frame();
                section.roughRippedFirst = bench.ripped;
                section.strips = bench.strips;
                pattern.sections.push_back(std::move(section));
            }
            std::sort(pattern.sections.begin(), pattern.sections.end(),
                      [](const PlacedSection& a, const PlacedSection& c) { return a.x0 < c.x0; });
            patterns.push_back(std::move(pattern));
        }
        return Accounts(m_context, models).settle(std::move(patterns)).solution;
    }

  private:
    /// Every place for the blank on one board; free widths (least < most) as wide as can be.
    void consider(std::size_t b, std::size_t kind, Nm least, Nm most, Placement& best) {
        const BoardModel& model = *m_models[b];
        if (!suits(m_problem.kinds[kind], model.board())) {
            return;
        }
        const auto known = m_nothing.find({b, kind, least});
        if (known != m_nothing.end() && known->second == m_version[b]) {
            return;
        }
        const double before = best.leftOver;
        for (std::size_t s = 0; s < m_sections[b].size(); ++s) {
            inSection(b, static_cast<int>(s), m_sections[b][s], kind, least, most, best, 0);
        }
        inGaps(b, kind, least, most, best);
        if (best.leftOver == before && !std::isfinite(before)) {
            m_nothing[{b, kind, least}] = m_version[b];
        }
    }

    void inGaps(std::size_t b, std::size_t kind, Nm least, Nm most, Placement& best) {
        const BoardModel& model = *m_models[b];
        const Nm length = m_problem.kinds[kind].length;
        const Nm kerf = m_problem.limits.crosscutKerf;
        std::vector<std::pair<Nm, Nm>> taken;
        for (const Bench& bench : m_sections[b]) {
            taken.emplace_back(bench.shape.x0() - kerf, bench.shape.x1() + kerf);
        }
        std::sort(taken.begin(), taken.end());
        for (const Stretch& stretch : model.freeStretches()) {
            Nm from = stretch.from.inNanometres();
            const auto gap = [&](Nm to) {
                if (to - from >= length) {
                    inGap(b, kind, least, most, from, to, best);
                }
            };
            for (const auto& [low, high] : taken) {
                gap(std::min(low, stretch.to.inNanometres()));
                from = std::max(from, high);
            }
            gap(stretch.to.inNanometres());
        }
    }

    void inGap(std::size_t b, std::size_t kind, Nm least, Nm most, Nm from, Nm to,
               Placement& best) {
        const BoardModel& model = *m_models[b];
        const Nm length = std::max(m_problem.kinds[kind].length, m_problem.limits.leastFacedLength);
        std::vector<Nm> starts = {from};
        for (const BlankPose& pose : m_context.poses) {
            if (pose.kind != static_cast<int>(kind)) {
                continue;
            }
            for (const PosedZone& zone : pose.zones) {
                for (const Piece& piece : model.pieces(zone.rule, zone.onB)) {
                    starts.push_back(static_cast<Nm>(std::ceil(piece.high.x)) - zone.x0);
                    starts.push_back(static_cast<Nm>(std::floor(piece.low.x)) - zone.x1);
                }
            }
        }
        starts.push_back(to - spanUpTo(model, to, length, from));
        std::erase_if(starts, [&](Nm x) { return x < from || x + length > to; });
        sortUnique(starts);
        for (const Nm x0 : starts) {
            const Nm x1 = x0 + spanFrom(model, x0, length, to);
            if (x1 > to) {
                continue;
            }
            Bench bench(m_context, model, x0, x1);
            const double width = static_cast<double>(bench.shape.fullWidth());
            const double ends = static_cast<double>(to - from - (x1 - x0)) * width;
            inSection(b, -1, bench, kind, least, most, best, ends);
        }
    }

    void inSection(std::size_t b, int index, const Bench& bench, std::size_t k, Nm least, Nm most,
                   Placement& best, double besides) const {
        const Kind& kind = m_problem.kinds[k];
        const Limits& limits = m_problem.limits;
        const SectionShape& shape = bench.shape;
        const bool fresh = bench.strips.empty();
        const bool wholeWorks = bench.mayWhole && bench.wholeReach >= kind.thickness;
        const bool ripped = fresh ? !wholeWorks : bench.ripped;
        if (!ripped && !wholeWorks) {
            return;
        }
        const auto reaches = [&](Nm stripWidth) {
            return !ripped || ((limits.jointerWidth == 0 || stripWidth <= limits.jointerWidth) &&
                               reachable(m_models[b]->board(), m_models[b]->size(), shape.x0(),
                                         shape.x1(), stripWidth) >= kind.thickness);
        };
        std::vector<Obstacle> obstacles;
        for (const BlankPose& pose : m_context.poses) {
            if (pose.kind != static_cast<int>(k)) {
                continue;
            }
            std::vector<Nm> places = {shape.uLow()};
            bench.pieces.clearPlaces(pose, places);
            for (const PlacedStrip& strip : bench.strips) {
                places.push_back(strip.blanks.back().rect.x1.inNanometres() +
                                 limits.stripCrosscutKerf);
            }
            std::erase_if(
                places, [&](Nm u) { return u < shape.uLow() || u + kind.length > shape.uHigh(); });
            sortUnique(places);
            for (const Nm u0 : places) {
                obstacles.clear();
                bench.pieces.obstacles(pose, u0, obstacles);
                const ObstacleRange range{obstacles.data(), obstacles.data() + obstacles.size()};
                const Nm top = shape.clearTop(u0, u0 + kind.length);
                const auto propose = [&](int strip, Nm v0, Nm v1, double leftOver) {
                    const double width = static_cast<double>(v1 - v0);
                    // Of free widths the widest; of fixed ones the one with least left over.
                    const double score = least < most ? -width : leftOver;
                    const double known = least < most && std::isfinite(best.leftOver)
                                             ? -static_cast<double>(best.v1 - best.v0)
                                             : best.leftOver;
                    if (score >= known) {
                        return;
                    }
                    best = {leftOver, b, index, shape.x0(), shape.x1(), ripped, strip, v0, v1, {}};
                    best.blank.kind = static_cast<int>(k);
                    best.blank.rect = {Length::nanometres(u0), Length::nanometres(v0),
                                       Length::nanometres(u0 + kind.length),
                                       Length::nanometres(v1)};
                    best.blank.endForEnd = pose.endForEnd;
                    best.blank.faceOver = pose.faceOver;
                };
                // On top of the strips that are there.
                const Nm from = fresh ? 0 : bench.strips.back().v1 + limits.ripKerf;
                Nm v0 = -1;
                Nm v1 = -1;
                if (least < most) {
                    const WidePlace place = lowestWidePlace(range, kind, from, top, most, false);
                    v0 = place.v0;
                    v1 = place.v1;
                } else {
                    v0 = lowestPlace(range, least, from, top, false);
                    v1 = v0 + least;
                }
                if (v0 >= 0 && reaches(v1 - v0)) {
                    propose(-1, v0, v1,
                            besides + static_cast<double>(shape.vTop() - v1) *
                                          static_cast<double>(shape.uHigh() - shape.uLow()));
                }
                // Behind the blanks of a strip.
                for (std::size_t t = 0; t < bench.strips.size() && least == most; ++t) {
                    const PlacedStrip& strip = bench.strips[t];
                    const Nm spare = strip.v1 - strip.v0 - least;
                    if (u0 <
                            strip.blanks.back().rect.x1.inNanometres() + limits.stripCrosscutKerf ||
                        spare < 0 || (spare > 0 && spare < limits.ripKerf) ||
                        strip.v0 + least > top || !reaches(strip.v1 - strip.v0) ||
                        !isClear(range, strip.v0, strip.v0 + least)) {
                        continue;
                    }
                    propose(static_cast<int>(t), strip.v0, strip.v0 + least,
                            static_cast<double>(shape.uHigh() - u0 - kind.length) *
                                static_cast<double>(strip.v1 - strip.v0));
                }
            }
        }
    }

    void take(const Placement& spot) {
        std::vector<Bench>& sections = m_sections[spot.board];
        if (spot.section < 0) {
            sections.emplace_back(m_context, *m_models[spot.board], spot.x0, spot.x1);
            sections.back().ripped = spot.ripped;
        }
        Bench& bench =
            spot.section < 0 ? sections.back() : sections[static_cast<std::size_t>(spot.section)];
        if (spot.strip < 0) {
            bench.strips.push_back({spot.v0, spot.v1, {spot.blank}});
        } else {
            bench.strips[static_cast<std::size_t>(spot.strip)].blanks.push_back(spot.blank);
        }
        ++m_version[spot.board];
    }

    const Problem& m_problem;
    Context m_context;
    std::vector<std::unique_ptr<BoardModel>> m_models;
    std::vector<std::vector<Bench>> m_sections; ///< by board
    std::vector<int> m_version;                 ///< by board; grows with each blank
    std::map<std::tuple<std::size_t, std::size_t, Nm>, int> m_nothing; ///< version without a place
};

struct Wanted {
    std::size_t kind = 0;
    Nm width = 0;
    int count = 0;
};

/// The blanks by descending length, then width.
void placeAll(Hand& hand, const Problem& problem, std::vector<Wanted> wanted) {
    std::stable_sort(wanted.begin(), wanted.end(), [&](const Wanted& a, const Wanted& b) {
        const Nm la = problem.kinds[a.kind].length;
        const Nm lb = problem.kinds[b.kind].length;
        return la != lb ? la > lb : a.width > b.width;
    });
    for (const Wanted& blank : wanted) {
        for (int i = 0; i < blank.count && hand.place(blank.kind, blank.width); ++i) {
        }
    }
}

std::vector<Wanted> fixedParts(const Problem& problem) {
    std::vector<Wanted> wanted;
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        if (!problem.kinds[k].isPool) {
            wanted.push_back({k, problem.kinds[k].width, problem.kinds[k].demand});
        }
    }
    return wanted;
}

} // namespace

Solution plainGreedy(const Problem& problem) {
    // Every number of equal staves that a pool allows; pools one after the other, the others at
    // their best so far.
    std::vector<int> staves(problem.kinds.size(), 0);
    const auto widthFor = [&](const Kind& kind, int count) {
        const Nm net = (kind.netWanted + count - 1) / count;
        const Nm step = std::max<Nm>(1, kind.step);
        const Nm over = std::max<Nm>(0, net + kind.jointAllowance - kind.width);
        return kind.width + (over + step - 1) / step * step;
    };
    const auto allowed = [&](const Kind& kind, int count) {
        const Nm width = widthFor(kind, count);
        return count >= kind.fewest && count <= kind.most && width <= kind.widest &&
               (width - kind.jointAllowance) * count <= kind.netMost;
    };
    Solution best;
    const auto run = [&] {
        Hand hand(problem);
        std::vector<Wanted> wanted = fixedParts(problem);
        for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
            if (problem.kinds[k].isPool && staves[k] > 0) {
                wanted.push_back({k, widthFor(problem.kinds[k], staves[k]),
                                  staves[k] * problem.kinds[k].demand});
            }
        }
        placeAll(hand, problem, std::move(wanted));
        return hand.finish();
    };
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        for (int count = 1; problem.kinds[k].isPool && count <= 64 && staves[k] == 0; ++count) {
            staves[k] = allowed(problem.kinds[k], count) ? count : 0;
        }
    }
    best = run();
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Kind& kind = problem.kinds[k];
        const int first = staves[k];
        int chosen = first;
        for (int count = first + 1; kind.isPool && count <= std::min(64, kind.most); ++count) {
            if (!allowed(kind, count)) {
                continue;
            }
            staves[k] = count;
            Solution solution = run();
            if (solution.value < best.value) {
                best = std::move(solution);
                chosen = count;
            }
        }
        staves[k] = chosen;
    }
    return best;
}

Solution carefulMaker(const Problem& problem) {
    Hand hand(problem);
    std::vector<std::size_t> pools;
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        if (problem.kinds[k].isPool) {
            pools.push_back(k);
        }
    }
    std::stable_sort(pools.begin(), pools.end(), [&](std::size_t a, std::size_t b) {
        return problem.kinds[a].length > problem.kinds[b].length;
    });
    for (const std::size_t k : pools) {
        const Kind& kind = problem.kinds[k];
        for (int panel = 0; panel < kind.demand; ++panel) {
            Nm net = 0;
            for (int stave = 0; stave < kind.most && net < kind.netWanted; ++stave) {
                const Nm open = kind.netWanted - net + kind.jointAllowance;
                const Nm step = std::max<Nm>(1, kind.step);
                const Nm over = std::max<Nm>(step, open - kind.width);
                const Nm most = std::min(kind.widest, kind.width + (over + step - 1) / step * step);
                const Nm width = hand.placeWidest(k, most);
                if (width == 0) {
                    break;
                }
                net += width - kind.jointAllowance;
            }
        }
    }
    placeAll(hand, problem, fixedParts(problem));
    return hand.finish();
}

} // namespace stavewright::cutting::bench
