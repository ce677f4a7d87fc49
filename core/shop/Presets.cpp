#include "core/shop/Presets.h"

#include "core/shop/PresetParts.h"

namespace stavewright {

namespace {

constexpr Length in(std::int64_t numerator, std::int64_t denominator = 1) {
    return Length::inches(numerator, denominator);
}
constexpr Length mm(std::int64_t n) { return Length::millimetres(n); }
/// Tenths of a millimetre.
constexpr Length tenths(std::int64_t n) { return Length::micrometres(n * 100); }

Machines inchMachines() {
    Machines machines;
    // Kerf of a full blade: published. Depth and width: common practice, no source; the plate on
    // the machine overrules. A 10 in table saw cuts about 3 1/8 deep.
    machines.crosscut = {"sliding mitre saw", in(1, 8), in(7, 2), in(12)};
    machines.rip = {"table saw", in(1, 8), in(25, 8), Length()};
    machines.stripCrosscut = machines.crosscut;
    // Band saw kerf is published as under 1/16; its height under the guide is common practice.
    machines.roughRip = {"band saw", in(1, 16), in(6), Length()};
    machines.jointerWidth = in(8);
    machines.planerWidth = in(13);
    // Manuals and safety pages give 10 to 12; 14 leaves something to hold (common practice).
    machines.jointerLeastLength = in(14);
    machines.planerLeastLength = in(14);
    machines.planerLeastThickness = in(1, 4); // published, a workshop's safety page
    machines.longestBoard = in(144);          // common practice: twice the beds of an 8 in jointer
    machines.narrowestRip = in(3, 4);         // common practice
    machines.cautionRip = in(2);              // published, table saw manuals: push block below this
    return machines;
}

Machines metricMachines() {
    // The same sources and practice, in round metric numbers.
    Machines machines;
    machines.crosscut = {"sliding mitre saw", tenths(32), mm(90), mm(300)};
    machines.rip = {"table saw", tenths(32), mm(80), Length()};
    machines.stripCrosscut = machines.crosscut;
    machines.roughRip = {"band saw", tenths(15), mm(150), Length()};
    machines.jointerWidth = mm(260);
    machines.planerWidth = mm(260);
    machines.jointerLeastLength = mm(350);
    machines.planerLeastLength = mm(350);
    machines.planerLeastThickness = mm(6);
    machines.longestBoard = mm(4'000);
    machines.narrowestRip = mm(20);
    machines.cautionRip = mm(50);
    return machines;
}

preset_parts::Allowances inchAllowances() {
    preset_parts::Allowances a;
    a.sandThick = in(1, 32);         // 1/64 a face: common practice
    a.trimEnds = in(2);              // published advice is 1/2 to 1 in all; 1 an end clears the
                                     // snipe of a planer that is set up well: common practice
    a.betweenMultiples = in(1, 8);   // common practice
    a.sawnEdge = in(1, 8);           // with the jointed edge 1/4 over width in all: published
    a.jointEdge = in(1, 8);          //
    a.panelSandThick = in(1, 64);    // common practice
    a.panelFlattenThick = in(1, 32); // scraper and sander, in all: common practice
    a.panelTrimEnds = in(1);         // common practice
    a.panelTrimEdges = in(1);        // published, a chapter on gluing up panels
    a.staveEdges = in(1, 8);         // common practice, from published depths of one pass
    a.staveEnds = in(1);             // with the trim 2 in all, as for one board
    a.blockSandThick = in(1, 32);    // 1/64 a side: common practice
    a.blockSandAcross = in(1, 32);   //
    a.blockTrimEnds = in(1);         // common practice
    a.blockPlaneThick = in(1, 16);   // 1/32 a side: common practice
    a.blockPlaneAcross = in(1, 16);  // common practice
    a.blockRip = in(1, 16);          // common practice
    a.blockJoint = in(1, 16);        // common practice; with the slip 3/8 over at glue-up
    a.plySlip = in(1, 8);            // common practice
    a.plyGlueFaceThick = in(1, 32);  // common practice: 1/32 to 1/16
    a.plyEdges = in(1, 8);           // common practice
    a.plyEnds = in(1);               // with the trim 2 in all, as for one board
    return a;
}

preset_parts::Allowances metricAllowances() {
    // The same practice, in round metric numbers.
    preset_parts::Allowances a;
    a.sandThick = mm(1);
    a.trimEnds = mm(50);
    a.betweenMultiples = mm(3);
    a.sawnEdge = mm(3);
    a.jointEdge = mm(3);
    a.panelSandThick = tenths(5);
    a.panelFlattenThick = mm(1);
    a.panelTrimEnds = mm(25);
    a.panelTrimEdges = mm(25);
    a.staveEdges = mm(3);
    a.staveEnds = mm(25);
    a.blockSandThick = mm(1);
    a.blockSandAcross = mm(1);
    a.blockTrimEnds = mm(25);
    a.blockPlaneThick = tenths(15);
    a.blockPlaneAcross = tenths(15);
    a.blockRip = tenths(15);
    a.blockJoint = tenths(15);
    a.plySlip = mm(3);
    a.plyGlueFaceThick = mm(1);
    a.plyEdges = mm(3);
    a.plyEnds = mm(25);
    return a;
}

/// In the job's currency; common practice, no source.
Prices commonPrices() {
    Prices prices;
    prices.fillEach = Money::cents(400);
    prices.crosscut = Money::cents(40);
    prices.rip = Money::cents(60);
    prices.knotOnShow = Money::cents(100);
    prices.groupApart = Money::cents(1000);
    return prices;
}

} // namespace

Shop inchShop() {
    Shop shop;
    shop.name = "Small shop, inches";
    shop.machines = inchMachines();
    shop.chains = preset_parts::chainsOf(inchAllowances());
    shop.cleaning = in(1, 8); // common practice: two light passes a face
    // A quarter that is one too thick, not two: 5/4 for 3/4 in work, but not 8/4. Common practice,
    // no source.
    shop.mostPlanedAway = in(1, 2);
    shop.rawEnd = in(1);        // published: an automatic inch, then look at the fresh end
    shop.widthStep = in(1, 16); // common practice: the finest mark on a rough board
    shop.panelSlack = in(1, 4); // common practice
    shop.offcuts = {in(16), in(2), in(3, 4), 30}; // common practice, between three makers' habits
    shop.prices = commonPrices();
    preset_parts::RuleSizes sizes;
    sizes.pinKnot = in(1, 4);       // published, a hardwood mill's glossary
    sizes.cleanShow = in(3, 8);     // published, trade grade "clean"
    sizes.characterShow = in(5, 2); // published, trade grade "rustic": sound
    sizes.filledShow = in(3, 2);    // the same: dead or filled
    sizes.filledCheck = in(6);      // common practice
    sizes.filledHidden = in(5, 2);  // common practice
    sizes.haloLeast = in(1, 2);     // common practice
    shop.ruleSets = preset_parts::ruleSetsOf(sizes);
    return shop;
}

Shop metricShop() {
    // The same sources and practice, in round metric numbers.
    Shop shop;
    shop.name = "Small shop, millimetres";
    shop.machines = metricMachines();
    shop.chains = preset_parts::chainsOf(metricAllowances());
    shop.cleaning = mm(3);
    shop.mostPlanedAway = mm(12);
    shop.rawEnd = mm(25);
    shop.widthStep = mm(1);
    shop.panelSlack = mm(6);
    shop.offcuts = {mm(400), mm(50), mm(18), 30};
    shop.prices = commonPrices();
    preset_parts::RuleSizes sizes;
    sizes.pinKnot = mm(6);
    sizes.cleanShow = mm(10);
    sizes.characterShow = mm(65);
    sizes.filledShow = mm(35);
    sizes.filledCheck = mm(150);
    sizes.filledHidden = mm(65);
    sizes.haloLeast = mm(12);
    shop.ruleSets = preset_parts::ruleSetsOf(sizes);
    return shop;
}

} // namespace stavewright
