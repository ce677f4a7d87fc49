#include "core/panels/Panels.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "core/document/Edit.h"
#include "core/panels/PanelChecks.h"
#include "core/panels/PanelEdits.h"
#include "tests/unit/core/panels/HandPanel.h"

namespace stavewright::panels {
namespace {

using namespace hand_panel;
using glueup::Placed;

TEST(Panels, StavesComeWithTheirSizesAndWood) {
    const Document job = hand_panel::job();
    const Panel panel = only(job);
    EXPECT_EQ(panel.label, "T1");
    ASSERT_EQ(panel.staves.size(), 4U);
    EXPECT_EQ(panel.length, in(40));
    const Length net = in(7, 2) - (in(7, 2) - panel.staves[0].net.width());
    EXPECT_EQ(panel.width, net * 4);
    EXPECT_EQ(panel.staves[2].label, "T1-3");
    EXPECT_EQ(panel.staves[0].net.x0, in(1)); // 42 in rough, 40 in finished, in the middle
    EXPECT_EQ(panel.staves[0].at, in(3));
    const glueup::Stave& stave = panel.problem.staves[1];
    EXPECT_EQ(stave.movement, (glueup::Movement{1580, 3690, -20}));
    EXPECT_EQ(stave.rings.heart, HeartSide::FaceA);
    EXPECT_EQ(stave.nearEdge, glueup::Figure::Arched);
    EXPECT_EQ(panel.order, asTheyCome(panel));
}

TEST(Panels, RingsOfABoardCountBeforeTheUsualOnes) {
    Document job = hand_panel::job();
    job.glueUp.settings.ringRadius = in(40);
    const glueup::Stave usual = only(job).problem.staves[0];
    EXPECT_EQ(usual.rings.radius, in(40));
    // Half the radius, twice the curvature (Movement.h: over a narrow stave 1 / radius).
    job.boards[0].ringRadius = in(20);
    const glueup::Stave tight = only(job).problem.staves[0];
    EXPECT_EQ(tight.rings.radius, in(20));
    const double cup = forecastCup(usual.width, usual.rings, usual.movement).toInches();
    const double tightCup = forecastCup(tight.width, tight.rings, tight.movement).toInches();
    EXPECT_NE(cup, 0);
    EXPECT_NEAR(tightCup / cup, 2, 0.02);
}

TEST(Panels, KnotsStandWhereTheyLieInTheStave) {
    Document job = hand_panel::job();
    addKnot(job, in(13), in(4) + in(7, 4)); // the middle of stave 2's width, 10 in from its end
    const Panel panel = only(job);
    const auto& knots = panel.problem.staves[1].faceA.knots;
    ASSERT_EQ(knots.size(), 1U);
    const Rect& knot = knots[0].knot;
    EXPECT_NEAR(((knot.x0 + knot.x1) / 2).toInches(), 10, 0.001);
    EXPECT_NEAR((knot.y0 + knot.y1).toInches(), panel.problem.staves[1].width.toInches(), 0.001);
    EXPECT_LT(knots[0].halo.x0, knot.x0);
    EXPECT_TRUE(panel.problem.staves[0].faceA.knots.empty());
}

TEST(Panels, RulesForbidPoses) {
    Document job = hand_panel::job();
    // A knot on face A alone; it may not show, below it may.
    addKnot(job, in(13), in(4) + in(7, 4));
    job.boards[0].defects[0].through = false;
    job.boards[0].defects[0].depth = in(1, 4);
    const Panel panel = only(job);
    EXPECT_EQ(panel.problem.staves[1].forbidden, (std::array{true, true, false, false}));
    const Result<Edit> shown = turned(job, panel, 1, Turn::EndForEnd);
    ASSERT_FALSE(shown);
    EXPECT_NE(shown.error().message.find("T1-2"), std::string::npos);
    EXPECT_TRUE(turned(job, panel, 1, Turn::FaceOver));
}

TEST(Panels, ThePanelSaysWhatThePlanMoved) {
    Document job = hand_panel::job();
    ASSERT_TRUE(apply(job, swapped(job, only(job), 0, 3).value()));
    EXPECT_TRUE(only(job).moved.empty());
    Section& section = job.plan->boards[0].sections[0];
    section.frame.origin.x += in(1);
    section.strips[1].blanks[0].rect.y1 -= in(1, 2);
    section.strips[2].blanks[0].pose.endForEnd = true;
    section.strips[3].blanks.clear();
    const std::vector<std::string> moved = only(job).moved;
    const auto said = [&](const std::string& words) {
        return std::any_of(moved.begin(), moved.end(), [&](const std::string& line) {
            return line.find(words) != std::string::npos;
        });
    };
    EXPECT_TRUE(said("T1-4 is no longer in the plan."));
    EXPECT_TRUE(said("T1-1 now begins at 3\" on board 1."));
    EXPECT_TRUE(said("T1-2 is now"));
    EXPECT_TRUE(said("T1-3 was turned in the layout."));
    // Once the maker has looked at it and says that it stands well, nothing is told any more.
    EXPECT_FALSE(standsAsArranged(only(job)));
    const Panel panel = only(job);
    const Result<Edit> kept = apply(job, arranged(job, panel, panel.order).value());
    ASSERT_TRUE(kept);
    EXPECT_TRUE(only(job).moved.empty());
    EXPECT_TRUE(standsAsArranged(only(job)));
    EXPECT_EQ(only(job).order, panel.order);
    ASSERT_TRUE(apply(job, kept.value()));
    EXPECT_EQ(only(job).moved, moved);
}

TEST(Panels, AForecastWithoutTheHeartSideIsNotSaidToBeFlat) {
    Document job = hand_panel::job();
    job.boards[0].heart = HeartSide::Unknown;
    EXPECT_EQ(cupText(only(job), job.info), "");
    EXPECT_NE(cupUnknownOf(only(job)).find("heart side"), std::string::npos);
    job.boards[0].heart = HeartSide::FaceB;
    EXPECT_NE(cupText(only(job), job.info), "");
    EXPECT_EQ(cupUnknownOf(only(job)), "");
}

TEST(Panels, AKnotOnAGlueLineIsRefused) {
    Document job = hand_panel::job();
    addKnot(job, in(13), in(7, 2)); // the far edge of stave 1, glued to stave 2
    const std::vector<PanelFinding> findings = checkPanel(job, only(job));
    ASSERT_FALSE(findings.empty());
    EXPECT_EQ(findings[0].kind, PanelFinding::Kind::JointOnKnot);
    EXPECT_TRUE(findings[0].isRefusal);
    EXPECT_EQ(findings[0].places, std::vector<std::size_t>{0});
}

TEST(Panels, AStrengthJointOnAKnotIsRefused) {
    Document job = hand_panel::job();
    addKnot(job, in(13), in(4) + in(7, 4));
    Joint joint;
    joint.id = JointId{70};
    joint.name = "apron to top";
    joint.rules = presetRules::joint;
    JointSide side;
    side.part = topPart;
    side.area.along.from = {Anchored::From::Low, in(8)};
    side.area.along.to = {Anchored::From::Low, in(12)};
    joint.sides = {side};
    job.joints = {joint};
    const std::vector<PanelFinding> findings = checkPanel(job, only(job));
    const bool refused =
        std::any_of(findings.begin(), findings.end(), [](const PanelFinding& finding) {
            return finding.isRefusal && finding.sentence.find("apron to top") != std::string::npos;
        });
    EXPECT_TRUE(refused);
}

TEST(Panels, TooMuchCupIsFlaggedWithARemedy) {
    Document job = hand_panel::job();
    const auto isFlagged = [&] {
        for (const PanelFinding& finding : checkPanel(job, only(job))) {
            if (finding.kind == PanelFinding::Kind::Cup) {
                EXPECT_FALSE(finding.isRefusal);
                EXPECT_NE(finding.sentence.find("more than"), std::string::npos);
                return true;
            }
        }
        return false;
    };
    job.glueUp.settings.mostCup = in(1);
    EXPECT_FALSE(isFlagged());
    job.glueUp.settings.mostCup = in(1, 64); // four plain staves, hearts all up
    EXPECT_TRUE(isFlagged());
    // Heart up and drying: the show face crowns.
    EXPECT_LT(cupOf(only(job)).overall, Length());
}

TEST(Panels, ForecastOfWidthFollowsTheHandbook) {
    Document job = hand_panel::job();
    job.boards[0].sawn = {};
    const Panel panel = only(job);
    // Plain at 15 degrees: C = C_T cos^2 + C_R sin^2 = 0.003549; two points drier.
    EXPECT_NEAR(widthChangeOf(panel).toInches(), -panel.width.toInches() * 0.003549 * 2, 0.0005);
}

TEST(Panels, NoPlanNoPanels) {
    Document job = hand_panel::job();
    job.plan.reset();
    EXPECT_TRUE(panelsOf(job).value().empty());
}

} // namespace
} // namespace stavewright::panels
