#include "core/audit/Needs.h"

#include <gtest/gtest.h>

#include "core/shop/Presets.h"

namespace stavewright::audit_detail {
namespace {

constexpr Length in(std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); }

Shop shop() {
    Shop s;
    s.machines.stripCrosscut.kerf = in(1, 8);
    s.panelSlack = in(1, 4);
    s.chains.oneBoard = {{Stage::Sand, in(0), in(0), in(1, 32), ""},
                         {Stage::TrimToLength, in(2), in(0), in(0), ""},
                         {Stage::RipToWidth, in(0), in(1, 4), in(0), ""},
                         {Stage::PartMultiple, in(1, 8), in(0), in(0), ""}};
    s.chains.panel = {{Stage::TrimPanelSquare, in(1), in(1), in(1, 16), ""}};
    s.chains.stave = {{Stage::JointStaveEdges, in(1), in(1, 8), in(1, 32), ""}};
    s.chains.block = {{Stage::PlaneSawnFaces, in(1), in(1, 8), in(1, 8), ""}};
    s.chains.ply = {{Stage::PlaneGlueFaces, in(1), in(1, 4), in(1, 16), ""}};
    for (std::int64_t id = 1; id <= presetRules::last; ++id) {
        RuleSet rules;
        rules.id = RuleSetId{id};
        s.ruleSets.push_back(rules);
    }
    return s;
}

Document jobWith(Part part) {
    Document job;
    job.shop = shop();
    part.id = PartId{1};
    part.mark = "P";
    part.length.base = in(20);
    part.width.base = in(4);
    part.thickness.base = in(2);
    job.parts = {part};
    return job;
}

std::vector<Need> needs(const Document& job, const Plan& plan = {}) {
    Report report(job);
    std::vector<Need> found = needsOf(job, plan, report);
    EXPECT_TRUE(report.sorted(job).empty());
    return found;
}

const NeededZone* zoneNamed(const Need& need, BoardFace face, const std::string& name) {
    for (const NeededZone& zone : need.zones) {
        if (zone.face == face && zone.name == name) {
            return &zone;
        }
    }
    return nullptr;
}

TEST(Needs, AOneBoardPartAddsItsChain) {
    const Document job = jobWith({});
    const Need need = needs(job).at(0);
    EXPECT_EQ(need.length, in(22));
    EXPECT_EQ(need.width, in(17, 4));
    EXPECT_EQ(need.thickness, in(65, 32));
    EXPECT_EQ(need.finalThickness, in(2));
    EXPECT_FALSE(need.staves);
}

TEST(Needs, WithoutZonesAShowsAndBIsHidden) {
    const Document job = jobWith({});
    const Need need = needs(job).at(0);
    ASSERT_EQ(need.zones.size(), 2U);
    const NeededZone* show = zoneNamed(need, BoardFace::A, "show face");
    ASSERT_TRUE(show);
    EXPECT_EQ(show->rules->id, presetRules::showFace);
    EXPECT_EQ(show->along, (Stretch{in(1), in(21)}));
    EXPECT_EQ(show->across.in(need.width), (Stretch{in(1, 8), in(33, 8)}));
    const NeededZone* hidden = zoneNamed(need, BoardFace::B, "hidden face");
    ASSERT_TRUE(hidden);
    EXPECT_EQ(hidden->rules->id, presetRules::hiddenFace);
}

TEST(Needs, AMultipleRepeatsItsZonesAndKeepsOneChain) {
    Part cleat;
    cleat.perBlank = 3;
    cleat.count = 4;
    const Document job = jobWith(cleat);
    const Need need = needs(job).at(0);
    EXPECT_EQ(need.length, in(3 * 20 + 2) + 2 * in(1, 4));
    ASSERT_EQ(need.zones.size(), 6U);
    EXPECT_EQ(need.zones[2].along, (Stretch{in(1) + 2 * in(81, 4), in(21) + 2 * in(81, 4)}));
    EXPECT_TRUE(need.wantsInstance(1));
    EXPECT_FALSE(need.wantsInstance(2));
    EXPECT_TRUE(need.wantsInstance(4));
    EXPECT_FALSE(need.wantsInstance(7));
    EXPECT_EQ(need.blanksPerPart(), 2);
    EXPECT_EQ(need.partsIn(1), 3);
    EXPECT_EQ(need.partsIn(4), 1);
}

TEST(Needs, APanelAsksForNetWidthAndForGluedEdges) {
    Part top;
    top.makeUp.panel = PanelMakeUp{in(1), in(3), 2, 4};
    const Document job = jobWith(top);
    const Need need = needs(job).at(0);
    ASSERT_TRUE(need.staves);
    EXPECT_EQ(need.length, in(22));
    EXPECT_EQ(need.thickness, in(2) + in(3, 32));
    EXPECT_EQ(need.staves->gluedWidth, in(5));
    EXPECT_EQ(need.staves->mostWidth, in(21, 4));
    EXPECT_EQ(need.staves->jointing, in(1, 8));
    // one face each and two glued edges on both
    ASSERT_EQ(need.zones.size(), 6U);
    const NeededZone* show = zoneNamed(need, BoardFace::A, "show face");
    ASSERT_TRUE(show);
    EXPECT_EQ(show->across.in(in(3)), (Stretch{in(1, 16), in(47, 16)}));
    EXPECT_EQ(need.zones[2].across.in(in(3)), (Stretch{in(0), in(1, 16)}));
    EXPECT_EQ(need.zones[3].across.in(in(3)), (Stretch{in(47, 16), in(3)}));
}

TEST(Needs, PliesKeepTheOuterFacesAndHaveGlueFacesBetween) {
    Part leg;
    leg.makeUp.lamination = LaminationMakeUp{3};
    const Document job = jobWith(leg);
    const std::vector<Need> plies = needs(job);
    ASSERT_EQ(plies.size(), 3U);
    EXPECT_EQ(plies[0].length, in(22));
    EXPECT_EQ(plies[0].width, in(35, 8));
    EXPECT_EQ(plies[0].thickness, in(17, 8) / 3 + in(1, 16));
    EXPECT_TRUE(zoneNamed(plies[0], BoardFace::A, "show face"));
    EXPECT_TRUE(zoneNamed(plies[0], BoardFace::B, "glue face"));
    EXPECT_TRUE(zoneNamed(plies[1], BoardFace::A, "glue face"));
    EXPECT_TRUE(zoneNamed(plies[1], BoardFace::B, "glue face"));
    EXPECT_TRUE(zoneNamed(plies[2], BoardFace::A, "glue face"));
    EXPECT_TRUE(zoneNamed(plies[2], BoardFace::B, "hidden face"));
}

TEST(Needs, APlyMayItselfBeAPanel) {
    Part slab;
    slab.makeUp.lamination = LaminationMakeUp{2};
    slab.makeUp.panel = PanelMakeUp{in(1), in(3), 2, 4};
    const Document job = jobWith(slab);
    const std::vector<Need> plies = needs(job);
    ASSERT_EQ(plies.size(), 2U);
    ASSERT_TRUE(plies[0].staves);
    // block 1 + ply 1 + panel 1 + stave 1 along; 1/8 + 1/4 + 1 across
    EXPECT_EQ(plies[0].length, in(24));
    EXPECT_EQ(plies[0].staves->gluedWidth, in(43, 8));
    EXPECT_EQ(plies[0].thickness, in(17, 16) + in(1, 16) + in(1, 16) + in(1, 32));
}

TEST(Needs, AJointPaintsItsZoneAtTheAnchoredEnd) {
    Document job = jobWith({});
    Joint joint;
    joint.name = "rail to leg";
    joint.rules = presetRules::joint;
    JointSide side;
    side.part = PartId{1};
    side.area.along.from = {Anchored::From::High, in(-7, 2)};
    joint.sides = {side};
    job.joints = {joint};
    const Need need = needs(job).at(0);
    const NeededZone* zone = zoneNamed(need, BoardFace::B, "rail to leg joint");
    ASSERT_TRUE(zone);
    EXPECT_EQ(zone->along, (Stretch{in(35, 2), in(21)}));
}

TEST(Needs, ZonesEndWhereTheFinishedPartEnds) {
    Part part;
    Zone zone;
    zone.name = "end";
    zone.rules = presetRules::joint;
    zone.area.along = {{Anchored::From::Low, in(-5)}, {Anchored::From::Low, in(3)}};
    part.zones = {zone};
    const Document job = jobWith(part);
    const Need need = needs(job).at(0);
    ASSERT_EQ(need.zones.size(), 2U);
    EXPECT_EQ(need.zones[0].along, (Stretch{in(1), in(4)}));
}

TEST(Needs, TheChosenThicknessRulesWhereThePlanHasOne) {
    Part part;
    part.leastThickness = in(3, 2);
    const Document job = jobWith(part);
    Plan plan;
    plan.thicknesses = {{PartId{1}, in(7, 4)}};
    const Need need = needs(job, plan).at(0);
    EXPECT_EQ(need.thickness, in(57, 32));
    EXPECT_EQ(need.finalThickness, in(7, 4));
}

} // namespace
} // namespace stavewright::audit_detail
