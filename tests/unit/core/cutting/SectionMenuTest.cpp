// The pricing programme against complete enumeration on tiny boards, where every size is a whole
// number of units, so that the best pattern stands on the grid of units too.

#include "core/cutting/SectionMenu.h"

#include <functional>
#include <map>
#include <random>

#include <gtest/gtest.h>

#include "Racks.h"
#include "core/cutting/BoardMenu.h"
#include "core/cutting/CutCost.h"

namespace stavewright::cutting::testing {
namespace {

constexpr Nm unit = 10 * millimetre;

class Dice {
  public:
    explicit Dice(std::uint64_t seed)
        : m_engine(seed) {}
    int between(int low, int high) {
        return low + static_cast<int>(m_engine() % static_cast<std::uint64_t>(high - low + 1));
    }

  private:
    std::mt19937_64 m_engine;
};

struct Tiny {
    Problem problem;
    Values values;
    int length = 0, width = 0;
};

Tiny makeTiny(std::uint64_t seed, bool withPool) {
    Dice dice(seed);
    Tiny tiny;
    tiny.length = dice.between(8, 13);
    tiny.width = dice.between(4, 7);
    Board board;
    board.outline = box(0, 0, tiny.length * unit, tiny.width * unit);
    board.thinnest = inch;
    board.layers.resize(2);
    const int defects = dice.between(0, 4);
    for (int d = 0; d < defects; ++d) {
        const int x = dice.between(0, tiny.length - 1);
        const int y = dice.between(0, tiny.width - 1);
        Block block;
        block.region = box(x * unit, y * unit, (x + dice.between(1, 2)) * unit,
                           (y + dice.between(1, 2)) * unit);
        block.defect = d;
        if (dice.between(0, 2) == 0) {
            block.fill = dice.between(1, 12);
        }
        const int faces = dice.between(0, 2);
        RuleLayer& layer = board.layers[static_cast<std::size_t>(dice.between(0, 1))];
        if (faces != 1) {
            layer.onA.push_back(block);
        }
        if (faces != 0) {
            layer.onB.push_back(block);
        }
    }
    tiny.problem.boards = {board};
    tiny.problem.limits.ripKerf = dice.between(0, 1) * unit;
    tiny.problem.limits.stripCrosscutKerf = dice.between(0, 1) * unit;
    tiny.problem.limits.crosscutKerf = dice.between(0, 1) * unit;
    const int kinds = dice.between(1, 3);
    for (int k = 0; k < kinds; ++k) {
        Kind kind;
        kind.length = dice.between(3, 6) * unit;
        kind.width = dice.between(1, 3) * unit;
        kind.thickness = inch / 2;
        kind.demand = 99;
        kind.mayTurn = dice.between(0, 1) == 1;
        kind.mayFaceOver = dice.between(0, 1) == 1;
        const Mark low{false, 0};
        const Mark high{true, 0};
        kind.zones.push_back({0, false, {false, dice.between(0, 1) * unit}, high, low, high});
        kind.zones.push_back({1, true, low, {false, dice.between(1, 3) * unit}, low, high});
        kind.zones.push_back(
            {dice.between(0, 1), dice.between(0, 1) == 1, low, high, low, {false, unit}});
        if (withPool && k == 0) {
            kind.isPool = true;
            kind.step = unit;
            kind.widest = kind.width + dice.between(0, 3) * unit;
            kind.netWanted = 100 * unit;
            kind.netMost = 101 * unit;
            tiny.values.each.push_back(-dice.between(0, 3));
            tiny.values.perMetre.push_back(dice.between(3, 9) * (nanometresPerMetre / unit));
        } else {
            tiny.values.each.push_back(dice.between(4, 30));
            tiny.values.perMetre.push_back(0);
        }
        tiny.problem.kinds.push_back(kind);
    }
    return tiny;
}

/// Complete enumeration, in units; shares no code with the engine.
class Enumeration {
  public:
    explicit Enumeration(const Tiny& tiny)
        : m_tiny(tiny)
        , m_limits(tiny.problem.limits) {}

