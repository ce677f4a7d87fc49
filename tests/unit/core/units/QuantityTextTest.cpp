#include "core/units/QuantityText.h"

#include <cmath>
#include <limits>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace stavewright {
namespace {

using testing::HasSubstr;

TEST(BoardFeetText, RoundsHalvesAwayFromZero) {
    EXPECT_EQ(formatBoardFeet(BoardFeet::millionths(10'665'000)), "10.67");
    EXPECT_EQ(formatBoardFeet(BoardFeet::millionths(10'664'999)), "10.66");
    EXPECT_EQ(formatBoardFeet(BoardFeet::millionths(-10'665'000)), "-10.67");
    EXPECT_EQ(formatBoardFeet(BoardFeet::millionths(-4'999)), "0.00");
    EXPECT_EQ(formatBoardFeet(BoardFeet::millionths(999'500), 3), "1.000");
    EXPECT_EQ(formatBoardFeet(BoardFeet::millionths(1'005'000), 3), "1.005");
    EXPECT_EQ(formatBoardFeet(BoardFeet::millionths(500'000), 0), "1");
    EXPECT_EQ(formatBoardFeet(BoardFeet::millionths(1'250'000), 1), "1.3");
    EXPECT_EQ(formatBoardFeet(BoardFeet::whole(7), 99), "7.000") << "at most three decimals";
}

TEST(MoneyText, HasASignTwoDecimalsAndTheMinusFirst) {
    EXPECT_EQ(formatMoney(Money::cents(850), "$"), "$8.50");
    EXPECT_EQ(formatMoney(Money::cents(-300), "$"), "-$3.00");
    EXPECT_EQ(formatMoney(Money::tenThousandths(12'350), "€"), "€1.24");
    EXPECT_EQ(formatMoney(Money::tenThousandths(-49), "$"), "$0.00");
    EXPECT_EQ(formatMoney(Money::tenThousandths(-50), "$"), "-$0.01");
    EXPECT_EQ(formatMoney(Money(), ""), "0.00");
    EXPECT_EQ(formatMoney(Money::tenThousandths(std::numeric_limits<std::int64_t>::min()), "$"),
              "-$922337203685477.58");
}

TEST(ShareText, IsInTenthsOfAPercent) {
    EXPECT_EQ(formatShare(BoardFeet::whole(613), BoardFeet::whole(1000)), "61.3 %");
    EXPECT_EQ(formatShare(BoardFeet::whole(2), BoardFeet::whole(3)), "66.7 %");
    EXPECT_EQ(formatShare(BoardFeet::whole(1), BoardFeet::whole(1)), "100.0 %");
    EXPECT_EQ(formatShare(BoardFeet(), BoardFeet::whole(1)), "0.0 %");
    EXPECT_EQ(formatShare(BoardFeet::whole(-1), BoardFeet::whole(3)), "-33.3 %");
    EXPECT_EQ(formatShare(BoardFeet::millionths(1), BoardFeet::millionths(2000)), "0.1 %");
    EXPECT_EQ(formatShare(BoardFeet::whole(1), BoardFeet()), "–");
    EXPECT_EQ(formatShare(BoardFeet(), BoardFeet()), "–");
}

TEST(ExcessText, IsRoundedUpSoThatItIsNeverLessThanItIs) {
    EXPECT_EQ(formatExcess(Money::whole(105), Money::whole(100)), "5.0 %");
    EXPECT_EQ(formatExcess(Money::tenThousandths(1'000'001), Money::whole(100)), "0.1 %");
    EXPECT_EQ(formatExcess(Money::whole(100), Money::whole(100)), "0.0 %");
    EXPECT_EQ(formatExcess(Money::whole(300), Money::whole(100)), "200.0 %");
    EXPECT_EQ(formatExcess(Money::whole(3), Money()), "–");
}

TEST(MoneyText, IsReadWithOrWithoutACurrency) {
    for (const char* text : {"8.50", "8,5", "$8.50", "$ 8.5", "8.50 €", "8.50€", "US$8.50",
                             "EUR 8,50", "8.50 kr", "+8.50"}) {
        const Result<Money> money = parseMoney(text);
        if (std::string_view(text).front() == '+') {
            EXPECT_FALSE(money) << text;
            continue;
        }
        ASSERT_TRUE(money) << text << ": " << money.error().message;
        EXPECT_EQ(money.value(), Money::cents(850)) << text;
    }
    EXPECT_EQ(parseMoney("-$3.00").value(), Money::cents(-300));
    EXPECT_EQ(parseMoney("$-3.00").value(), Money::cents(-300));
    EXPECT_EQ(parseMoney("−3 €").value(), Money::cents(-300));
    EXPECT_EQ(parseMoney("0.12345").value(), Money::tenThousandths(1'235)) << "to the nearest";
    EXPECT_EQ(parseMoney("1000000000").value(), Money::whole(1'000'000'000));
}

TEST(MoneyText, RefusesWhatItWouldHaveToGuess) {
    for (const char* text : {"",
                             " ",
                             "$",
                             "-",
                             "nan",
                             "nan 5",
                             "inf",
                             "1e5",
                             "1,000",
                             "1,000.50",
                             "1.2.3",
                             "$8$",
                             "8 8",
                             "8.",
                             "1000000001",
                             "99999999999999999999",
                             "0x10",
                             "\xFF",
                             "--3",
                             "-$-3",
                             "8.50 a board foot"}) {
        const Result<Money> money = parseMoney(text);
        ASSERT_FALSE(money) << text;
        EXPECT_THAT(money.error().message, HasSubstr("as an amount of money: "));
        EXPECT_EQ(money.error().message.back(), '.');
    }
    EXPECT_THAT(parseMoney("1,000").error().message, HasSubstr("write 1000 or 1.000"));
}

TEST(BoardFeetText, IsReadAsAPlainDecimal) {
    EXPECT_EQ(parseBoardFeet("10.67").value(), BoardFeet::millionths(10'670'000));
    EXPECT_EQ(parseBoardFeet(" 10,67 ").value(), BoardFeet::millionths(10'670'000));
    EXPECT_EQ(parseBoardFeet("0").value(), BoardFeet());
    for (const char* text :
         {"", "-1", "$5", "5 EUR", "1,000", "1000000.1", "nan", "5 1/2", "1e3"}) {
        const Result<BoardFeet> amount = parseBoardFeet(text);
        ASSERT_FALSE(amount) << text;
        EXPECT_THAT(amount.error().message, HasSubstr("as board feet: "));
    }
}

// 1 in is 25.4 mm exactly (NIST SP 811, appendix B.8), so 144 in^3 are 2 359 737.216 mm^3.
TEST(LumberText, CountsInTheMeasureOfTheJobsUnit) {
    const BoardFeet board = BoardFeet::millionths(10'665'000);
    EXPECT_EQ(lumberText(board, UnitSystem::Inches), "10.67 bd ft");
    EXPECT_EQ(lumberText(board, UnitSystem::Inches, LumberDetail::Glance), "10.7 bd ft");
    EXPECT_EQ(lumberText(board, UnitSystem::Millimetres), "0.0252 m³");
    EXPECT_EQ(lumberText(BoardFeet::whole(1'000), UnitSystem::Millimetres, LumberDetail::Glance),
              "2.3597 m³");
    EXPECT_EQ(formatLumber(BoardFeet::whole(-1'000), UnitSystem::Millimetres), "-2.3597");
    EXPECT_EQ(formatLumber(BoardFeet::millionths(-20'000), UnitSystem::Millimetres), "0.0000");
    // A board of 2 m x 200 mm x 25 mm
    EXPECT_EQ(
        lumberText(BoardFeet::ofVolume(Length::micrometres(2'000'000) *
                                       Length::micrometres(200'000) * Length::micrometres(25'000)),
                   UnitSystem::Millimetres),
        "0.0100 m³");
    EXPECT_EQ(lumberText(BoardFeet::whole(1'000'000), UnitSystem::Millimetres), "2359.7372 m³");
}

TEST(LumberText, PricesOfACubicMetreComeBackAsTyped) {
    EXPECT_EQ(pricePerLumberUnit(Money::cents(850), UnitSystem::Inches), Money::cents(850));
    EXPECT_EQ(pricePerBoardFoot(Money::cents(850), UnitSystem::Inches), Money::cents(850));
    // 1 m^3 = 423.776 bd ft
    EXPECT_EQ(pricePerLumberUnit(Money::whole(1), UnitSystem::Millimetres), Money::cents(42'380));
    EXPECT_EQ(pricePerBoardFoot(Money::whole(2'000), UnitSystem::Millimetres),
              Money::tenThousandths(47'195));
    for (const Money typed : {Money::whole(2'000), Money::cents(185'010), Money::whole(999),
                              Money::cents(10), Money()}) {
        const Money held = pricePerBoardFoot(typed, UnitSystem::Millimetres);
        EXPECT_EQ(pricePerLumberUnit(held, UnitSystem::Millimetres), typed)
            << formatMoney(typed, "€");
    }
}

RC_GTEST_PROP(LumberTextProperty, FiguresAddUpAsShown, ()) {
    const auto amount = [] {
        return BoardFeet::millionths(*rc::gen::inRange<std::int64_t>(0, 1'000'000'000));
    };
    for (const UnitSystem units : {UnitSystem::Inches, UnitSystem::Millimetres}) {
        const BoardFeet a = amount();
        const BoardFeet b = amount();
        RC_ASSERT(formatLumber(asShown(a, units), units) == formatLumber(a, units));
        const double sum = std::stod(formatLumber(asShown(a, units) + asShown(b, units), units));
        const double parts = std::stod(formatLumber(a, units)) + std::stod(formatLumber(b, units));
        RC_ASSERT(std::abs(sum - parts) < 0.00001);
    }
}

RC_GTEST_PROP(LumberTextProperty, TypedPricesComeBack, ()) {
    const Money typed = Money::cents(10 * *rc::gen::inRange<std::int64_t>(0, 1'000'000));
    const Money held = pricePerBoardFoot(typed, UnitSystem::Millimetres);
    RC_ASSERT(pricePerLumberUnit(held, UnitSystem::Millimetres) == typed);
}

RC_GTEST_PROP(QuantityTextProperty, WhatIsShownReadsBack, ()) {
    const Money money = Money::cents(*rc::gen::inRange<std::int64_t>(-10'000'000, 10'000'000));
    const std::string currency = *rc::gen::element<std::string>("$", "€", "£", "", "EUR ", "kr ");
    RC_ASSERT(parseMoney(formatMoney(money, currency)).value() == money);
    const auto thousandths = *rc::gen::inRange<std::int64_t>(0, 1'000'000);
    const BoardFeet amount = BoardFeet::millionths(thousandths * 1'000);
    RC_ASSERT(parseBoardFeet(formatBoardFeet(amount, 3)).value() == amount);
}

} // namespace
} // namespace stavewright
