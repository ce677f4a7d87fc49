#include "core/panels/GlueBench.h"

#include <gtest/gtest.h>

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
    const GluePractice practice = practiceFor(panel, job.shop, in(3, 4));
    EXPECT_EQ(practice.leastPounds, 1000);
    EXPECT_EQ(practice.jointOrder.size(), 3U);
    // A film of 6 mil: 267.4 square feet a gallon (worked out; common practice for the film).
    const double gallons = practice.millilitres / 3785.411784;
    EXPECT_NEAR(practice.glueArea.toSquareInches() / 144 / gallons, 267.4, 0.1);
}

TEST(GlueBench, SectionsFitThePlanerAndAreGluedFirst) {
    Document job = hand_panel::job();
    const Panel panel = only(job);
    job.shop.machines.planerWidth = panel.staves[0].net.width() * 5 / 2;
    const GluePractice practice = practiceFor(panel, job.shop, in(0));
    ASSERT_EQ(practice.sections.size(), 2U);
    EXPECT_EQ(practice.sections[0].last, 1U);
    EXPECT_LE(practice.sections[0].width, job.shop.machines.planerWidth);
    EXPECT_EQ(practice.jointOrder, (std::vector<std::size_t>{0, 2, 1}));
    EXPECT_EQ(practice.lastJoints, 1U);
    EXPECT_TRUE(practice.planerTakesSections);
    job.shop.machines.planerWidth = in(1);
    EXPECT_FALSE(practiceFor(panel, job.shop, in(0)).planerTakesSections);
    EXPECT_FALSE(cautionsFor(panel, practice, job.info).empty());
}

} // namespace
} // namespace stavewright::panels
