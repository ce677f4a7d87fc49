#include "core/rack/Schema.h"

#include <gmock/gmock.h>
#include <sqlite3.h>

#include "core/job/BoardText.h"
#include "tests/unit/core/rack/RackWood.h"

namespace stavewright::rack {
namespace {

using namespace rack_wood;
using stavewright::testing::TemporaryFolder;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

/// Runs SQL on a file without our code.
void tamper(const std::string& path, const std::string& sql) {
    sqlite3* handle = nullptr;
    ASSERT_EQ(sqlite3_open(path.c_str(), &handle), SQLITE_OK);
    EXPECT_EQ(sqlite3_exec(handle, sql.c_str(), nullptr, nullptr, nullptr), SQLITE_OK);
    sqlite3_close(handle);
}

std::string refusalOf(const std::string& path) {
    const Result<Rack> rack = Rack::open(path);
    return rack ? "opened" : rack.error().message;
}

TEST(SchemaTest, ARackOfTheFirstVersionKeepsWhatItHas) {
    const TemporaryFolder folder;
    const std::string path = folder.file("shop.staverack");
    const Board kept = asKept(board("7", Length::inches(60), Length::inches(6)));
    {
        Result<Database> database = Database::open(path);
        ASSERT_TRUE(database);
        ASSERT_TRUE(bringUpTo(database.value(), 1));
        Query(
            database.value(),
            "INSERT INTO piece (kind, state, mark, species, quarter, length, width, price, put_in, "
            "source_board, source_job, job, since, loan, words, board) VALUES ('board', 'on rack', "
            "'7', 'white_oak', 4, 1524000000, 152400000, 0, 1, '', 'Stock', '', 1, 0, '7', ?)")
            .with(boardToJson(kept))
            .run();
        ASSERT_TRUE(database.value().ok());
    }
    Rack rack = opened(folder);
    EXPECT_THAT(numbers(rack), ElementsAre(1));
    EXPECT_EQ(rack.piece(1).value().board.outline, kept.outline);
    const Result<RackChange> taken = rack.change({Take{1}}, {"Hall table", aDay});
    ASSERT_TRUE(taken); // and it has a journal now
    EXPECT_TRUE(rack.takeBack(taken.value().number));
    EXPECT_TRUE(rack.check());
}

TEST(SchemaTest, ANewerRackIsDeclinedAndLeftAsItIs) {
    const TemporaryFolder folder;
    const std::string path = folder.file("shop.staverack");
    { const Rack made = opened(folder); }
    tamper(path, "PRAGMA user_version = 99");
    const std::string before = stavewright::testing::contentOf(path);
    EXPECT_THAT(refusalOf(path), HasSubstr("newer Stavewright, in version 99"));
    EXPECT_EQ(stavewright::testing::contentOf(path), before);
}

TEST(SchemaTest, FilesOfOthersAreLeftAlone) {
    const TemporaryFolder folder;
    const std::string database = folder.file("others.db");
    tamper(database, "CREATE TABLE song (title TEXT)");
    EXPECT_THAT(refusalOf(database), HasSubstr("belongs to another program"));
    const std::string text = folder.file("letter.txt");
    stavewright::testing::writeTo(text, std::string(5000, 'x'));
    EXPECT_THAT(refusalOf(text), HasSubstr("is no shop rack"));
    EXPECT_EQ(stavewright::testing::contentOf(text), std::string(5000, 'x'));
    EXPECT_THAT(refusalOf(folder.file("")), HasSubstr("cannot be opened")); // the folder itself
}

TEST(SchemaTest, ADamagedRowIsNamed) {
    const TemporaryFolder folder;
    {
        Rack rack = opened(folder);
        ASSERT_TRUE(rack.change({PutNew{board("7", Length::inches(60), Length::inches(6))}},
                                {"Stock", aDay}));
    }
    tamper(folder.file("shop.staverack"), "UPDATE piece SET board = '{\"mark\": 7}'");
    Rack rack = opened(folder);
    const Result<Piece> piece = rack.piece(1);
    ASSERT_FALSE(piece);
    EXPECT_THAT(piece.error().message, HasSubstr("Piece no. 1 on the shop rack cannot be read"));
}

} // namespace
} // namespace stavewright::rack
