#include "core/papers/PageModel.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "core/papers/BoardDrawing.h"
#include "core/papers/Cautions.h"
#include "core/papers/Sheets.h"
#include "core/papers/Words.h"
#include "tests/unit/core/papers/PageChecks.h"
#include "tests/unit/core/papers/PaperJob.h"

namespace stavewright::papers {
namespace {

using sample::in;

std::vector<Page> pagesFor(const Document& document, Paper paper = Paper::Letter) {
    const checks::PlainMeasure measure;
    return pagesOf(document, sample::makeReport(document), sample::makeSpecs(),
                   {paper, "2026-11-25"}, measure);
}

bool isOf(const Page& page, const std::string& board) {
    return page.title == "Board " + board || page.title == "Board " + board + ", continued";
}

std::string longName(std::size_t length) {
    std::string name;
    while (name.size() < length) {
        name += "quarter-sawn drawer side Überlänge ";
    }
    return name;
}

/// The sample with everything as unwieldy as a shop can make it.
Document crowdedJob() {
    Document document = sample::makeJob();
    document.info.title = longName(300);
    document.info.client = longName(200);
    document.shop.machines.crosscut.name = longName(90);
    for (Part& part : document.parts) {
        part.name = longName(150);
        part.notes = longName(400);
    }
    for (int i = 0; i < 40; ++i) {
        document.plan->unplaced.push_back({{sample::rail, 4 + i, 0, 0}, longName(120)});
    }
    // Many narrow strips, so that labels go outside, and knots everywhere.
    Section& section = document.plan->boards[0].sections[0];
    section.strips.clear();
    for (int i = 0; i < 6; ++i) {
        const Length v = in(1, 3, 8) * i;
        Strip strip{StripId{200 + i}, {v, v + in(1, 1, 4)}, {}, {}};
        for (int j = 0; j < 2; ++j) {
            const Length u = in(15) * j;
            strip.blanks.push_back(sample::blank(300 + 10 * i + j,
                                                 {sample::cleat, 10 + 2 * i + j, 0, 0},
                                                 {u, v, u + in(14), v + in(1, 1, 4)}));
        }
        section.strips.push_back(std::move(strip));
    }
    for (int i = 0; i < 40; ++i) {
        const auto kind = allDefectKinds[static_cast<std::size_t>(i) % allDefectKinds.size()];
        document.boards[0].defects.push_back(
            sample::knot(400 + i, "K", kind, {in(3 + 2 * i), in(1 + i % 7)}, in(1), in(0, 3, 4)));
    }
    for (int i = 0; i < 60; ++i) {
        Board board = document.boards[1];
        board.id = BoardId{500 + i};
        board.mark = std::to_string(100 + i);
        BoardLayout layout = document.plan->boards[1];
        layout.board = board.id;
        document.boards.push_back(std::move(board));
        document.plan->boards.push_back(std::move(layout));
    }
    return document;
}

Document metricJob() {
    Document document = sample::makeJob();
    document.info.units = UnitSystem::Millimetres;
    return document;
}

TEST(Pages, noTextLiesOnAnotherOrRunsOffThePage) {
    const checks::PlainMeasure measure;
    const std::map<std::string, Document> jobs = {
        {"sample", sample::makeJob()}, {"metric", metricJob()}, {"crowded", crowdedJob()}};
    for (const auto& [name, job] : jobs) {
        for (const Paper paper : {Paper::Letter, Paper::A4}) {
            for (const Page& page : pagesFor(job, paper)) {
                const std::vector<std::string> clashes = checks::clashesOf(page, measure);
                EXPECT_TRUE(clashes.empty())
                    << name << ", " << clashes.size() << " clashes, first: " << clashes.front();
            }
        }
    }
}

TEST(Pages, theClashCheckSeesAClash) {
    const checks::PlainMeasure measure;
    Page page;
    page.width = page.height = 100_mm;
    page.marks = {Text{{10_mm, 10_mm}, "one"}, Text{{12_mm, 11_mm}, "two"},
                  Text{{98_mm, 50_mm}, "over the edge"}};
    EXPECT_EQ(checks::clashesOf(page, measure).size(), 2U);
}

TEST(Pages, everyBlankIsNamedOnItsOwnBoardsSheetAndOnNoOther) {
    const Document document = sample::makeJob();
    const std::vector<Page> pages = pagesFor(document);
    for (const BoardLayout& layout : document.plan->boards) {
        const std::string own = findBoard(document, layout.board)->mark;
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    const std::string label = labelOf(document, blank.purpose);
                    std::set<std::string> boards;
                    for (const Page& page : pages) {
                        for (const Text* text : checks::textsOf(page)) {
                            if (text->utf8 == label && page.title.starts_with("Board")) {
                                boards.insert(isOf(page, own) ? own : page.title);
                            }
                        }
                    }
                    EXPECT_EQ(boards, std::set<std::string>{own}) << label;
                }
            }
        }
    }
}

