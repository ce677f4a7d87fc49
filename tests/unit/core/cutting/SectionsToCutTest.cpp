// What bounds rest on, cut in earnest: judged by the independent checker, and by the bounds.

#include "core/cutting/SectionsToCut.h"

#include <gtest/gtest.h>

#include "Racks.h"
#include "SolutionChecker.h"
#include "core/cutting/BoardBound.h"
#include "core/cutting/Columns.h"
#include "core/cutting/SectionFit.h"

namespace stavewright::cutting::testing {
namespace {

/// What every blank is worth by its area: so much a square inch.
Values byArea(const Problem& problem, Cost perSquareInch) {
    Values values;
    for (const Kind& kind : problem.kinds) {
        const Cost perInchOfWidth = kind.length / inch * perSquareInch;
        values.each.push_back(kind.isPool ? 0 : perInchOfWidth * (kind.width / (inch / 16)) / 16);
        values.perMetre.push_back(kind.isPool ? perInchOfWidth * 39 : 0);
    }
    return values;
}

int blanksIn(const Pattern& pattern) {
    int count = 0;
    for (const PlacedSection& section : pattern.sections) {
        for (const PlacedStrip& strip : section.strips) {
            count += static_cast<int>(strip.blanks.size());
        }
    }
    return count;
}

int blanksIn(const BoundChain& chain) {
    int count = 0;
    for (const BoundSection& section : chain.sections) {
        for (const BoundStrip& strip : section.strips) {
            count += static_cast<int>(strip.blanks.size());
        }
    }
    return count;
}

/// Worth of the blanks less fills and cuts.
Cost worthOf(const Context& context, const BoardModel& model, const Accounts& accounts,
             const Values& values, const Pattern& pattern) {
    Cost worth = model.price() - columnOf(context, accounts, model, pattern).cost;
    for (const PlacedSection& section : pattern.sections) {
        for (const PlacedStrip& strip : section.strips) {
            for (const Placed& blank : strip.blanks) {
                const auto k = static_cast<std::size_t>(blank.kind);
                worth += values.of(context.problem->kinds[k], k, blank.rect.width().inNanometres());
            }
        }
    }
    return worth;
}

TEST(SectionsToCut, AChainThatHasRoomIsCutJustSo) {
    // The board of BoardBound.AClearBoardThatIsUsedUpIsBoundedByJustThat, and twice as many blanks
    // wanted: two strips of three, 4 1/8 in and 40 1/8 in apart.
    Problem problem =
        barsOfAClearBoard(120 * inch + inch / 4, 8 * inch + inch / 8, 40 * inch, 4 * inch, 12);
    const Context context(problem);
    const BoardModel model(problem, 0);
    BoundChain chain;
    chain.sections.push_back({0, 120 * inch + inch / 4, {}});
    for (const Nm across : {Nm{0}, 4 * inch + inch / 8}) {
        BoundStrip strip{across, 4 * inch, 4 * inch, {}};
        for (int i = 0; i < 3; ++i) {
            strip.blanks.push_back({0, i * (40 * inch + inch / 8), 4 * inch});
        }
        chain.sections.front().strips.push_back(strip);
    }
    const Pattern pattern = chainAsCut(context, model, chain.sections);
    ASSERT_EQ(pattern.sections.size(), 1U);
    const PlacedSection& section = pattern.sections.front();
    EXPECT_EQ(section.x0, 0);
    EXPECT_EQ(section.x1, 120 * inch + inch / 4);
    ASSERT_EQ(section.strips.size(), 2U);
    for (std::size_t s = 0; s < 2; ++s) {
        ASSERT_EQ(section.strips[s].blanks.size(), 3U);
        for (std::size_t i = 0; i < 3; ++i) {
            const Rect& rect = section.strips[s].blanks[i].rect;
            EXPECT_EQ(rect.x0.inNanometres(), static_cast<Nm>(i) * (40 * inch + inch / 8));
            EXPECT_EQ(rect.y0.inNanometres(), static_cast<Nm>(s) * (4 * inch + inch / 8));
        }
    }
}

/// Staves of 3 to 6 in, 40 in long, and one clear board 50 in long and 8 1/16 in wide: a step less
/// than two staves of 4 in and a rip between them.
Problem stavesOfABoard() {
    Problem problem;
    Board board;
    board.outline = box(0, 0, 50 * inch, 8 * inch + inch / 16);
    board.thinnest = inch;
    problem.boards = {board};
    Kind kind;
    kind.isPool = true;
    kind.length = 40 * inch;
    kind.width = 3 * inch;
    kind.widest = 6 * inch;
    kind.step = inch / 16;
    kind.netWanted = 20 * inch;
    kind.netMost = 21 * inch;
    kind.most = 9;
    kind.thickness = inch / 2;
    kind.demand = 1;
    problem.kinds = {kind};
    problem.limits.crosscutKerf = problem.limits.ripKerf = problem.limits.stripCrosscutKerf =
        inch / 8;
    return problem;
}

TEST(SectionsToCut, StavesBecomeNarrowerWhereALatticeTookTooMuchForGranted) {
    const Problem problem = stavesOfABoard();
    const Context context(problem);
    const BoardModel model(problem, 0);
    BoundSection section{0, 42 * inch, {}};
    for (const Nm across : {Nm{0}, 4 * inch + inch / 8}) {
        section.strips.push_back({across, 4 * inch, 4 * inch, {{0, 0, 4 * inch}}});
    }
    const Pattern pattern = chainAsCut(context, model, {section});
    ASSERT_EQ(blanksIn(pattern), 2);
    const std::vector<PlacedStrip>& strips = pattern.sections.front().strips;
    EXPECT_EQ(strips[0].v1 - strips[0].v0, 4 * inch);
    EXPECT_EQ(strips[1].v1 - strips[1].v0, 4 * inch - inch / 16);
    EXPECT_EQ(pattern.sections.front().x1, 40 * inch) << "no longer than its blanks need";
}

TEST(SectionsToCut, WhereTheEdgeBendsASectionMayBeginLaterThanForeseen) {
    // Just wide enough for two strips of 4 in; but for its first 20 in the near edge runs in by
    // 1/2.
    Problem problem = barsOfAClearBoard(130 * inch, 8 * inch + inch / 8, 40 * inch, 4 * inch, 6);
    Polygon& outline = problem.boards.front().outline;
    const auto at = [](Nm x, Nm y) { return Point{Length::nanometres(x), Length::nanometres(y)}; };
    const Nm far = 8 * inch + inch / 8;
    outline = {at(0, inch / 2), at(20 * inch, 0), at(130 * inch, 0), at(130 * inch, far),
               at(0, far)};
    const Context context(problem);
    const BoardModel model(problem, 0);
    BoundSection section{0, 130 * inch, {}};
    // One strip lies where it must, the other only where it seemed it might.
    section.strips.push_back(
        {0, 4 * inch, 4 * inch, {{0, 48 * inch, 4 * inch}, {0, 89 * inch, 4 * inch}}});
    section.strips.push_back(
        {4 * inch + inch / 8, 4 * inch, 4 * inch, {{0, 0, 4 * inch}, {0, 89 * inch, 4 * inch}}});
    const Pattern pattern = chainAsCut(context, model, {section});
    ASSERT_EQ(pattern.sections.size(), 1U);
    EXPECT_EQ(blanksIn(pattern), 4);
    EXPECT_GE(pattern.sections.front().x0, 20 * inch);
    // From the very end on there is room for half of it.
    const SectionFit whole(context, model, section, 0, 130 * inch);
    EXPECT_EQ(whole.blanks(), 2U);
}

TEST(SectionsToCut, AStaveBelowGivesUpAStepForAFixedBlankAbove) {
    Problem problem = stavesOfABoard();
    Kind rail = problem.kinds.front();
    rail.isPool = false;
    rail.width = rail.widest = 4 * inch;
    rail.step = 0;
    problem.kinds.push_back(rail);
    const Context context(problem);
    const BoardModel model(problem, 0);
    BoundSection section{0, 42 * inch, {}};
    section.strips.push_back({0, 4 * inch, 4 * inch, {{0, 0, 4 * inch}}});
    section.strips.push_back({4 * inch + inch / 8, 4 * inch, 4 * inch, {{1, 0, 4 * inch}}});
    const Pattern pattern = chainAsCut(context, model, {section});
    ASSERT_EQ(blanksIn(pattern), 2) << "without it there is no room for the rail";
    const std::vector<PlacedStrip>& strips = pattern.sections.front().strips;
    EXPECT_EQ(strips[0].v1 - strips[0].v0, 4 * inch - inch / 16);
    EXPECT_EQ(strips[1].v1 - strips[1].v0, 4 * inch);
}

TEST(SectionsToCut, WhatIsCutOfAChainHoldsAndIsWorthNoMoreThanTheBound) {
    const Interrupt interrupt({}, 0);
    std::uint64_t seed = 60;
    int wanted = 0;
    int cut = 0;
    for (const JobFamily family : allFamilies) {
        const Problem problem =
            makeRack({.family = family, .boards = 6, .seed = ++seed, .metric = seed % 2 == 0});
        const Context context(problem);
        const Values values = byArea(problem, 400);
        for (int b = 0; b < 2; ++b) {
            const BoardModel model(problem, b);
            const Accounts accounts(context, {&model});
            BoardBound bound(context, model);
            std::int64_t work = 0;
            const Cost most = bound.most(values, {0, 300}, interrupt, work);
            const BoundChain chain = bound.restsOn(interrupt, work);
            const Pattern pattern = chainAsCut(context, model, chain.sections);
            const std::string where = nameOf(family) + " seed " + std::to_string(seed) + " board " +
                                      std::to_string(b + 1);
            wanted += blanksIn(chain);
            cut += blanksIn(pattern);
            EXPECT_LE(blanksIn(pattern), blanksIn(chain)) << where;
            EXPECT_LE(worthOf(context, model, accounts, values, pattern), most) << where;
            std::vector<const BoardModel*> models;
            std::vector<std::unique_ptr<BoardModel>> all;
            for (int i = 0; i < 6; ++i) {
                all.push_back(std::make_unique<BoardModel>(problem, i));
                models.push_back(all.back().get());
            }
            const Solution solution = Accounts(context, models).settle({pattern}).solution;
            for (const std::string& fault : checkSolution(problem, solution)) {
                ADD_FAILURE() << where << ": " << fault;
            }
        }
    }
    EXPECT_GE(2 * cut, wanted) << "of what bounds rest on, little can be cut";
}

} // namespace
} // namespace stavewright::cutting::testing
