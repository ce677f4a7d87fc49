// Plans broken in their tree of cuts: boards, sections, strips, blanks, kerfs, the order of the
// saws.

#include <algorithm>
#include <utility>

#include <gtest/gtest.h>

#include "BrokenPlan.h"

namespace stavewright::audit_sample {
namespace {

constexpr Length nanometre = Length::nanometres(1);

/// Takes C1 off board 7 and lays it after C3, in the same strip of board 8.
Blank& layCleatAfterCleat(Document& job, Length at) {
    Blank cleat = blank(job, 0, 2, 1);
    section(job, 0, 2).strips.pop_back();
    cleat.rect = {at, in(0), at + in(57, 4), in(7, 4)};
    strip(job, 1, 1, 0).blanks.push_back(cleat);
    return strip(job, 1, 1, 0).blanks.back();
}

/// Gives the strip of C1 these edges and the blank its place in it.
void placeCleat(Document& job, Stretch edges, Length near) {
    strip(job, 0, 2, 1).across = edges;
    blank(job, 0, 2, 1).rect.y0 = near;
    blank(job, 0, 2, 1).rect.y1 = near + in(7, 4);
}

Strip emptyStrip(std::int64_t stripId, Stretch across) {
    Strip strip;
    strip.id = StripId{stripId};
    strip.across = across;
    return strip;
}

const std::vector<BrokenPlan> brokenCuts = {
    {"UnknownBoard",
     [](Document& job) { job.plan->boards[0].board = BoardId{999}; },
     {{FindingKind::UnknownBoard, "The plan cuts a board that is not in the job."},
      {FindingKind::DemandShort, "R1 is neither placed nor listed as unplaced."},
      {FindingKind::DemandShort, "C1 is neither placed nor listed as unplaced."},
      {FindingKind::DemandShort,
       "The staves of T1 add to 0\", 13\" less than the 13\" of the panel, "
       "and the rest is not listed as unplaced."}}},
    {"BoardSetAside",
     [](Document& job) { boardOf(job, id::board9).setAside = true; },
     {{FindingKind::BoardSetAside, "Board 9 is set aside, yet the plan cuts it."}}},
    {"BoardTwice",
     [](Document& job) {
         BoardLayout rest = job.plan->boards[1];
         rest.sections.erase(rest.sections.begin());
         job.plan->boards[1].sections.pop_back();
         job.plan->boards.push_back(rest);
     },
     {{FindingKind::BoardTwice, "The plan lists board 8 twice."}}},
    {"SectionBeforeDatumEnd",
     [](Document& job) { section(job, 0, 0).along.from = in(-1, 2); },
     {{FindingKind::SectionOutsideBoard,
       "Section 1 of board 7 begins 1/2\" before the datum end."}}},
    {"SectionPastFarEnd",
     [](Document& job) { section(job, 1, 1).along.to = in(61); },
     {{FindingKind::SectionOutsideBoard,
       "Section 2 of board 8 ends 1\" past the far end of the board."}}},
    {"SectionsOverlapByOneNanometre",
     [](Document& job) { section(job, 0, 0).along.to = in(265, 8) + nanometre; },
     {{FindingKind::SectionsOverlap, "Sections 1 and 2 of board 7 overlap by 0.000001 mm."}}},
    {"CrosscutKerfShortByOneNanometre",
     [](Document& job) { section(job, 0, 0).along.to += nanometre; },
     {{FindingKind::KerfMissing,
       "Sections 1 and 2 of board 7 stand about 1/8\" apart, 0.000001 mm less "
       "than the 1/8\" that the crosscut takes."}}},
    {"SectionsOutOfOrder",
     [](Document& job) { std::swap(section(job, 1, 0), section(job, 1, 1)); },
     {{FindingKind::CutOrder, "The sections of board 8 are not listed from the datum end on."}}},
    {"SectionWithoutLength",
     [](Document& job) { section(job, 1, 0).along.to = in(1); },
     {{FindingKind::BadNumber, "Section 1 of board 8 has no usable length."}}},
    {"SectionBeyondAllSense",
     [](Document& job) {
         section(job, 1, 0).along.to = Length::nanometres(9'000'000'000'000'000'000);
     },
     {{FindingKind::BadNumber, "Section 1 of board 8 has no usable length."}}},
    {"FrameTurnsOffTheGrain",
     [](Document& job) { section(job, 1, 0).frame.rise = in(20); },
     {{FindingKind::BadFrame,
       "The straightened edge of section 1 of board 8 turns more than 1 in 8 off the grain."}}},
    {"FramePointsNowhere",
     [](Document& job) {
         section(job, 1, 0).frame.run = Length();
         section(job, 1, 0).frame.rise = Length();
     },
     {{FindingKind::BadFrame,
       "The straightened edge of section 1 of board 8 turns more than 1 in 8 off the grain."}}},
    {"StripsOverlapByOneNanometre",
     [](Document& job) { strip(job, 0, 0, 0).across.to = in(15, 4) + nanometre; },
     {{FindingKind::StripsOverlap,
       "Strips 1 and 2 in section 1 of board 7 overlap by 0.000001 mm."}}},
    {"RipKerfShortByOneNanometre",
     [](Document& job) {
         strip(job, 0, 0, 1).across.from -= nanometre;
         blank(job, 0, 0, 1).rect.y0 -= nanometre;
     },
     {{FindingKind::KerfMissing, "Strips 1 and 2 in section 1 of board 7 stand about 1/8\" apart, "
                                 "0.000001 mm less than the 1/8\" that the rip takes."}}},
    {"RoughRipKerfMissing",
     [](Document& job) {
         strip(job, 2, 0, 1).across = {in(21, 8), in(5)};
         blank(job, 2, 0, 1).rect = {in(0), in(21, 8), in(22), in(5)};
     },
     {{FindingKind::KerfMissing, "Strips 1 and 2 in section 1 of board 9 stand 0\" apart, 1/16\" "
                                 "less than the 1/16\" that the rip takes."}}},
    {"StripsOutOfOrder",
     [](Document& job) { std::swap(strip(job, 0, 0, 0), strip(job, 0, 0, 1)); },
     {{FindingKind::CutOrder,
       "The strips of section 1 of board 7 are not listed from the near edge on."}}},
    {"StripWithoutWidth",
     [](Document& job) { strip(job, 0, 2, 1).across.to = in(7, 2); },
     {{FindingKind::BadNumber, "Strip 2 in section 3 of board 7 has no usable width."}}},
    {"StripBesideTheBoard",
     [](Document& job) {
         section(job, 0, 0).strips.push_back(emptyStrip(900, {in(20), in(22)}));
     },
     {{FindingKind::StripOutsideSection,
       "Strip 3 in section 1 of board 7 lies beside the board."}}},
    {"StripNarrowerThanTheSawAllows",
     [](Document& job) {
         section(job, 0, 0).strips.push_back(emptyStrip(900, {in(29, 4), in(15, 2)}));
     },
     {{FindingKind::RipTooNarrow, "Strip 3 in section 1 of board 7 is 1/4\" wide; nothing narrower "
                                  "than 3/4\" is ripped."}}},
    {"BlanksOverlapByOneNanometre",
     [](Document& job) { layCleatAfterCleat(job, in(57, 4) - nanometre); },
     {{FindingKind::BlanksOverlap, "C3 and C1 overlap by 0.000001 mm on board 8."}}},
    {"StripCrosscutKerfShortByOneNanometre",
     [](Document& job) { layCleatAfterCleat(job, in(115, 8) - nanometre); },
     {{FindingKind::KerfMissing,
       "C3 and C1 on board 8 stand about 1/8\" apart, 0.000001 mm less than the "
       "1/8\" that the crosscut takes."}}},
    {"BlanksOutOfOrder",
     [](Document& job) {
         layCleatAfterCleat(job, in(115, 8));
         std::swap(strip(job, 1, 1, 0).blanks[0], strip(job, 1, 1, 0).blanks[1]);
     },
     {{FindingKind::CutOrder,
       "The blanks of strip 1 in section 2 of board 8 are not listed from the low end on."}}},
    {"BlanksSideBySideInOneStrip",
     [](Document& job) {
         section(job, 1, 1).offcuts.clear();
         strip(job, 1, 1, 0).across.to = in(29, 8);
         Blank& cleat = layCleatAfterCleat(job, in(0));
         cleat.rect.y0 = in(15, 8);
         cleat.rect.y1 = in(29, 8);
     },
     {{FindingKind::CutOrder,
       "C3 and C1 stand side by side in one strip of board 8; a strip is only crosscut."}}},
    {"BlankOverTheEdgeOfItsStrip",
     [](Document& job) { strip(job, 0, 2, 1).across.to = in(41, 8); },
     {{FindingKind::BlankOutsideStrip, "C1 on board 7 reaches 1/8\" over the edge of its strip."}}},
    {"TwoTrimmingRips",
     [](Document& job) {
         placeCleat(job, {in(7, 2), in(23, 4)}, in(29, 8));
     },
     {{FindingKind::CutOrder,
       "C1 on board 7 would need two trimming rips; lay it along one edge of "
       "its strip."}}},
    {"TrimmingRipWithoutRoomForItsKerf",
     [](Document& job) {
         placeCleat(job, {in(7, 2), in(85, 16)}, in(7, 2));
     },
     {{FindingKind::KerfMissing,
       "C1 on board 7 leaves 1/16\" beside it in its strip, less than the "
       "1/8\" that the trimming rip takes."}}},
    {"BlankTrimmedNarrowerThanTheSawAllows",
     [](Document& job) {
         partOf(job, id::cleat).width.base = in(1, 4);
         for (Blank* cleat : {&blank(job, 0, 2, 1), &blank(job, 1, 1, 0)}) {
             cleat->rect.y1 = cleat->rect.y0 + in(1, 2);
         }
     },
     {{FindingKind::RipTooNarrow,
       "C1 on board 7 is trimmed to 1/2\"; nothing narrower than 3/4\" is ripped."},
      {FindingKind::RipTooNarrow,
       "C3 on board 8 is trimmed to 1/2\"; nothing narrower than 3/4\" is ripped."}}},
    {"BlankWithoutSize",
     [](Document& job) { blank(job, 0, 2, 1).rect.x1 = in(0); },
     {{FindingKind::BadNumber, "C1 on board 7 has no usable size."}}},
    {"BlankOverItsCrosscutByOneNanometre",
     [](Document& job) {
         blank(job, 0, 2, 1).rect.x0 -= nanometre;
         blank(job, 0, 2, 1).rect.x1 -= nanometre;
     },
     {{FindingKind::BlankOutsideSection,
       "C1 reaches 0.000001 mm over the crosscut at 65 1/4\" of board 7."}}},
    {"TurnedBlankOverItsCrosscut",
     [](Document& job) { section(job, 1, 0).along.to = in(109, 4); },
     {{FindingKind::BlankOutsideSection,
       "R2 reaches 1/4\" over the crosscut at 27 1/4\" of board 8."}}},
    {"BlankOverTheEdgeOfTheBoard",
     [](Document& job) {
         strip(job, 0, 2, 0).across = {in(-1, 8), in(25, 8)};
         blank(job, 0, 2, 0).rect = {in(0), in(-1, 8), in(26), in(25, 8)};
     },
     {{FindingKind::BlankOutsideBoard, "R1 reaches 1/8\" over the edge of board 7 at 65 1/4\"."}}},
    {"BlankOverTheWane",
     // The far edge falls 1 in over the last 32 in: at 88 in the board is 6 3/4 in wide.
     [](Document& job) {
         placeCleat(job, {in(41, 8), in(55, 8)}, in(41, 8));
         blank(job, 0, 2, 1).rect.x0 = in(17, 2);
         blank(job, 0, 2, 1).rect.x1 = in(91, 4);
     },
     {{FindingKind::BlankOutsideBoard, "C1 reaches 1/8\" over the edge of board 7 at 88\"."}}},
    {"BlankInTheRawDatumEnd",
     [](Document& job) {
         section(job, 0, 0).along.from = in(1, 2);
         blank(job, 0, 0, 0).rect.x0 = in(-1, 2);
         blank(job, 0, 0, 0).rect.x1 = in(63, 2);
     },
     {{FindingKind::RawEnd,
       "T1-1 lies 1/2\" in the raw datum end of board 7, where 1\" is cut off."}}},
    {"BlankInTheMarkedFarEnd",
     [](Document& job) { boardOf(job, id::board7).trimAtFar = in(6); },
     {{FindingKind::RawEnd,
       "R1 lies 1 1/4\" in the raw far end of board 7, where 6\" is cut off."}}},
};

class BrokenCuts : public testing::TestWithParam<BrokenPlan> {};

TEST_P(BrokenCuts, IsFoundAndSaidPlainly) { expectFindings(GetParam()); }

INSTANTIATE_TEST_SUITE_P(Audit, BrokenCuts, testing::ValuesIn(brokenCuts),
                         [](const auto& tested) { return tested.param.name; });

/// T1-3 of section 2 pushed back through both crosscuts until it lies over T1-1 by this much.
bool saysThatSectionsBlanksOverlap(Length by) {
    Document job = goodJob();
    blank(job, 0, 1, 0).rect.x0 -= in(1, 8) + by;
    const std::vector<Expected> failures = failuresOf(audit(job));
    const Expected overlap{FindingKind::BlanksOverlap,
                           "T1-1 and T1-3 from two sections overlap on board 7."};
    return std::find(failures.begin(), failures.end(), overlap) != failures.end();
}

TEST(PolygonTolerance, BlanksOfTwoSectionsMayMeetByTwoMicrometresAndNotByFive) {
    EXPECT_FALSE(saysThatSectionsBlanksOverlap(Length::micrometres(2)));
    EXPECT_TRUE(saysThatSectionsBlanksOverlap(Length::micrometres(5)));
}

TEST(PolygonTolerance, BlanksMayLeaveTheBoardByTwoMicrometresAndNotByFive) {
    const auto leavesTheBoard = [](Length by) {
        Document job = goodJob();
        strip(job, 0, 2, 0).across = {-by, in(13, 4) - by};
        blank(job, 0, 2, 0).rect.y0 = -by;
        blank(job, 0, 2, 0).rect.y1 = in(13, 4) - by;
        claimWhatIsCounted(job);
        return !audit(job).passed();
    };
    EXPECT_FALSE(leavesTheBoard(Length::micrometres(2)));
    EXPECT_TRUE(leavesTheBoard(Length::micrometres(5)));
}

} // namespace
} // namespace stavewright::audit_sample
