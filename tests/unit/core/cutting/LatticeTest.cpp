// The lattice against sections worked out exactly: on boards with a straight near edge a place in a
// cell is open whenever a blank may lie anywhere in it, so no section is worth more than the
// lattice says.

#include "core/cutting/LatticeBest.h"

#include <gtest/gtest.h>

#include "Racks.h"
#include "core/cutting/BoardMenu.h"

namespace stavewright::cutting::testing {
namespace {

Values someValues(const Problem& problem) {
    Values values;
    for (const Kind& kind : problem.kinds) {
        const Cost worth = kind.length / inch * 3'000;
        values.each.push_back(kind.isPool ? -worth / 4 : worth * (kind.width / (inch / 4)) / 4);
        values.perMetre.push_back(kind.isPool ? worth * 40 : 0);
    }
    return values;
}

TEST(Lattice, ClearOfDefectsEveryPlaceIsOpen) {
    Problem problem;
    Board board;
    board.outline = box(0, 0, 50 * inch, 8 * inch);
    board.thinnest = inch;
    problem.boards = {board};
    Kind kind;
    kind.length = 20 * inch;
    kind.width = 3 * inch;
    kind.demand = 1;
    kind.thickness = inch / 2;
    problem.kinds = {kind};
    const Context context(problem);
    const BoardModel model(problem, 0);
    const Lattice lattice(context, model, model.freeStretches().front(), {inch / 2, inch / 16});
    const Lattice::KindCells& cells = lattice.kind(0);
    // 50 - 20 in leave 61 places half an inch apart; 8 - 3 in leave 81 a sixteenth apart.
    for (int i = 0; i <= 60; ++i) {
        for (int v = 0; v <= 80; ++v) {
            const auto word = static_cast<std::size_t>(i * lattice.words() + v / 64);
            EXPECT_TRUE(cells.open[0][word] >> (v % 64) & 1) << i << ' ' << v;
        }
        const auto past = static_cast<std::size_t>(i * lattice.words() + 81 / 64);
        EXPECT_FALSE(cells.open[0][past] >> (81 % 64) & 1) << i;
    }
}

/// A clear board of 50 x 8 in with these forbidden, and blanks of 20 x 3 in that may hold none.
Problem blanksAmong(const std::vector<Polygon>& knots) {
    Problem problem;
    Board board;
    board.outline = box(0, 0, 50 * inch, 8 * inch);
    board.thinnest = inch;
    board.layers.resize(1);
    for (const Polygon& region : knots) {
        Block knot;
        knot.region = region;
        knot.defect = static_cast<int>(board.layers[0].onA.size());
        board.layers[0].onA.push_back(knot);
    }
    problem.boards = {board};
    Kind kind;
    kind.length = 20 * inch;
    kind.width = 3 * inch;
    kind.demand = 1;
    kind.thickness = inch / 2;
    kind.mayFaceOver = false; // turned over it would lie on clear wood
    kind.zones = {{0, false, {false, 0}, {true, 0}, {false, 0}, {true, 0}}};
    problem.kinds = {kind};
    return problem;
}

TEST(Lattice, AForbiddenKnotShutsThePlacesThatMeetItAndNoOthers) {
    const Problem problem = blanksAmong({box(24 * inch, 3 * inch, 26 * inch, 5 * inch)});
    const Context context(problem);
    const BoardModel model(problem, 0);
    const Lattice lattice(context, model, model.freeStretches().front(), {inch / 2, inch / 16});
    const Lattice::KindCells& cells = lattice.kind(0);
    for (int i = 0; i <= 60; ++i) {
        for (int v = 0; v <= 80; ++v) {
            // The blank [u, u + 20] x [w, w + 3] with u in the cell, w in the cell, all touching.
            const bool past = (i + 1) * inch / 2 > 26 * inch;
            const bool before = i * inch / 2 + 20 * inch <= 24 * inch;
            const bool above = v * inch / 16 >= 5 * inch;
            const bool below = v * inch / 16 + 3 * inch <= 3 * inch;
            const auto word = static_cast<std::size_t>(i * lattice.words() + v / 64);
            const bool open = (cells.open[0][word] >> (v % 64) & 1) != 0;
            EXPECT_EQ(open, past || before || above || below) << i << ' ' << v;
        }
    }
}

/// Places at which a blank may lie in the first column of cells.
std::vector<int> openAtFirst(const Problem& problem) {
    const Context context(problem);
    const BoardModel model(problem, 0);
    const Lattice lattice(context, model, model.freeStretches().front(), {inch / 2, inch / 16});
    std::vector<int> open;
    for (int v = 0; v < lattice.rows(); ++v) {
        if (Lattice::isSet(lattice.kind(0).open[0].data(), v)) {
            open.push_back(v);
        }
    }
    return open;
}

TEST(Lattice, ABlankThatIsAHairTooWideBetweenTwoKnotsHasNoPlace) {
    const Nm low = 2 * inch + inch / 32; // within a cell
    const auto between = [&](Nm width) {
        return blanksAmong(
            {box(9 * inch, 0, 10 * inch, low), box(11 * inch, low + width, 12 * inch, 8 * inch)});
    };
    EXPECT_EQ(openAtFirst(between(3 * inch)), std::vector<int>{2 * 16});
    EXPECT_EQ(openAtFirst(between(3 * inch - 1)), std::vector<int>{});
}

TEST(Lattice, ABlankThatReachesTheEndOfTheBoardBeginsNoLater) {
    // In the last cell it may begin at 30 in alone, where it holds the knot.
    const Problem problem = blanksAmong({box(29 * inch, 0, 30 * inch + inch / 4, 8 * inch)});
    const Context context(problem);
    const BoardModel model(problem, 0);
    const Lattice lattice(context, model, model.freeStretches().front(), {inch / 2, inch / 16});
    EXPECT_FALSE(Lattice::isSet(lattice.kind(0).open[0].data() + 60 * lattice.words(), 0));
}

TEST(Lattice, OnlyLevelsThatDifferTakeRoom) {
    int kept = 0;
    int left = 0;
    for (const JobFamily family : allFamilies) {
        const Problem problem = makeRack({.family = family, .boards = 3, .seed = 3});
        const Context context(problem);
        for (int b = 0; b < 3; ++b) {
            const BoardModel model(problem, b);
            const Lattice lattice(context, model, model.freeStretches().front(),
                                  {inch / 2, stepAcross(problem)});
            for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
                const Lattice::KindCells& cells = lattice.kind(k);
                if (!cells.isHere || problem.kinds[k].isPool) {
                    continue;
                }
                EXPECT_FALSE(cells.open[0].empty());
                const std::vector<Lattice::Word>* before = &cells.open[0];
                int last = 0;
                for (int level = 1; level < Lattice::levels; ++level) {
                    EXPECT_EQ(cells.open[level].empty(), !cells.hasLevel[level]);
                    EXPECT_EQ(cells.block[level].empty(), !cells.hasLevel[level]);
                    if (!cells.hasLevel[level]) {
                        ++left;
                        continue;
                    }
                    ++kept;
                    last = level;
                    // Dearer levels hold the cheaper ones, and more.
                    for (std::size_t w = 0; w < before->size(); ++w) {
                        EXPECT_EQ((*before)[w] & ~cells.open[level][w], 0U);
                    }
                    EXPECT_NE(*before, cells.open[level]);
                    before = &cells.open[level];
                }
                EXPECT_EQ(cells.lastLevel(), last);
            }
        }
    }
    EXPECT_GT(kept, 0);
    EXPECT_GT(left, 0);
}

TEST(LatticeBest, PromisesAtLeastWhatSectionsOfOneLengthAreWorth) {
    int compared = 0;
    for (const JobFamily family : allFamilies) {
        const Problem problem = makeRack({.family = family, .boards = 12, .seed = 3});
        const Context context(problem);
        const Values values = someValues(problem);
        for (std::size_t b = 0; b < problem.boards.size(); ++b) {
            const BoardModel model(problem, static_cast<int>(b));
            if (model.nearEdge().corners().size() > 2) {
                continue; // its sections stand in frames of their own
            }
            const Stretch free = model.freeStretches().front();
            const Lattice lattice(context, model, free, {inch / 2, stepAcross(problem)});
            const Interrupt never({}, 0);
            std::int64_t work = 0;
            LatticeKnown known;
            const LatticeChain chain = LatticeBest(lattice, known).find({}, values, never, work);
            // Any single section as long as one blank, worked out exactly, is a chain too.
            for (const Kind& kind : problem.kinds) {
                for (Nm x0 = free.from.inNanometres(); x0 + kind.length <= free.to.inNanometres();
                     x0 += 9 * inch) {
                    // One blank across each strip: sections too short for two in a row.
                    if (kind.length >= 2 * context.shortest) {
                        break;
                    }
                    const SectionMenu menu(context, model, x0, x0 + kind.length, Fineness::usual());
                    const Cost worth = menu.best(values, work).value;
                    EXPECT_LE(worth - 2 * problem.limits.crosscutCost, chain.worth)
                        << nameOf(family) << " board " << b << " at " << x0;
                    ++compared;
                }
            }
        }
    }
    EXPECT_GT(compared, 100);
}

TEST(LatticeBest, WhatWasFoundAtOtherPricesChangesNoAnswer) {
    for (const JobFamily family : allFamilies) {
        const Problem problem = makeRack({.family = family, .boards = 2, .seed = 5});
        const Context context(problem);
        const Values full = someValues(problem);
        Values less = full;
        less.each[0] = 0;
        less.perMetre[0] = 0;
        Values lessStill = less;
        for (std::size_t k = 1; k < problem.kinds.size(); k += 2) {
            lessStill.each[k] /= 3;
            lessStill.perMetre[k] /= 3;
        }
        for (std::size_t b = 0; b < problem.boards.size(); ++b) {
            const BoardModel model(problem, static_cast<int>(b));
            const Stretch free = model.freeStretches().front();
            const Lattice lattice(context, model, free, {inch, stepAcross(problem), true});
            const Interrupt never({}, 0);
            LatticeKnown known;
            LatticeBest again(lattice, known);
            const Stretch taken{free.from,
                                Length::nanometres(free.from.inNanometres() + 20 * inch)};
            std::int64_t anew = 0;
            std::int64_t kept = 0;
            const auto compare = [&](const std::vector<Stretch>& beside, const Values& values) {
                LatticeKnown nothing;
                const LatticeChain fresh =
                    LatticeBest(lattice, nothing).find(beside, values, never, anew);
                const LatticeChain chain = again.find(beside, values, never, kept);
                EXPECT_EQ(chain.worth, fresh.worth) << nameOf(family) << " board " << b;
            };
            // Cheaper and cheaper, dearer again, and with wood that is taken meanwhile.
            compare({}, full);
            compare({}, less);
            compare({taken}, less);
            compare({}, lessStill);
            compare({}, full);
            compare({taken}, lessStill);
            compare({}, less);
            EXPECT_LT(kept, anew) << nameOf(family) << " board " << b;
        }
    }
}

} // namespace
} // namespace stavewright::cutting::testing
