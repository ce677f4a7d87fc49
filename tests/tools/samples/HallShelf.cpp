#include "tests/tools/PieceBuilder.h"
#include "tests/tools/RoughLumber.h"
#include "tests/tools/samples/Samples.h"

namespace stavewright::samples {

Document hallShelf() {
    Document job;
    job.shop = inchShop();
    job.nextId = presetRules::last + 1;
    job.info.title = "Hall shelf with pegs";
    job.info.client = "Marit Oldersey (invented)";
    job.info.notes =
        "An invented job to try the program on. Shop: Hollin Yard, one person, invented too.";

    Dice dice(11);
    Stack ash{.species = "white_ash",
              .quarter = {4},
              .thinnestLeast = Length::inches(15, 16),
              .thinnestMost = Length::inches(17, 16),
              .shortest = Length::inches(74),
              .longest = Length::inches(100),
              .narrowest = Length::inches(6),
              .widest = Length::inches(8),
              .knotsPerTenFeet = 5,
              .smallestKnot = Length::inches(1, 2),
              .largestKnot = Length::inches(7, 4),
              .price = Money::cents(780),
              .step = Length::inches(1, 16),
              .warpedOneIn = 4};
    addBoards(job, dice, ash, 4, 1);

    const auto in = [](std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); };
    Part shelf = plainPart(job, "S", "Shelf", "Shelf", "white_ash", 1, {in(36), in(9), in(3, 4)});
    shelf.makeUp.panel = PanelMakeUp{in(5, 2), in(6), 2, 4};
    Part rail = plainPart(job, "P", "Peg rail", "Shelf", "white_ash", 1, {in(34), in(4), in(3, 4)});
    Part bracket =
        plainPart(job, "B", "Bracket", "Shelf", "white_ash", 3, {in(9), in(6), in(3, 4)});
    showBothFaces(bracket, presetRules::showFaceFilled);
    bracket.perBlank = 2;
    bracket.count = 4;
    bracket.notes = "Three are needed; the fourth is a spare.";
    Part cleat =
        plainPart(job, "C", "Hanging cleat", "Back", "white_ash", 1, {in(30), in(3), in(3, 4)});
    setShowRules(cleat, presetRules::hiddenFace);
    addEndJoint(job, "rail to bracket", JointKind::Dowel, rail.id, in(3, 2), PartId{});
    job.parts = {shelf, rail, bracket, cleat};
    return job;
}

} // namespace stavewright::samples