    /// Best stack of strips in the section [x0, x1].
    Cost section(int x0, int x1) {
        const int width = m_tiny.width;
        const int kerf = units(m_limits.ripKerf);
        std::vector<Cost> from(static_cast<std::size_t>(width + kerf + 1), 0);
        for (int v = width - 1; v >= 0; --v) {
            Cost best = from[static_cast<std::size_t>(v + 1)];
            for (const int w : stripWidths()) {
                if (v + w <= width) {
                    const auto next = static_cast<std::size_t>(std::min(v + w + kerf, width));
                    best = std::max(best, row(x0, x1, v, v + w) + from[next]);
                }
            }
            from[static_cast<std::size_t>(v)] = best;
        }
        return from[0];
    }

    /// Best chain of sections, each of one of these lengths (none given: of any).
    Cost board(const std::vector<int>& lengths) {
        const int kerf = units(m_limits.crosscutKerf);
        const int length = m_tiny.length;
        std::vector<Cost> from(static_cast<std::size_t>(length + 1), 0);
        for (int x0 = length - 1; x0 >= 0; --x0) {
            Cost best = from[static_cast<std::size_t>(x0 + 1)];
            for (int x1 = x0 + 1; x1 <= length; ++x1) {
                const bool allowed = lengths.empty() || std::find(lengths.begin(), lengths.end(),
                                                                  x1 - x0) != lengths.end();
                if (allowed) {
                    best = std::max(
                        best, section(x0, x1) +
                                  from[static_cast<std::size_t>(std::min(x1 + kerf, length))]);
                }
            }
            from[static_cast<std::size_t>(x0)] = best;
        }
        return from[0];
    }

  private:
    static int units(Nm length) { return static_cast<int>(length / unit); }

    std::vector<int> stripWidths() const {
        std::vector<int> widths;
        for (const Kind& kind : m_tiny.problem.kinds) {
            for (int w = units(kind.width); w <= units(kind.isPool ? kind.widest : kind.width);
                 ++w) {
                widths.push_back(w);
            }
        }
        return widths;
    }

    Cost row(int x0, int x1, int v0, int v1) {
        const int kerf = units(m_limits.stripCrosscutKerf);
        std::vector<Cost> from(static_cast<std::size_t>(x1 + 1), 0);
        for (int u = x1 - 1; u >= x0; --u) {
            Cost best = from[static_cast<std::size_t>(u + 1)];
            for (std::size_t k = 0; k < m_tiny.problem.kinds.size(); ++k) {
                const int end = u + units(m_tiny.problem.kinds[k].length);
                if (end <= x1) {
                    best = std::max(best,
                                    blank(k, u, v0, v1) +
                                        from[static_cast<std::size_t>(std::min(end + kerf, x1))]);
                }
            }
            from[static_cast<std::size_t>(u)] = best;
        }
        return from[static_cast<std::size_t>(x0)];
    }

    /// The best of this kind at u in the strip, along one of its edges.
    Cost blank(std::size_t k, int u, int v0, int v1) {
        const auto known = m_blank.find({k, u, v0, v1});
        if (known != m_blank.end()) {
            return known->second;
        }
        const Kind& kind = m_tiny.problem.kinds[k];
        const int kerf = units(m_limits.ripKerf);
        Cost best = 0;
        for (int w = units(kind.width); w <= units(kind.isPool ? kind.widest : kind.width); ++w) {
            const int spare = v1 - v0 - w;
            if (spare < 0 || (spare > 0 && spare < kerf)) {
                continue;
            }
            for (const int low : {v0, v1 - w}) {
                for (const bool turn : {false, true}) {
                    for (const bool over : {false, true}) {
                        if ((!turn || kind.mayTurn) && (!over || kind.mayFaceOver)) {
                            best = std::max(best, posed(k, u, low, w, turn, over));
                        }
                    }
                }
            }
        }
        return m_blank[{k, u, v0, v1}] = best;
    }

