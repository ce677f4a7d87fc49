#include "core/panels/TermWords.h"

#include <gtest/gtest.h>

#include "core/panels/Proposal.h"
#include "tests/unit/core/panels/HandPanel.h"

namespace stavewright::panels {
namespace {

using glueup::TermUnit;
using glueup::TermValue;

TermValue crowded(std::int64_t thousandths) {
    return {GlueTerm::KnotsCrowded, TermUnit::Knots, thousandths, 300, 1};
}

/// There is no tenth of a knot: what counts by degrees says what would count whole.
TEST(TermWords, WhatCountsByDegreesSaysWhatIsOne) {
    const JobInfo info;
    EXPECT_EQ(valueText(crowded(100), info), "0.1");
    EXPECT_EQ(weightText(crowded(100), info), "3 for two knots that touch");
    glueup::Score before;
    glueup::Score after;
    before.terms = {crowded(0)};
    after.terms = {crowded(100)};
    EXPECT_EQ(
        whatGotWorse(before, after, info),
        std::vector<std::string>{"Knots crowded: 0.1, it was 0 (1 would be two knots that touch)"});
    EXPECT_TRUE(whatGotWorse(after, before, info).empty());
}

TEST(TermWords, WhatIsCountedWholeSaysItsUnit) {
    const JobInfo info;
    const TermValue staves{GlueTerm::Planing, TermUnit::Staves, 1000, 1000, 1};
    EXPECT_EQ(valueText(staves, info), "1 stave");
    EXPECT_EQ(weightText(staves, info), "10 for each stave");
}

/// Alternating is a matter of joints, the heart side of staves.
TEST(TermWords, RingsAreCountedInWhatTheWishIsAbout) {
    const Document job = hand_panel::job();
    Panel panel = hand_panel::only(job);
    const auto unit = [&](RingWish wish) {
        panel.problem.panels.front().rings = wish;
        return scoreOf(panel, nullptr).terms[static_cast<std::size_t>(GlueTerm::Rings)].unit;
    };
    EXPECT_EQ(unit(RingWish::Alternate), TermUnit::Joints);
    EXPECT_EQ(unit(RingWish::HeartUp), TermUnit::Staves);
}

} // namespace
} // namespace stavewright::panels
