#include "core/tally/TextTable.h"

#include <gtest/gtest.h>

namespace stavewright {
namespace {

using Rows = std::vector<std::vector<std::string>>;

TEST(TextTable, FindsWhatPartsTheCells) {
    EXPECT_EQ(tableOf("7\t8/4\t96").rows, (Rows{{"7", "8/4", "96"}}));
    EXPECT_EQ(tableOf("7;96,5;8").rows, (Rows{{"7", "96,5", "8"}}));
    EXPECT_EQ(tableOf("7,96.5,8\n8,90,7\n").rows, (Rows{{"7", "96.5", "8"}, {"8", "90", "7"}}));
    EXPECT_EQ(tableOf("7\t96,5; rough").rows, (Rows{{"7", "96,5; rough"}}));
    EXPECT_EQ(tableOf("\"a;b\",c").rows, (Rows{{"a;b", "c"}}));
}

TEST(TextTable, TakesAnyLineEndingAndDropsEmptyRowsAtTheEnd) {
    EXPECT_EQ(tableOf("\xEF\xBB\xBF"
                      "a,b\r\nc,d\re,f\n\n\r\n")
                  .rows,
              (Rows{{"a", "b"}, {"c", "d"}, {"e", "f"}}));
    EXPECT_EQ(tableOf("a,b\n\nc,d").rows, (Rows{{"a", "b"}, {""}, {"c", "d"}}));
    EXPECT_TRUE(tableOf("").rows.empty());
    EXPECT_TRUE(tableOf("\n\n").rows.empty());
}

TEST(TextTable, QuotesHoldSeparatorsLinesAndQuotes) {
    EXPECT_EQ(tableOf("\"wide, clear\",\"two\nlines\",\"a \"\"good\"\" one\"").rows,
              (Rows{{"wide, clear", "two\nlines", "a \"good\" one"}}));
}

TEST(TextTable, InchMarksAreNoQuotes) {
    EXPECT_EQ(tableOf("7\t27 1/2\"\t8\"").rows, (Rows{{"7", "27 1/2\"", "8\""}}));
    EXPECT_EQ(tableOf("7,27 1/2\",8").rows, (Rows{{"7", "27 1/2\"", "8"}}));
    EXPECT_EQ(tableOf("\"\t96").rows, (Rows{{"\"", "96"}})); // a ditto
}

TEST(TextTable, WritesWhatItReads) {
    const Rows rows = {
        {"7", "wide, clear", "27 1/2\""}, {"a\"b", " x ", "two\nlines"}, {"", "", "z"}};
    EXPECT_EQ(tableOf(textOf(rows, ',')).rows,
              (Rows{{"7", "wide, clear", "27 1/2\""}, {"a\"b", "x", "two\nlines"}, {"", "", "z"}}));
}

} // namespace
} // namespace stavewright