TEST(Pages, everyNumberSetAtASawIsAtLeast14PointsLarge) {
    const Document document = sample::makeJob();
    const std::vector<BlankSpec> specs = sample::makeSpecs();
    const std::vector<Page> pages = pagesFor(document);
    for (const BoardLayout& layout : document.plan->boards) {
        const BoardCuts cuts = cutsOf(document, specs, layout);
        std::vector<Length> numbers;
        for (const CrosscutMark& mark : cuts.crosscuts) {
            numbers.push_back(mark.reading);
        }
        for (const SectionCuts& section : cuts.sections) {
            numbers.push_back(section.planeTo);
            for (const RipPass& pass : section.rips) {
                numbers.push_back(pass.width);
            }
            for (const StripCuts& strip : section.strips) {
                for (const TrimPass& trim : strip.trims) {
                    numbers.push_back(trim.width);
                }
            }
        }
        for (const Length number : numbers) {
            const std::string text = lengthText(document.info, number);
            double largest = 0;
            for (const Page& page : pages) {
                for (const Text* mark : checks::textsOf(page)) {
                    if (isOf(page, cuts.board->mark) && mark->utf8 == text) {
                        largest = std::max(largest, mark->points);
                    }
                }
            }
            EXPECT_GE(largest, 14) << text << " on board " << cuts.board->mark;
        }
    }
}

/// Small type on the board sheets holds words, not numbers to set: the tape's ticks, the foot,
/// kerfs and the names of sections, strips and pieces.
TEST(Pages, aBareNumberInSmallTypeIsATickOfTheTape) {
    for (const Page& page : pagesFor(sample::makeJob())) {
        if (!page.title.starts_with("Board")) {
            continue;
        }
        for (const Text* text : checks::textsOf(page)) {
            const bool bare = text->utf8.find_first_not_of("0123456789 /.") == std::string::npos;
            if (bare && text->points < 14) {
                EXPECT_EQ(text->ink, Ink::Grey) << page.title << ": " << text->utf8;
            }
        }
    }
}

const Page& pageCalled(const std::vector<Page>& pages, const std::string& title) {
    for (const Page& page : pages) {
        if (page.title == title) {
            return page;
        }
    }
    ADD_FAILURE() << "no page is called " << title;
    return pages.front();
}

/// Heights of all texts that read like this, from the top of the page.
std::vector<Length> heightsOf(const Page& page, const std::string& words) {
    std::vector<Length> heights;
    for (const Text* text : checks::textsOf(page)) {
        if (text->utf8 == words) {
            heights.push_back(text->at.y);
        }
    }
    return heights;
}

bool says(const Page& page, const std::string& words) { return !heightsOf(page, words).empty(); }

TEST(Pages, aBoardGoesOnOneSheetUntilItsStepsAreARealLoad) {
    for (const Paper paper : {Paper::Letter, Paper::A4}) {
        for (const Page& page : pagesFor(sample::makeJob(), paper)) {
            EXPECT_FALSE(page.title.starts_with("Board") && page.title.ends_with("continued"))
                << page.title;
        }
    }
}

