#include "core/rack/Rack.h"

#include <gmock/gmock.h>

#include "tests/unit/core/rack/RackWood.h"

namespace stavewright::rack {
namespace {

using namespace rack_wood;
using stavewright::testing::TemporaryFolder;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

Length in(std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); }

TEST(RackTest, WhatIsPutThereComesBackAsItWas) {
    const TemporaryFolder folder;
    Board board = sample::makeThinBoard();
    board.notes = "a line, and “another”";
    board.ringRadius = in(4);
    std::string name;
    {
        Rack rack = opened(folder);
        name = rack.name();
        ASSERT_TRUE(rack.change({PutNew{board}}, {"Hall table", aDay}));
    }
    Rack rack = opened(folder); // another program, another day
    EXPECT_EQ(rack.name(), name);
    EXPECT_EQ(name.size(), 32U);
    const Result<Piece> piece = rack.piece(1);
    ASSERT_TRUE(piece) << describe(piece.error());
    EXPECT_EQ(piece.value().board, asKept(board)); // with ids of its own
    EXPECT_EQ(piece.value().state, PieceState::OnRack);
    EXPECT_EQ(piece.value().putIn, aDay);
    EXPECT_EQ(piece.value().sourceJob, "Hall table");
    EXPECT_TRUE(rack.check());
}

TEST(RackTest, SearchGoesBySpeciesThicknessSizeAndWords) {
    const TemporaryFolder folder;
    Rack rack = opened(folder);
    Board noted = board("7", in(60), in(6));
    noted.notes = "curly, 100% figure";
    ASSERT_TRUE(rack.change({PutNew{board("1", in(96), in(8))}, PutNew{board("2", in(40), in(10))},
                             PutNew{board("3", in(96), in(5), "black_cherry")},
                             PutNew{board("4", in(96), in(9), "white_oak", 8)}, PutNew{noted}},
                            {"Stock of winter", aDay}));
    EXPECT_THAT(numbers(rack), ElementsAre(3, 1, 5, 2, 4)); // species, thickness, longest first
    EXPECT_THAT(numbers(rack, {.species = "black_cherry"}), ElementsAre(3));
    EXPECT_THAT(numbers(rack, {.quarter = Quarter{8}}), ElementsAre(4));
    EXPECT_THAT(numbers(rack, {.leastLength = in(60)}), ElementsAre(3, 1, 5, 4));
    EXPECT_THAT(numbers(rack, {.species = "white_oak", .leastWidth = in(8)}), ElementsAre(1, 2, 4));
    EXPECT_THAT(numbers(rack, {.leastLength = in(96), .leastWidth = in(9)}), ElementsAre(4));
    EXPECT_THAT(numbers(rack, {.text = "CURLY"}), ElementsAre(5));
    EXPECT_THAT(numbers(rack, {.text = "100% figure"}), ElementsAre(5)); // no wildcard
    EXPECT_THAT(numbers(rack, {.text = "white oak winter"}), ElementsAre(1, 5, 2, 4));
    EXPECT_THAT(numbers(rack, {.text = "_"}), ElementsAre());
    EXPECT_THAT(numbers(rack, {.text = "'; DROP TABLE piece; --"}), ElementsAre());
}

TEST(RackTest, ATaperedBoardIsFoundByTheStripThatLiesInIt) {
    // 96 long, 4 wide at the datum end and 10 at the far end: half its length is at least 7 wide.
    const Polygon tapered = {{in(0), in(0)}, {in(96), in(0)}, {in(96), in(10)}, {in(0), in(4)}};
    EXPECT_TRUE(holdsRectangle(tapered, in(48), in(7)));
    EXPECT_FALSE(holdsRectangle(tapered, in(48), in(29, 4)));
    EXPECT_TRUE(holdsRectangle(tapered, in(96), in(4)));
    EXPECT_FALSE(holdsRectangle(tapered, in(97), in(1)));
    EXPECT_TRUE(holdsRectangle(tapered, {}, in(10)));
}

TEST(RackTest, ABoardInOneJobIsRefusedToAnother) {
    const TemporaryFolder folder;
    Rack rack = opened(folder);
    ASSERT_TRUE(rack.change({PutNew{board("7", in(60), in(6))}, PutNew{board("8", in(60), in(6))}},
                            {"Stock", aDay}));
    const Result<RackChange> first = rack.change({Take{1}}, {"Hall table", aDay + 86'400});
    ASSERT_TRUE(first);
    EXPECT_THAT(numbers(rack), ElementsAre(2));
    // By another program that has the same rack open; nothing of the whole change is made.
    Rack other = opened(folder);
    const Result<RackChange> second = other.change({Take{2}, Take{1}}, {"Linen chest", aDay});
    ASSERT_FALSE(second);
    EXPECT_EQ(second.error().message,
              "Board 7 (no. 1) has been in the job “Hall table” since 2026-02-26; it must come "
              "back from there before another job has it.");
    EXPECT_EQ(other.piece(2).value().state, PieceState::OnRack);
    // Back, and out again.
    Board known = rack.piece(1).value().board;
    known.notes = "cupped since";
    ASSERT_TRUE(rack.change({PutBack{1, first.value().number, known}}, {"Hall table", aDay}));
    EXPECT_EQ(rack.piece(1).value().board.notes, "cupped since");
    EXPECT_TRUE(other.change({Take{1}}, {"Linen chest", aDay}));
    // The first job has no claim to it any more.
    const Result<RackChange> late =
        rack.change({PutBack{1, first.value().number, known}}, {"Hall table", aDay});
    ASSERT_FALSE(late);
    EXPECT_THAT(late.error().message, HasSubstr("no longer lent to this job"));
    EXPECT_THAT(late.error().message, HasSubstr("“Linen chest”"));
}

TEST(RackTest, WhatALostJobHadCanBeCalledBack) {
    const TemporaryFolder folder;
    Rack rack = opened(folder);
    ASSERT_TRUE(rack.change({PutNew{board("7", in(60), in(6))}}, {"Stock", aDay}));
    EXPECT_FALSE(rack.change({Release{1}}, {"", aDay})); // it is on the rack
    ASSERT_TRUE(rack.change({Take{1}}, {"Never saved", aDay}));
    EXPECT_FALSE(rack.change({ThrowOut{1}}, {"", aDay}));
    ASSERT_TRUE(rack.change({Release{1}}, {"", aDay}));
    ASSERT_TRUE(rack.change({ThrowOut{1}}, {"", aDay}));
    EXPECT_THAT(numbers(rack), ElementsAre());
    EXPECT_THAT(numbers(rack, {.alsoAway = true}), ElementsAre(1));
    EXPECT_FALSE(rack.change({Take{1}}, {"Hall table", aDay}));
    const auto gone = rack.change({Take{99}}, {"Hall table", aDay});
    ASSERT_FALSE(gone);
    EXPECT_EQ(gone.error().message, "There is no piece no. 99 on the shop rack.");
}

TEST(RackTest, EveryChangeIsTakenBackAndMadeAgain) {
    const TemporaryFolder folder;
    Rack rack = opened(folder);
    const Visit visit{"Hall table", aDay};
    const auto state = [&] { return rack.find({.alsoAway = true}).value(); };
    const auto same = [](const std::vector<Piece>& a, const std::vector<Piece>& b) {
        return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                          [](const Piece& x, const Piece& y) {
                              return x.number == y.number && x.state == y.state &&
                                     x.board == y.board && x.job == y.job && x.since == y.since &&
                                     x.loan == y.loan && x.parent == y.parent;
                          });
    };
    std::vector<std::vector<Piece>> states = {state()};
    std::vector<std::int64_t> changes;
    const auto make = [&](const std::vector<Move>& moves) {
        const Result<RackChange> made = rack.change(moves, visit);
        ASSERT_TRUE(made) << describe(made.error());
        changes.push_back(made.value().number);
        states.push_back(state());
    };
    make({PutNew{board("7", in(60), in(6))}, PutNew{board("8", in(60), in(6))}});
    make({Take{1}});
    PutNew offcut{board("7-1", in(20), in(6)), PieceKind::Offcut};
    offcut.parentMove = 0;
    make({UseUp{1, changes.back(), board("7", in(60), in(6))}, offcut});
    make({ThrowOut{2}});
    ASSERT_FALSE(HasFatalFailure());
    EXPECT_EQ(rack.piece(3).value().parent, 1);
    for (std::size_t i = changes.size(); i-- > 0;) {
        ASSERT_TRUE(rack.takeBack(changes[i]));
        EXPECT_TRUE(same(state(), states[i])) << i;
        EXPECT_FALSE(rack.takeBack(changes[i])); // once
    }
    for (std::size_t i = 0; i < changes.size(); ++i) {
        ASSERT_TRUE(rack.makeAgain(changes[i]));
        EXPECT_TRUE(same(state(), states[i + 1])) << i;
    }
    EXPECT_TRUE(rack.check());
}

TEST(RackTest, AChangeThatIsNoLongerTheLastStays) {
    const TemporaryFolder folder;
    Rack rack = opened(folder);
    ASSERT_TRUE(rack.change({PutNew{board("7", in(60), in(6))}}, {"Stock", aDay}));
    const std::int64_t taken = rack.change({Take{1}}, {"Hall table", aDay}).value().number;
    ASSERT_TRUE(rack.takeBack(taken));
    ASSERT_TRUE(rack.change({Take{1}}, {"Linen chest", aDay}));
    const Status again = rack.makeAgain(taken); // would put it into two jobs
    ASSERT_FALSE(again);
    EXPECT_THAT(again.error().message, HasSubstr("“Linen chest”"));
    EXPECT_EQ(rack.piece(1).value().job, "Linen chest");
}

TEST(RackTest, PhotographsGoAndComeWithTheirBoard) {
    const TemporaryFolder folder;
    Rack rack = opened(folder);
    Board pictured = board("7", in(60), in(6));
    BoardPhoto photo;
    photo.id = PhotoId{5};
    photo.name = "end.jpg";
    photo.file = PhotoFile::of(std::string("bytes with \0 in them", 20));
    photo.controls.width = 40;
    photo.controls.height = 30;
    photo.size = measuredSize(pictured);
    pictured.photos = {photo};
    ASSERT_TRUE(rack.change({PutNew{pictured}}, {"Stock", aDay}));
    const Piece piece = rack.piece(1).value();
    ASSERT_EQ(piece.board.photos.size(), 1U);
    const auto bytes = piece.board.photos[0].file.read();
    ASSERT_TRUE(bytes);
    EXPECT_EQ(*bytes.value(), std::string("bytes with \0 in them", 20));
    // One that cannot be read keeps the board off the rack.
    pictured.photos[0].file = PhotoFile::named(std::string(64, 'a'));
    const auto refused = rack.change({PutNew{pictured}}, {"Stock", aDay});
    ASSERT_FALSE(refused);
    EXPECT_THAT(refused.error().message, HasSubstr("“end.jpg”"));
    EXPECT_THAT(numbers(rack), ElementsAre(1));
}

TEST(RackTest, ABoardThatNoJobCouldHoldIsRefused) {
    const TemporaryFolder folder;
    Rack rack = opened(folder);
    Board wrong = board("7", in(60), in(6));
    wrong.species = "unobtainium";
    EXPECT_FALSE(rack.change({PutNew{wrong}}, {"Stock", aDay}));
    EXPECT_THAT(numbers(rack, {.alsoAway = true}), ElementsAre());
}

TEST(RackTest, DaysAreSaidInUtc) {
    EXPECT_EQ(dayText(0), "1970-01-01");
    EXPECT_EQ(dayText(aDay), "2026-02-25");
    EXPECT_EQ(dayText(951'782'400), "2000-02-29");
}

} // namespace
} // namespace stavewright::rack
