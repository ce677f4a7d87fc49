#include "core/panels/PlyPairs.h"

#include <gtest/gtest.h>

#include "tests/unit/core/panels/HandPanel.h"

namespace stavewright::panels {
namespace {

using namespace hand_panel;

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

} // namespace
} // namespace stavewright::panels
