#include "tests/tools/PieceBuilder.h"
#include "tests/tools/RoughLumber.h"
#include "tests/tools/samples/Samples.h"

namespace stavewright::samples {

Document kitchenTable() {
    Document job;
    job.shop = inchShop();
    job.nextId = presetRules::last + 1;
    job.info.title = "Kitchen table, six places";
    job.info.client = "Ines Harrowgate (invented)";
    job.info.notes = "Knots may show where they are sound; open ones are filled with clear resin. "
                     "Invented job of the invented shop Hollin Yard.";

    const auto in = [](std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); };
    Dice dice(1609);
    Stack thick{.species = "white_oak",
                .quarter = {8},
                .thinnestLeast = in(31, 16),
                .thinnestMost = in(33, 16),
                .shortest = in(90),
                .longest = in(132),
                .narrowest = in(11, 2),
                .widest = in(10),
                .knotsPerTenFeet = 5,
                .smallestKnot = in(1, 2),
                .largestKnot = in(9, 4),
                .price = Money::cents(1150),
                .step = in(1, 16)};
    addBoards(job, dice, thick, 11, 1);
    Stack thin = thick;
    thin.quarter = {4};
    thin.thinnestLeast = in(15, 16);
    thin.thinnestMost = in(17, 16);
    thin.price = Money::cents(840);
    addBoards(job, dice, thin, 5, 12);

    Part top = plainPart(job, "T", "Top", "Top", "white_oak", 1, {in(60), in(32), in(3, 2)});
    top.makeUp.panel = PanelMakeUp{in(3), in(6), 5, 9};
    top.leastThickness = in(11, 8);
    Part leg = plainPart(job, "L", "Leg", "Base", "white_oak", 4, {in(0), in(3), in(3)});
    leg.length = {in(30), {{-1, top.id, Dimension::Thickness}}};
    leg.makeUp.lamination = LaminationMakeUp{2};
    showBothFaces(leg, presetRules::showFaceFilled);
    Part longRail =
        plainPart(job, "R", "Long rail", "Base", "white_oak", 2, {in(46), in(9, 2), in(3, 4)});
    Part shortRail =
        plainPart(job, "E", "End rail", "Base", "white_oak", 2, {in(20), in(9, 2), in(3, 4)});
    Part bar =
        plainPart(job, "X", "Cross bar", "Base", "white_oak", 3, {in(22), in(5, 2), in(3, 4)});
    setShowRules(bar, presetRules::hiddenFace);
    Part clip =
        plainPart(job, "C", "Top cleat", "Base", "white_oak", 8, {in(3), in(3, 2), in(3, 4)});
    setShowRules(clip, presetRules::hiddenFace);
    clip.perBlank = 8;
    addEndJoint(job, "long rail to leg", JointKind::MortiseAndTenon, longRail.id, in(3, 2), leg.id);
    addEndJoint(job, "end rail to leg", JointKind::MortiseAndTenon, shortRail.id, in(3, 2),
                PartId{});
    addEndJoint(job, "cross bar to long rail", JointKind::PocketScrew, bar.id, in(5, 2), PartId{});
    job.groups = {
        {job.takeId<GroupId>(), "long rails match", MatchGroup::Want::OneBoard, {longRail.id}}};
    job.parts = {top, leg, longRail, shortRail, bar, clip};
    return job;
}

} // namespace stavewright::samples
