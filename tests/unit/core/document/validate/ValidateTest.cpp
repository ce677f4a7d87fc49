#include <gtest/gtest.h>

#include <functional>

#include "core/document/Limits.h"
#include "tests/unit/core/document/SampleDocument.h"

namespace stavewright {
namespace {

constexpr auto in = [](std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); };

TEST(ValidateTest, TheSamplesAreValid) {
    for (const Document& document : {sample::sideTable(), sample::withSmallPlan()}) {
        const Status status = validate(document);
        EXPECT_TRUE(status) << describe(status.error());
    }
}

TEST(ValidateTest, AnEmptyJobIsValid) {
    Document document;
    document.shop = inchShop();
    document.nextId = presetRules::last + 1;
    const Status status = validate(document);
    EXPECT_TRUE(status) << describe(status.error());
}

/// One way to spoil the sample, and what must be said about it.
struct Offence {
    const char* name;
    std::function<void(Document&)> spoil;
    const char* place;
    const char* words; ///< must stand in the sentence
};

void PrintTo(const Offence& offence, std::ostream* out) { *out << offence.name; }

class ValidateOffence : public ::testing::TestWithParam<Offence> {};

TEST_P(ValidateOffence, IsOneSentenceAtItsPlace) {
    Document document = sample::withSmallPlan();
    GetParam().spoil(document);
    const Status status = validate(document);
    ASSERT_FALSE(status);
    const Error& error = status.error();
    EXPECT_EQ(error.code, ErrorCode::BadInput);
    EXPECT_EQ(error.place, GetParam().place) << error.message;
    EXPECT_NE(error.message.find(GetParam().words), std::string::npos) << error.message;
    EXPECT_EQ(error.message.back(), '.') << error.message;
    EXPECT_EQ(error.message.find('\n'), std::string::npos);
}

const Offence idOffences[] = {
    {"IdTwice", [](Document& d) { d.parts[0].id = PartId{20}; }, "/parts/0/id",
     "20 is given twice, first at /boards/0"},
    {"IdOfADefectTwice", [](Document& d) { d.boards[1].defects[0].id = DefectId{22}; },
     "/boards/1/defects/0/id", "22 is given twice, first at /boards/0/defects/0"},
    {"IdOfABlankTwice",
     [](Document& d) { d.plan->boards[0].sections[0].strips[1].blanks[0].id = BlankId{53}; },
     "/plan/boards/0/sections/0/strips/1/blanks/0/id", "53 is given twice"},
    {"IdZero", [](Document& d) { d.joints[0].id = {}; }, "/joints/0/id", "is 0; it must be from 1"},
    {"NextIdTooLow", [](Document& d) { d.nextId = 55; }, "/nextId", "must be above 55"},
};
INSTANTIATE_TEST_SUITE_P(Ids, ValidateOffence, ::testing::ValuesIn(idOffences));

const Offence boardOffences[] = {
    {"TooManyBoards", [](Document& d) { d.boards.resize(mostBoards + 1); }, "/boards",
     "There are 2001 boards; at most 2000"},
    {"MarkTwice", [](Document& d) { d.boards[1].mark = "1"; }, "/boards/1/mark",
     "“1” is given to two boards, first at /boards/0"},
    {"MarkEmpty", [](Document& d) { d.boards[1].mark = ""; }, "/boards/1/mark", "is empty"},
    {"MarkTooLong", [](Document& d) { d.boards[1].mark = "aaaaaaaaaaaaaaaaa"; }, "/boards/1/mark",
     "17 characters; at most 16"},
    {"MarkWithControl", [](Document& d) { d.boards[1].mark = "a\nb"; }, "/boards/1/mark",
     "not text"},
    {"MarkNotUtf8", [](Document& d) { d.boards[1].mark = "a\xFF"; }, "/boards/1/mark", "not text"},
    {"MarkWithBlankBehind", [](Document& d) { d.boards[1].mark = "a "; }, "/boards/1/mark",
     "begin or end with a blank"},
    {"SpeciesUnknown", [](Document& d) { d.boards[0].species = "cheese"; }, "/boards/0/species",
     "“cheese”; it must be one of"},
    {"QuarterUnknown", [](Document& d) { d.boards[0].quarter = {7}; }, "/boards/0/quarter",
     "7/4; it must be 4/4"},
    {"ThinnestZero", [](Document& d) { d.boards[0].thinnest = {}; }, "/boards/0/thinnest",
     "is 0; it must be above 0"},
    {"ThinnestNegative", [](Document& d) { d.boards[0].thinnest = in(-1, 2); },
     "/boards/0/thinnest", "-1/2\"; it must be above 0"},
    {"ThinnestByANanometre",
     [](Document& d) { d.boards[0].thinnest = limits::thickest + Length::nanometres(1); },
     "/boards/0/thinnest", "300.000001 mm"},
    {"BowNegative", [](Document& d) { d.boards[0].warp.bow = in(-1); }, "/boards/0/warp/bow",
     "bow of board 1"},
    {"CupHuge", [](Document& d) { d.boards[0].warp.cup = in(40); }, "/boards/0/warp/cup",
     "at most"},
    {"TwistNegative", [](Document& d) { d.boards[0].warp.twist = in(-1); }, "/boards/0/warp/twist",
     "twist"},
    {"PriceNegative", [](Document& d) { d.boards[0].pricePerBoardFoot = Money::cents(-1); },
     "/boards/0/pricePerBoardFoot", "at least 0"},
    {"BilledZero", [](Document& d) { d.boards[0].billed = BoardFeet(); }, "/boards/0/billed",
     "above 0"},
    {"MoistureNegative", [](Document& d) { d.boards[0].moistureTenths = -1; },
     "/boards/0/moistureTenths", "from 0 to 2000"},
    {"OutlineOfTwoCorners", [](Document& d) { d.boards[0].outline.resize(2); }, "/boards/0/outline",
     "outline of board 1"},
    {"OutlineCrossesItself",
     [](Document& d) { std::swap(d.boards[0].outline[2], d.boards[0].outline[3]); },
     "/boards/0/outline", "outline of board 1"},
    {"OutlineNotFromZero",
     [](Document& d) {
         for (Point& corner : d.boards[1].outline) {
             corner.x += in(1);
         }
     },
     "/boards/1/outline", "begins at x = 1\""},
    {"OutlineFoldsBack",
     [](Document& d) {
         d.boards[1].outline = {{in(0), in(0)},   {in(84), in(0)}, {in(84), in(10)},
                                {in(60), in(10)}, {in(70), in(6)}, {in(50), in(9)},
                                {in(0), in(10)}};
     },
     "/boards/1/outline", "folds back"},
    {"OutlineTooLong",
     [](Document& d) {
         d.boards[1].outline = sample::rectangle({}, {}, Length::millimetres(12'001), in(10));
     },
     "/boards/1/outline/1", "of a corner of the outline of board 2"},
    {"OutlineTooWide",
     [](Document& d) { d.boards[1].outline = sample::rectangle({}, {}, in(84), in(60)); },
     "/boards/1/outline", "The width of board 2 is 60\""},
    {"OutlineOfTooManyCorners",
     [](Document& d) { d.boards[1].outline.resize(limits::cornersOfOneOutline + 1); },
     "/boards/1/outline", "There are 1001 corners"},
    {"TrimNegative", [](Document& d) { d.boards[0].trimAtFar = in(-1); }, "/boards/0/trimAtFar",
     "far end of board 1"},
    {"TrimLongerThanTheBoard", [](Document& d) { d.boards[0].trimAtDatum = in(96); },
     "/boards/0/trimAtDatum", "below 96\""},
    {"TrimsTogetherLongerThanTheBoard", [](Document& d) { d.boards[0].trimAtFar = in(94); },
     "/boards/0/trimAtFar", "together they must be below its length, 96\""},
    {"LookedAtBeyondTheEnd", [](Document& d) { d.boards[0].lookedAt[1].stretch.to = in(97); },
     "/boards/0/lookedAt/1/stretch", "from 0 to 97\""},
    {"LookedAtBackwards",
     [](Document& d) {
         d.boards[0].lookedAt[1].stretch = {in(9), in(3)};
     },
     "/boards/0/lookedAt/1/stretch", "run forwards"},
    {"ParentItself",
     [](Document& d) {
         d.boards[0].parent = BoardParent{sample::thinBoard, {}, false};
     },
     "/boards/0/parent/board", "another board"},
    {"ParentNeverWas",
     [](Document& d) {
         d.boards[0].parent = BoardParent{BoardId{999}, {}, false};
     },
     "/boards/0/parent/board", "id 999"},
};
INSTANTIATE_TEST_SUITE_P(Boards, ValidateOffence, ::testing::ValuesIn(boardOffences));

const Offence defectOffences[] = {
    {"MarkTwiceOnABoard", [](Document& d) { d.boards[0].defects[1].mark = "K1"; },
     "/boards/0/defects/1/mark", "“K1” is given to two defects of board 1"},
    {"MarkEmpty", [](Document& d) { d.boards[0].defects[1].mark = ""; }, "/boards/0/defects/1/mark",
     "is empty"},
    {"NoMarkOnEitherFace", [](Document& d) { d.boards[0].defects[2].onA.reset(); },
     "/boards/0/defects/2", "“onA”, “onB” or both"},
    {"OutsideItsBoard",
     [](Document& d) {
         d.boards[0].defects[0].onA->outline = sample::rectangle(in(97), in(1), in(99), in(2));
     },
     "/boards/0/defects/0/onA/outline", "lies outside the board"},
    {"MoreThanHalfOutsideItsBoard",
     [](Document& d) {
         d.boards[1].defects[1].onB->outline = sample::rectangle(in(10), in(9), in(14), in(12));
     },
     "/boards/1/defects/1/onB/outline", "at least half"},
    {"CrossesItself",
     [](Document& d) {
         auto& outline = d.boards[0].defects[0].onB->outline;
         std::swap(outline[0], outline[1]);
         std::swap(outline[0], outline[3]);
         outline[0].y += in(1, 4);
         std::swap(outline[1], outline[2]);
     },
     "/boards/0/defects/0/onB/outline", "the mark of defect K1 on board 1"},
    {"DepthZero", [](Document& d) { d.boards[0].defects[1].depth = Length(); },
     "/boards/0/defects/1/depth", "above 0"},
    {"EllipseWithoutWidth", [](Document& d) { d.boards[0].defects[1].onA->form->across = {}; },
     "/boards/0/defects/1/onA/ellipse/across", "above 0"},
};
INSTANTIATE_TEST_SUITE_P(Defects, ValidateOffence, ::testing::ValuesIn(defectOffences));

const Offence partOffences[] = {
    {"MarkTwice", [](Document& d) { d.parts[2].mark = "L"; }, "/parts/2/mark",
     "given to two parts"},
    {"LabelsClash",
     [](Document& d) {
         d.parts[1].count = 21;
         d.parts[2].mark = "L2";
     },
     "/parts/2/mark", "the same label"},
    {"SpeciesUnknown", [](Document& d) { d.parts[0].species = ""; }, "/parts/0/species", "“”"},
    {"CountZero", [](Document& d) { d.parts[0].count = 0; }, "/parts/0/count", "from 1 to 10000"},
    {"CountHuge", [](Document& d) { d.parts[0].count = 10'001; }, "/parts/0/count", "10001"},
    {"PerBlankZero", [](Document& d) { d.parts[2].perBlank = 0; }, "/parts/2/perBlank", "from 1"},
    {"WidthNegative", [](Document& d) { d.parts[0].width.base = in(-1); }, "/parts/0/width",
     "-1\"; it must be above 0"},
    {"LengthHuge", [](Document& d) { d.parts[0].length.base = Length::millimetres(13'000); },
     "/parts/0/length", "at most"},
    {"ThicknessHuge", [](Document& d) { d.parts[0].thickness.base = in(13); }, "/parts/0/thickness",
     "at most"},
    {"LeansToNothingLeft", [](Document& d) { d.parts[1].length.base = in(3, 4); },
     "/parts/1/length", "The length of part L is 0"},
    {"LeansOnAMissingPart", [](Document& d) { d.parts[1].length.leans[0].part = PartId{99}; },
     "/parts/1/length/leans", "part id 99"},
    {"LeansOnItself",
     [](Document& d) {
         d.parts[1].length.leans = {{1, sample::leg, Dimension::Length}};
     },
     "/parts/1/length/leans", "circle"},
    {"LeanFactor", [](Document& d) { d.parts[1].length.leans[0].factor = 2; },
     "/parts/1/length/leans/0/factor", "1 or -1"},
    {"LeastThicknessAboveWanted", [](Document& d) { d.parts[0].leastThickness = in(1); },
     "/parts/0/leastThickness", "at most 3/4\""},
    {"OnePly", [](Document& d) { d.parts[1].makeUp.lamination->plies = 1; },
     "/parts/1/makeUp/lamination/plies", "from 2 to 26"},
    {"LeastStaveZero", [](Document& d) { d.parts[0].makeUp.panel->leastStave = {}; },
     "/parts/0/makeUp/panel/leastStave", "above 0"},
    {"WidestStaveBelowLeast", [](Document& d) { d.parts[0].makeUp.panel->widestStave = in(1); },
     "/parts/0/makeUp/panel/widestStave", "at least 2\""},
    {"NoStaves", [](Document& d) { d.parts[0].makeUp.panel->fewestStaves = 0; },
     "/parts/0/makeUp/panel/fewestStaves", "from 1"},
    {"MostStavesBelowFewest", [](Document& d) { d.parts[0].makeUp.panel->mostStaves = 1; },
     "/parts/0/makeUp/panel/mostStaves", "from 2"},
    {"ZoneRulesUnknown", [](Document& d) { d.parts[0].zones[1].rules = RuleSetId{99}; },
     "/parts/0/zones/1/rules", "no rule set"},
    {"ZoneOutsideItsPart",
     [](Document& d) {
         d.parts[0].zones[1].area.along.to = {Anchored::From::High, in(1)};
     },
     "/parts/0/zones/1/area/along", "from 0 to 24\""},
    {"ZoneWithoutExtent",
     [](Document& d) {
         d.parts[0].zones[1].area.across.to = {Anchored::From::Low, {}};
     },
     "/parts/0/zones/1/area/across", "run forwards"},
};
INSTANTIATE_TEST_SUITE_P(Parts, ValidateOffence, ::testing::ValuesIn(partOffences));

const Offence otherOffences[] = {
    {"JointPartUnknown", [](Document& d) { d.joints[0].sides[1].part = PartId{99}; },
     "/joints/0/sides/1/part", "part id 99"},
    {"JointWithoutSides", [](Document& d) { d.joints[0].sides.clear(); }, "/joints/0/sides",
     "1 or 2"},
    {"JointRulesUnknown", [](Document& d) { d.joints[0].rules = RuleSetId{98}; }, "/joints/0/rules",
     "no rule set"},
    {"JointOutsideItsPart",
     [](Document& d) { d.joints[0].sides[0].area = sample::endOf(Anchored::From::Low, in(11)); },
     "/joints/0/sides/0/area/along", "length of part R"},
    {"GroupWithoutParts", [](Document& d) { d.groups[0].parts.clear(); }, "/groups/0/parts",
     "no parts"},
    {"GroupPartUnknown", [](Document& d) { d.groups[0].parts[1] = PartId{99}; },
     "/groups/0/parts/1", "part id 99"},
    {"GroupPartTwice", [](Document& d) { d.groups[0].parts[1] = d.groups[0].parts[0]; },
     "/groups/0/parts/1", "twice"},
    {"KerfZero", [](Document& d) { d.shop.machines.rip.kerf = {}; }, "/shop/machines/rip/kerf",
     "above 0 and below 1\""},
    {"KerfOfAnInch", [](Document& d) { d.shop.machines.crosscut.kerf = in(1); },
     "/shop/machines/crosscut/kerf", "below 1\""},
    {"JointerZero", [](Document& d) { d.shop.machines.jointerWidth = {}; },
     "/shop/machines/jointerWidth", "jointer"},
    {"WorthTooMuch", [](Document& d) { d.shop.offcuts.worthPercent = 61; },
     "/shop/offcuts/worthPercent", "from 0 to 60"},
    {"WidthStepZero", [](Document& d) { d.shop.widthStep = {}; }, "/shop/widthStep", "above 0"},
    {"AllowanceNegative", [](Document& d) { d.shop.chains.ply.at(0).across = in(-1, 8); },
     "/shop/chains/ply/0/across", "at least 0"},
    {"FillPriceNegative", [](Document& d) { d.shop.prices.fillEach = Money::whole(-1); },
     "/shop/prices/fillEach", "at least 0"},
    {"LargestZero", [](Document& d) { d.shop.ruleSets[0].rules[0].largest = Length(); },
     "/shop/ruleSets/0/rules/sound knot/largest", "above 0"},
    {"HaloNegative", [](Document& d) { d.shop.ruleSets[2].halo.alongHundredths = -1; },
     "/shop/ruleSets/2/halo/alongHundredths", "from 0"},
    {"Denominator", [](Document& d) { d.info.inchDenominator = 10; }, "/job/inchDenominator",
     "1/10"},
    {"PlanBoardUnknown", [](Document& d) { d.plan->boards[0].board = BoardId{99}; },
     "/plan/boards/0/board", "board id 99"},
    {"PlanBoardTwice",
     [](Document& d) {
         d.plan->boards.push_back({d.plan->boards[0].board, {}, false});
     },
     "/plan/boards/1/board", "twice"},
    {"PlanPartUnknown",
     [](Document& d) {
         d.plan->boards[0].sections[0].strips[0].blanks[0].purpose.part = PartId{99};
     },
     "/plan/boards/0/sections/0/strips/0/blanks/0/part", "part id 99"},
    {"PlanProvedBelowItself",
     [](Document& d) {
         d.plan->origin.proof = Proof{Money::whole(90), Money::whole(95)};
     },
     "/plan/origin/proof/least", "95.00, but this one counts for"},
    {"PlanTakesLessThanTheLeastLumber",
     [](Document& d) {
         d.plan->origin.proof = Proof{Money::whole(95), Money::whole(90),
                                      d.plan->totals.lumberUsed + BoardFeet::millionths(1)};
     },
     "/plan/origin/proof/leastLumber", "board feet of boards, but this one takes"},
    {"PlanInstanceZero", [](Document& d) { d.plan->unplaced[0].purpose.instance = 0; },
     "/plan/unplaced/0/instance", "from 1"},
    {"PlanFrameNowhere",
     [](Document& d) {
         d.plan->boards[0].sections[0].frame.run = {};
         d.plan->boards[0].sections[0].frame.rise = {};
     },
     "/plan/boards/0/sections/0/frame", "direction"},
    {"PlanSectionPlanedToNothing",
     [](Document& d) { d.plan->boards[0].sections[0].planedTo = Length(); },
     "/plan/boards/0/sections/0/planedTo", "above"},
    {"PlanStripPlanedTooThick",
     [](Document& d) {
         d.plan->boards[0].sections[0].strips[1].planedTo =
             limits::thickest + Length::nanometres(1);
     },
     "/plan/boards/0/sections/0/strips/1/planedTo", "planed to"},
    {"PlanThicknessUnknownPart", [](Document& d) { d.plan->thicknesses[0].part = PartId{98}; },
     "/plan/thicknesses/0/part", "part id 98"},
};
INSTANTIATE_TEST_SUITE_P(Others, ValidateOffence, ::testing::ValuesIn(otherOffences));

TEST(ValidateTest, AMarkMayRunOverTheEdgeByHalf) {
    Document document = sample::sideTable();
    document.boards[1].defects[1].onB->outline =
        sample::rectangle(in(10), in(9), in(14), in(11)); // the board ends at 10 in
    const Status status = validate(document);
    EXPECT_TRUE(status) << describe(status.error());
}

TEST(ValidateTest, MarksThatShareABeginningAreFineWhileLabelsDiffer) {
    Document document = sample::sideTable();
    document.parts[1].count = 20;  // L1 ... L20
    document.parts[2].mark = "L2"; // L21 ... L24
    const Status status = validate(document);
    EXPECT_TRUE(status) << describe(status.error());
}

TEST(ValidateTest, SentencesSpeakTheJobsUnit) {
    Document document = sample::sideTable();
    document.info.units = UnitSystem::Millimetres;
    document.boards[0].thinnest = Length::micrometres(-12'700);
    EXPECT_EQ(validate(document).error().message,
              "The thinnest spot of board 1 is -12.7 mm; it must be above 0 and at most 300 mm.");
}

} // namespace
} // namespace stavewright
