#include "core/units/PressureText.h"

#include <gtest/gtest.h>

namespace stavewright {
namespace {

// The Wood Handbook (chapter 10, on bonding pressure) prints these pairs: 700 kPa (100 lb/in2) and
// 1,700 kPa (247 lb/in2); to the hundredth of a newton per square millimetre they are the same.
TEST(PressureText, ShowsBothUnitsAsTheHandbookDoes) {
    EXPECT_EQ(formatPressure(100, UnitSystem::Inches), "100");
    EXPECT_EQ(pressureUnit(UnitSystem::Inches), "psi");
    EXPECT_EQ(formatPressure(100, UnitSystem::Millimetres), "0.69");
    EXPECT_EQ(formatPressure(247, UnitSystem::Millimetres), "1.7");
    EXPECT_EQ(pressureUnit(UnitSystem::Millimetres), "N/mm²");
    EXPECT_EQ(parsePressure("1.7", UnitSystem::Millimetres).value(), 247);
    EXPECT_EQ(formatPressure(145, UnitSystem::Millimetres), "1");
}

TEST(PressureText, WhatIsTypedComesBack) {
    for (int hundredths = 7; hundredths <= 689; ++hundredths) {
        const std::string typed = std::to_string(hundredths / 100) + '.' +
                                  std::to_string(100 + hundredths % 100).substr(1);
        const Result<int> psi = parsePressure(typed, UnitSystem::Millimetres);
        ASSERT_TRUE(psi.ok()) << typed;
        EXPECT_EQ(hundredthsOfNewton(psi.value()), hundredths) << typed;
    }
    for (int psi = 10; psi <= 1000; ++psi) {
        EXPECT_EQ(parsePressure(std::to_string(psi), UnitSystem::Inches).value(), psi);
    }
}

TEST(PressureText, AUnitThatIsTypedCounts) {
    EXPECT_EQ(parsePressure("150 psi", UnitSystem::Millimetres).value(), 150);
    EXPECT_EQ(parsePressure(" 150PSI ", UnitSystem::Inches).value(), 150);
    EXPECT_EQ(parsePressure("0,7", UnitSystem::Millimetres).value(), 102);
    EXPECT_EQ(parsePressure("0.7 N/mm²", UnitSystem::Inches).value(), 102);
    EXPECT_EQ(parsePressure("0.7 n/mm2", UnitSystem::Inches).value(), 102);
    EXPECT_EQ(parsePressure("0.7 MPa", UnitSystem::Inches).value(), 102);
}

TEST(PressureText, RefusesWithWhatIsAllowed) {
    const auto refused = [](const char* text, UnitSystem units) {
        const Result<int> read = parsePressure(text, units);
        return read.ok() ? std::string() : read.error().message;
    };
    EXPECT_EQ(refused("9", UnitSystem::Inches),
              "Cannot read “9” as a pressure: it must be from 10 to 1000 psi.");
    EXPECT_EQ(refused("100", UnitSystem::Millimetres),
              "Cannot read “100” as a pressure: it must be from 0.07 to 6.89 N/mm².");
    for (const char* text : {"", "psi", "-100", "100 bar", "1e3", "much", "100 100"}) {
        EXPECT_NE(refused(text, UnitSystem::Inches), "") << text;
    }
}

} // namespace
} // namespace stavewright
