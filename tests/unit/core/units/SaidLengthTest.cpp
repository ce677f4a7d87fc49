#include "core/units/SaidLength.h"

#include <gtest/gtest.h>

namespace stavewright {
namespace {

Length in(std::int64_t numerator, std::int64_t denominator = 1) {
    return Length::inches(numerator, denominator);
}

constexpr LengthStyle sixteenths{UnitSystem::Inches, 16, false};
constexpr LengthStyle metric{UnitSystem::Millimetres, 16, false};
const Length nanometre = Length::nanometres(1);

TEST(SaidLength, IsReadOffTheTapeWithoutASign) {
    EXPECT_EQ(saidLength(in(55, 2), sixteenths), "27 1/2\"");
    EXPECT_EQ(saidLength(in(1665, 64), sixteenths), "26\""); // 26 1/64
    EXPECT_EQ(saidLength(in(26) + nanometre, sixteenths), "26\"");
    EXPECT_EQ(saidLength(-in(1665, 64), sixteenths), "-26\"");
    EXPECT_EQ(saidLength(Length(), sixteenths), "0\"");
    EXPECT_EQ(saidLength(Length::micrometres(698'540), metric), "698.5 mm");
}

TEST(SaidLength, AKerfIsSaidToThe64th) {
    EXPECT_EQ(saidLength(in(3, 32), sixteenths), "3/32\"");
    EXPECT_EQ(saidLength(in(7, 64), sixteenths), "7/64\"");
    EXPECT_EQ(saidLength(in(1, 64), sixteenths), "1/64\"");
    EXPECT_EQ(saidLength(in(1, 2) - nanometre, sixteenths), "1/2\"");
}

TEST(SaidLength, WhatTheTapeCannotShowIsNeverNothing) {
    EXPECT_EQ(saidLength(nanometre, sixteenths), "0.000001 mm");
    EXPECT_EQ(saidLength(-nanometre, metric), "-0.000001 mm");
    EXPECT_EQ(saidLength(Length::micrometres(50), metric), "0.05 mm");
}

TEST(SaidLength, BesideAnotherTheTwoNeverReadAlikeWhileTheyDiffer) {
    EXPECT_EQ(saidBeside(in(26), in(26), sixteenths), "26\"");
    EXPECT_EQ(saidBeside(in(51, 2), in(26), sixteenths), "25 1/2\"");
    EXPECT_EQ(saidBeside(in(1663, 64), in(26), sixteenths), "25 63/64\""); // not 26
    EXPECT_EQ(saidBeside(in(25'998, 1000), in(26), sixteenths), "25.998\"");
    EXPECT_EQ(saidBeside(in(26), in(25'998, 1000), sixteenths), "26\"");
    EXPECT_EQ(saidBeside(in(259'998, 10'000), in(26), sixteenths), "25.9998\"");
    const Length need = Length::micrometres(25'520);
    const Length left = Length::micrometres(25'470);
    EXPECT_EQ(saidBeside(left, need, metric), "25.47 mm");
    EXPECT_EQ(saidBeside(need, left, metric), "25.52 mm");
    EXPECT_EQ(saidBeside(Length::micrometres(25'999), Length::millimetres(26), metric),
              "25.999 mm");
    EXPECT_EQ(saidBeside(Length::millimetres(26), Length::micrometres(25'999), metric), "26 mm");
    EXPECT_EQ(saidBeside(-Length::micrometres(1'040), -Length::micrometres(1'020), metric),
              "-1.04 mm");
    EXPECT_EQ(saidBeside(in(26) - nanometre, in(26), sixteenths), "about 26\"");
    EXPECT_EQ(saidBeside(Length::millimetres(26) - nanometre, Length::millimetres(26), metric),
              "about 26 mm");
}

} // namespace
} // namespace stavewright
