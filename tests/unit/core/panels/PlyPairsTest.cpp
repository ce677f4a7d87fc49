#include "core/panels/PlyPairs.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "core/geometry/PolygonOps.h"
#include "core/panels/Fills.h"
#include "tests/unit/core/panels/HandPanel.h"

namespace stavewright::panels {
namespace {

using namespace hand_panel;

/// Of the knots, as the audit counts them where the rules have them filled.
std::vector<Fill> fillsOf(const Document& job) {
    std::vector<Fill> fills;
    for (const Defect& knot : job.boards[0].defects) {
        for (const Strip& strip : job.plan->boards[0].sections[0].strips) {
            const Rect box = boundingBox(knot.onA->outline);
            if (opensUp(knot.kind) && strip.across.from < box.y0 && box.y1 < strip.across.to) {
                Fill fill;
                fill.board = job.boards[0].id;
                fill.blank = strip.blanks[0].id;
                fill.defect = knot.id;
                fill.onFaceA = true;
                fill.onFaceB = knot.through;
                fills.push_back(fill);
            }
        }
    }
    return fills;
}

/// A leg of two plies from one board whose heart lies on face A.
Document leg(Pose first, Pose second) {
    Document job = hand_panel::job();
    job.parts[0].makeUp.panel.reset();
    job.parts[0].makeUp.lamination = LaminationMakeUp{2};
    auto& strips = job.plan->boards[0].sections[0].strips;
    strips.resize(2);
    strips[0].blanks[0].purpose = {topPart, 1, 1, 0};
    strips[0].blanks[0].pose = first;
    strips[1].blanks[0].purpose = {topPart, 1, 2, 0};
    strips[1].blanks[0].pose = second;
    return job;
}

TEST(PlyPairs, CupsOpposeWhenOneIsRolledOver) {
    const Pose asItLies;
    const Pose over{false, true};
    EXPECT_EQ(blocksOf(leg(asItLies, asItLies)).at(0).seams.at(0), PlyMeeting::SameWay);
    // Upper ply heart up, lower heart down: the barks meet at the glue line.
    EXPECT_EQ(blocksOf(leg(asItLies, over)).at(0).seams.at(0), PlyMeeting::BarksMeet);
    EXPECT_EQ(blocksOf(leg(over, asItLies)).at(0).seams.at(0), PlyMeeting::HeartsMeet);
    EXPECT_TRUE(blocksOf(leg(asItLies, over)).at(0).canBookMatch);
    Document unknown = leg(asItLies, over);
    unknown.boards[0].heart = HeartSide::Unknown;
    EXPECT_EQ(blocksOf(unknown).at(0).seams.at(0), PlyMeeting::Unknown);
}

TEST(PlyPairs, ABlockThatLacksAPlyIsNotSpokenOf) {
    Document job = leg({}, {});
    job.plan->boards[0].sections[0].strips.pop_back();
    EXPECT_TRUE(blocksOf(job).empty());
}

/// What is open on a glue face is filled before, on the outside after.
TEST(PlyPairs, FillsComeBeforeOnTheGlueFacesAndAfterOutside) {
    Document job = leg({}, {false, true});
    const auto advice = [&job] {
        std::string all;
        const Block block = blocksOf(job, fillsOf(job)).at(0);
        for (const std::string& line : block.advice) {
            all += line + '\n';
        }
        return all;
    };
    EXPECT_NE(advice().find("No open knot lies on its faces"), std::string::npos) << advice();
    addKnot(job, in(20), in(2)); // in the first ply, through both faces
    const std::string mark = job.boards[0].defects[0].mark;
    EXPECT_NE(advice().find("before gluing, on the glue faces: T1a " + mark + "."),
              std::string::npos)
        << advice();
    EXPECT_NE(advice().find("on the outside: T1a " + mark + "."), std::string::npos) << advice();
    // On face A alone, in the second ply, which lies with its face B up: outside.
    job.boards[0].defects.clear();
    addKnot(job, in(20), in(6));
    job.boards[0].defects[0].through = false;
    EXPECT_EQ(advice().find("before gluing"), std::string::npos) << advice();
    EXPECT_NE(advice().find("on the outside: T1b "), std::string::npos) << advice();
    job.boards[0].defects[0].kind = DefectKind::SoundKnot; // nothing to fill
    EXPECT_NE(advice().find("No open knot"), std::string::npos) << advice();
}

TEST(PlyPairs, APanelSaysWhatIsFilledOnWhichFace) {
    Document job = hand_panel::job();
    EXPECT_EQ(fillSentence(job, only(job), fillsOf(job)), "");
    addKnot(job, in(20), in(6));
    job.boards[0].defects[0].through = false;
    const Panel panel = only(job);
    EXPECT_NE(fillSentence(job, panel, fillsOf(job)).find(panel.staves[1].label + " "),
              std::string::npos);
    EXPECT_NE(fillSentence(job, panel, fillsOf(job)).find("on the show face"), std::string::npos);
    job.plan->boards[0].sections[0].strips[1].blanks[0].pose.faceOver = true;
    EXPECT_NE(fillSentence(job, only(job), fillsOf(job)).find("on the back"), std::string::npos);
    EXPECT_EQ(fillSentence(job, only(job), fillsOf(job)).find("show face"), std::string::npos);
}

/// A knot that the audit does not count lies in wood that is trimmed away.
TEST(PlyPairs, AKnotThatIsTrimmedOffIsFilledNowhere) {
    Document job = hand_panel::job();
    addKnot(job, in(9, 4), in(6));
    EXPECT_EQ(fillSentence(job, only(job), {}), "");
    const Document block = leg({}, {false, true});
    const auto speaksOfKnots = [](const std::vector<Block>& blocks) {
        const std::vector<std::string>& advice = blocks.at(0).advice;
        return std::any_of(advice.begin(), advice.end(), [](const std::string& line) {
            return line.find("No open knot") != std::string::npos;
        });
    };
    EXPECT_TRUE(speaksOfKnots(blocksOf(block, {})));
    EXPECT_FALSE(speaksOfKnots(blocksOf(block))); // where nobody has counted
}

TEST(PlyPairs, AKnotWhoseGrainAloneReachesInIsFilledIfItOpens) {
    Document job = hand_panel::job();
    addKnot(job, in(20), in(6));
    std::vector<Fill> fills = fillsOf(job);
    ASSERT_EQ(fills.size(), 1U);
    fills[0].marginOnly = true;
    const std::string said = fillSentence(job, only(job), fills);
    EXPECT_NE(said.find(job.boards[0].defects[0].mark + " if it opens there"), std::string::npos)
        << said;
}

} // namespace
} // namespace stavewright::panels
