// From finished part to blank: sizes, sums and zones, on small documents of our own.

#include "core/milling/BlankSpec.h"

#include <gtest/gtest.h>

#include "core/shop/Presets.h"
#include "tests/unit/core/document/SampleDocument.h"

namespace stavewright {
namespace {

constexpr Length in(std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); }

StageAllowance stage(Stage which, Length along, Length across, Length thick) {
    return {which, along, across, thick, "test"};
}

/// Chains with a different amount at every place, so that a mix-up shows.
Shop testShop() {
    Shop shop = inchShop();
    shop.chains.oneBoard = {
        stage(Stage::Sand, {}, {}, in(1, 32)), stage(Stage::TrimToLength, in(2), {}, {}),
        stage(Stage::PartMultiple, in(1, 8), {}, {}), stage(Stage::RipToWidth, {}, in(1, 4), {})};
    shop.chains.panel = {stage(Stage::FlattenPanel, in(1), in(1), in(1, 16))};
    shop.chains.stave = {stage(Stage::JointStaveEdges, in(1, 2), in(1, 8), in(1, 64))};
    shop.chains.block = {stage(Stage::SecondPlane, in(1), in(1, 4), in(1, 8))};
    shop.chains.ply = {stage(Stage::PlaneGlueFaces, in(1), in(1, 8), {})};
    return shop;
}

Part part(std::string mark, Length length, Length width, Length thickness) {
    Part made;
    made.id = PartId{100};
    made.mark = std::move(mark);
    made.species = "white_oak";
    made.length.base = length;
    made.width.base = width;
    made.thickness.base = thickness;
    return made;
}

Document with(Part one) {
    Document document;
    document.shop = testShop();
    document.parts = {std::move(one)};
    document.nextId = 200;
    return document;
}

std::vector<BlankSpec> specsOf(const Document& document) {
    Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    EXPECT_TRUE(specs.ok()) << (specs.ok() ? "" : describe(specs.error()));
    return specs.ok() ? std::move(specs).value() : std::vector<BlankSpec>{};
}

/// Amounts add up line by line, and the last line of each dimension is the blank's size.
void expectSumsExact(const BlankSpec& spec) {
    std::map<Dimension, Length> running;
    for (const SumLine& line : spec.sums) {
        running[line.dimension] += line.amount;
        EXPECT_EQ(line.after, running[line.dimension]) << line.text;
        EXPECT_FALSE(line.text.empty());
    }
    EXPECT_EQ(running[Dimension::Length], spec.length);
    EXPECT_EQ(running[Dimension::Width], spec.width);
    EXPECT_EQ(running[Dimension::Thickness], spec.thicknessWanted);
}

AnchoredStretch fromLow(Length from, Length to) {
    return {{Anchored::From::Low, from}, {Anchored::From::Low, to}};
}

TEST(BlankSpec, OneBoardIsItsFinishedSizeAndItsChain) {
    const std::vector<BlankSpec> specs = specsOf(with(part("R", in(24), in(4), in(3, 4))));
    ASSERT_EQ(specs.size(), 1U);
    EXPECT_EQ(specs[0].length, in(26));
    EXPECT_EQ(specs[0].width, in(17, 4));
    EXPECT_EQ(specs[0].thicknessWanted, in(25, 32));
    EXPECT_EQ(specs[0].thicknessLeast, in(25, 32));
    EXPECT_FALSE(specs[0].staves);
    expectSumsExact(specs[0]);
}

TEST(BlankSpec, LeastThicknessGoesThroughTheSameChain) {
    Part rail = part("R", in(24), in(4), in(3, 4));
    rail.leastThickness = in(5, 8);
    const Document document = with(rail);
    EXPECT_EQ(specsOf(document)[0].thicknessLeast, in(21, 32));
    EXPECT_EQ(thicknessToReach(document, rail, in(11, 16)), in(23, 32));
}

TEST(BlankSpec, PanelFreesTheWidthsOfItsStaves) {
    Part top = part("T", in(60), in(34), in(3, 2));
    top.makeUp.panel = PanelMakeUp{in(3), in(6), 5, 12};
    const BlankSpec spec = specsOf(with(top))[0];
    EXPECT_EQ(spec.length, in(123, 2)); // 60 + 1 panel + 1/2 stave
    EXPECT_EQ(spec.width, in(25, 8));
    EXPECT_EQ(spec.thicknessWanted, in(3, 2) + in(1, 16) + in(1, 64));
    ASSERT_TRUE(spec.staves);
    EXPECT_EQ(spec.staves->leastRough, in(25, 8));
    EXPECT_EQ(spec.staves->widestRough, in(49, 8));
    EXPECT_EQ(spec.staves->jointAllowance, in(1, 8));
    EXPECT_EQ(spec.staves->netWanted, in(35));
    EXPECT_EQ(spec.staves->netMost, in(35) + inchShop().panelSlack);
    EXPECT_EQ(spec.staves->fewest, 5);
    EXPECT_EQ(spec.staves->most, 12);
    expectSumsExact(spec);
}

TEST(BlankSpec, StavesAreNeverWiderThanTheJointer) {
    Part top = part("T", in(60), in(34), in(3, 2));
    top.makeUp.panel = PanelMakeUp{in(3), in(12), 1, 12};
    EXPECT_EQ(specsOf(with(top))[0].staves->widestRough, in(8));
    top.makeUp.panel = PanelMakeUp{in(9), in(12), 1, 12};
    const Result<std::vector<BlankSpec>> refused = blankSpecs(with(top));
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().message, "Its staves are at least 9 1/8\" wide in the rough, but the "
                                       "jointer takes 8\"; allow narrower staves.");
}

