// Plans broken in the wood itself: defects in zones, thickness, machines, species, sizes, offcuts.

#include <utility>

#include <gtest/gtest.h>

#include "BrokenPlan.h"

namespace stavewright::audit_sample {
namespace {

constexpr Length nanometre = Length::nanometres(1);

void addDefect(Document& job, BoardId board, DefectKind kind, Point centre, Length size) {
    boardOf(job, board).defects.push_back(roundDefect(DefectId{309}, "K9", kind, centre, size));
}

/// On face B alone, down to this depth.
void addOnFaceB(Document& job, BoardId board, DefectKind kind, Point centre, Length size,
                Length depth) {
    Defect defect = roundDefect(DefectId{309}, "K9", kind, centre, size);
    std::swap(defect.onA, defect.onB);
    defect.through = false;
    defect.depth = depth;
    boardOf(job, board).defects.push_back(defect);
}

const std::vector<BrokenPlan> brokenWood = {
    {"KnotHoleInShowSide",
     [](Document& job) {
         addDefect(job, id::board7, DefectKind::KnotHole, {in(78), in(7, 4)}, in(1));
     },
     {{FindingKind::DefectInZone,
       "Knot hole K9 on face A of board 7 lies in the show side of R1."}}},
    {"SoundKnotTooLarge",
     [](Document& job) {
         addDefect(job, id::board7, DefectKind::SoundKnot, {in(78), in(7, 4)}, in(3, 4));
     },
     {{FindingKind::DefectInZone,
       "Sound knot K9 on face A of board 7 is 3/4\" large and lies in the "
       "show side of R1, which allows 1/2\"."}}},
    {"LooseKnotTooLargeToFill",
     [](Document& job) {
         addDefect(job, id::board7, DefectKind::LooseKnot, {in(78), in(7, 4)}, in(1));
     },
     {{FindingKind::DefectInZone, "Loose knot K9 on face A of board 7 is 1\" large and lies in the "
                                  "show side of R1, which allows 3/4\"."}}},
    {"HaloReachesTheJoint",
     // The pocket end runs to 69 1/4 in; the knot ends 5/16 in before it, its halo is 5/8 in.
     [](Document& job) {
         addDefect(job, id::board7, DefectKind::LooseKnot, {in(1118, 16), in(7, 4)}, in(5, 8));
     },
     {{FindingKind::DefectInZone, "Loose knot K9 on face A of board 7 lies too near the pocket end "
                                  "of R1: 5/8\" along and 5/16\" across it count as disturbed "
                                  "grain."}}},
    {"EndForEndBringsTheJointOntoAKnot",
     [](Document& job) {
         addDefect(job, id::board7, DefectKind::SoundKnot, {in(355, 4), in(7, 4)}, in(3, 8));
         blank(job, 0, 2, 0).pose.endForEnd = true;
     },
     {{FindingKind::DefectInZone,
       "Sound knot K9 on face A of board 7 lies in the pocket end of R1."}}},
    {"FaceOverBringsTheShowSideOntoAHole",
     [](Document& job) {
         addOnFaceB(job, id::board7, DefectKind::KnotHole, {in(78), in(7, 4)}, in(1), in(1, 4));
         blank(job, 0, 2, 0).pose.faceOver = true;
     },
     {{FindingKind::DefectInZone,
       "Knot hole K9 on face B of board 7 lies in the show side of R1."}}},
    {"DefectWithoutDepthReachesHalfTheBoard",
     [](Document& job) {
         addOnFaceB(job, id::board7, DefectKind::KnotHole, {in(78), in(7, 4)}, in(1), in(1));
         boardOf(job, id::board7).defects.back().depth.reset();
         blank(job, 0, 2, 0).pose.faceOver = true;
     },
     {{FindingKind::DefectInZone,
       "Knot hole K9 on face B of board 7 lies in the show side of R1."}}},
    {"KnotNearAGluedEdge",
     [](Document& job) {
         addDefect(job, id::board7, DefectKind::SoundKnot, {in(20), in(13, 4)}, in(3, 8));
     },
     {{FindingKind::DefectInZone, "Sound knot K9 on face A of board 7 lies too near the glued edge "
                                  "of T1-1: 1/2\" along and 1/4\" across it count as disturbed "
                                  "grain."}}},
    {"CheckInTheGlueFaceBetweenPlies",
     [](Document& job) {
         addOnFaceB(job, id::board9, DefectKind::Check, {in(10), in(3, 2)}, in(1, 2), in(3, 8));
     },
     {{FindingKind::DefectInZone, "Check K9 on face B of board 9 lies in the glue face of L1a."}}},
    {"PithThroughARailOfATurnedSection",
     [](Document& job) {
         addDefect(job, id::board8, DefectKind::Pith, {in(14), in(2)}, in(1));
     },
     {{FindingKind::DefectInZone, "Pith K9 on face A of board 8 lies in the show side of R2."}}},
    {"AMoveAlongTheGrainHelps",
     [](Document& job) {
         addDefect(job, id::board7, DefectKind::KnotHole, {in(133, 2), in(35, 8)}, in(1, 2));
     },
     {{FindingKind::DefectInZone, "Knot hole K9 on face A of board 7 lies in the body of C1; moved "
                                  "9/16\" towards the far end it is clear."}}},
    {"SecondPartOfAMultiple",
     // Parts of C1 lie from 66 1/4 to 72 1/4 in and from 72 1/2 to 78 1/2 in.
     [](Document& job) {
         addDefect(job, id::board7, DefectKind::Split, {in(155, 2), in(35, 8)}, in(1, 2));
         section(job, 0, 2).along.to = in(159, 2);
         section(job, 0, 2).strips.erase(section(job, 0, 2).strips.begin());
         job.plan->unplaced = {{{id::rail, 1, 0, 0}, "left out here"}};
     },
     {{FindingKind::DefectInZone, "Split K9 on face A of board 7 lies in the body of C1."}}},
    {"UnknownRuleSet",
     [](Document& job) { partOf(job, id::cleat).zones[0].rules = RuleSetId{77}; },
     {{FindingKind::UnknownRules, "The body of part C (Cleat) follows rule set 77, which the shop "
                                  "does not have."}}},
    {"WarpTakesTheThickness",
     [](Document& job) {
         job.info.inchDenominator = 32;
         boardOf(job, id::board7).warp.bow = in(3, 2);
     },
     {{FindingKind::ThicknessNotReached, "T1-1 needs 15/16\" after its first facing; section 1 of "
                                         "board 7, 32\" long and 7 1/2\" wide then, leaves "
                                         "29/32\"."},
      {FindingKind::ThicknessNotReached, "T1-2 needs 15/16\" after its first facing; section 1 of "
                                         "board 7, 32\" long and 7 1/2\" wide then, leaves "
                                         "29/32\"."},
      {FindingKind::ThicknessNotReached, "T1-3 needs 15/16\" after its first facing; section 2 of "
                                         "board 7, 32\" long and 7 1/2\" wide then, leaves "
                                         "29/32\"."},
      {FindingKind::ThicknessNotReached, "T1-4 needs 15/16\" after its first facing; section 2 of "
                                         "board 7, 32\" long and 7 1/2\" wide then, leaves "
                                         "29/32\"."}}},
    {"WarpAtOneEndCountsWhole",
     [](Document& job) {
         Warp& warp = boardOf(job, id::board9).warp;
         warp.twist = in(1, 2);
         warp.where = Warp::Where::MostlyAtDatumEnd;
     },
     {{FindingKind::ThicknessNotReached, "L1a needs 1 1/8\" after its first facing; strip 1 in "
                                         "section 1 of board 9, 22\" long and 2 3/8\" wide then, "
                                         "leaves 1\"."},
      {FindingKind::ThicknessNotReached, "L1b needs 1 1/8\" after its first facing; strip 2 in "
                                         "section 1 of board 9, 22\" long and 2 3/8\" wide then, "
                                         "leaves 1\"."}}},
    {"LaidIntoWoodThatIsPlanedThinner",
     // Rails and cleats need 7/8 + 1/32 (sanding).
     [](Document& job) {
         job.info.inchDenominator = 32;
         section(job, 0, 2).state = CutState::Milled;
         section(job, 0, 2).planedTo = in(3, 4);
     },
     {{FindingKind::PlanedTooThin, "R1 needs wood 29/32\" thick; section 3 of board 7 is planed "
                                   "already, and nothing thicker than 3/4\" comes from it."},
      {FindingKind::PlanedTooThin, "C1 needs wood 29/32\" thick; section 3 of board 7 is planed "
                                   "already, and nothing thicker than 3/4\" comes from it."}}},
    {"LaidIntoAStripThatIsPlanedThinner",
     // Each strip of a section that is rough-ripped first is planed by itself.
     [](Document& job) {
         section(job, 2, 0).state = CutState::Cut;
         strip(job, 2, 0, 0).milled = true;
         strip(job, 2, 0, 0).planedTo = in(1);
     },
     {{FindingKind::PlanedTooThin, "L1a needs wood 1 1/8\" thick; strip 1 in section 1 of board 9 "
                                   "is planed already, and nothing thicker than 1\" comes from "
                                   "it."}}},
    // 7 is 1 3/16 in thick; rails and cleats need 7/8 + 1/32 (sanding) + 1/8 (cleaning) of it.
    {"ThickerThanThePartNeeds",
     [](Document& job) {
         job.info.inchDenominator = 32;
         job.shop.mostPlanedAway = in(1, 8);
     },
     {{FindingKind::TooMuchPlanedAway,
       "R1 comes from board 7, 1 3/16\" thick; its milling needs 1 1/32\", so 5/32\" would be "
       "planed away for nothing. The shop allows 1/8\"."},
      {FindingKind::TooMuchPlanedAway,
       "C1 comes from board 7, 1 3/16\" thick; its milling needs 1 1/32\", so 5/32\" would be "
       "planed away for nothing. The shop allows 1/8\"."}}},
    {"ThinnerThanThePartAllows",
     [](Document& job) {
         job.plan->thicknesses = {{id::rail, in(5, 8)}};
     },
     {{FindingKind::BadThicknessChoice, "The plan makes part R (Long rail) 5/8\" thick; from 3/4\" "
                                        "to 7/8\" is allowed."}}},
    {"ThinnerWhereOnlyTheWantedThicknessWillDo",
     [](Document& job) {
         job.plan->thicknesses = {{id::top, in(3, 4)}};
     },
     {{FindingKind::BadThicknessChoice,
       "The plan makes part T (Top) 3/4\" thick; 7/8\" is asked for."}}},
    {"ThicknessOfAPartThatIsNotThere",
     [](Document& job) {
         job.plan->thicknesses = {{PartId{999}, in(3, 4)}};
     },
     {{FindingKind::UnknownPart,
       "The plan chooses a thickness for a part that is not in the job."}}},
    {"SectionWiderThanTheJointer",
     [](Document& job) {
         job.shop.machines.jointerWidth = in(11, 2);
         section(job, 2, 0).facing = FirstFacing::Whole;
         strip(job, 2, 0, 1).across = {in(11, 4), in(41, 8)};
         blank(job, 2, 0, 1).rect = {in(0), in(11, 4), in(22), in(41, 8)};
         for (std::size_t i = 0; i < 3; ++i) {
             section(job, 0, i).facing = FirstFacing::RoughRippedFirst;
         }
     },
     {{FindingKind::TooWideForMachine,
       "Section 1 of board 9 is 6\" wide when it is first faced; the "
       "jointer takes 5 1/2\"."}}},
    {"StripWiderThanThePlaner",
     [](Document& job) {
         job.shop.machines.planerWidth = in(9, 4);
         for (const std::size_t i : {1U, 0U}) {
             job.plan->boards[i].sections.clear();
         }
         job.plan->unplaced = {{{id::rail, 1, 0, 0}, ""},
                               {{id::rail, 2, 0, 0}, ""},
                               {{id::cleat, 1, 0, 0}, ""},
                               {{id::cleat, 3, 0, 0}, ""},
                               {{id::top, 1, 0, 1}, ""}};
     },
     {{FindingKind::TooWideForMachine, "Strip 1 in section 1 of board 9 is 2 3/8\" wide when it is "
                                       "first faced; the planer takes 2 1/4\"."},
      {FindingKind::TooWideForMachine, "Strip 2 in section 1 of board 9 is 2 3/8\" wide when it is "
                                       "first faced; the planer takes 2 1/4\"."}}},
    {"BlankLongerThanTheShopHandles",
     [](Document& job) { job.shop.machines.longestBoard = in(31); },
     {{FindingKind::TooLongToHandle, "T1-1 on board 7 is 32\" long rough; the longest board "
                                     "handled in the shop is 31\"."},
      {FindingKind::TooLongToHandle, "T1-2 on board 7 is 32\" long rough; the longest board "
                                     "handled in the shop is 31\"."},
      {FindingKind::TooLongToHandle, "T1-3 on board 7 is 32\" long rough; the longest board "
                                     "handled in the shop is 31\"."},
      {FindingKind::TooLongToHandle, "T1-4 on board 7 is 32\" long rough; the longest board "
                                     "handled in the shop is 31\"."}}},
    {"SectionShorterThanThePlanerNeeds",
     [](Document& job) { job.shop.machines.planerLeastLength = in(53, 2); },
     {{FindingKind::TooShortForMachine, "Section 3 of board 7 is 26\" long when it is first faced; "
                                        "the planer needs 26 1/2\"."},
      {FindingKind::TooShortForMachine, "Strip 1 in section 1 of board 9 is 22\" long when it is "
                                        "first faced; the planer needs 26 1/2\"."},
      {FindingKind::TooShortForMachine, "Strip 2 in section 1 of board 9 is 22\" long when it is "
                                        "first faced; the planer needs 26 1/2\"."}}},
    {"BlankShortByOneNanometre",
     [](Document& job) { blank(job, 0, 2, 0).rect.x1 -= nanometre; },
     {{FindingKind::WrongSize,
       "R1 on board 7 is about 26\" x 3 1/4\"; its milling chain asks for 26\" x "
       "3 1/4\". They differ by 0.000001 mm."}}},
    {"ChainTakesMoreThanTheBlankHas",
     [](Document& job) { job.shop.chains.ply[0].across = in(3, 8); },
     {{FindingKind::WrongSize,
       "L1a on board 9 is 22\" x 2 3/8\"; its milling chain asks for 22\" x 2 1/2\"."},
      {FindingKind::WrongSize,
       "L1b on board 9 is 22\" x 2 3/8\"; its milling chain asks for 22\" x 2 1/2\"."}}},
    {"StaveOfTheWrongLength",
     [](Document& job) { blank(job, 0, 0, 0).rect.x1 -= in(1, 2); },
     {{FindingKind::WrongSize,
       "T1-1 on board 7 is 31 1/2\" long; its milling chain asks for 32\"."}}},
    {"CutSmallerThanTheFinishedPart",
     [](Document& job) {
         section(job, 0, 2).state = CutState::Cut;
         blank(job, 0, 2, 0).state = CutState::Cut;
         blank(job, 0, 2, 0).actual = Rect{in(0), in(1, 8), in(95, 4), in(27, 8)};
     },
     {{FindingKind::WrongSize,
       "R1 on board 7 was cut to 23 3/4\" x 3 1/4\", smaller than the finished 24\" x 3\"."}}},
    {"WrongSpecies",
     [](Document& job) { boardOf(job, id::board9).species = "ash"; },
     {{FindingKind::WrongSpecies, "L1a on board 9 would be of ash; part L (Leg) is of walnut."},
      {FindingKind::WrongSpecies, "L1b on board 9 would be of ash; part L (Leg) is of walnut."}}},
    {"OffcutTooSmallToKeep",
     [](Document& job) { section(job, 1, 1).offcuts[0].rect.y1 = in(15, 4); },
     {{FindingKind::BadOffcut,
       "An offcut in section 2 of board 8 is 29 7/8\" x 1 7/8\"; smaller than "
       "16\" x 2\" is not kept."}}},
    {"OffcutOverAStrip",
     [](Document& job) { section(job, 1, 1).offcuts[0].rect.y0 = in(3, 2); },
     {{FindingKind::BadOffcut, "An offcut in section 2 of board 8 overlaps strip 1."}}},
    {"OffcutWithoutKerf",
     [](Document& job) { section(job, 1, 1).offcuts[0].rect.y0 -= nanometre; },
     {{FindingKind::BadOffcut,
       "An offcut in section 2 of board 8 stands closer to strip 1 than the kerf."}}},
    {"OffcutOutsideTheBoard",
     [](Document& job) { section(job, 1, 1).offcuts[0].rect.y1 = in(5); },
     {{FindingKind::BadOffcut, "An offcut in section 2 of board 8 reaches outside the board."}}},
    {"OffcutOverACrosscut",
     [](Document& job) { section(job, 1, 1).offcuts[0].rect.x1 += in(1, 2); },
     {{FindingKind::BadOffcut,
       "An offcut in section 2 of board 8 reaches over a crosscut of its section."}}},
    {"OffcutOverABlankOfItsStrip",
     [](Document& job) {
         strip(job, 1, 1, 0).offcuts = {
             {OffcutId{902}, {in(12), in(0), in(239, 8), in(7, 4)}, CutState::Planned}};
         job.shop.offcuts.leastWidth = in(1);
     },
     {{FindingKind::BadOffcut, "An offcut in section 2 of board 8 overlaps C3."}}},
    {"OffcutTooThin",
     [](Document& job) { job.shop.offcuts.leastThickness = in(5, 4); },
     {{FindingKind::BadOffcut,
       "An offcut in section 2 of board 8 is 1 1/8\" thick; thinner than 1 1/4\" is not kept."}}},
};

class BrokenWood : public testing::TestWithParam<BrokenPlan> {};

TEST_P(BrokenWood, IsFoundAndSaidPlainly) { expectFindings(GetParam()); }

INSTANTIATE_TEST_SUITE_P(Audit, BrokenWood, testing::ValuesIn(brokenWood),
                         [](const auto& tested) { return tested.param.name; });

} // namespace
} // namespace stavewright::audit_sample
