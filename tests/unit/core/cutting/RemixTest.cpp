// Sections out of a store put together anew, against complete enumeration of all chains, which
// needs nothing but loops; and plans that can only be had by mixing.

#include "core/cutting/Remix.h"

#include <algorithm>
#include <memory>

#include <gtest/gtest.h>

#include "Racks.h"
#include "core/cutting/Random.h"

namespace stavewright::cutting::testing {
namespace {

/// Clear boards, so many kinds of blanks 10 in long, each an inch wider than the one before.
Problem clearBoards(int boards, int kinds, int demand) {
    Problem problem;
    for (int b = 0; b < boards; ++b) {
        Board board;
        board.outline = box(0, 0, 100 * inch, 8 * inch);
        board.cost = 1'000'000;
        board.thinnest = inch;
        problem.boards.push_back(board);
    }
    for (int k = 0; k < kinds; ++k) {
        Kind kind;
        kind.length = 10 * inch;
        kind.width = (2 + k) * inch;
        kind.demand = demand;
        kind.penaltyUnplaced = 10'000'000;
        problem.kinds.push_back(kind);
    }
    problem.limits.crosscutKerf = inch / 8;
    problem.limits.stripCrosscutKerf = inch / 8;
    problem.limits.ripKerf = inch / 8;
    return problem;
}

/// A section that holds these kinds, one strip each.
PlacedSection section(const Problem& problem, Nm x0, Nm x1, const std::vector<int>& kinds) {
    PlacedSection made;
    made.x0 = x0;
    made.x1 = x1;
    made.frame = Frame{};
    Nm v = 0;
    for (const int kind : kinds) {
        const Nm width = problem.kinds[static_cast<std::size_t>(kind)].width;
        Placed placed;
        placed.kind = kind;
        placed.rect = Rect{Length::nanometres(0), Length::nanometres(v),
                           Length::nanometres(10 * inch), Length::nanometres(v + width)};
        made.strips.push_back({v, v + width, {placed}});
        v += width + problem.limits.ripKerf;
    }
    return made;
}

struct Shop {
    explicit Shop(Problem wanted)
        : problem(std::move(wanted))
        , context(problem) {
        for (std::size_t b = 0; b < problem.boards.size(); ++b) {
            models.push_back(std::make_unique<BoardModel>(problem, static_cast<int>(b)));
            pointers.push_back(models.back().get());
        }
        accounts = std::make_unique<Accounts>(context, pointers);
        store = std::make_unique<SectionStore>(context, *accounts, pointers);
    }
    Problem problem;
    Context context;
    std::vector<std::unique_ptr<BoardModel>> models;
    std::vector<const BoardModel*> pointers;
    std::unique_ptr<Accounts> accounts;
    std::unique_ptr<SectionStore> store;
};

/// Worth of a chain, counted by hand.
double worthOf(const Shop& shop, const SectionStore::Wish& wish,
               const std::vector<std::uint32_t>& sections) {
    double worth = -static_cast<double>(shop.store->costOf(0, sections));
    const std::vector<std::int64_t> yield = shop.store->yieldOf(0, sections);
    for (std::size_t k = 0; k < yield.size(); ++k) {
        worth += wish.worth[k] * static_cast<double>(std::min(yield[k], wish.open[k]));
    }
    return worth;
}

TEST(SectionStore, ChainsAreNearlyAsGoodAsAllThatThereAre) {
    Random dice(3);
    int exact = 0;
    constexpr int cases = 60;
    for (int number = 0; number < cases; ++number) {
        Shop shop(clearBoards(1, 3, 9));
        for (int s = 0; s < 11; ++s) {
            const Nm x0 = static_cast<Nm>(dice.below(60)) * inch;
            std::vector<int> kinds;
            for (std::size_t i = 0; i < 1 + dice.below(2); ++i) {
                kinds.push_back(static_cast<int>(dice.below(3)));
            }
            shop.store->add({0,
                             {section(shop.problem, x0,
                                      x0 + (10 + static_cast<Nm>(dice.below(20))) * inch, kinds)}});
        }
        SectionStore::Wish wish;
        for (int k = 0; k < 3; ++k) {
            wish.worth.push_back(static_cast<double>(10'000 * (1 + dice.below(9))));
            wish.perStave.push_back(0);
            wish.open.push_back(static_cast<std::int64_t>(dice.below(4)));
        }
        SectionStore::Scratch scratch;
        const SectionChain chain = shop.store->best(0, wish, scratch);
        EXPECT_NEAR(chain.value, worthOf(shop, wish, chain.sections), 1);
        const Pattern pattern = shop.store->patternOf(0, chain.sections);
        for (std::size_t i = 1; i < pattern.sections.size(); ++i) {
            EXPECT_GE(pattern.sections[i].x0,
                      pattern.sections[i - 1].x1 + shop.problem.limits.crosscutKerf);
        }
        // Every subset of sections that lie one behind the other.
        const std::size_t count = shop.store->sectionsOf(0);
        double most = 0;
        for (std::uint32_t subset = 1; subset < (1U << count); ++subset) {
            std::vector<std::uint32_t> sections;
            for (std::uint32_t s = 0; s < count; ++s) {
                if ((subset >> s & 1U) != 0) {
                    sections.push_back(s);
                }
            }
            Pattern all = shop.store->patternOf(0, sections);
            std::sort(all.sections.begin(), all.sections.end(),
                      [](const PlacedSection& a, const PlacedSection& b) { return a.x0 < b.x0; });
            bool apart = true;
            for (std::size_t i = 1; i < all.sections.size(); ++i) {
                apart = apart && all.sections[i].x0 >=
                                     all.sections[i - 1].x1 + shop.problem.limits.crosscutKerf;
            }
            if (apart) {
                most = std::max(most, worthOf(shop, wish, sections));
            }
        }
        EXPECT_LE(chain.value, most + 1);
        EXPECT_GE(shop.store->most(0, wish, scratch), most - 1);
        exact += chain.value > most - 1 ? 1 : 0;
    }
    EXPECT_GE(exact, cases * 95 / 100);
}

TEST(SectionStore, KeepsOnlySectionsThatAreBetterInSomething) {
    Shop shop(clearBoards(1, 2, 2));
    shop.store->add({0, {section(shop.problem, 10 * inch, 20 * inch, {0})}});
    EXPECT_EQ(shop.store->sectionsOf(0), 1U);
    shop.store->add({0, {section(shop.problem, 9 * inch, 20 * inch, {0})}}); // longer for nothing
    EXPECT_EQ(shop.store->sectionsOf(0), 1U);
    shop.store->add({0, {section(shop.problem, 9 * inch, 20 * inch, {0, 1})}});
    EXPECT_EQ(shop.store->sectionsOf(0), 2U);
}

/// Three boards, each cut by half; all of it fits on one.
RemixWish wasteful(const Shop& shop) {
    RemixWish wish;
    wish.values.each = {300'000, 300'000};
    wish.values.perMetre = {0, 0};
    wish.open = wish.asked = shop.accounts->demand();
    for (int b = 0; b < 2; ++b) {
        const Nm x0 = (b == 0 ? 5 : 50) * inch;
        wish.from.push_back({b, {section(shop.problem, x0, x0 + 10 * inch, {b, b})}});
    }
    for (const Pattern& pattern : wish.from) {
        wish.columns.push_back(columnOf(shop.context, *shop.accounts,
                                        *shop.models[static_cast<std::size_t>(pattern.board)],
                                        pattern));
    }
    return wish;
}

TEST(Remix, FindsWhatOneBoardHolds) {
    Shop shop(clearBoards(3, 2, 2));
    const RemixWish wish = wasteful(shop);
    // Board 2 was never cut for both at once.
    shop.store->add({2, {section(shop.problem, 5 * inch, 15 * inch, {0, 0})}});
    shop.store->add({2, {section(shop.problem, 50 * inch, 60 * inch, {1, 1})}});
    const Interrupt never({}, 0);
    const Remixed remixed = remix(*shop.store, shop.problem, *shop.accounts, wish, 1, 200, never);
    ASSERT_FALSE(remixed.plans.empty());
    ASSERT_EQ(remixed.plans.front().size(), 1U);
    EXPECT_EQ(remixed.plans.front().front().board, 2);
    const Solution solution = shop.accounts->settle(remixed.plans.front()).solution;
    EXPECT_EQ(solution.unplaced, (std::vector<int>{0, 0}));
    EXPECT_LT(solution.value, shop.accounts->settle(wish.from).solution.value);
    EXPECT_GT(remixed.work, 0);
}

TEST(Remix, UnderACeilingLacksAsLittleAsItCan) {
    Shop shop(clearBoards(3, 2, 2));
    RemixWish wish = wasteful(shop);
    for (const Pattern& pattern : wish.from) {
        shop.store->add(pattern);
    }
    // One board holds half of what is wanted, or three quarters.
    shop.store->add({2, {section(shop.problem, 5 * inch, 15 * inch, {0, 0})}});
    shop.store->add({2, {section(shop.problem, 50 * inch, 60 * inch, {1})}});
    wish.ceiling = shop.problem.boards[2].cost;
    const Interrupt never({}, 0);
    const Remixed remixed = remix(*shop.store, shop.problem, *shop.accounts, wish, 1, 200, never);
    ASSERT_FALSE(remixed.plans.empty());
    ASSERT_EQ(remixed.plans.front().size(), 1U);
    EXPECT_EQ(remixed.plans.front().front().board, 2);
    EXPECT_EQ(shop.accounts->settle(remixed.plans.front()).solution.unplaced,
              (std::vector<int>{0, 1}));
    // Half a board buys nothing.
    wish.ceiling /= 2;
    const Remixed poor = remix(*shop.store, shop.problem, *shop.accounts, wish, 1, 200, never);
    ASSERT_FALSE(poor.plans.empty());
    EXPECT_TRUE(poor.plans.front().empty());
}

TEST(Remix, TellsNothingWhereNothingIsBetter) {
    Shop shop(clearBoards(2, 2, 2));
    const RemixWish wish = wasteful(shop);
    for (const Pattern& pattern : wish.from) {
        shop.store->add(pattern);
    }
    const Interrupt never({}, 0);
    EXPECT_TRUE(
        remix(*shop.store, shop.problem, *shop.accounts, wish, 1, 200, never).plans.empty());
}

} // namespace
} // namespace stavewright::cutting::testing