TEST(BlankSpec, RefusesAPanelThatItsStavesCannotFill) {
    Part top = part("T", in(60), in(34), in(3, 2));
    top.makeUp.panel = PanelMakeUp{in(3), in(6), 1, 4};
    EXPECT_FALSE(blankSpecs(with(top)).ok());
    top.makeUp.panel = PanelMakeUp{in(5), in(6), 8, 9};
    EXPECT_FALSE(blankSpecs(with(top)).ok());
}

// Reference: the project's shop practice 1.4, leg arithmetic: a 3 x 3 leg of two plies asks 1 9/16
// of each ply at glue-up, and plies 3 1/4 to 3 3/8 wide. The allowances are the ones given there:
// 1/16 to 1/8 on each face after glue-up, here 1/8 in all in thickness, 1/4 + 1/8 in width.
TEST(BlankSpec, LegOfTwoPliesFollowsTheWorkedArithmetic) {
    Part leg = part("L", in(29), in(3), in(3));
    leg.makeUp.lamination = LaminationMakeUp{2};
    leg.count = 4;
    const std::vector<BlankSpec> specs = specsOf(with(leg));
    ASSERT_EQ(specs.size(), 2U);
    for (const BlankSpec& spec : specs) {
        EXPECT_EQ(spec.thicknessWanted, in(25, 16));
        EXPECT_EQ(spec.width, in(27, 8));
        EXPECT_EQ(spec.length, in(31));
        EXPECT_EQ(spec.count, 4);
        expectSumsExact(spec);
    }
    EXPECT_EQ(specs[0].ply, 1);
    EXPECT_EQ(specs[1].ply, 2);
}

TEST(BlankSpec, PlyThicknessIsNeverRoundedDown) {
    Part leg = part("L", in(29), in(3), Length::nanometres(10));
    leg.makeUp.lamination = LaminationMakeUp{3};
    Document document = with(leg);
    document.shop.chains.block.clear();
    document.shop.chains.ply.clear();
    EXPECT_EQ(specsOf(document)[0].thicknessWanted, Length::nanometres(4));
}