TEST(Pages, noSheetThatGoesOnCarriesOnlyALineOrTwo) {
    for (const Paper paper : {Paper::Letter, Paper::A4}) {
        bool anyGoesOn = false;
        for (const Page& page : pagesFor(crowdedJob(), paper)) {
            if (!page.title.starts_with("Board") || !page.title.ends_with("continued")) {
                continue;
            }
            anyGoesOn = true;
            EXPECT_GT(checks::textsOf(page).size(), 20U) << page.title;
        }
        EXPECT_TRUE(anyGoesOn) << "the crowded job is to be too much for one sheet";
    }
}

TEST(Pages, aKnotToFillIsNamedAtTheKnotAndListedWithItsPlace) {
    const std::vector<Page> pages = pagesFor(sample::makeJob());
    const Page& sheet = pageCalled(pages, "Board 1");
    // At the knot, in the figure of the face where it shows; never its mark alone, which a part may
    // have as well.
    EXPECT_EQ(heightsOf(sheet, "Fill K3").size(), 1U);
    EXPECT_FALSE(says(sheet, "K3"));
    EXPECT_TRUE(says(sheet, "across,"));
    ASSERT_TRUE(says(sheet, "Knots to fill (ring and drop in the drawing)"));
    const Length list = heightsOf(sheet, "Fill K3:").front();
    double smallest = 99;
    for (const char* number : {"20", "4 15/16"}) {
        for (const Text* text : checks::textsOf(sheet)) {
            if (text->utf8 == number && text->at.y >= list && text->ink == Ink::Black) {
                smallest = std::min(smallest, text->points);
            }
        }
        EXPECT_TRUE(says(sheet, number)) << number;
    }
    EXPECT_EQ(smallest, 14);
    EXPECT_TRUE(says(sheet, "face B,"));
    EXPECT_FALSE(
        says(pageCalled(pages, "Board 2"), "Knots to fill (ring and drop in the drawing)"));
}

TEST(Pages, noSignOfAFillIsLostInACrowd) {
    // All knots of a crowded board are to be filled; each has a sign, named or not.
    const Document document = crowdedJob();
    const checks::PlainMeasure measure;
    const BoardCuts cuts = cutsOf(document, sample::makeSpecs(), document.plan->boards[0]);
    std::vector<Fill> fills;
    for (const Defect& defect : document.boards[0].defects) {
        Fill fill;
        fill.board = sample::straightBoard;
        fill.defect = defect.id;
        fill.onFaceA = true;
        fills.push_back(fill);
    }
    const auto dropsIn = [](const BoardDrawing& drawing) {
        return std::count_if(drawing.marks.begin(), drawing.marks.end(), [](const Mark& mark) {
            const auto* shape = std::get_if<Shape>(&mark);
            return shape != nullptr && shape->filled && shape->corners.size() == 8 &&
                   shape->fill == Ink::Black;
        });
    };
    EXPECT_EQ(dropsIn(drawBoard(document, cuts, {}, 12, measure)), 0);
    EXPECT_EQ(dropsIn(drawBoard(document, cuts, fills, 12, measure)),
              static_cast<std::ptrdiff_t>(fills.size()));
}

TEST(Pages, faceBIsDrawnRolledOverWhereItShowsDefects) {
    const std::vector<Page> pages = pagesFor(sample::makeJob());
    const Page& sheet = pageCalled(pages, "Board 1");
    ASSERT_TRUE(says(sheet, "Face B"));
    const Length faceB = heightsOf(sheet, "Face B").front();
    // The near edge lies below the datum end's name on face A, above it on face B.
    const std::vector<Length> nearEdges = heightsOf(sheet, "near edge");
    const std::vector<Length> datums = heightsOf(sheet, "DATUM");
    ASSERT_EQ(nearEdges.size(), 2U);
    ASSERT_EQ(datums.size(), 2U);
    EXPECT_LT(datums[0], nearEdges[0]);
    EXPECT_LT(nearEdges[0], faceB);
    EXPECT_LT(faceB, nearEdges[1]);
    EXPECT_LT(nearEdges[1], datums[1]);
    // L1b lies farther from the near edge than L1a: above it on face A, below it on face B.
    const std::vector<Length> inner = heightsOf(sheet, "L1a");
    const std::vector<Length> outer = heightsOf(sheet, "L1b");
    ASSERT_GE(inner.size(), 2U);
    ASSERT_GE(outer.size(), 2U);
    EXPECT_LT(outer[0], inner[0]);
    EXPECT_LT(inner[1], outer[1]);
    // Board 2 shows nothing on face B.
    EXPECT_FALSE(says(pageCalled(pages, "Board 2"), "Face B"));
}

