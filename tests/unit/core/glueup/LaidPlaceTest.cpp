#include "core/glueup/LaidPlace.h"

#include <gtest/gtest.h>

#include "core/glueup/Stave.h"

namespace stavewright::glueup {
namespace {

Length mm(std::int64_t value) { return Length::millimetres(value); }

/// Along its board, its origin 10 mm from the near edge.
Frame level(std::int64_t along) {
    Frame frame;
    frame.origin = {mm(along), mm(10)};
    return frame;
}

/// Two staves of 1000 mm laid out 1040 mm long, 100 and 80 mm wide; the second stands aslant on its
/// board. In the picture the joint lies at 101 mm.
LaidOut laidOut(Pose first, BoardFace face = BoardFace::A) {
    LaidOut laid;
    laid.photo.id = PhotoId{7};
    laid.photo.face = face;
    laid.photo.size = {mm(1040), mm(181), mm(181)};
    laid.staves = {
        {BoardId{1}, level(50), {mm(20), mm(0), mm(1020), mm(100)}, first},
        {BoardId{2}, {{mm(0), mm(0)}, mm(4), mm(3)}, {mm(0), mm(200), mm(1000), mm(280)}, {}}};
    laid.joints = {mm(101)};
    return laid;
}

TEST(LaidPlace, LeadsFromTheBoardIntoThePictureInEveryPose) {
    // 300 mm along and 20 mm across the first stave; in the picture it is 101 mm wide, and its 1000
    // mm begin at 20.
    const Point onBoard{mm(50 + 20 + 300), mm(10 + 20)};
    const struct {
        Pose pose;
        double x, y;
    } known[] = {{{false, false}, 320, 20.2},
                 {{true, false}, 720, 80.8},
                 {{false, true}, 320, 80.8},
                 {{true, true}, 720, 20.2}};
    for (const auto& each : known) {
        const LaidPlace place(laidOut(each.pose), 0);
        const Point at = place.toLaid(onBoard);
        EXPECT_NEAR(at.x.toMillimetres(), each.x, 1e-3) << poseIndex(each.pose);
        EXPECT_NEAR(at.y.toMillimetres(), each.y, 1e-3) << poseIndex(each.pose);
        const Point back = place.toBoard(at);
        EXPECT_NEAR(back.x.toMillimetres(), onBoard.x.toMillimetres(), 1e-3);
        EXPECT_NEAR(back.y.toMillimetres(), onBoard.y.toMillimetres(), 1e-3);
    }
}

TEST(LaidPlace, FollowsAFrameThatStandsAslant) {
    const LaidPlace place(laidOut({}), 1);
    // The direction 4 : 3 has a length of 5; across it is -3 : 4. At u = 500, v = 240.
    const Point onBoard{mm(400 - 144), mm(300 + 192)};
    const Point at = place.toLaid(onBoard);
    EXPECT_NEAR(at.x.toMillimetres(), 520, 1e-3);
    EXPECT_NEAR(at.y.toMillimetres(), 141, 1e-3);
}

// The joint stands 6 mm farther from the near edge at the far end than at the near one, with 2 mm
// of floor between: the first stave's far edge is at 100 mm at the middle and rises by 3 mm to the
// end.
TEST(LaidPlace, FollowsAStaveThatLayAskew) {
    LaidOut laid = laidOut({});
    laid.staves.push_back(laid.staves[1]);
    laid.photo.size = {mm(1040), mm(262), mm(262)};
    laid.joints = {mm(101), mm(182)};
    laid.lies = {{mm(6), mm(2)}, {mm(6), mm(0)}};
    // The middle stave: both edges lean by 6 mm, so a mark at its far end stands 6 x 500 / 1040
    // higher than at its middle; it is 80 mm wide and so it lay, 102 to 182.
    const LaidPlace place(laid, 1);
    const auto onBoard = [&](std::int64_t u, std::int64_t v) { // frame 4 : 3, see above
        return Point{Length::micrometres(u * 800 - v * 600),
                     Length::micrometres(u * 600 + v * 800)};
    };
    const Point middle = place.toLaid(onBoard(500, 240));
    EXPECT_NEAR(middle.x.toMillimetres(), 520, 1e-3);
    EXPECT_NEAR(middle.y.toMillimetres(), 142, 1e-3);
    const Point end = place.toLaid(onBoard(1000, 240));
    EXPECT_NEAR(end.y.toMillimetres(), 142 + 6 * 500.0 / 1040, 1e-3);
    const Point back = place.toBoard(end);
    EXPECT_NEAR(back.x.toMillimetres(), onBoard(1000, 240).x.toMillimetres(), 1e-3);
    EXPECT_NEAR(back.y.toMillimetres(), onBoard(1000, 240).y.toMillimetres(), 1e-3);
}

TEST(LaidPlace, EachPhotographShowsOneFaceOfTheWood) {
    const Rect net{mm(20), mm(0), mm(1020), mm(100)};
    const Frame frame = level(50);
    const auto find = [&](const LaidOut& laid, BoardFace face) {
        return laidPlaceOf({laid}, BoardId{1}, face, frame, net);
    };
    EXPECT_TRUE(find(laidOut({}), BoardFace::A));
    EXPECT_FALSE(find(laidOut({}), BoardFace::B));
    EXPECT_FALSE(find(laidOut({false, true}), BoardFace::A));
    EXPECT_TRUE(find(laidOut({false, true}), BoardFace::B));
    EXPECT_TRUE(find(laidOut({false, true}, BoardFace::B), BoardFace::A));
}

TEST(LaidPlace, TheWoodCountsNotItsNumber) {
    const std::vector<LaidOut> laid = {laidOut({})};
    const Frame frame = level(50);
    const auto isFound = [&](BoardId board, const Frame& in, const Rect& net) {
        return laidPlaceOf(laid, board, BoardFace::A, in, net).has_value();
    };
    EXPECT_TRUE(isFound(BoardId{1}, frame, {mm(20), mm(0), mm(1020), mm(100)}));
    // A little narrower, or said in another section's frame: the same wood.
    EXPECT_TRUE(isFound(BoardId{1}, frame, {mm(20), mm(2), mm(1020), mm(98)}));
    EXPECT_TRUE(isFound(BoardId{1}, level(70), {mm(0), mm(0), mm(1000), mm(100)}));
    // Elsewhere on the board, or on another.
    EXPECT_FALSE(isFound(BoardId{1}, frame, {mm(20), mm(20), mm(1020), mm(120)}));
    EXPECT_FALSE(isFound(BoardId{1}, frame, {mm(220), mm(0), mm(1220), mm(100)}));
    EXPECT_FALSE(isFound(BoardId{3}, frame, {mm(20), mm(0), mm(1020), mm(100)}));
}

TEST(LaidPlace, TheLastPhotographCounts) {
    LaidOut later = laidOut({true, false});
    later.panel.instance = 2;
    later.photo.id = PhotoId{9};
    const auto found = laidPlaceOf({later, laidOut({})}, BoardId{1}, BoardFace::A, level(50),
                                   {mm(20), mm(0), mm(1020), mm(100)});
    ASSERT_TRUE(found);
    EXPECT_EQ(found->picture(), BoardId{9});
}

// Lines of the figure at the edges, in the panel.

Stave photographed() {
    Stave stave;
    stave.board = BoardId{1};
    stave.width = mm(80);
    stave.length = mm(1000);
    stave.faceA.photo.nearLines = EdgeLines{120, 90};
    stave.faceA.photo.farLines = EdgeLines{-40, 80};
    stave.faceB.photo.nearLines = EdgeLines{70, 60};
    stave.faceB.photo.farLines = EdgeLines{20, 10};
    return stave;
}

TEST(EdgeLines, ComeToLieAsTheStaveLies) {
    const Stave stave = photographed();
    const auto angle = [&](Pose pose, Side side) {
        const auto lines = linesAt(stave, pose, side);
        return lines ? lines->angleTenths : 9999;
    };
    EXPECT_EQ(angle({false, false}, Side::Near), 120);
    EXPECT_EQ(angle({false, false}, Side::Far), -40);
    // End for end the edges change places, and half a turn changes no line.
    EXPECT_EQ(angle({true, false}, Side::Near), -40);
    EXPECT_EQ(angle({true, false}, Side::Far), 120);
    // Rolled over, face B is seen from its other side; its far edge is too unsure to go by.
    EXPECT_EQ(angle({false, true}, Side::Far), -70);
    EXPECT_EQ(angle({false, true}, Side::Near), 9999);
    EXPECT_EQ(angle({true, true}, Side::Near), -70);
}

} // namespace
} // namespace stavewright::glueup
