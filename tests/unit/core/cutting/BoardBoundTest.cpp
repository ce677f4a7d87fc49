// Bounds against what can really be cut: no board may be worth more than its bound, no plan of a
// job cost less.

#include "core/cutting/BoardBound.h"

#include <gtest/gtest.h>

#include <limits>
#include <memory>
#include <random>

#include "Racks.h"
#include "core/cutting/BoardMenu.h"
#include "core/cutting/CutCost.h"
#include "core/cutting/JobBound.h"
#include "core/cutting/Solve.h"

namespace stavewright::cutting::testing {
namespace {

constexpr BoundGoal thorough{0, 100'000};

/// Prices that any master problem might have: some kinds dear, some cheap, some worth nothing.
Values randomValues(const Problem& problem, std::uint64_t seed) {
    std::mt19937_64 engine(seed);
    const auto below = [&](std::uint64_t n) { return static_cast<Cost>(engine() % n); };
    Values values;
    for (const Kind& kind : problem.kinds) {
        const Cost perInch = kind.length / inch * (500 + below(2'500));
        if (kind.isPool) {
            values.each.push_back(-perInch * below(3) / 2);
            values.perMetre.push_back(perInch * 40);
        } else {
            values.each.push_back(perInch * (kind.width / (inch / 4)) / 4 * (below(5) > 0 ? 1 : 0));
            values.perMetre.push_back(0);
        }
    }
    return values;
}

TEST(BoardBound, NoPatternOfAnyBoardIsWorthMore) {
    const Interrupt interrupt({}, 0);
    int bent = 0;
    std::uint64_t seed = 1;
    for (const JobFamily family : allFamilies) {
        const Problem problem =
            makeRack({.family = family, .boards = 6, .seed = ++seed, .metric = seed % 2 == 0});
        const Context context(problem);
        for (int b = 0; b < 3; ++b) {
            const BoardModel model(problem, b);
            bent += model.nearEdge().corners().size() > 2 ? 1 : 0;
            BoardMenu menu(context, model, Fineness::quick());
            BoardBound bound(context, model);
            const Values values = randomValues(problem, seed * 100 + static_cast<std::uint64_t>(b));
            std::int64_t work = 0;
            const Cost most = bound.most(values, {0, 400}, interrupt, work);
            const BoundChain chain = bound.restsOn(interrupt, work);
            EXPECT_GE(most, menu.best(values, interrupt, work).value)
                << nameOf(family) << " seed " << seed << " board " << b + 1;
            // Nor when the menu is shown the very sections that the bound rests on.
            menu.widen(chain.sections);
            EXPECT_GE(most, menu.best(values, interrupt, work).value)
                << nameOf(family) << " seed " << seed << " board " << b + 1;
        }
    }
    EXPECT_GE(bent, 2) << "the racks hold too few bent boards to say anything about them";
}

TEST(BoardBound, StaysABoundWhereOnlyMoreThanSomethingMatters) {
    // What shows not to matter is left out (WoodAbove.h); nothing that matters may be.
    const Interrupt interrupt({}, 0);
    std::uint64_t seed = 20;
    for (const JobFamily family : {JobFamily::Benches, JobFamily::WideTop}) {
        const Problem problem =
            makeRack({.family = family, .boards = 1, .seed = ++seed, .metric = seed % 2 == 0});
        const Context context(problem);
        const BoardModel model(problem, 0);
        const Values values = randomValues(problem, seed * 100);
        std::int64_t work = 0;
        const Cost given =
            BoardMenu(context, model, Fineness::quick()).best(values, interrupt, work).value;
        const Cost most = BoardBound(context, model).most(values, {0, 300}, interrupt, work);
        for (const Cost below : {Cost{1}, most / 8}) {
            // With more looks it comes lower, but not below what the board gives.
            BoardBound bound(context, model);
            const Cost closer = bound.most(values, {most - below, 1'000}, interrupt, work);
            EXPECT_GE(closer, given) << nameOf(family) << " by " << below;
            EXPECT_LE(closer, most) << nameOf(family) << " by " << below;
        }
    }
}

TEST(BoardBound, AClearBoardThatIsUsedUpIsBoundedByJustThat) {
    // Two strips of 4 in and the rip between them fill 8 1/8 in; three of 40 in and the crosscuts
    // between them 120 1/4 in: six blanks, seven rips and crosscuts at no price.
    Problem problem =
        barsOfAClearBoard(120 * inch + inch / 4, 8 * inch + inch / 8, 40 * inch, 4 * inch, 6);
    const Context context(problem);
    const BoardModel model(problem, 0);
    BoardBound bound(context, model);
    std::int64_t work = 0;
    EXPECT_EQ(bound.most({{10'000}, {0}}, thorough, Interrupt({}, 0), work), 60'000);
}

TEST(BoardBound, ABowedSectionIsNoShorterThanTheBlankThatIsPlanedFromIt) {
    // The bow of 100 in is half an inch, that of 50 in an eighth.
    const Nm left = inch - inch / 8;
    for (const bool reaches : {true, false}) {
        Problem problem = barsOfAClearBoard(100 * inch, 4 * inch, 50 * inch, 3 * inch, 1);
        problem.boards[0].bow = inch / 2;
        problem.kinds[0].thickness = left + (reaches ? 0 : 1);
        const Context context(problem);
        const BoardModel model(problem, 0);
        BoardBound bound(context, model);
        std::int64_t work = 0;
        const Cost most = bound.most({{1'000}, {0}}, {0, 400}, Interrupt({}, 0), work);
        EXPECT_EQ(most > 0, reaches);
    }
}

TEST(BoardBound, JoinedSectionsShareACrosscutHoweverFewWereLookedInto) {
    // Four sections of 20 in, each behind the other: three crosscuts. Cut as two strips of four
    // they would need six.
    Problem problem =
        barsOfAClearBoard(80 * inch + 3 * inch / 8, 8 * inch + inch / 8, 20 * inch, 4 * inch, 8);
    problem.limits.crosscutCost = 6'000;
    const Context context(problem);
    const BoardModel model(problem, 0);
    const Interrupt interrupt({}, 0);
    const Cost worth = 8 * 10'000 - 3 * 6'000;
    for (int looks = 0; looks < 400; ++looks) {
        std::int64_t work = 0;
        BoardBound bound(context, model);
        EXPECT_GE(bound.most({{10'000}, {0}}, {0, looks}, interrupt, work), worth) << looks;
    }
    std::int64_t work = 0;
    BoardBound bound(context, model);
    EXPECT_EQ(bound.most({{10'000}, {0}}, thorough, interrupt, work), worth);
}

TEST(BoardBound, RowsOfSectionsThatLeanAreCutAtBothEnds) {
    // Two rows of three bars. On a straight board they are three sections, crosscut twice. Where
    // the near edge rises both ends of each row are cut square to it, whatever the section: four
    // crosscuts a row of three, and none of the section where it runs from end to end.
    Problem problem =
        barsOfAClearBoard(60 * inch + inch / 4, 8 * inch + inch / 8, 20 * inch, 4 * inch, 6);
    problem.limits.crosscutCost = 500;
    const Interrupt interrupt({}, 0);
    const Values values{{10'000}, {0}};
    std::int64_t work = 0;
    const auto most = [&] {
        const Context context(problem);
        const BoardModel model(problem, 0);
        return BoardBound(context, model).most(values, thorough, interrupt, work);
    };
    EXPECT_EQ(most(), 60'000 - 2 * 500);
    // With room for what a turned frame takes.
    const auto point = [](Nm x, Nm y) {
        return Point{Length::nanometres(x), Length::nanometres(y)};
    };
    problem.boards[0].outline = {point(0, 0), point(61 * inch, inch / 4),
                                 point(61 * inch, 8 * inch + inch / 2),
                                 point(0, 8 * inch + inch / 4)};
    EXPECT_EQ(most(), 60'000 - 8 * 500);
    const Context context(problem);
    const BoardModel model(problem, 0);
    const BoardMenu menu(context, model, Fineness::usual());
    const BoardChoice choice = menu.best(values, interrupt, work);
    EXPECT_EQ(choice.value, 60'000 - 8 * 500);
    EXPECT_EQ(patternCost(context, model, menu.cut(values, choice)).total, 8 * 500);
}

TEST(BoardBound, RestsOnNothingWhereNoSectionIsLongEnoughToBeFaced) {
    Problem problem;
    Board board;
    board.outline = box(0, 0, 20 * inch, 8 * inch);
    board.thinnest = inch;
    problem.boards = {board};
    Kind kind;
    kind.length = 4 * inch;
    kind.width = 2 * inch;
    kind.thickness = inch / 2;
    kind.demand = 1;
    problem.kinds = {kind};
    problem.limits.leastFacedLength = 30 * inch;
    const Context context(problem);
    const BoardModel model(problem, 0);
    for (const int looks : {0, 1, 50}) {
        std::int64_t work = 0;
        BoardBound bound(context, model);
        const Interrupt never({}, 0);
        EXPECT_GE(bound.most({{10'000}, {0}}, {0, looks}, never, work), 0) << looks;
        const BoundChain chain = bound.restsOn(never, work);
        for (const BoundSection& section : chain.sections) {
            EXPECT_TRUE(section.strips.empty()) << looks;
        }
    }
}

TEST(BoardBound, WhatItRemembersOfOtherPricesChangesNoBound) {
    const Interrupt interrupt({}, 0);
    std::uint64_t seed = 20;
    for (const JobFamily family : allFamilies) {
        const Problem problem = makeRack({.family = family, .boards = 6, .seed = ++seed});
        const Context context(problem);
        const BoardModel model(problem, 2);
        BoardBound remembers(context, model);
        // Kinds that were worth nothing come to be worth something, and the other way round.
        for (std::uint64_t prices = 1; prices <= 3; ++prices) {
            std::int64_t work = 0;
            const Values values = randomValues(problem, 10 * seed + prices);
            const Cost most = remembers.most(values, thorough, interrupt, work);
            EXPECT_EQ(most, BoardBound(context, model).most(values, thorough, interrupt, work))
                << nameOf(family) << " prices " << prices;
        }
    }
}

TEST(BoardBound, GoesOnAtTheSamePricesToTheSameBound) {
    const Interrupt interrupt({}, 0);
    std::uint64_t seed = 60;
    for (const JobFamily family : allFamilies) {
        const Problem problem = makeRack({.family = family, .boards = 6, .seed = ++seed});
        const Context context(problem);
        const BoardModel model(problem, 4);
        const Values values = randomValues(problem, seed);
        std::int64_t work = 0;
        const Cost atOnce = BoardBound(context, model).most(values, thorough, interrupt, work);
        // With the rows that were guessed, and without them.
        const std::size_t kept = seed % 2 == 0 ? 100'000'000 : 0;
        BoardBound bound(context, model);
        Cost before = std::numeric_limits<Cost>::max();
        for (int step = 0; step < 5; ++step) {
            const Cost most = bound.most(values, {0, 5, kept}, interrupt, work);
            EXPECT_LE(most, before) << nameOf(family) << " step " << step;
            EXPECT_GE(most, atOnce) << nameOf(family) << " step " << step;
            before = most;
        }
        EXPECT_EQ(bound.most(values, thorough, interrupt, work), atOnce) << nameOf(family);
        bound.leavePrices();
        EXPECT_EQ(bound.most(values, thorough, interrupt, work), atOnce) << nameOf(family);
    }
}

TEST(BoardBound, WhatDidNotMatterForAGoalCountsForALowerOne) {
    const Interrupt interrupt({}, 0);
    std::uint64_t seed = 40;
    for (const JobFamily family : allFamilies) {
        const Problem problem = makeRack({.family = family, .boards = 6, .seed = ++seed});
        const Context context(problem);
        const BoardModel model(problem, 3);
        const Values values = randomValues(problem, seed);
        std::int64_t work = 0;
        const Cost atOnce = BoardBound(context, model).most(values, thorough, interrupt, work);
        BoardBound bound(context, model);
        for (const Cost enough : {atOnce + atOnce / 20, atOnce + atOnce / 200}) {
            const Cost most = bound.most(values, {enough, 100'000}, interrupt, work);
            EXPECT_GE(most, atOnce) << nameOf(family);
            EXPECT_LE(most, enough) << nameOf(family);
        }
        EXPECT_EQ(bound.most(values, thorough, interrupt, work), atOnce) << nameOf(family);
    }
}

TEST(BoardBound, FewerLooksGiveAHigherBoundNeverALower) {
    const Problem problem = makeRack({.boards = 6, .seed = 3});
    const Context context(problem);
    const BoardModel model(problem, 1);
    const Values values = randomValues(problem, 7);
    const Interrupt interrupt({}, 0);
    Cost before = std::numeric_limits<Cost>::max();
    for (const int looks : {0, 3, 30, 300, 3'000}) {
        std::int64_t work = 0;
        BoardBound bound(context, model);
        const Cost most = bound.most(values, {0, looks}, interrupt, work);
        EXPECT_LE(most, before) << looks;
        before = most;
    }
}

TEST(BoardBound, OffcutsCountInIt) {
    // Nothing but a long offcut behind one blank: 30 % of its share of the price.
    Problem problem;
    Board board;
    board.outline = box(0, 0, 70 * inch, 5 * inch);
    board.thinnest = inch;
    board.cost = 500'000;
    problem.boards = {board};
    Kind kind;
    kind.length = 40 * inch;
    kind.width = 5 * inch;
    kind.thickness = inch / 2;
    kind.demand = 1;
    problem.kinds = {kind};
    problem.limits.crosscutKerf = inch / 8;
    problem.limits.offcutLength = 20 * inch;
    problem.limits.offcutWidth = 3 * inch;
    problem.limits.offcutWorthPercent = 30;
    const Context context(problem);
    const BoardModel model(problem, 0);
    std::int64_t work = 0;
    const Cost most =
        BoardBound(context, model).most({{200'000}, {0}}, thorough, Interrupt({}, 0), work);
    // 29 7/8 in of 70 are left.
    EXPECT_GE(most, 200'000 + Cost{150'000} * 29'875 / 70'000);
    EXPECT_LE(most, 200'000 + Cost{150'000} * 31 / 70);
}

TEST(BoardBound, RowsCountFarFromTheEndOfABentBoardWhereOffcutsAreWorthSomething) {
    // Two sections of 60 in, each with a long blank and three short ones in a row beside it; the
    // board is too bowed for one section.
    Problem problem;
    Board board;
    const auto point = [](Nm x, Nm y) {
        return Point{Length::nanometres(x), Length::nanometres(y)};
    };
    board.outline = {point(0, 0),
                     point(62 * inch, inch / 8),
                     point(124 * inch, 0),
                     point(124 * inch, 7 * inch),
                     point(62 * inch, 7 * inch + inch / 8),
                     point(0, 7 * inch)};
    board.thinnest = inch;
    board.bow = inch / 2;
    board.cost = 10'000;
    problem.boards = {board};
    Kind longOne;
    longOne.length = 60 * inch;
    longOne.width = 4 * inch;
    longOne.thickness = 3 * inch / 4;
    longOne.demand = 2;
    Kind shortOne = longOne;
    shortOne.length = 19 * inch + 3 * inch / 4;
    shortOne.width = 2 * inch;
    shortOne.demand = 6;
    problem.kinds = {longOne, shortOne};
    problem.limits.crosscutKerf = problem.limits.ripKerf = problem.limits.stripCrosscutKerf =
        inch / 8;
    problem.limits.offcutLength = 12 * inch;
    problem.limits.offcutWidth = 2 * inch;
    problem.limits.offcutWorthPercent = 10;
    const Context context(problem);
    const BoardModel model(problem, 0);
    const Interrupt interrupt({}, 0);
    const Values values{{300'000, 30'000}, {0, 0}};
    std::int64_t work = 0;
    ASSERT_GE(BoardMenu(context, model, Fineness::usual()).best(values, interrupt, work).value,
              780'000);
    for (const int looks : {20, 200, thorough.looks}) {
        EXPECT_GE(BoardBound(context, model).most(values, {0, looks}, interrupt, work), 780'000)
            << "after " << looks;
    }
}

TEST(BoardBound, CountsTheOffcutsThatNoBlankFitsIn) {
    // A blank that stays where it is leaves ten inches before it, too short for any other.
    Problem problem;
    Board board;
    board.outline = box(0, 0, 40 * inch, 4 * inch);
    board.thinnest = inch;
    board.cost = 40'000;
    problem.boards = {board};
    Kind kind;
    kind.length = 15 * inch;
    kind.width = 4 * inch;
    kind.thickness = 3 * inch / 4;
    kind.demand = 2;
    problem.kinds = {kind};
    problem.fixed = {{0, 0,
                      Rect{Length::nanometres(10 * inch), Length::nanometres(0),
                           Length::nanometres(25 * inch), Length::nanometres(4 * inch)}}};
    problem.limits.offcutLength = 6 * inch;
    problem.limits.offcutWidth = 2 * inch;
    problem.limits.offcutWorthPercent = 50;
    const Context context(problem);
    const BoardModel model(problem, 0);
    const Interrupt interrupt({}, 0);
    const Values values{{100'000}, {0}};
    std::int64_t work = 0;
    // One blank behind it, and a quarter of the board at half its worth.
    BoardMenu menu(context, model, Fineness::usual());
    const Pattern pattern = menu.cut(values, menu.best(values, interrupt, work));
    ASSERT_EQ(pattern.sections.size(), 1U);
    ASSERT_EQ(patternCost(context, model, pattern).offcutsWorth, 5'000);
    EXPECT_GE(BoardBound(context, model).most(values, thorough, interrupt, work), 105'000);
}

TEST(JobBound, NoPlanCostsLessUnderAnyPrices) {
    const Interrupt interrupt({}, 0);
    for (const JobFamily family : {JobFamily::WideTop, JobFamily::Table}) {
        const Problem problem = makeRack({.family = family, .boards = 6, .seed = 5});
        Options options;
        options.seconds = 0;
        options.work = 200'000;
        const Solution solution = solve(problem, options, {});
        const Context context(problem);
        std::vector<std::unique_ptr<BoardModel>> models;
        std::vector<const BoardModel*> pointers;
        for (int b = 0; b < 6; ++b) {
            models.push_back(std::make_unique<BoardModel>(problem, b));
            pointers.push_back(models.back().get());
        }
        const Accounts accounts(context, pointers);
        JobBound bound(context, accounts, pointers);
        EXPECT_FALSE(bound.linear());
        for (std::uint64_t seed = 1; seed <= 3; ++seed) {
            const Values values = bound.allowed(randomValues(problem, seed));
            std::vector<Cost> most;
            for (const auto& model : models) {
                std::int64_t work = 0;
                most.push_back(BoardBound(context, *model)
                                   .most(values, {model->board().cost / 2, 200}, interrupt, work));
            }
            bound.add(values, most);
            EXPECT_LE(*bound.linear(), solution.value) << nameOf(family);
            const Cost whole = bound.whole(1'000, interrupt).least;
            EXPECT_LE(whole, solution.value) << nameOf(family);
            EXPECT_GE(whole, *bound.linear()) << nameOf(family);
        }
    }
}

/// Two boards of 10 at 3 and one demand of 12.
Problem twelveFromTwoBoards() {
    Problem problem;
    Board board;
    board.outline = box(0, 0, 100 * inch, 10 * inch);
    board.thinnest = inch;
    board.cost = 30'000;
    problem.boards = {board, board};
    Kind kind;
    kind.length = 10 * inch;
    kind.width = 10 * inch;
    kind.thickness = inch / 2;
    kind.demand = 12;
    kind.penaltyUnplaced = 1'000'000;
    problem.kinds = {kind};
    return problem;
}

TEST(JobBound, WholeBoardsLiftIt) {
    // The linear programme pays for 1.2 boards, but no plan touches fewer than two.
    const Problem problem = twelveFromTwoBoards();
    const Context context(problem);
    const BoardModel first(problem, 0);
    const BoardModel second(problem, 1);
    const Accounts accounts(context, {&first, &second});
    JobBound bound(context, accounts, {&first, &second});
    const Interrupt interrupt({}, 0);
    std::int64_t work = 0;
    const Cost most = BoardBound(context, first).most({{3'000}, {0}}, thorough, interrupt, work);
    EXPECT_EQ(most, 30'000);
    bound.add({{3'000}, {0}}, {most, most});
    EXPECT_EQ(*bound.linear(), 36'000);
    // Money for the second board, in part, is no board: F may stand for it only at its own price.
    EXPECT_GE(bound.whole(1'000, interrupt).least, 36'000 - 2);
    // Ten times the price shows that 12 blanks need both.
    const Cost dear = BoardBound(context, first).most({{30'000}, {0}}, thorough, interrupt, work);
    bound.add({{30'000}, {0}}, {dear, dear});
    EXPECT_NEAR(static_cast<double>(bound.whole(1'000, interrupt).least), 60'000, 10);
}

TEST(JobBound, PricesThatAreTooHighTellWhatAShareOfThemDoes) {
    Problem problem = twelveFromTwoBoards();
    // At 6 000 a blank, twice what it costs, 12 of them are worth 72 000, and both boards pay with
    // 30 000 to spare: nothing but 12 000 is told. Half of the prices tell 36 000.
    // Where offcuts keep a fifth of their price a board is worth 6 000 at no prices. It just pays
    // at a share of 24 / 54 then: 72 000 x 24 / 54 = 32 000.
    for (const auto& [offcutWorthPercent, least] : {std::pair{0, 36'000}, {20, 32'000}}) {
        problem.limits.offcutLength = inch;
        problem.limits.offcutWorthPercent = offcutWorthPercent;
        const Context context(problem);
        const BoardModel first(problem, 0);
        const BoardModel second(problem, 1);
        const Accounts accounts(context, {&first, &second});
        JobBound bound(context, accounts, {&first, &second});
        bound.add({{6'000}, {0}}, {60'000, 60'000});
        EXPECT_NEAR(static_cast<double>(*bound.linear()), least, 2) << offcutWorthPercent;
        // Which prices these are: 6 000 x 1/2, or x 24 / 54.
        EXPECT_NEAR(static_cast<double>(bound.newestPrices().each[0]), least / 12.0, 2);
        EXPECT_GE(bound.whole(1'000, Interrupt({}, 0)).least, *bound.linear());
    }
}

TEST(JobBound, APriceOnTheNumberOfStavesAloneSaysAsMuchAsOneOnTheirWidth) {
    // A panel of two staves at least, which no board can give: it costs its penalty. To a mix it is
    // all one whether that is the price of its width or of its two staves.
    Problem problem = barsOfAClearBoard(50 * inch, 8 * inch, 60 * inch, 3 * inch, 1);
    Kind& panel = problem.kinds[0];
    panel.isPool = true;
    panel.widest = 5 * inch;
    panel.step = inch / 16;
    panel.netWanted = 8 * inch;
    panel.netMost = 9 * inch;
    panel.fewest = 2;
    panel.most = 4;
    panel.penaltyUnplaced = 1'000'000;
    const Context context(problem);
    const BoardModel model(problem, 0);
    const Accounts accounts(context, {&model});
    JobBound bound(context, accounts, {&model});
    bound.add(bound.allowed({{500'000}, {0}}), {0});
    EXPECT_NEAR(static_cast<double>(*bound.linear()), 1'000'000, 1'000);
    EXPECT_LE(*bound.linear(), 1'000'000);
}

TEST(JobBound, TheSearchStoresOneThatItsOwnPlanRespects) {
    const Problem problem = makeRack({.family = JobFamily::WideTop, .boards = 4, .seed = 1});
    Options options;
    options.seconds = 0;
    options.work = 15'000'000;
    const Solution solution = solve(problem, options, {});
    ASSERT_TRUE(solution.bound);
    EXPECT_LE(*solution.bound, solution.value);
    EXPECT_GT(*solution.bound, 0);
}

} // namespace
} // namespace stavewright::cutting::testing