    Cost posed(std::size_t k, int u, int v, int w, bool turn, bool over) const {
        const Kind& kind = m_tiny.problem.kinds[k];
        const Nm length = kind.length;
        const Nm width = w * unit;
        std::map<int, Cost> fills;
        for (const Zone& zone : kind.zones) {
            Nm a0 = zone.x0.in(length);
            Nm a1 = std::min(length, zone.x1.in(length));
            Nm b0 = zone.y0.in(width);
            Nm b1 = zone.y1.in(width);
            if (turn) {
                std::tie(a0, a1) = std::pair(length - a1, length - a0);
                std::tie(b0, b1) = std::pair(width - b1, width - b0);
            }
            if (over) {
                std::tie(b0, b1) = std::pair(width - b1, width - b0);
            }
            const bool onB = zone.onB != over;
            const RuleLayer& layer =
                m_tiny.problem.boards[0].layers[static_cast<std::size_t>(zone.rule)];
            for (const Block& block : onB ? layer.onB : layer.onA) {
                const Nm x0 = block.region[0].x.inNanometres();
                const Nm y0 = block.region[0].y.inNanometres();
                const Nm x1 = block.region[2].x.inNanometres();
                const Nm y1 = block.region[2].y.inNanometres();
                if (u * unit + a0 < x1 && u * unit + a1 > x0 && v * unit + b0 < y1 &&
                    v * unit + b1 > y0) {
                    if (!block.fill) {
                        return 0;
                    }
                    fills[block.defect] = std::max(fills[block.defect], *block.fill);
                }
            }
        }
        Cost value = m_tiny.values.each[k] +
                     m_tiny.values.perMetre[k] * (width - kind.jointAllowance) / nanometresPerMetre;
        for (const auto& [defect, fill] : fills) {
            value -= fill;
        }
        return std::max<Cost>(0, value);
    }

