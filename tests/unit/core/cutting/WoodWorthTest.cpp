// What wood can be worth at most, against what is really cut from it.

#include "core/cutting/WoodWorth.h"

#include <gtest/gtest.h>

#include "Racks.h"
#include "core/cutting/BoardMenu.h"
#include "core/cutting/LengthWorth.h"
#include "core/cutting/WoodAbove.h"

namespace stavewright::cutting::testing {
namespace {

/// Worth by area, so that every kind is wanted.
Values byArea(const Problem& problem) {
    Values values;
    for (const Kind& kind : problem.kinds) {
        const Cost perInch = kind.length / inch * 300;
        values.each.push_back(kind.isPool ? -perInch / 4 : perInch * (kind.width / inch));
        values.perMetre.push_back(kind.isPool ? perInch * 40 : 0);
    }
    return values;
}

/// Boards whose near edge is straight: there a lattice needs no slack.
template <class Visit>
int visitStraightBoards(const Visit& visit) {
    int visited = 0;
    for (const JobFamily family : allFamilies) {
        const Problem problem = makeRack({.family = family, .boards = 8, .seed = 3});
        const Context context(problem);
        for (int b = 0; b < 8; ++b) {
            const BoardModel model(problem, b);
            if (model.nearEdge().corners().size() > 2) {
                continue;
            }
            for (const Stretch& stretch : model.freeStretches()) {
                const Lattice lattice(context, model, stretch, {inch / 2, stepAcross(problem)});
                visit(context, model, lattice);
                ++visited;
            }
        }
    }
    return visited;
}

TEST(WoodWorth, IsNoLessThanWhatAnySectionGives) {
    int sections = 0;
    const int boards = visitStraightBoards(
        [&](const Context& context, const BoardModel& model, const Lattice& lattice) {
            const Values values = byArea(*context.problem);
            const BoundPrices prices(*context.problem, values);
            const UsableWood usable = usableWood(lattice);
            const WoodWorth worth(lattice, usable, prices);
            const std::vector<ClearLine> lines = clearLines(lattice, usable);
            const LengthWorth byLines(lattice, lines, prices);
            WoodAbove above(lattice, usable, prices);
            for (Nm x0 = lattice.begin(); x0 + 30 * inch < lattice.end(); x0 += 11 * inch) {
                for (const Nm length : {16 * inch, 31 * inch, 70 * inch}) {
                    const Nm x1 = std::min(lattice.end(), x0 + length);
                    const SectionMenu menu(context, model, x0, x1, Fineness::quick());
                    std::int64_t work = 0;
                    const SectionChoice choice = menu.best(values, work);
                    const auto cellOf = [&](Nm x) {
                        return static_cast<int>((x - lattice.begin()) / lattice.step().along);
                    };
                    const int first = cellOf(x0);
                    const int last = cellOf(x1);
                    EXPECT_GE(worth.of(first, last, last - first + 1),
                              static_cast<double>(choice.value));
                    EXPECT_GE(byLines.of(first, last), static_cast<double>(choice.value));
                    sections += choice.isEmpty ? 0 : 1;
                    // And what lies above the low edge of each of its strips.
                    std::vector<Cost> by;
                    above.of(first, last, last - first + 1, by);
                    const PlacedSection cut = menu.cut(values, choice);
                    for (std::size_t s = 0; s < cut.strips.size(); ++s) {
                        Cost stacked = 0; // fills and cuts would only lessen it
                        for (std::size_t t = s; t < cut.strips.size(); ++t) {
                            for (const Placed& blank : cut.strips[t].blanks) {
                                const auto k = static_cast<std::size_t>(blank.kind);
                                const Nm width = (blank.rect.y1 - blank.rect.y0).inNanometres();
                                stacked += values.of(context.problem->kinds[k], k, width);
                            }
                        }
                        const auto row =
                            static_cast<std::size_t>(cut.strips[s].v0 / lattice.step().across);
                        ASSERT_LT(row, by.size());
                        EXPECT_GE(by[row], stacked) << "strip " << s + 1;
                    }
                }
            }
        });
    EXPECT_GE(boards, 6);
    EXPECT_GE(sections, 60) << "too little was cut to say anything";
}

TEST(WoodWorth, OfAClearBoardIsTheBestStackAlongIt) {
    // 8 1/8 in hold two strips of 4 in with the rip between them and the one above: at 1/16 in
    // across, 10 a blank of 40 in and its crosscut of 1/8 in.
    Problem problem =
        barsOfAClearBoard(80 * inch + inch / 4, 8 * inch + inch / 4, 40 * inch, 4 * inch, 4);
    const Context context(problem);
    const BoardModel model(problem, 0);
    const Lattice lattice(context, model, model.freeStretches().front(), {inch / 8, inch / 16});
    const Values values{{100'000}, {0}};
    const BoundPrices prices(problem, values);
    const UsableWood usable = usableWood(lattice);
    const WoodWorth worth(lattice, usable, prices);
    const int cells = 40 * 8 + 1; // a blank and its crosscut
    EXPECT_NEAR(worth.of(0, cells - 1, cells), 200'000, 1);
    EXPECT_EQ(worth.of(0, cells - 1, cells - 2), 0) << "no blank is so short";
    std::vector<Cost> by;
    WoodAbove(lattice, usable, prices).of(0, cells - 1, cells, by);
    EXPECT_NEAR(static_cast<double>(by[0]), 200'000, 2);
    EXPECT_NEAR(static_cast<double>(by[66]), 100'000, 2) << "above the first strip";
    EXPECT_NEAR(static_cast<double>(by[100]), 0, 1);
}

TEST(LengthWorth, OfAClearBoardIsTheBestRowAlongEveryLine) {
    // A board 41 1/8 in long holds one bar of 40 in a row, whatever is left over; with 20 more
    // there is room for a bar of 20 besides. A strip of 4 in and its rip are 4 1/8 in; what a cell
    // of 1/16 in and the far rip take up may count a little more.
    Problem problem =
        barsOfAClearBoard(61 * inch + inch / 4, 4 * inch + inch / 8, 40 * inch, 4 * inch, 4);
    Kind half = problem.kinds.front();
    half.length = 20 * inch;
    problem.kinds.push_back(half);
    const Context context(problem);
    const BoardModel model(problem, 0);
    const Lattice lattice(context, model, model.freeStretches().front(), {inch / 8, inch / 16});
    const BoundPrices prices(problem, {{100'000, 30'000}, {0, 0}});
    const UsableWood usable = usableWood(lattice);
    const std::vector<ClearLine> lines = clearLines(lattice, usable);
    ASSERT_EQ(lines.size(), 1U) << "every line is clear from end to end";
    const LengthWorth worth(lattice, lines, prices);
    const double strips = static_cast<double>(lines.front().across) / (4.125 * inch);
    EXPECT_GE(strips, 1);
    EXPECT_LE(strips, 1.15);
    const auto cells = [](Nm length) { return static_cast<int>(length / (inch / 8)); };
    EXPECT_NEAR(worth.of(0, cells(41 * inch + inch / 8) - 1), 100'000 * strips, 1);
    EXPECT_NEAR(worth.of(0, cells(61 * inch + inch / 8) - 1), 130'000 * strips, 1);
    EXPECT_NEAR(worth.of(cells(41 * inch), cells(61 * inch + inch / 8) - 1), 30'000 * strips, 1);
    EXPECT_EQ(worth.of(0, cells(20 * inch) - 1), 0) << "no room for the crosscut";
}

TEST(WoodAbove, WoodOnBothSidesOfAPlaceIsWorthTheirSum) {
    const int boards =
        visitStraightBoards([&](const Context& context, const BoardModel&, const Lattice& lattice) {
            const BoundPrices prices(*context.problem, byArea(*context.problem));
            const UsableWood usable = usableWood(lattice);
            WoodAbove above(lattice, usable, prices);
            const int cells = lattice.cells();
            std::vector<Cost> all;
            std::vector<Cost> left;
            std::vector<Cost> right;
            for (int first = 0; first < cells; first += 13) {
                for (int middle = first + 1; middle < cells - 1; middle += 29) {
                    above.of(first, cells - 1, cells, all);
                    above.of(first, middle, cells, left);
                    above.of(middle + 1, cells - 1, cells, right);
                    for (std::size_t row = 0; row < all.size(); ++row) {
                        // Each is rounded up.
                        EXPECT_NEAR(static_cast<double>(left[row] + right[row]),
                                    static_cast<double>(all[row]), 3);
                    }
                }
            }
        });
    EXPECT_GT(boards, 4);
}

} // namespace
} // namespace stavewright::cutting::testing
