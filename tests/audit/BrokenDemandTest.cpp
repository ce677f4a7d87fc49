// Plans broken in what they deliver: missing, doubled and unknown blanks, panels, the unplaced
// list, states, ids and totals.

#include <gtest/gtest.h>

#include "BrokenPlan.h"

namespace stavewright::audit_sample {
namespace {

constexpr Length nanometre = Length::nanometres(1);

/// Gives T1-4 this rough width.
void widenLastStave(Document& job, Length by) {
    strip(job, 0, 1, 1).across.to += by;
    blank(job, 0, 1, 1).rect.y1 += by;
}

const std::vector<BrokenPlan> brokenDemand = {
    {"BlankMissing",
     [](Document& job) { section(job, 1, 0).strips.clear(); },
     {{FindingKind::DemandShort, "R2 is neither placed nor listed as unplaced."}}},
    {"PartWantedOnceMore",
     [](Document& job) { partOf(job, id::rail).count = 3; },
     {{FindingKind::DemandShort, "R3 is neither placed nor listed as unplaced."}}},
    {"PartWantedOnceLess",
     [](Document& job) { partOf(job, id::rail).count = 1; },
     {{FindingKind::DemandExceeded, "R2 on board 8 is a blank that the job does not ask for."}}},
    {"PlacedTwice",
     [](Document& job) { blank(job, 1, 0, 0).purpose.instance = 1; },
     {{FindingKind::DuplicatePurpose, "R1 is placed twice; the second one is on board 8."},
      {FindingKind::DemandShort, "R2 is neither placed nor listed as unplaced."}}},
    {"UnknownPart",
     [](Document& job) { blank(job, 1, 0, 0).purpose.part = PartId{999}; },
     {{FindingKind::UnknownPart, "A blank on board 8 is for a part that is not in the job."},
      {FindingKind::DemandShort, "R2 is neither placed nor listed as unplaced."}}},
    {"MultipleBeginsInItsMiddle",
     [](Document& job) { blank(job, 1, 1, 0).purpose.instance = 4; },
     {{FindingKind::DemandExceeded, "C4 on board 8 is a blank that the job does not ask for."},
      {FindingKind::DemandShort, "C3 is neither placed nor listed as unplaced."}}},
    {"PlyThatTheLegDoesNotHave",
     [](Document& job) { blank(job, 2, 0, 1).purpose.ply = 3; },
     {{FindingKind::DemandExceeded, "L1c on board 9 is a blank that the job does not ask for."},
      {FindingKind::DemandShort, "L1b is neither placed nor listed as unplaced."}}},
    {"StaveOfAPartWithoutStaves",
     [](Document& job) { blank(job, 1, 0, 0).purpose.stave = 1; },
     {{FindingKind::DemandExceeded, "R2-1 on board 8 is a blank that the job does not ask for."},
      {FindingKind::DemandShort, "R2 is neither placed nor listed as unplaced."}}},
    {"PanelShortByOneNanometre",
     [](Document& job) { widenLastStave(job, -nanometre); },
     {{FindingKind::DemandShort,
       "The staves of T1 add to about 13\", 0.000001 mm less than the 13\" of "
       "the panel, and the rest is not listed as unplaced."}}},
    {"PanelWithoutNumberedStave",
     [](Document& job) { blank(job, 0, 1, 1).purpose.stave = 0; },
     {{FindingKind::DemandExceeded, "T1 on board 7 is a blank that the job does not ask for."},
      {FindingKind::DemandShort,
       "The staves of T1 add to 9 3/4\", 3 1/4\" less than the 13\" of the "
       "panel, and the rest is not listed as unplaced."}}},
    {"PanelTooWide",
     [](Document& job) { widenLastStave(job, in(5, 16)); },
     {{FindingKind::PanelWidth,
       "The staves of T1 add to 13 5/16\", 1/16\" more than the 13 1/4\" that "
       "the panel may have."}}},
    {"TooFewStaves",
     [](Document& job) { partOf(job, id::top).makeUp.panel->fewestStaves = 5; },
     {{FindingKind::StaveCount, "T1 has 4 staves; from 5 to 5 are allowed."}}},
    {"TooManyStaves",
     [](Document& job) { partOf(job, id::top).makeUp.panel->mostStaves = 3; },
     {{FindingKind::StaveCount, "T1 has 4 staves; from 3 to 3 are allowed."}}},
    {"StaveTooNarrow",
     [](Document& job) {
         widenLastStave(job, in(-7, 4));
         partOf(job, id::top).width.base = in(41, 4);
     },
     {{FindingKind::StaveWidth,
       "T1-4 on board 7 is 1 1/2\" wide in the panel; from 2\" to 6\" is allowed."}}},
    {"StaveTooWide",
     [](Document& job) {
         partOf(job, id::top).makeUp.panel->widestStave = in(13, 4);
         widenLastStave(job, in(1, 16));
     },
     {{FindingKind::StaveWidth,
       "T1-4 on board 7 is 3 5/16\" wide in the panel; from 2\" to 3 1/4\" is allowed."}}},
    {"UnplacedAndPlaced",
     [](Document& job) {
         job.plan->unplaced = {{{id::rail, 1, 0, 0}, "no room"}};
     },
     {{FindingKind::BadUnplaced, "R1 is listed as unplaced, but it is placed."}}},
    {"UnplacedTwice",
     [](Document& job) {
         section(job, 1, 0).strips.clear();
         job.plan->unplaced = {{{id::rail, 2, 0, 0}, "no room"}, {{id::rail, 2, 0, 0}, "no room"}};
     },
     {{FindingKind::BadUnplaced, "R2 is listed as unplaced twice."}}},
    {"UnplacedAndNotWanted",
     [](Document& job) {
         job.plan->unplaced = {{{id::rail, 3, 0, 0}, "no room"}};
     },
     {{FindingKind::BadUnplaced, "R3 is listed as unplaced, but the job does not ask for it."}}},
    {"UnplacedOfAnUnknownPart",
     [](Document& job) {
         job.plan->unplaced = {{{PartId{999}, 1, 0, 0}, "no room"}};
     },
     {{FindingKind::UnknownPart, "The unplaced list names a part that is not in the job."}}},
    {"UnplacedStaveOfACompletePanel",
     [](Document& job) {
         job.plan->unplaced = {{{id::top, 1, 0, 5}, "no room"}};
     },
     {{FindingKind::BadUnplaced,
       "T1-5 is listed as unplaced, but the staves of its panel are complete."}}},
    {"CutFromASectionThatIsOnlyPlanned",
     [](Document& job) { blank(job, 0, 2, 0).state = CutState::Cut; },
     {{FindingKind::BadState,
       "R1 on board 7 is cut although section 3 of board 7 is only planned."}}},
    {"MeasuredBeforeItIsCut",
     [](Document& job) { blank(job, 0, 2, 0).actual = blank(job, 0, 2, 0).rect; },
     {{FindingKind::BadState, "R1 on board 7 has a measured size although it is only planned."}}},
    {"GluedThoughOfOneBoard",
     [](Document& job) {
         section(job, 0, 2).state = CutState::Cut;
         blank(job, 0, 2, 0).state = CutState::Glued;
     },
     {{FindingKind::BadState, "R1 on board 7 is glued although its part is made of one board."}}},
    {"MilledASecondTimeThoughNotLaminated",
     [](Document& job) {
         section(job, 0, 0).state = CutState::Cut;
         blank(job, 0, 0, 0).state = CutState::SecondMilled;
     },
     {{FindingKind::BadState,
       "T1-1 on board 7 is milled a second time although its part is not laminated."}}},
    {"OffcutCutFromASectionThatIsOnlyPlanned",
     [](Document& job) { section(job, 1, 1).offcuts[0].state = CutState::Cut; },
     {{FindingKind::BadState, "An offcut is cut although section 2 of board 8 is only planned."}}},
    {"BlankIdTwice",
     [](Document& job) { blank(job, 1, 0, 0).id = blank(job, 0, 0, 0).id; },
     {{FindingKind::DuplicateId, "The id 503 is given to two blanks; one is on board 8."}}},
    {"StripIdTwice",
     [](Document& job) { strip(job, 1, 0, 0).id = strip(job, 0, 0, 0).id; },
     {{FindingKind::DuplicateId, "The id 502 is given to two strips; one is on board 8."}}},
    {"SectionIdTwice",
     [](Document& job) { section(job, 1, 0).id = section(job, 0, 0).id; },
     {{FindingKind::DuplicateId, "The id 501 is given to two sections; one is on board 8."}}},
    {"BlankWithoutId",
     [](Document& job) { blank(job, 1, 0, 0).id = {}; },
     {{FindingKind::DuplicateId, "A blank of board 8 has no id."}}},
};

class BrokenDemand : public testing::TestWithParam<BrokenPlan> {};

TEST_P(BrokenDemand, IsFoundAndSaidPlainly) { expectFindings(GetParam()); }

INSTANTIATE_TEST_SUITE_P(Audit, BrokenDemand, testing::ValuesIn(brokenDemand),
                         [](const auto& tested) { return tested.param.name; });

TEST(Demand, ASizeThatLeansOnItselfIsNamed) {
    Document job = goodJob();
    Part& rail = partOf(job, id::rail);
    rail.length.leans = {{1, id::rail, Dimension::Length}};
    const std::vector<Expected> failures = failuresOf(audit(job));
    ASSERT_FALSE(failures.empty());
    bool named = false;
    for (const Expected& failure : failures) {
        named = named ||
                (failure.kind == FindingKind::UnresolvedSize &&
                 failure.sentence.starts_with("The size of part R (Long rail) is not known: "));
    }
    EXPECT_TRUE(named);
}

/// Taking any one blank away leaves exactly one thing to say, unless the blank is listed as
/// unplaced.
TEST(Demand, RemovingAnyBlankMakesExactlyTheDemandFinding) {
    Document whole = goodJob();
    for (std::size_t b = 0; b < whole.plan->boards.size(); ++b) {
        for (std::size_t s = 0; s < whole.plan->boards[b].sections.size(); ++s) {
            for (std::size_t t = 0; t < section(whole, b, s).strips.size(); ++t) {
                Document job = goodJob();
                const BlankPurpose purpose = blank(job, b, s, t).purpose;
                SCOPED_TRACE(labelOf(job, purpose));
                strip(job, b, s, t).blanks.clear();
                claimWhatIsCounted(job);
                const std::vector<Expected> failures = failuresOf(audit(job));
                ASSERT_EQ(failures.size(), 1U);
                EXPECT_EQ(failures[0].kind, FindingKind::DemandShort);

                job.plan->unplaced = {{purpose, "left out"}};
                claimWhatIsCounted(job);
                EXPECT_TRUE(audit(job).passed());
            }
        }
    }
}

} // namespace
} // namespace stavewright::audit_sample
