#include "core/layout/GluePresets.h"
#include "tests/tools/PieceBuilder.h"
#include "tests/tools/RoughLumber.h"
#include "tests/tools/samples/Samples.h"

namespace stavewright::samples {

Document linenChest() {
    Document job;
    job.shop = metricShop();
    job.glueUp.settings = glueSettingsFor(UnitSystem::Millimetres);
    job.nextId = presetRules::last + 1;
    job.info.title = "Linen chest";
    job.info.client = "T. Wendelin (invented)";
    job.info.notes = "A metric job: invented chest, invented client.";
    job.info.units = UnitSystem::Millimetres;
    job.info.currency = "€";

    const auto mm = [](std::int64_t n) { return Length::millimetres(n); };
    Dice dice(77);
    Stack beech{.species = "american_beech",
                .quarter = {5},
                .thinnestLeast = mm(31),
                .thinnestMost = mm(33),
                .shortest = mm(2000),
                .longest = mm(3000),
                .narrowest = mm(140),
                .widest = mm(240),
                .knotsPerTenFeet = 5,
                .smallestKnot = mm(10),
                .largestKnot = mm(55),
                .price = Money::cents(620),
                .step = mm(2)};
    addBoards(job, dice, beech, 14, 1);

    const std::string wood = "american_beech";
    Part lid = plainPart(job, "D", "Lid", "Carcase", wood, 1, {mm(1100), mm(500), mm(24)});
    lid.makeUp.panel = PanelMakeUp{mm(70), mm(150), 4, 7};
    Part front =
        plainPart(job, "F", "Front and back", "Carcase", wood, 2, {mm(1060), mm(420), mm(24)});
    front.makeUp.panel = PanelMakeUp{mm(70), mm(150), 3, 6};
    Part end = plainPart(job, "E", "End", "Carcase", wood, 2, {mm(440), mm(420), mm(24)});
    end.makeUp.panel = PanelMakeUp{mm(70), mm(150), 3, 6};
    Part plinth = plainPart(job, "P", "Plinth, long", "Base", wood, 2, {mm(1100), mm(80), mm(24)});
    Part plinthEnd =
        plainPart(job, "Q", "Plinth, short", "Base", wood, 2, {mm(480), mm(80), mm(24)});
    Part batten = plainPart(job, "B", "Lid batten", "Carcase", wood, 2, {mm(420), mm(60), mm(24)});
    setShowRules(batten, presetRules::hiddenFace);
    Part runner = plainPart(job, "R", "Till runner", "Inside", wood, 4, {mm(180), mm(40), mm(20)});
    setShowRules(runner, presetRules::hiddenFace);
    runner.perBlank = 2;
    addEndJoint(job, "plinth corner", JointKind::Dowel, plinth.id, mm(30), PartId{});
    job.parts = {lid, front, end, plinth, plinthEnd, batten, runner};
    return job;
}

} // namespace stavewright::samples
