// What a proof knows of sections against what sections give when they are cut, and the sections
// that are found with it.

#include "core/cutting/SectionCeilings.h"

#include <gtest/gtest.h>

#include "Racks.h"
#include "core/cutting/BoardBound.h"
#include "core/cutting/BoardMenu.h"
#include "core/cutting/SectionsToCut.h"

namespace stavewright::cutting::testing {
namespace {

TEST(SectionCeilings, NoSectionGivesMoreUnderThosePricesOrOthers) {
    const Interrupt interrupt({}, 0);
    int told = 0;
    int close = 0;
    std::uint64_t seed = 30;
    for (const JobFamily family : allFamilies) {
        const Problem problem =
            makeRack({.family = family, .boards = 2, .seed = ++seed, .metric = seed % 2 == 0});
        const Context context(problem);
        for (int b = 0; b < 2; ++b) {
            const BoardModel model(problem, b);
            BoardBound bound(context, model);
            std::int64_t work = 0;
            static_cast<void>(
                bound.most(pricesByArea(problem, 100, 100), {0, 200}, interrupt, work));
            const SectionCeilings ceilings = bound.ceilings();
            for (const Values& values :
                 {pricesByArea(problem, 100, 100), pricesByArea(problem, 130, 90),
                  pricesByArea(problem, 85, 95), pricesByArea(problem, 100, 160)}) {
                const std::vector<Cost> most = ceilings.at(problem, values);
                // Also where sections lie as the chain of another bound has them.
                for (const Kind& kind : problem.kinds) {
                    for (int from = 0; from < 6; ++from) {
                        const Nm x0 = model.size().xBegin + from * 9 * inch + inch / 3;
                        for (const Nm x1 : {x0 + kind.length, x0 + 2 * kind.length + inch / 8,
                                            model.size().xEnd}) {
                            const std::size_t index = ceilings.find(x0, x1);
                            if (x1 > model.size().xEnd || index == SectionCeilings::none) {
                                continue;
                            }
                            const SectionMenu menu(context, model, x0, x1, Fineness::usual());
                            const Cost given = menu.best(values, work).value;
                            EXPECT_LE(given, most[index]) << nameOf(family) << " board " << b + 1
                                                          << " from " << x0 << " to " << x1;
                            ++told;
                            close += given > most[index] / 10 * 8 ? 1 : 0;
                        }
                    }
                }
            }
        }
    }
    EXPECT_GE(told, 1'000) << "too few sections to say anything";
    EXPECT_GE(close, told / 20) << "no ceiling is near anything";
}

TEST(SectionCeilings, SayNothingOfWoodThatIsTaken) {
    EXPECT_EQ(SectionCeilings().find(0, 40 * inch), SectionCeilings::none);
    Problem problem =
        barsOfAClearBoard(120 * inch + inch / 4, 8 * inch + inch / 8, 40 * inch, 4 * inch, 6);
    const Context context(problem);
    const BoardModel model(problem, 0);
    BoardBound bound(context, model);
    const Interrupt interrupt({}, 0);
    std::int64_t work = 0;
    const Values values{{10'000}, {0}};
    static_cast<void>(bound.most(values, {0, 1'000}, interrupt, work));
    const SectionCeilings ceilings = bound.ceilings();
    EXPECT_EQ(ceilings.find(-inch, 40 * inch), SectionCeilings::none);
    EXPECT_EQ(ceilings.find(0, 200 * inch), SectionCeilings::none);
    // Too short for a blank.
    EXPECT_EQ(ceilings.find(0, 30 * inch), SectionCeilings::none);
    const std::size_t whole = ceilings.find(0, 120 * inch + inch / 4);
    ASSERT_NE(whole, SectionCeilings::none);
    EXPECT_GE(ceilings.at(problem, values)[whole], 60'000);
    bound.leavePrices();
    EXPECT_TRUE(bound.ceilings().isEmpty()) << "what is known is known of the prices asked last";
}

TEST(SectionCeilings, SectionsAsLongAsTwoKindsAreFoundByThem) {
    const Interrupt interrupt({}, 0);
    Cost before = 0;
    Cost after = 0;
    Cost most = 0;
    for (std::uint64_t seed = 41; seed < 44; ++seed) {
        const Problem problem =
            makeRack({.family = JobFamily::Chest, .boards = 1, .seed = seed, .metric = false});
        const Context context(problem);
        const BoardModel model(problem, 0);
        const Values values = pricesByArea(problem, 110, 100);
        std::int64_t work = 0;
        BoardBound bound(context, model);
        BoardMenu menu(context, model, Fineness::usual());
        most += bound.most(values, {0, 3'000}, interrupt, work);
        const Cost had = menu.best(values, interrupt, work).value;
        menu.cap(bound.ceilings());
        EXPECT_EQ(menu.best(values, interrupt, work).value, had)
            << "ceilings leave out what is among the best, seed " << seed;
        menu.refine(values, interrupt, work);
        const Cost has = menu.best(values, interrupt, work).value;
        EXPECT_GE(has, had) << "seed " << seed;
        before += had;
        after += has;
    }
    EXPECT_GT(after, before);
    EXPECT_LE(after, most);
}

} // namespace
} // namespace stavewright::cutting::testing