    const Tiny& m_tiny;
    Limits m_limits;
    std::map<std::tuple<std::size_t, int, int, int>, Cost> m_blank;
};

/// Nothing left out.
constexpr Fineness exhaustive{1000, 1000, 1000, 1000, true, true};

TEST(SectionMenu, EqualsCompleteEnumerationOnTinySections) {
    int withDefects = 0;
    for (std::uint64_t seed = 1; seed <= 400; ++seed) {
        const Tiny tiny = makeTiny(seed, false);
        const Context context(tiny.problem);
        const BoardModel model(tiny.problem, 0);
        const SectionMenu menu(context, model, 0, tiny.length * unit, exhaustive);
        std::int64_t work = 0;
        const Cost best = menu.best(tiny.values, work).value;
        EXPECT_EQ(best, Enumeration(tiny).section(0, tiny.length)) << "seed " << seed;
        withDefects += best > 0 && !tiny.problem.boards[0].layers[0].onA.empty() ? 1 : 0;
    }
    EXPECT_GT(withDefects, 50);
}

TEST(SectionMenu, WritesOutWhatItPromised) {
    for (std::uint64_t seed = 1; seed <= 100; ++seed) {
        const Tiny tiny = makeTiny(seed, false);
        const Context context(tiny.problem);
        const BoardModel model(tiny.problem, 0);
        const SectionMenu menu(context, model, 0, tiny.length * unit, exhaustive);
        std::int64_t work = 0;
        const SectionChoice choice = menu.best(tiny.values, work);
        const PlacedSection section = menu.cut(tiny.values, choice);
        Cost worth = 0;
        for (const PlacedStrip& strip : section.strips) {
            for (const Placed& placed : strip.blanks) {
                worth += tiny.values.each[static_cast<std::size_t>(placed.kind)];
            }
        }
        EXPECT_GE(worth, choice.value) << "seed " << seed; // fills were taken off
    }
}

TEST(SectionMenu, ASectionIsWorthWhatItsBlanksAreLessItsCutsAndFills) {
    int rows = 0;
    int leaning = 0;
    std::uint64_t seed = 40;
    for (const JobFamily family : allFamilies) {
        const Problem problem =
            makeRack({.family = family, .boards = 4, .seed = ++seed, .metric = seed % 2 == 0});
        const Context context(problem);
        const Values values = pricesByArea(problem);
        for (int b = 0; b < 4; ++b) {
            const BoardModel model(problem, b);
            const BoardMenu menu(context, model, Fineness::usual());
            std::int64_t work = 0;
            for (const auto& [section, choice] :
                 menu.best(values, Interrupt({}, 0), work).sections) {
                const Pattern alone{b, {section->cut(values, choice)}};
                Cost worth = 0;
                for (const PlacedStrip& strip : alone.sections[0].strips) {
                    rows += strip.blanks.size() > 1 ? 1 : 0;
                    for (const Placed& placed : strip.blanks) {
                        const auto k = static_cast<std::size_t>(placed.kind);
                        worth += values.of(problem.kinds[k], k, placed.rect.width().inNanometres());
                    }
                }
                leaning += section->shape().isParallel() ? 0 : 1;
                const int ends = (section->x0() != model.size().xBegin ? 1 : 0) +
                                 (section->x1() != model.size().xEnd ? 1 : 0);
                const CutCost cost = patternCost(context, model, alone);
                EXPECT_EQ(choice.value, worth - cost.total - cost.offcutsWorth +
                                            ends * problem.limits.crosscutCost)
                    << nameOf(family) << " seed " << seed << " board " << b + 1;
            }
        }
    }
    EXPECT_GT(rows, 20);
    EXPECT_GT(leaning, 4);
}

TEST(SectionMenu, FreeWidthsNeverBeatCompleteEnumerationAndRarelyFallShort) {
    int equal = 0;
    constexpr int cases = 300;
    for (std::uint64_t seed = 1; seed <= cases; ++seed) {
        const Tiny tiny = makeTiny(seed, true);
        const Context context(tiny.problem);
        const BoardModel model(tiny.problem, 0);
        const SectionMenu menu(context, model, 0, tiny.length * unit, exhaustive);
        std::int64_t work = 0;
        const Cost best = menu.best(tiny.values, work).value;
        const Cost most = Enumeration(tiny).section(0, tiny.length);
        EXPECT_LE(best, most) << "seed " << seed;
        equal += best == most ? 1 : 0;
    }
    EXPECT_GE(equal, cases * 9 / 10);
    RecordProperty("equal", equal);
}

TEST(BoardMenu, LiesBetweenItsOwnSectionLengthsAndAllOfThem) {
    Interrupt never({}, 0);
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        const Tiny tiny = makeTiny(seed, false);
        const Context context(tiny.problem);
        const BoardModel model(tiny.problem, 0);
        const BoardMenu menu(context, model, exhaustive);
        std::int64_t work = 0;
        const Cost best = menu.best(tiny.values, never, work).value;
        std::vector<int> lengths;
        for (const Kind& kind : tiny.problem.kinds) {
            lengths.push_back(static_cast<int>(kind.length / unit));
        }
        Enumeration enumeration(tiny);
        EXPECT_GE(best, enumeration.board(lengths)) << "seed " << seed;
        EXPECT_GE(best, enumeration.section(0, tiny.length)) << "seed " << seed;
        EXPECT_LE(best, enumeration.board({})) << "seed " << seed;
    }
}

TEST(BoardMenu, RememberedValuesDoNotChangeTheBest) {
    Interrupt never({}, 0);
    for (std::uint64_t seed = 1; seed <= 100; ++seed) {
        const Tiny tiny = makeTiny(seed, false);
        const Context context(tiny.problem);
        const BoardModel model(tiny.problem, 0);
        BoardMenu remembering(context, model, exhaustive);
        const BoardMenu fresh(context, model, exhaustive);
        std::int64_t work = 0;
        Values higher = tiny.values;
        for (Cost& value : higher.each) {
            value += value / 3;
        }
        static_cast<void>(remembering.rebase(higher, never, work));
        EXPECT_EQ(remembering.best(tiny.values, never, work).value,
                  fresh.best(tiny.values, never, work).value)
            << "seed " << seed;
    }
}

// What lies beside a section can be cut from the board together with it: with the best of that the
// sections told besides come to no more than the best pattern. The menu itself says what lies
// beside: it is asked with the section taken.
TEST(BoardMenu, SectionsToldBesidesLoseSomething) {
    Interrupt never({}, 0);
    int told = 0;
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        const Tiny tiny = makeTiny(seed, false);
        const Context context(tiny.problem);
        const BoardModel model(tiny.problem, 0);
        BoardMenu menu(context, model, exhaustive);
        std::int64_t work = 0;
        EXPECT_TRUE(menu.best(tiny.values, never, work).near.empty());
        constexpr std::size_t most = 3;
        menu.tellNear(most);
        const BoardChoice choice = menu.best(tiny.values, never, work);
        EXPECT_LE(choice.near.size(), most);
        for (const BoardChoice::Section& near : choice.near) {
            const Nm x0 = near.menu->x0();
            const Nm x1 = near.menu->x1();
            for (const BoardChoice::Section& chosen : choice.sections) {
                EXPECT_FALSE(chosen.menu->x0() == x0 && chosen.menu->x1() == x1);
            }
            const Pattern alone{0, {near.menu->cut(tiny.values, near.choice)}};
            EXPECT_FALSE(alone.sections.front().strips.empty());
            const Cost crosscuts =
                ((x0 != model.size().xBegin ? 1 : 0) + (x1 != model.size().xEnd ? 1 : 0)) *
                tiny.problem.limits.crosscutCost;
            const Stretch taken{Length::nanometres(x0), Length::nanometres(x1)};
            const Cost through = near.choice.value - crosscuts +
                                 menu.bestBeside({taken}, tiny.values, never, work).value;
            EXPECT_LE(through, choice.value) << "seed " << seed;
            ++told;
        }
    }
    EXPECT_GT(told, 100);
}