TEST(Pages, theHeartSideIsSaidWhereItIsKnownAndTurnsWithTheBoard) {
    Document document = sample::makeJob();
    document.boards[0].heart = HeartSide::FaceB;
    const std::vector<Page> pages = pagesFor(document);
    const Page& sheet = pageCalled(pages, "Board 1");
    ASSERT_TRUE(says(sheet, "bark side up:"));
    ASSERT_TRUE(says(sheet, "heart side up:"));
    EXPECT_LT(heightsOf(sheet, "bark side up:").front(),
              heightsOf(sheet, "heart side up:").front());
    EXPECT_FALSE(says(pageCalled(pages, "Board 2"), "heart side up:"));
}

/// The steps of the first board in one column, long enough for all: the order of the rows is the
/// order down the page.
Page stepsOf(const Document& document) {
    const checks::PlainMeasure measure;
    const BoardCuts cuts = cutsOf(document, sample::makeSpecs(), document.plan->boards[0]);
    Page page;
    page.width = 200_mm;
    page.height = 2000_mm;
    const FlowRows rows = stepRows(document, cuts, {}, 180_mm, measure);
    flow(rows, {Pen(page, measure), {{10_mm, 10_mm, 190_mm, 1990_mm}}}, {});
    return page;
}

TEST(Pages, aBoardSheetSaysHowFarItsCutsMayLandOff) {
    const Document document = sample::makeJob();
    const checks::PlainMeasure measure;
    const BoardLayout& layout = document.plan->boards[0];
    hand::CutWindow window;
    window.cut = {layout.sections[0].id, {}, true};
    window.mark = layout.sections[0].along.to;
    window.window = {window.mark - in(0, 1, 4), window.mark + in(3)};
    window.openAbove = true;
    window.lostBelow = {layout.sections[0].strips[0].blanks[0].purpose};
    const std::vector<hand::BoardLimits> limits = {
        {layout.board, {window}, {"If knot K1 opens at the planer: L1a is lost."}}};
    const std::vector<Page> pages =
        pagesOf(document, sample::makeReport(document), sample::makeSpecs(),
                {Paper::Letter, "2026-11-25"}, measure, limits);
    const Page& sheet = pageCalled(pages, "Board 1");
    EXPECT_TRUE(says(sheet, "How far a cut may land off"));
    EXPECT_TRUE(says(sheet, "1a ends"));
    EXPECT_TRUE(says(sheet, "at least"));
    EXPECT_TRUE(says(sheet, "If a knot opens"));
    EXPECT_FALSE(says(pageCalled(pages, "Board 2"), "How far a cut may land off"));
}

TEST(Pages, theTapeHooksOnTheSquaredEndOfAStrip) {
    Document document = sample::makeJob();
    // A thirty-second is squared off; on the tape the blank then ends at its own length.
    document.plan->boards[0].sections[0].strips[0].blanks[0].rect = {in(0, 1, 32), in(0),
                                                                     in(28, 1, 32), in(3, 1, 4)};
    const Page page = stepsOf(document);
    EXPECT_TRUE(says(page, "Square that end first, taking least."));
    EXPECT_TRUE(says(page, "28"));
    EXPECT_FALSE(says(page, "28 1/16"));
}

