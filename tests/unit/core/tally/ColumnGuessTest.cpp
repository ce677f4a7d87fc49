// Which column is what, by headings in any order and unit, and without headings by what stands
// below. The tables are of our own making.

#include "core/tally/ColumnGuess.h"

#include <gtest/gtest.h>

namespace stavewright {
namespace {

ReadHeading heading(const char* text) {
    return readHeading(text).value_or(ReadHeading{TallyField::LeaveOut, TallyUnit::Metres});
}

std::vector<TallyField> fieldsOf(const ColumnMap& map) {
    std::vector<TallyField> fields;
    for (const SourceColumn& column : map.columns) {
        fields.push_back(column.field);
    }
    return fields;
}

using Fields = std::vector<TallyField>;

TEST(Headings, AreKnownInManyWordsWithTheirUnits) {
    EXPECT_EQ(heading("Mark"), (ReadHeading{TallyField::Mark, TallyUnit::None}));
    EXPECT_EQ(heading("BOARD NO."), (ReadHeading{TallyField::Mark, TallyUnit::None}));
    EXPECT_EQ(heading("Length (mm)"), (ReadHeading{TallyField::Length, TallyUnit::Millimetres}));
    EXPECT_EQ(heading("length in ft"), (ReadHeading{TallyField::Length, TallyUnit::Feet}));
    EXPECT_EQ(heading("Width [in]"), (ReadHeading{TallyField::Width, TallyUnit::Inches}));
    EXPECT_EQ(heading("Width 2, cm"), (ReadHeading{TallyField::FarWidth, TallyUnit::Centimetres}));
    EXPECT_EQ(heading("Thickness"), (ReadHeading{TallyField::Rough, TallyUnit::None}));
    EXPECT_EQ(heading("Thin spot (in)"), (ReadHeading{TallyField::Thinnest, TallyUnit::Inches}));
    EXPECT_EQ(heading("Price per bd ft"),
              (ReadHeading{TallyField::Price, TallyUnit::PerBoardFoot}));
    EXPECT_EQ(heading("Price / m\xC2\xB3"),
              (ReadHeading{TallyField::Price, TallyUnit::PerCubicMetre}));
    EXPECT_EQ(heading("Bd ft"), (ReadHeading{TallyField::Billed, TallyUnit::BoardFeet}));
    EXPECT_EQ(heading("Qty"), (ReadHeading{TallyField::Count, TallyUnit::None}));
    EXPECT_FALSE(readHeading("Shed").has_value());
    EXPECT_FALSE(readHeading("").has_value());
}

TEST(Columns, StandInAnyOrderUnderHeadings) {
    const TextTable table = tableOf("Width (mm);Shed;No;Length (m);Quarter\n210;B;7;2,4;8/4\n");
    const ColumnMap map = guessColumns(table, UnitSystem::Inches);
    EXPECT_TRUE(map.hasHeadings);
    EXPECT_EQ(fieldsOf(map), (Fields{TallyField::Width, TallyField::Notes, TallyField::Mark,
                                     TallyField::Length, TallyField::Rough}));
    const std::vector<TallyRow> rows = rowsOf(table, map);
    ASSERT_EQ(rows.size(), 1U);
    EXPECT_EQ(rows[0].at(TallyField::Width), "210 mm");
    EXPECT_EQ(rows[0].at(TallyField::Length), "2,4 m");
    EXPECT_EQ(rows[0].at(TallyField::Rough), "8/4");
    EXPECT_EQ(rows[0].at(TallyField::Notes), "Shed: B"); // nothing that was pasted is lost
}

TEST(Columns, TwoWidthsAreTheTwoEnds) {
    const ColumnMap map = guessColumns(tableOf("Length,Width,Width\n96,8,7\n"), UnitSystem::Inches);
    EXPECT_EQ(fieldsOf(map), (Fields{TallyField::Length, TallyField::Width, TallyField::FarWidth}));
}

TEST(Columns, AreGuessedWithoutHeadings) {
    EXPECT_EQ(fieldsOf(guessColumns(tableOf("1\t8/4\t96 1/2\t8\n2\t4/4\t120\t7 1/4\n"),
                                    UnitSystem::Inches)),
              (Fields{TallyField::Mark, TallyField::Rough, TallyField::Length, TallyField::Width}));
    EXPECT_EQ(
        fieldsOf(guessColumns(tableOf("1\t8/4\t96\t8\t7\t1 15/16\t9.50\n"), UnitSystem::Inches)),
        (Fields{TallyField::Mark, TallyField::Rough, TallyField::Length, TallyField::Width,
                TallyField::FarWidth, TallyField::Thinnest, TallyField::Price}));
    EXPECT_EQ(fieldsOf(guessColumns(tableOf("white oak\t5/4\t96\t8\t$9.50\n"), UnitSystem::Inches)),
              (Fields{TallyField::Species, TallyField::Rough, TallyField::Length, TallyField::Width,
                      TallyField::Price}));
    EXPECT_EQ(fieldsOf(guessColumns(tableOf("7;52;2400;210;195\n8;52;2650;180;185\n"),
                                    UnitSystem::Millimetres)),
              (Fields{TallyField::Mark, TallyField::Rough, TallyField::Length, TallyField::Width,
                      TallyField::FarWidth}));
}

TEST(Rows, ThatStandForSeveralBoardsAreRepeated) {
    const TextTable table = tableOf("Mark,Pcs,Length,Width\nA9,3,96,8\n,2,90,7\n");
    const std::vector<TallyRow> rows = rowsOf(table, guessColumns(table, UnitSystem::Inches));
    ASSERT_EQ(rows.size(), 5U);
    EXPECT_EQ(rows[2].at(TallyField::Mark), "A11");
    EXPECT_EQ(rows[4].at(TallyField::Mark), "");
    EXPECT_EQ(rows[4].at(TallyField::Length), "90");
}

TEST(Rows, TwelveMoreLikeThisCountTheMarkOn) {
    TallyRow row;
    row.at(TallyField::Mark) = "7";
    row.at(TallyField::Length) = "96";
    const std::vector<TallyRow> more = moreLike(row, 12);
    ASSERT_EQ(more.size(), 12U);
    EXPECT_EQ(more.front().at(TallyField::Mark), "8");
    EXPECT_EQ(more.back().at(TallyField::Mark), "19");
    EXPECT_EQ(more.back().at(TallyField::Length), "96");
}

} // namespace
} // namespace stavewright