TEST(SectionMenu, AMirroredBoardIsWorthTheSame) {
    for (std::uint64_t seed = 1; seed <= 100; ++seed) {
        Tiny tiny = makeTiny(seed, false);
        for (Kind& kind : tiny.problem.kinds) {
            kind.mayTurn = true;
            kind.mayFaceOver = true;
        }
        Tiny mirrored = tiny;
        for (RuleLayer& layer : mirrored.problem.boards[0].layers) {
            for (auto* blocks : {&layer.onA, &layer.onB}) {
                for (Block& block : *blocks) {
                    const Nm length = tiny.length * unit;
                    const Nm x0 = block.region[0].x.inNanometres();
                    const Nm x1 = block.region[2].x.inNanometres();
                    const Nm y0 = block.region[0].y.inNanometres();
                    const Nm y1 = block.region[2].y.inNanometres();
                    // Turning the board end for end and mirroring it across is the same to a blank
                    // that may be turned and put face over.
                    block.region = box(length - x1, tiny.width * unit - y1, length - x0,
                                       tiny.width * unit - y0);
                }
            }
        }
        std::int64_t work = 0;
        const auto bestOf = [&](const Tiny& which) {
            const Context context(which.problem);
            const BoardModel model(which.problem, 0);
            const SectionMenu menu(context, model, 0, which.length * unit, exhaustive);
            return menu.best(which.values, work).value;
        };
        EXPECT_EQ(bestOf(tiny), bestOf(mirrored)) << "seed " << seed;
    }
}

} // namespace
} // namespace stavewright::cutting::testing