TEST(Pages, aTapeInMillimetresIsReadToTheHalf) {
    Document document = sample::makeJob();
    document.info.units = UnitSystem::Millimetres;
    document.plan->boards[0].sections[0].along.to = Length::micrometres(800'200);
    const Page page = stepsOf(document);
    EXPECT_TRUE(says(page, "800"));
    EXPECT_FALSE(says(page, "800.2"));
}

TEST(Pages, aLooseKnotInWoodThatIsNotMilledIsNoCaution) {
    Document document = sample::makeJob();
    const std::string caution = "Loose knot near 40: jointer and planer can throw it.";
    const auto cautions = [&] {
        std::size_t count = 0;
        for (const Caution& one : boardCautions(
                 document, cutsOf(document, sample::makeSpecs(), document.plan->boards[0]))) {
            count += one.text.starts_with(caution) ? 1U : 0U;
        }
        return count;
    };
    EXPECT_EQ(cautions(), 1U);
    // The same stretch only kept: it goes over no machine.
    Section& section = document.plan->boards[0].sections[1];
    section.strips.clear();
    section.offcuts = {{OffcutId{90}, {in(0), in(0), in(30), in(7)}, CutState::Planned}};
    EXPECT_EQ(cautions(), 0U);
}

TEST(Pages, aCautionStandsAtTheStepWhereItApplies) {
    const Page page = stepsOf(sample::makeJob());
    const auto heightOf = [&](const std::string& beginning) {
        for (const Text* text : checks::textsOf(page)) {
            if (text->utf8.starts_with(beginning)) {
                return text->at.y;
            }
        }
        ADD_FAILURE() << beginning;
        return Length();
    };
    EXPECT_LT(heightOf("1  Crosscut"), heightOf("This board is twisted"));
    EXPECT_LT(heightOf("This board is twisted"), heightOf("2  Joint and plane"));
    EXPECT_LT(heightOf("2  Joint and plane"), heightOf("Loose knot near"));
    EXPECT_LT(heightOf("Loose knot near"), heightOf("3  Rip to strips"));
}

TEST(Pages, whatIsNotPlacedStandsWithItsPartAndSaysWhy) {
    const std::vector<Page> pages = pagesFor(sample::makeJob());
    std::string parts;
    for (const Page& page : pages) {
        if (page.title.starts_with("Parts and blanks")) {
            for (const Text* text : checks::textsOf(page)) {
                parts += text->utf8 + " ";
            }
        }
    }
    EXPECT_NE(parts.find("Not placed: R3. Nearest miss on board 2 from 60 1/4"), std::string::npos);
    EXPECT_NE(parts.find("it would fit if the rail were 24 1/2 long"), std::string::npos);
}

TEST(Pages, theLumberUsedIsTheSumOfBlanksOffcutsAndWaste) {
    const std::vector<Page> pages = pagesFor(sample::makeJob());
    // 15.20 = 9.17 + 0.23 + 5.80
    for (const char* figure : {"15.20 bd ft", "9.17 bd ft", "0.23 bd ft", "5.80 bd ft"}) {
        EXPECT_TRUE(says(pages.front(), figure)) << figure;
    }
}

TEST(Pages, inMillimetresLumberIsCountedInCubicMetresAndStillAddsUp) {
    Document job = sample::makeJob();
    job.info.units = UnitSystem::Millimetres;
    const std::vector<Page> pages = pagesFor(job);
    // 15.20 bd ft x 0.002 359 737 m^3; 0.0359 = 0.0216 + 0.0005 + 0.0138
    for (const char* figure : {"0.0359 m³", "0.0216 m³", "0.0005 m³", "0.0138 m³", "All, in m³"}) {
        EXPECT_TRUE(says(pages.front(), figure)) << figure;
    }
    for (const Page& page : pages) {
        for (const Text* text : checks::textsOf(page)) {
            EXPECT_EQ(text->utf8.find("bd ft"), std::string::npos) << page.title << text->utf8;
        }
    }
    for (const Text* text : checks::textsOf(pages.front())) {
        EXPECT_EQ(text->utf8.find("…"), std::string::npos) << text->utf8;
    }
}

TEST(Pages, theSumsOfAPartStandLineByLine) {
    const std::vector<Page> pages = pagesFor(sample::makeJob());
    const Page& page = pageCalled(pages, "Parts and blanks");
    // Leg: 28 + 2 = 30 long; both plies told once.
    for (const char* words : {"28", "+ 2", "= 30"}) {
        EXPECT_TRUE(says(page, words)) << words;
    }
    std::size_t plies = 0;
    for (const Text* text : checks::textsOf(page)) {
        EXPECT_GE(text->points, 8) << text->utf8;
        plies += text->utf8.find("Plies 1 to 2, each rough: 30") != std::string::npos ? 1U : 0U;
    }
    EXPECT_EQ(plies, 1U);
    // The shelf is made 1 3/8 thick where 1 1/2 was wanted.
    EXPECT_TRUE(says(page, "The sum is for the wanted thickness. From these boards it comes out "
                           "1/8 thinner: 1 7/16."));
}

TEST(Pages, aFenceIsSetToThe64thAndATapeReadToTheJobsStep) {
    const JobInfo info; // inches, to the 1/16
    EXPECT_EQ(settingText(info, in(3, 15, 32)), "3 15/32");
    EXPECT_EQ(settingText(info, in(3, 1, 2)), "3 1/2");
    EXPECT_EQ(settingText(info, in(3, 1, 2) + Length::nanometres(88'296)), "3 1/2");
    EXPECT_EQ(lengthText(info, in(3, 15, 32) - Length::nanometres(1)), "3 7/16");
    EXPECT_EQ(sizeText(info, in(30), in(3, 15, 32)), "30 × 3 15/32");
}

TEST(Pages, everyPageHasItsNumberTheJobAndTheDate) {
    const std::vector<Page> pages = pagesFor(sample::makeJob());
    for (std::size_t i = 0; i < pages.size(); ++i) {
        const std::string number =
            "Page " + std::to_string(i + 1) + " of " + std::to_string(pages.size());
        EXPECT_TRUE(says(pages[i], number)) << number;
        EXPECT_TRUE(says(pages[i], "Washstand in white oak · 2026-11-25")) << pages[i].title;
    }
}

TEST(Pages, theDatumEndIsNamedOnEveryBoardSheet) {
    for (const Page& page : pagesFor(sample::makeJob())) {
        if (page.title != "Board 1" && page.title != "Board 2") {
            continue;
        }
        const std::vector<const Text*> texts = checks::textsOf(page);
        EXPECT_TRUE(std::any_of(texts.begin(), texts.end(),
                                [](const Text* text) { return text->utf8 == "DATUM"; }));
    }
}

TEST(Pages, theSameJobGivesTheSamePages) {
    const checks::PlainMeasure measure;
    const auto flat = [&](const std::vector<Page>& pages) {
        std::string text;
        for (const Page& page : pages) {
            text += page.title + ":" + std::to_string(page.marks.size());
            for (const Text* mark : checks::textsOf(page)) {
                text += "|" + mark->utf8 + "@" + std::to_string(mark->at.x.inNanometres()) + "," +
                        std::to_string(mark->at.y.inNanometres());
            }
        }
        return text;
    };
    EXPECT_EQ(flat(pagesFor(sample::makeJob())), flat(pagesFor(sample::makeJob())));
}

TEST(Pages, withoutAPlanNothingIsPrinted) {
    Document document = sample::makeJob();
    document.plan.reset();
    const checks::PlainMeasure measure;
    const auto pages = makePapers(document, {}, measure);
    ASSERT_FALSE(pages);
    EXPECT_NE(pages.error().message.find("no plan"), std::string::npos) << pages.error().message;
}

TEST(Pages, aPlanThatFailsTheAuditIsNotPrinted) {
    // The hand-made plan claims sums that are not its own.
    const checks::PlainMeasure measure;
    const auto pages = makePapers(sample::makeJob(), {}, measure);
    ASSERT_FALSE(pages);
    EXPECT_NE(pages.error().message.find("fails the audit"), std::string::npos)
        << pages.error().message;
}

} // namespace
} // namespace stavewright::papers
