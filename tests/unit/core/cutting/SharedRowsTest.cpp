// Rows that are alike are kept once, and every row comes back as it was added.

#include "core/cutting/SharedRows.h"

#include <gtest/gtest.h>

#include <array>
#include <random>

namespace stavewright::cutting::testing {
namespace {

TEST(SharedRows, ThoseThatAreAlikeAreKeptOnce) {
    SharedRows rows;
    rows.begin(3);
    const std::array<std::int16_t, 3> first{1, 2, 3};
    const std::array<std::int16_t, 3> turned{3, 2, 1};
    const std::uint32_t one = rows.add(first.data());
    const std::uint32_t other = rows.add(turned.data());
    EXPECT_NE(one, other);
    EXPECT_EQ(rows.add(first.data()), one);
    EXPECT_EQ(rows.add(turned.data()), other);
    EXPECT_EQ(rows.count(), 2U);
    rows.settle();
    EXPECT_EQ(rows.count(), 2U);
    EXPECT_TRUE(std::equal(first.begin(), first.end(), rows.at(one)));
    EXPECT_TRUE(std::equal(turned.begin(), turned.end(), rows.at(other)));
}

TEST(SharedRows, EveryRowComesBackAsItWasAdded) {
    std::mt19937 random(7);
    constexpr std::size_t size = 5;
    SharedRows rows;
    rows.begin(size);
    std::vector<std::pair<std::array<std::int16_t, size>, std::uint32_t>> added;
    for (int i = 0; i < 2000; ++i) {
        std::array<std::int16_t, size> row{};
        for (std::int16_t& number : row) {
            number = static_cast<std::int16_t>(random() % 3);
        }
        added.emplace_back(row, rows.add(row.data()));
    }
    rows.settle();
    EXPECT_LE(rows.count(), 243U); // 3 to the fifth
    for (const auto& [row, index] : added) {
        EXPECT_TRUE(std::equal(row.begin(), row.end(), rows.at(index)));
    }
}

} // namespace
} // namespace stavewright::cutting::testing