TEST(BlankSpec, PliesOfPanelsWalkThroughAllFourChains) {
    Part slab = part("S", in(40), in(12), in(3));
    slab.makeUp.lamination = LaminationMakeUp{2};
    slab.makeUp.panel = PanelMakeUp{in(3), in(6), 1, 9};
    const std::vector<BlankSpec> specs = specsOf(with(slab));
    ASSERT_EQ(specs.size(), 2U);
    EXPECT_EQ(specs[0].length, in(40) + in(2) + in(1) + in(1, 2));
    EXPECT_EQ(specs[0].staves->netWanted, in(12) + in(1, 4) + in(1, 8) + in(1));
    EXPECT_EQ(specs[0].thicknessWanted, in(25, 16) + in(1, 16) + in(1, 64));
    expectSumsExact(specs[0]);
}

TEST(BlankSpec, MultiplePaysForItsEndsOnce) {
    Part cleat = part("C", in(6), in(2), in(3, 4));
    cleat.count = 10;
    cleat.perBlank = 4;
    const BlankSpec spec = specsOf(with(cleat))[0];
    EXPECT_EQ(spec.length, in(24) + 3 * (in(1, 8) + in(1, 8)) + in(2));
    EXPECT_EQ(spec.count, 3);
    EXPECT_EQ(spec.partsPerBlank, 4);
    EXPECT_EQ(purposeOf(spec, 2), (BlankPurpose{cleat.id, 9, 0, 0}));
    expectSumsExact(spec);
}

TEST(BlankSpec, ZonesMoveWithHalfTheAllowance) {
    Part rail = part("R", in(24), in(4), in(3, 4));
    Zone end;
    end.name = "pocket end";
    end.role = ZoneRole::JoineryEnd;
    end.area.faces = ZoneFaces::B;
    end.area.along.from = {Anchored::From::High, -in(7, 2)};
    end.rules = presetRules::joint;
    rail.zones = {end};
    const BlankSpec spec = specsOf(with(rail))[0];
    ASSERT_EQ(spec.zones.size(), 1U);
    EXPECT_EQ(spec.zones[0].face, BoardFace::B);
    EXPECT_EQ(spec.zones[0].along.in(spec.length), (Stretch{in(43, 2), in(25)}));
    EXPECT_EQ(spec.zones[0].across.in(spec.width), (Stretch{in(1, 8), in(33, 8)}));
    EXPECT_FALSE(spec.zones[0].shows);
}

TEST(BlankSpec, PartWithoutZonesShowsFaceA) {
    const BlankSpec spec = specsOf(with(part("R", in(24), in(4), in(3, 4))))[0];
    ASSERT_EQ(spec.zones.size(), 2U);
    EXPECT_EQ(spec.zones[0].rules, presetRules::showFace);
    EXPECT_EQ(spec.zones[0].face, BoardFace::A);
    EXPECT_TRUE(spec.zones[0].shows);
    EXPECT_EQ(spec.zones[1].rules, presetRules::hiddenFace);
    EXPECT_EQ(spec.zones[1].face, BoardFace::B);
    EXPECT_FALSE(spec.zones[1].shows);
}

TEST(BlankSpec, JointsPaintTheirZonesOnEveryPartOfAMultiple) {
    Part cleat = part("C", in(6), in(2), in(3, 4));
    cleat.count = 2;
    cleat.perBlank = 2;
    Document document = with(cleat);
    Joint joint;
    joint.name = "screw";
    joint.rules = presetRules::joint;
    joint.sides = {{cleat.id, {ZoneFaces::A, fromLow({}, in(1)), {}}}};
    document.joints = {joint};
    std::vector<Stretch> painted;
    const BlankSpec spec = specsOf(document)[0];
    for (const BlankZone& zone : spec.zones) {
        if (zone.name == "screw") {
            EXPECT_EQ(zone.face, BoardFace::A);
            painted.push_back(zone.along.in(spec.length));
        }
    }
    const std::vector<Stretch> expected = {{in(1), in(2)}, {in(29, 4), in(33, 4)}};
    EXPECT_EQ(painted, expected);
}

