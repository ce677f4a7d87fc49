#include "core/cutting/KnownRows.h"

#include <vector>

#include <gtest/gtest.h>

namespace stavewright::cutting {
namespace {

TEST(KnownRows, WorkOutEachRowOnce) {
    KnownRows rows;
    const KnownRows::Key key{3, 7, 1, {10, 12, false}, 0b101};
    std::vector<KnownRows::Key> others(6, key);
    others[0].v = 4;
    others[1].height = 8;
    others[2].step = 2;
    others[3].begin.first = 11;
    others[4].begin.isSquare = true;
    others[5].kinds = 0b100;
    int times = 0;
    std::vector<RowStep> scratch;
    const auto worth = [&](const KnownRows::Key& asked, Cost value) {
        return rows.at(
            asked, [&]() -> const auto& {
                ++times;
                scratch = {{20, value}, {30, value + 1}};
                return scratch;
            });
    };
    const std::span<const RowStep> first = worth(key, 100);
    for (std::size_t i = 0; i < others.size(); ++i) {
        EXPECT_EQ(worth(others[i], 200 + static_cast<Cost>(i)).front().value,
                  200 + static_cast<Cost>(i));
    }
    EXPECT_EQ(times, 7);
    // Known: neither worked out again nor touched by what was worked out since.
    EXPECT_EQ(worth(key, 999).data(), first.data());
    EXPECT_EQ(times, 7);
    ASSERT_EQ(first.size(), 2U);
    EXPECT_EQ(first[0].end, 20);
    EXPECT_EQ(first[0].value, 100);
    EXPECT_EQ(first[1].end, 30);
    EXPECT_EQ(first[1].value, 101);
}

TEST(KnownRows, KnowThatThereIsNone) {
    KnownRows rows;
    int times = 0;
    for (int i = 0; i < 3; ++i) {
        EXPECT_TRUE(rows.at({0, 0, 0, {}, 1},
                            [&] {
                                ++times;
                                return std::span<const RowStep>{};
                            })
                        .empty());
    }
    EXPECT_EQ(times, 1);
}

TEST(KnownRows, StayWhereTheyAreWhenThereAreMany) {
    KnownRows rows;
    std::vector<std::span<const RowStep>> known;
    for (int i = 0; i < 20'000; ++i) {
        const std::vector<RowStep> steps(static_cast<std::size_t>(i % 5 + 1), {i, i});
        known.push_back(rows.at(
            {i, 0, 0, {}, 1}, [&]() -> const auto& { return steps; }));
    }
    const KnownRows moved = std::move(rows);
    for (int i = 0; i < 20'000; ++i) {
        const auto& steps = known[static_cast<std::size_t>(i)];
        ASSERT_EQ(steps.size(), static_cast<std::size_t>(i % 5 + 1));
        ASSERT_EQ(steps.back().end, i);
    }
}

} // namespace
} // namespace stavewright::cutting
