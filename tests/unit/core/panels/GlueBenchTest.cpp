#include "core/panels/BenchWords.h"

#include <gtest/gtest.h>

#include "core/layout/GluePresets.h"
#include "tests/unit/core/panels/HandPanel.h"

namespace stavewright::panels {
namespace {

using namespace hand_panel;

// The fans of two jaws at 45 degrees meet at the first glue line when they stand twice the outer
// stave (and caul) apart: a magazine's clamping page, 2006; the angle is common practice.
TEST(GlueBench, ClampsByTheFanOf45Degrees) {
    EXPECT_EQ(clampSpacing(in(5), in(3, 2)), in(13));
    EXPECT_EQ(clampCount(in(84), in(13)), 8);
    EXPECT_EQ(clampSpacing(in(4), in(3, 4)), in(19, 2));
    EXPECT_EQ(clampCount(in(60), in(19, 2)), 8);
    EXPECT_EQ(clampSpacing(in(3), in(0)), in(6));
    EXPECT_EQ(clampCount(in(84), in(6)), 15);
}

// Force on a joint is its area times the pressure, whatever the number of strips: 1 x 10 in at 100
// psi is 1 000 lb (a wood-processing specialist's column, 2014).
TEST(GlueBench, ForceAndGlue) {
    Document job = hand_panel::job();
    Panel panel = only(job);
    panel.roughLength = in(10);
    panel.thickness = in(1);
    GluePractice practice = practiceFor(job, panel);
    EXPECT_EQ(practice.leastPounds, 1000);
    EXPECT_EQ(pressureText(job, 1000), "at least 100 psi: 1000 lb on each joint");
    job.glueUp.settings.leastPsi = 150;
    EXPECT_EQ(practiceFor(job, panel).leastPounds, 1500);
    EXPECT_EQ(practice.jointOrder.size(), 3U);
    // A film of 6 mil: 267.4 square feet a gallon (worked out; common practice for the film).
    const double gallons = practice.millilitres / 3785.411784;
    EXPECT_NEAR(practice.glueArea.toSquareInches() / 144 / gallons, 267.4, 0.1);
}

// An inch is 25.4 mm, by definition.
TEST(GlueBench, AMetricJobReadsMetricFigures) {
    Document job = hand_panel::job();
    job.info.units = UnitSystem::Millimetres;
    // Of the pressure as shown: 0.69 N/mm² on 6451.6 mm².
    EXPECT_EQ(pressureText(job, 1000), "at least 0.69 N/mm²: 4.5 kN on each joint");
    job.glueUp.settings = glueSettingsFor(UnitSystem::Millimetres);
    EXPECT_EQ(pressureText(job, 1020), "at least 0.7 N/mm²: 4.5 kN on each joint");
    EXPECT_EQ(makersPressureText(job.info), "1.2 to 1.7 N/mm²");
    EXPECT_EQ(glueText(29.6, in(10) * in(10), job.info),
              "30 ml on one face of each joint, 645 cm² of joints in all");
    const Panel panel = only(job);
    for (const SubPanel& subPanel : practiceFor(job, panel).subPanels) {
        EXPECT_EQ(subPanel.clampSpacing.inNanometres() % Length::millimetres(10).inNanometres(), 0);
        EXPECT_LE(subPanel.clampSpacing,
                  clampSpacing(subPanel.outerStave, job.glueUp.settings.caul));
    }
    // Who sets them closer is heard.
    job.glueUp.settings.clampsApart = Length::millimetres(155);
    EXPECT_EQ(practiceFor(job, panel).lastSpacing, Length::millimetres(155));
}

TEST(GlueBench, SubPanelsFitThePlanerAndAreGluedFirst) {
    Document job = hand_panel::job();
    const Panel panel = only(job);
    job.shop.machines.planerWidth = panel.staves[0].net.width() * 5 / 2;
    const GluePractice practice = practiceFor(job, panel);
    ASSERT_EQ(practice.subPanels.size(), 2U);
    EXPECT_EQ(practice.subPanels[0].last, 1U);
    EXPECT_LE(practice.subPanels[0].width, job.shop.machines.planerWidth);
    EXPECT_EQ(practice.jointOrder, (std::vector<std::size_t>{0, 2, 1}));
    EXPECT_EQ(practice.lastJoints, 1U);
    EXPECT_TRUE(practice.planerTakesAll);
    // "Section" is what a crosscut leaves of a board, and nothing else.
    EXPECT_EQ(cautionsFor(panel, practice, job.info).back(),
              "Level the sub-panels on the planer before the last joint; plane no squeezed-out "
              "glue.");
    job.shop.machines.planerWidth = in(1);
    EXPECT_FALSE(practiceFor(job, panel).planerTakesAll);
    EXPECT_FALSE(cautionsFor(panel, practice, job.info).empty());
}

} // namespace
} // namespace stavewright::panels
