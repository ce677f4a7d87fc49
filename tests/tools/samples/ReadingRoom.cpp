#include "tests/tools/PieceBuilder.h"
#include "tests/tools/RoughLumber.h"
#include "tests/tools/samples/Samples.h"

namespace stavewright::samples {

Document readingRoom() {
    Document job;
    job.shop = inchShop();
    job.nextId = presetRules::last + 1;
    job.info.title = "Reading room: two tables, four benches, a bookcase";
    job.info.client = "Friends of the Quillmere lending library (invented)";
    job.info.notes = "A large invented job: sixty boards in one stack.";

    const auto in = [](std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); };
    Dice dice(6060);
    Stack thick{.species = "red_oak",
                .quarter = {8},
                .thinnestLeast = in(31, 16),
                .thinnestMost = in(33, 16),
                .shortest = in(84),
                .longest = in(144),
                .narrowest = in(5),
                .widest = in(10),
                .knotsPerTenFeet = 5,
                .smallestKnot = in(1, 2),
                .largestKnot = in(5, 2),
                .price = Money::cents(960),
                .step = in(1, 16)};
    addBoards(job, dice, thick, 36, 1);
    Stack thin = thick;
    thin.quarter = {4};
    thin.thinnestLeast = in(15, 16);
    thin.thinnestMost = in(17, 16);
    thin.price = Money::cents(690);
    addBoards(job, dice, thin, 24, 37);

    const std::string oak = "red_oak";
    Part top = plainPart(job, "T", "Table top", "Tables", oak, 2, {in(66), in(32), in(3, 2)});
    top.makeUp.panel = PanelMakeUp{in(3), in(6), 5, 9};
    top.leastThickness = in(11, 8);
    Part leg = plainPart(job, "L", "Table leg", "Tables", oak, 8, {in(0), in(3), in(3)});
    leg.length = {in(30), {{-1, top.id, Dimension::Thickness}}};
    leg.makeUp.lamination = LaminationMakeUp{2};
    showBothFaces(leg, presetRules::showFaceFilled);
    Part rail = plainPart(job, "R", "Long rail", "Tables", oak, 4, {in(52), in(9, 2), in(3, 4)});
    Part endRail = plainPart(job, "E", "End rail", "Tables", oak, 4, {in(22), in(9, 2), in(3, 4)});
    Part seat = plainPart(job, "S", "Bench seat", "Benches", oak, 4, {in(60), in(12), in(3, 2)});
    seat.makeUp.panel = PanelMakeUp{in(5, 2), in(6), 2, 5};
    seat.leastThickness = in(11, 8);
    Part post = plainPart(job, "P", "Bench leg", "Benches", oak, 8, {in(16), in(11), in(3, 2)});
    post.makeUp.panel = PanelMakeUp{in(5, 2), in(6), 2, 5};
    post.leastThickness = in(11, 8);
    Part stretcher =
        plainPart(job, "H", "Bench stretcher", "Benches", oak, 4, {in(46), in(4), in(3, 2)});
    stretcher.leastThickness = in(11, 8);
    Part side =
        plainPart(job, "U", "Bookcase side", "Bookcase", oak, 2, {in(60), in(12), in(3, 4)});
    side.makeUp.panel = PanelMakeUp{in(5, 2), in(6), 2, 5};
    Part shelf =
        plainPart(job, "B", "Book shelf", "Bookcase", oak, 5, {in(34), in(23, 2), in(3, 4)});
    shelf.makeUp.panel = PanelMakeUp{in(5, 2), in(6), 2, 5};
    Part slat = plainPart(job, "K", "Back slat", "Bookcase", oak, 12, {in(35), in(9, 2), in(1, 2)});
    setShowRules(slat, presetRules::showFaceFilled);
    Part cleat = plainPart(job, "C", "Cleat", "Tables", oak, 16, {in(4), in(3, 2), in(3, 4)});
    setShowRules(cleat, presetRules::hiddenFace);
    cleat.perBlank = 8;
    addEndJoint(job, "long rail to leg", JointKind::MortiseAndTenon, rail.id, in(3, 2), leg.id);
    addEndJoint(job, "end rail to leg", JointKind::MortiseAndTenon, endRail.id, in(3, 2), PartId{});
    addEndJoint(job, "stretcher to leg", JointKind::MortiseAndTenon, stretcher.id, in(2), PartId{});
    job.parts = {top, leg, rail, endRail, seat, post, stretcher, side, shelf, slat, cleat};
    return job;
}

} // namespace stavewright::samples
