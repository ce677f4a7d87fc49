#include "core/panels/LaidEdits.h"

#include <gtest/gtest.h>

#include "core/glueup/LaidPlace.h"
#include "core/job/JobFile.h"
#include "core/panels/PanelEdits.h"
#include "tests/unit/core/panels/HandPanel.h"

namespace stavewright::panels {
namespace {

using namespace hand_panel;

BoardPhoto picture(const Panel& panel, BoardFace face = BoardFace::A) {
    BoardPhoto photo;
    photo.face = face;
    photo.name = "bench.jpg";
    photo.file = PhotoFile::of(face == BoardFace::A ? "front" : "back");
    photo.size = laidSize(panel);
    photo.controls.width = 4000;
    photo.controls.height = 3000;
    return photo;
}

std::size_t shownIn(const Document& job, const Panel& panel, BoardFace face) {
    std::size_t count = 0;
    for (const PanelStave& stave : panel.staves) {
        count += glueup::laidPlaceOf(job.glueUp.laidOut, stave.board, face, stave.frame, stave.net)
                     ? 1
                     : 0;
    }
    return count;
}

TEST(LaidEdits, JointsStandWhereTheWidthsPutThem) {
    const Document job = hand_panel::job();
    const Panel panel = only(job);
    LaidOut laid = laidAsItStands(panel, picture(panel));
    const Length width = panel.staves[0].net.width();
    EXPECT_EQ(laid.photo.size.widthAtDatum, width * 4);
    EXPECT_EQ(laid.joints, (std::vector<Length>{width, width * 2, width * 3}));
    // Gaps between the staves widen the whole; a joint that was moved keeps its share.
    laid.joints[0] += in(1, 8);
    const LaidOut wider = measuredAs(laid, panel.roughLength, width * 8);
    EXPECT_EQ(wider.joints, (std::vector<Length>{width * 2 + in(1, 4), width * 4, width * 6}));
    EXPECT_EQ(predictedJoints(wider), (std::vector<Length>{width * 2, width * 4, width * 6}));
    const Stretch room = roomOfJoint(laid, 1);
    EXPECT_EQ(room.from, laid.joints[0] + Length::millimetres(5));
    EXPECT_EQ(room.to, laid.joints[2] - Length::millimetres(5));
}

TEST(LaidEdits, AddedReplacedRemovedAndTakenBack) {
    const Document before = hand_panel::job();
    Document job = before;
    const Panel panel = only(job);
    const auto add = [&](BoardFace face) {
        return apply(job, withLaidOut(job, laidAsItStands(panel, picture(panel, face))));
    };
    Result<Edit> first = add(BoardFace::A);
    ASSERT_TRUE(first);
    EXPECT_TRUE(validate(job));
    EXPECT_TRUE(job.glueUp.laidOut[0].photo.id.isSet());
    EXPECT_LT(job.glueUp.laidOut[0].photo.id.value, job.nextId);
    Result<Edit> second = add(BoardFace::B);
    ASSERT_TRUE(second);
    EXPECT_NE(job.glueUp.laidOut[0].photo.id, job.glueUp.laidOut[1].photo.id);
    Result<Edit> again = add(BoardFace::A); // in place of the first
    ASSERT_TRUE(again);
    EXPECT_EQ(job.glueUp.laidOut.size(), 2U);
    EXPECT_TRUE(validate(job));
    Result<Edit> removed = apply(job, withoutLaidOut(job, panel.name, BoardFace::B));
    ASSERT_TRUE(removed);
    EXPECT_EQ(job.glueUp.laidOut.size(), 1U);
    for (const Result<Edit>* back : {&removed, &again, &second, &first}) {
        ASSERT_TRUE(apply(job, back->value()));
    }
    EXPECT_EQ(job, before);
}

TEST(LaidEdits, StandsInTheJobFile) {
    Document job = hand_panel::job();
    const Panel panel = only(job);
    ASSERT_TRUE(apply(job, withLaidOut(job, laidAsItStands(panel, picture(panel)))));
    const std::string text = toJson(job);
    const Result<Document> read = fromJson(text);
    ASSERT_TRUE(read) << describe(read.error());
    EXPECT_EQ(read.value(), job);
    EXPECT_EQ(toJson(read.value()), text);
    const auto refused = [&](auto&& spoil) {
        Document bad = job;
        spoil(bad.glueUp.laidOut);
        const Status status = validate(bad);
        return status ? std::string() : describe(status.error());
    };
    EXPECT_NE(refused([](auto& laid) { laid[0].joints.pop_back(); }).find("one fewer joints"),
              std::string::npos);
    EXPECT_NE(refused([](auto& laid) { laid[0].joints[1] = laid[0].joints[0]; }).find("joint"),
              std::string::npos);
    EXPECT_NE(refused([](auto& laid) { laid.push_back(laid[0]); }).find("given twice"),
              std::string::npos);
    EXPECT_NE(refused([](auto& laid) {
                  laid.push_back(laid[0]);
                  laid[1].photo.id.value = 1'000'000;
              }).find("id"),
              std::string::npos);
    EXPECT_NE(refused([](auto& laid) { laid[0].photo.controls.width = 0; }).find("pixels"),
              std::string::npos);
}

TEST(LaidEdits, TurningAndSwappingKeepsThePictureOfTheWood) {
    Document job = hand_panel::job();
    ASSERT_TRUE(apply(job, withLaidOut(job, laidAsItStands(only(job), picture(only(job))))));
    EXPECT_EQ(shownIn(job, only(job), BoardFace::A), 4U);
    EXPECT_EQ(shownIn(job, only(job), BoardFace::B), 0U);
    ASSERT_TRUE(apply(job, swapped(job, only(job), 0, 2).value()));
    ASSERT_TRUE(apply(job, turned(job, only(job), 0, Turn::FaceOver).value()));
    EXPECT_EQ(shownIn(job, only(job), BoardFace::A), 4U); // still of face A
    EXPECT_TRUE(only(job).moved.empty());
}

TEST(LaidEdits, AnotherPlanDropsWhatIsOtherWoodWithASentence) {
    Document job = hand_panel::job();
    ASSERT_TRUE(apply(job, withLaidOut(job, laidAsItStands(only(job), picture(only(job))))));
    // The same blanks under other numbers: the wood is the same.
    Document numbered = job;
    auto& strips = numbered.plan->boards[0].sections[0].strips;
    std::swap(strips[0].blanks[0].purpose, strips[3].blanks[0].purpose);
    EXPECT_EQ(shownIn(numbered, only(numbered), BoardFace::A), 4U);
    EXPECT_TRUE(only(numbered).moved.empty());
    // The second stave is cut half a board farther along.
    strips = job.plan->boards[0].sections[0].strips;
    strips[1].blanks[0].rect.x0 += in(20);
    strips[1].blanks[0].rect.x1 += in(20);
    EXPECT_EQ(shownIn(numbered, only(numbered), BoardFace::A), 3U);
    ASSERT_EQ(only(numbered).moved.size(), 1U);
    EXPECT_EQ(only(numbered).moved[0],
              "The photograph of the staves laid out (show face) does not show the wood of T1-2 "
              "that the plan has now; it is shown as its board is.");
}

TEST(LaidEdits, AStaveThatIsExchangedTakesItsPictureAlong) {
    Document job = hand_panel::twoTops();
    std::vector<Panel> panels = panelsOf(job).value();
    for (const Panel& panel : panels) {
        ASSERT_TRUE(apply(job, withLaidOut(job, laidAsItStands(panel, picture(panel)))));
    }
    ASSERT_TRUE(apply(job, exchanged(job, panels[0], 0, panels[1], 1).value()));
    panels = panelsOf(job).value();
    for (const Panel& panel : panels) {
        EXPECT_EQ(shownIn(job, panel, BoardFace::A), panel.staves.size());
        EXPECT_TRUE(panel.moved.empty()) << panel.moved[0];
    }
}

TEST(LaidEdits, TurnedRoundJointsThatWerePlacedStayOnTheirPixels) {
    const Panel panel = only(hand_panel::job());
    const LaidOut laid = laidAsItStands(panel, picture(panel));
    EXPECT_EQ(seenFromOtherSide(laid, {}).joints, laid.joints); // where the widths put them
    const Length width = laid.photo.size.widthAtDatum;
    const LaidOut placed = withJoint(laid, 0, laid.joints[0] + in(1, 4), {in(1, 8), in(1, 16)});
    const LaidOut turned = seenFromOtherSide(placed, {});
    EXPECT_EQ(turned.joints[2], width - placed.joints[0]);
    EXPECT_EQ(turned.lieOf(2), placed.lieOf(0));
    EXPECT_EQ(turned.lieOf(0), JointLie{});
    EXPECT_EQ(seenFromOtherSide(turned, placed.photo.controls), placed);
}

} // namespace
} // namespace stavewright::panels
