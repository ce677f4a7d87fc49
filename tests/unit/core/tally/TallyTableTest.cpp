#include "core/tally/TallyTable.h"

#include <gtest/gtest.h>

#include "core/lumber/BoardShape.h"
#include "core/shop/Presets.h"
#include "core/tally/ColumnGuess.h"
#include "core/tally/TallyBoards.h"

namespace stavewright {
namespace {

constexpr Length in(std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); }

Document emptyJob(UnitSystem units = UnitSystem::Inches) {
    Document document;
    document.info.units = units;
    document.shop = units == UnitSystem::Inches ? inchShop() : metricShop();
    document.nextId = presetRules::last + 1;
    return document;
}

TallyRow row(std::initializer_list<std::pair<TallyField, const char*>> cells) {
    TallyRow made;
    for (const auto& [field, text] : cells) {
        made.at(field) = text;
    }
    return made;
}

using F = TallyField;

TEST(Tally, ReadsARowAsItIsCalledOut) {
    const ReadTally read = readTally(emptyJob(), {row({{F::Mark, "7"},
                                                       {F::Species, "cherry"},
                                                       {F::Rough, "5"},
                                                       {F::Length, "8' 2"},
                                                       {F::Width, "7-1/2"},
                                                       {F::FarWidth, "7 1/4"},
                                                       {F::Thinnest, "1 3/16"},
                                                       {F::Price, "$9.50"},
                                                       {F::Moisture, "7.5 %"},
                                                       {F::Billed, "5"},
                                                       {F::Notes, "wide"}})});
    ASSERT_TRUE(read.rows[0].board.has_value());
    const Board& board = *read.rows[0].board;
    EXPECT_EQ(board.mark, "7");
    EXPECT_EQ(board.species, "black_cherry");
    EXPECT_EQ(board.quarter.quarters, 5);
    EXPECT_EQ(board.outline, outlineOf(PlainOutline{in(98), in(15, 2), in(29, 4), {}}));
    EXPECT_EQ(board.thinnest, in(19, 16));
    EXPECT_EQ(board.pricePerBoardFoot, Money::cents(950));
    EXPECT_EQ(board.moistureTenths, 75);
    EXPECT_EQ(board.billed, BoardFeet::whole(5));
    EXPECT_EQ(board.notes, "wide");
    EXPECT_EQ(read.waiting, 0U);
}

TEST(Tally, EmptyCellsAreAsAboveAndSaySo) {
    const ReadTally read = readTally(emptyJob(), {row({{F::Mark, "9"},
                                                       {F::Species, "cherry"},
                                                       {F::Rough, "8/4"},
                                                       {F::Length, "96"},
                                                       {F::Width, "8"},
                                                       {F::Price, "9"}}),
                                                  row({{F::Length, "90"}, {F::Width, "\""}}),
                                                  row({{F::Length, "ditto"}, {F::Width, "7"}})});
    ASSERT_TRUE(read.rows[1].board && read.rows[2].board);
    EXPECT_EQ(read.rows[1].board->mark, "10");
    EXPECT_EQ(read.rows[1].board->species, "black_cherry");
    EXPECT_EQ(read.rows[1].board->quarter.quarters, 8);
    EXPECT_EQ(read.rows[1].board->pricePerBoardFoot, Money::whole(9));
    EXPECT_EQ(read.rows[1].board->thinnest, in(2));
    EXPECT_EQ(widthOf(*read.rows[1].board), in(8));
    EXPECT_EQ(read.rows[1].at(F::Mark).standsFor, "10");
    EXPECT_EQ(read.rows[1].at(F::Rough).standsFor, "8/4");
    EXPECT_EQ(lengthOf(*read.rows[2].board), in(90));
}

TEST(Tally, ABadCellKeepsItsRowWaitingAndTellsWhy) {
    const std::vector<TallyRow> rows = {
        row({{F::Mark, "1"}, {F::Rough, "7/4"}, {F::Length, "96"}, {F::Width, "8"}}),
        row({{F::Mark, "2"}, {F::Length, "ninety"}, {F::Width, "8"}}),
        row({{F::Mark, "3"}, {F::Length, "96"}}),
        row({}),
        row({{F::Mark, "4"}, {F::Length, "96"}, {F::Width, "8"}}),
        row({{F::Mark, "4"}, {F::Length, "96"}, {F::Width, "8"}}),
        row({{F::Mark, "5"}, {F::Length, "9600"}, {F::Width, "8"}}),
        row({{F::Mark, "6"}, {F::Length, "96"}, {F::Width, "8"}})};
    const ReadTally read = readTally(emptyJob(), rows);
    EXPECT_NE(read.rows[0].at(F::Rough).wrong.find("7/4"), std::string::npos);
    EXPECT_NE(read.rows[1].at(F::Length).wrong.find("ninety"), std::string::npos);
    EXPECT_EQ(read.rows[2].at(F::Width).wrong, "Width: a board needs a width.");
    EXPECT_NE(read.rows[4].at(F::Mark).wrong.find("2 boards"), std::string::npos);
    EXPECT_NE(read.rows[6].at(F::Length).wrong.find("9600"), std::string::npos);
    EXPECT_EQ(read.waiting, 6U);
    EXPECT_EQ(read.sums.boards, 1U);
    EXPECT_TRUE(read.rows[7].board.has_value());
    for (const ReadTallyRow& each : read.rows) { // one sentence each
        for (const ReadTallyCell& cell : each.cells) {
            EXPECT_TRUE(cell.wrong.empty() || cell.wrong.back() == '.') << cell.wrong;
        }
    }
}

TEST(Tally, GoesOnTheRackInOneStepAndBack) {
    Document document = emptyJob();
    std::vector<TallyRow> rows;
    for (int i = 0; i < 30; ++i) {
        rows.push_back(row({{F::Length, "96"}, {F::Width, "8 1/2"}}));
    }
    const Document before = document;
    const Result<Edit> inverse = apply(document, putInJob(document, readTally(document, rows)));
    ASSERT_TRUE(inverse.ok());
    EXPECT_EQ(document.boards.size(), 30U);
    EXPECT_EQ(document.boards.back().mark, "30");
    EXPECT_TRUE(validate(document).ok());
    ASSERT_TRUE(apply(document, inverse.value()).ok());
    EXPECT_EQ(document, before);
}

TEST(Tally, IsSummedByTheRuleAndByTheExactSize) {
    // 6-7/16 in x 10 ft 9 in is 5 ft of surface measure (source: D6 in the tests of lumber
    // measure); as 8/4 it is 10 board feet, its exact size 2 x 6.4375 x 129 / 144 = 11.534.
    const ReadTally read = readTally(
        emptyJob(), {row({{F::Rough, "8/4"}, {F::Length, "10' 9"}, {F::Width, "6 7/16"}})});
    EXPECT_EQ(read.sums.tallied, BoardFeet::whole(10));
    EXPECT_NEAR(read.sums.exact.toDouble(), 11.534, 0.001);
    // A taper is measured a third from the narrow end: 6 and 9 in give 7, x 8 ft / 12 = 4.67.
    const ReadTally taper =
        readTally(emptyJob(), {row({{F::Length, "96"}, {F::Width, "9"}, {F::FarWidth, "6"}})});
    EXPECT_EQ(talliedWidth(*taper.rows[0].board), in(7));
    EXPECT_EQ(taper.sums.tallied, BoardFeet::whole(5));
}

TEST(Tally, MetricJobsReadMillimetresAndCubicMetres) {
    const ReadTally read = readTally(
        emptyJob(UnitSystem::Millimetres),
        {row({{F::Rough, "52"}, {F::Length, "2,4 m"}, {F::Width, "210"}, {F::Price, "1200"}})});
    ASSERT_TRUE(read.rows[0].board.has_value());
    EXPECT_EQ(read.rows[0].board->quarter.quarters, 8);
    EXPECT_EQ(lengthOf(*read.rows[0].board), Length::millimetres(2400));
    EXPECT_EQ(read.rows[0].board->pricePerBoardFoot, Money::tenThousandths(28'317)); // / 423.776
}

TEST(Tally, ComesBackFromItsOwnCsv) {
    for (const UnitSystem units : {UnitSystem::Inches, UnitSystem::Millimetres}) {
        Document document = emptyJob();
        const ReadTally typed =
            readTally(document, {row({{F::Mark, "7"},
                                      {F::Species, "cherry"},
                                      {F::Rough, "8/4"},
                                      {F::Length, "98 3/64"},
                                      {F::Width, "7 1/3"},
                                      {F::FarWidth, "180.3 mm"},
                                      {F::Thinnest, "1 63/64"},
                                      {F::Price, "9.5"},
                                      {F::Moisture, "8.1"},
                                      {F::Notes, "wide, \"clear\""}}),
                                 row({{F::Mark, "A2"}, {F::Length, "2400 mm"}, {F::Width, "8"}})});
        ASSERT_EQ(typed.waiting, 0U);
        ASSERT_TRUE(apply(document, putInJob(document, typed)).ok());
        Document again = emptyJob();
        const TextTable table = tableOf(csvOf(document.boards, units));
        const ReadTally read =
            readTally(again, rowsOf(table, guessColumns(table, again.info.units)));
        ASSERT_EQ(read.waiting, 0U);
        ASSERT_TRUE(apply(again, putInJob(again, read)).ok());
        if (units == UnitSystem::Millimetres) { // a price per cubic metre is shown to the tenth
            for (Board& board : again.boards) {
                EXPECT_NEAR(board.pricePerBoardFoot.toDouble(), 9.5, 0.0002);
                board.pricePerBoardFoot = document.boards[0].pricePerBoardFoot;
            }
        }
        EXPECT_EQ(again, document);
    }
}

TEST(Marks, CountOn) {
    EXPECT_EQ(nextMark("7"), "8");
    EXPECT_EQ(nextMark("A9"), "A10");
    EXPECT_EQ(nextMark("099"), "100");
    EXPECT_EQ(nextMark("99"), "100");
    EXPECT_EQ(nextMark("B"), "B1");
    EXPECT_EQ(nextMark(""), "1");
}

} // namespace
} // namespace stavewright