TEST(BlankSpec, StaveZonesSpreadAndItsEdgesAreGlued) {
    Part top = part("T", in(60), in(34), in(3, 2));
    top.makeUp.panel = PanelMakeUp{in(3), in(6), 5, 12};
    Zone corner;
    corner.name = "corner";
    corner.area.faces = ZoneFaces::A;
    corner.area.along = fromLow({}, in(5));
    corner.area.across = fromLow({}, in(2));
    corner.rules = presetRules::showFace;
    top.zones = {corner};
    const BlankSpec spec = specsOf(with(top))[0];
    const Length wide = in(5);
    ASSERT_EQ(spec.zones.size(), 5U); // the zone, and two edges on two faces
    EXPECT_EQ(spec.zones[0].along.in(spec.length), (Stretch{in(3, 4), in(23, 4)}));
    EXPECT_EQ(spec.zones[0].across.in(wide), (Stretch{in(1, 16), wide - in(1, 16)}));
    for (std::size_t i = 1; i < spec.zones.size(); ++i) {
        EXPECT_EQ(spec.zones[i].rules, presetRules::gluedEdge);
        EXPECT_EQ(spec.zones[i].along.in(spec.length), (Stretch{in(3, 4), in(243, 4)}));
    }
    EXPECT_EQ(spec.zones[1].across.in(wide), (Stretch{Length(), in(1, 16)}));
    EXPECT_EQ(spec.zones[2].across.in(wide), (Stretch{wide - in(1, 16), wide}));
}

TEST(BlankSpec, InnerFacesOfPliesAreGlueFaces) {
    Part leg = part("L", in(29), in(3), in(3));
    leg.makeUp.lamination = LaminationMakeUp{3};
    const std::vector<BlankSpec> specs = specsOf(with(leg));
    ASSERT_EQ(specs.size(), 3U);
    const auto rulesOn = [](const BlankSpec& spec, BoardFace face) {
        RuleSetId rules;
        for (const BlankZone& zone : spec.zones) {
            if (zone.face == face) {
                rules = zone.rules;
            }
        }
        return rules;
    };
    EXPECT_EQ(rulesOn(specs[0], BoardFace::A), presetRules::showFace);
    EXPECT_EQ(rulesOn(specs[0], BoardFace::B), presetRules::glueFace);
    EXPECT_EQ(rulesOn(specs[1], BoardFace::A), presetRules::glueFace);
    EXPECT_EQ(rulesOn(specs[1], BoardFace::B), presetRules::glueFace);
    EXPECT_EQ(rulesOn(specs[2], BoardFace::A), presetRules::glueFace);
    EXPECT_EQ(rulesOn(specs[2], BoardFace::B), presetRules::hiddenFace);
}

TEST(BlankSpec, FollowsSizesThatLeanOnOthers) {
    const Document document = sample::sideTable();
    const std::vector<BlankSpec> specs = specsOf(document);
    ASSERT_EQ(specs.size(), 4U);
    for (const BlankSpec& spec : specs) {
        expectSumsExact(spec);
    }
    EXPECT_EQ(specs[1].sums.front().amount, in(18) - in(3, 4));
}

TEST(BlankSpec, RefusesLeansInACircle) {
    Part odd = part("R", in(24), in(4), in(3, 4));
    odd.length.leans = {{1, odd.id, Dimension::Length}};
    EXPECT_FALSE(blankSpecs(with(odd)).ok());
}

TEST(BlankSpec, IsFoundByPartAndPly) {
    const std::vector<BlankSpec> specs = specsOf(sample::sideTable());
    EXPECT_EQ(specOf(specs, {sample::leg, 2, 2, 0}), &specs[2]);
    EXPECT_EQ(specOf(specs, {sample::top, 1, 0, 3}), &specs[0]);
    EXPECT_EQ(specOf(specs, {sample::leg, 1, 3, 0}), nullptr);
}

} // namespace
} // namespace stavewright
