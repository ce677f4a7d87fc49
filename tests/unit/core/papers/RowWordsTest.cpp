// What the rows of a board sheet and the drawing of a panel say and do in the borderline cases.

#include <gtest/gtest.h>

#include <algorithm>

#include "core/panels/Panels.h"
#include "core/papers/PanelDrawing.h"
#include "core/papers/Sheets.h"
#include "tests/unit/core/papers/PageChecks.h"
#include "tests/unit/core/papers/PaperJob.h"

namespace stavewright::papers {
namespace {

using sample::in;

/// All texts of a page one after the other.
std::string textOf(const Page& page) {
    std::string all;
    for (const Text* text : checks::textsOf(page)) {
        all += text->utf8 + " ";
    }
    return all;
}

Page tallPage() {
    Page page;
    page.width = 200_mm;
    page.height = 2000_mm;
    return page;
}

/// The steps of the first board where its first section's edge stands so.
std::string stepsWithEdge(Length left, Length right) {
    const checks::PlainMeasure measure;
    const Document document = sample::makeJob();
    BoardCuts cuts = cutsOf(document, sample::makeSpecs(), document.plan->boards[0]);
    cuts.sections[0].edge = {left, right, in(1)};
    Page page = tallPage();
    flow(stepRows(document, cuts, {}, 180_mm, measure),
         {Pen(page, measure), {{10_mm, 10_mm, 190_mm, 1990_mm}}}, {});
    return textOf(page);
}

TEST(RowWords, aLineIsStruckFromCornerToCornerOrInFromTheEdge) {
    const auto has = [](const std::string& text, const std::string& words) {
        return text.find(words) != std::string::npos;
    };
    const std::string corners = stepsWithEdge(in(0), in(0, 1, 64));
    EXPECT_TRUE(has(corners, "strike a line from corner to corner of the near edge")) << corners;
    const std::string alike = stepsWithEdge(in(0, 3, 4), in(0, 3, 4));
    EXPECT_TRUE(has(alike, "strike a line, 3/4 in from the near edge at both ends")) << alike;
    const std::string slanted = stepsWithEdge(in(0), in(0, 3, 4));
    EXPECT_TRUE(has(slanted, "0 in from the near edge at the left end, 3/4 at the right"))
        << slanted;
}

/// What is said of the first rip of the first board, set to `width`, that may be so wide.
std::string limitOfRip(Length width, Length from, Length to) {
    const checks::PlainMeasure measure;
    const Document document = sample::makeJob();
    const BoardLayout& layout = document.plan->boards[0];
    const Strip& strip = layout.sections[0].strips[0];
    hand::CutWindow window;
    window.cut = {layout.sections[0].id, strip.id, true};
    window.mark = strip.across.from + width;
    window.window = {strip.across.from + from, strip.across.from + to};
    window.lostBelow = window.lostAbove = {strip.blanks[0].purpose};
    const std::vector<Page> pages =
        pagesOf(document, sample::makeReport(document), sample::makeSpecs(),
                {Paper::Letter, "2026-11-25"}, measure, {{layout.board, {window}, {}}});
    const auto sheet = std::find_if(pages.begin(), pages.end(),
                                    [](const Page& page) { return page.title == "Board 1"; });
    return sheet == pages.end() ? std::string() : textOf(*sheet);
}

/// The steps of the first board after something was cut.
std::string stepsOf(const Document& document) {
    const checks::PlainMeasure measure;
    const BoardCuts cuts = cutsOf(document, sample::makeSpecs(), document.plan->boards[0]);
    Page page = tallPage();
    flow(stepRows(document, cuts, {}, 180_mm, measure),
         {Pen(page, measure), {{10_mm, 10_mm, 190_mm, 1990_mm}}}, {});
    return textOf(page);
}

std::size_t madeIn(const std::string& text) {
    std::size_t count = 0;
    for (std::size_t at = text.find("(made)"); at != std::string::npos;
         at = text.find("(made)", at + 1)) {
        ++count;
    }
    return count;
}

TEST(RowWords, aCutThatIsMadeSaysSoWithTheReadingItWasMadeAt) {
    Document document = sample::makeJob();
    EXPECT_EQ(madeIn(stepsOf(document)), 0U);
    Section& first = document.plan->boards[0].sections[0];
    first.state = CutState::Cut;
    first.along.to += in(0, 1, 16); // an own cut now: 1b starts where it is planned
    const std::string crosscut = stepsOf(document);
    EXPECT_EQ(madeIn(crosscut), 2U) << crosscut;
    EXPECT_NE(crosscut.find("31 9/16"), std::string::npos) << crosscut;
    first.lowEndUncut = true;
    EXPECT_EQ(madeIn(stepsOf(document)), 1U);
    first.lowEndUncut = false;
    first.strips[0].highEdgeRipped = true;
    EXPECT_EQ(madeIn(stepsOf(document)), 3U) << stepsOf(document);
    for (Strip& strip : first.strips) {
        for (Blank& blank : strip.blanks) {
            blank.state = CutState::Milled;
        }
    }
    EXPECT_GT(madeIn(stepsOf(document)), 3U) << stepsOf(document); // facing as well
}

TEST(RowWords, whatIsLaidIntoThickerMilledWoodIsPlanedOn) {
    Document document = sample::makeJob();
    Section& first = document.plan->boards[0].sections[0];
    const auto planedOn = [&] {
        const std::string text = stepsOf(document);
        std::size_t count = 0;
        for (std::size_t at = text.find("plane on to"); at != std::string::npos;
             at = text.find("plane on to", at + 1)) {
            ++count;
        }
        return count;
    };
    const std::size_t before = planedOn();
    first.state = CutState::Milled;
    first.planedTo = in(2); // for what is lost since
    for (Strip& strip : first.strips) {
        strip.planedTo = in(2);
    }
    EXPECT_GT(planedOn(), before) << stepsOf(document);
}

bool has(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

/// A blank of several parts is too short to be planed once they are apart.
TEST(RowWords, whatIsPlanedOnIsCutOffFirstAndAMultipleStaysInOnePiece) {
    Document document = sample::makeJob();
    Section& first = document.plan->boards[0].sections[0];
    first.state = CutState::Milled;
    first.planedTo = in(2);
    const std::string single = stepsOf(document);
    EXPECT_TRUE(has(single, "L1a, L1b once cut off from the rest, plane on to")) << single;
    EXPECT_FALSE(has(single, "parted")) << single;
    EXPECT_FALSE(has(single, "in one piece still")) << single;
    document.parts[0].perBlank = 2;
    const std::string multiple = stepsOf(document);
    EXPECT_TRUE(has(multiple, "once cut off from the rest, in one piece still, plane on to"))
        << multiple;
    EXPECT_TRUE(has(multiple, "· one piece still")) << multiple;
}

TEST(RowWords, aPartPageSaysWhenTheBlankOfSeveralIsSawnApart) {
    const checks::PlainMeasure measure;
    const auto partPage = [&](Length length) {
        Document document = sample::makeJob();
        document.parts[1].perBlank = 2;
        document.parts[1].length.base = length;
        std::string all;
        for (const Page& page : pagesOf(document, sample::makeReport(document), sample::makeSpecs(),
                                        {Paper::Letter, "2026-11-25"}, measure)) {
            all += page.title.starts_with("Parts") ? textOf(page) : std::string();
        }
        return all;
    };
    const std::string longOnes = partPage(in(12));
    EXPECT_TRUE(has(longOnes, "2 milled as one blank. It stays in one piece")) << longOnes;
    EXPECT_FALSE(has(longOnes, "never by hand near the blade")) << longOnes;
    const std::string shortOnes = partPage(in(5));
    EXPECT_TRUE(has(shortOnes, "never by hand near the blade")) << shortOnes;
}

TEST(RowWords, aSliverStaysOnItsStripAndFallsFreeBeyondTheBlade) {
    const std::string text = stepsOf(sample::makeJob());
    const std::size_t first = text.find("1b-2 3 7/8 with its waste edge");
    const std::size_t second = text.find("1b-2 down to 3 1/4 for L2b: the edge just cut to the "
                                         "fence, the sliver falls free");
    ASSERT_NE(first, std::string::npos) << text;
    ASSERT_NE(second, std::string::npos) << text;
    EXPECT_LT(first, second);
}

TEST(RowWords, theTapesZeroStaysWhereTheDatumEndWas) {
    Document document = sample::makeJob();
    EXPECT_FALSE(has(stepsOf(document), "The datum end is cut off"));
    Section waste;
    waste.id = SectionId{90};
    waste.along = {in(0), in(1)};
    waste.state = CutState::Cut;
    std::vector<Section>& sections = document.plan->boards[0].sections;
    sections.insert(sections.begin(), waste);
    const std::string text = stepsOf(document);
    EXPECT_TRUE(has(text, "Hold the tape so that the fresh end reads 1 1/8.")) << text;
    EXPECT_TRUE(has(text, "waste ends (made)")) << text;
    EXPECT_TRUE(has(text, "1a starts")) << text;
}

/// The limits of one cut of a board as its sheet says them.
std::string limitRow(const Document& document, std::size_t board, const hand::CutWindow& window) {
    const checks::PlainMeasure measure;
    const BoardCuts cuts = cutsOf(document, sample::makeSpecs(), document.plan->boards[board]);
    const hand::BoardLimits limits{document.plan->boards[board].board, {window}, {}};
    Page page = tallPage();
    flow(stepRows(document, cuts, {}, 180_mm, measure, &limits),
         {Pen(page, measure), {{10_mm, 10_mm, 190_mm, 1990_mm}}}, {});
    const std::string all = textOf(page);
    const std::size_t at = all.find("How far a cut may land off");
    return at == std::string::npos ? std::string() : all.substr(at);
}

TEST(RowWords, noLimitIsToldOfAnEdgeThatNoPassMakes) {
    Document document = sample::makeJob();
    Section& section = document.plan->boards[1].sections[0];
    section.strips[1].across.from = section.strips[0].across.to + in(0, 1, 8);
    hand::CutWindow window;
    window.cut = {section.id, section.strips[1].id, false};
    window.mark = section.strips[1].across.from;
    window.window = {window.mark, window.mark};
    window.lostBelow = window.lostAbove = {section.strips[1].blanks[0].purpose};
    EXPECT_EQ(limitRow(document, 1, window), "");
    // Its far edge is ripped so much wider, and may land off by as much as before.
    window.cut.high = true;
    window.mark = section.strips[1].across.to;
    window.window = {window.mark - in(0, 1, 4), window.mark};
    const std::string row = limitRow(document, 1, window);
    EXPECT_TRUE(has(row, "2a-2 ripped 1 1/2: 1 1/4 to 1 1/2;")) << row;
}

TEST(RowWords, theLimitsOfASliverAreToldAsItsPassesAreSet) {
    const Document document = sample::makeJob();
    const Section& section = document.plan->boards[0].sections[1];
    const Strip& strip = section.strips[1];
    hand::CutWindow window;
    window.cut = {section.id, strip.id, false};
    window.mark = strip.across.from;
    window.window = {window.mark - in(0, 1, 4), window.mark + in(0, 1, 16)};
    window.lostBelow = {{sample::leg, 1, 1, 0}};
    window.lostAbove = {{sample::leg, 2, 2, 0}};
    // Nearer to the near edge is a wider strip.
    const std::string turned = limitRow(document, 0, window);
    EXPECT_TRUE(has(turned, "1b-2 down to 3 1/4: 3 3/16 to 3 1/2; less loses L2b, more loses L1a"))
        << turned;
    window.cut.high = true;
    window.mark = strip.across.to;
    window.window = {window.mark - in(0, 1, 8), window.mark + in(0, 1, 8)};
    const std::string with = limitRow(document, 0, window);
    EXPECT_TRUE(has(with, "1b-2 with its waste 3 7/8: 3 3/4 to 4;")) << with;
}

TEST(RowWords, aLimitNamesThePanelAndWhatBecomesOfIt) {
    using By = hand::PanelMissed::By;
    const Document document = sample::makeJob();
    const Section& section = document.plan->boards[0].sections[0];
    const Strip& strip = section.strips[0];
    const BlankPurpose shelf{sample::shelf, 1, 0, 0};
    hand::CutWindow window;
    window.cut = {section.id, strip.id, true};
    window.mark = strip.across.to;
    window.window = {window.mark - in(0, 1, 8), window.mark + in(0, 1, 8)};
    window.panelBelow = {shelf, By::TooNarrow};
    window.panelAbove = {shelf, By::TooWide};
    std::string row = limitRow(document, 0, window);
    EXPECT_TRUE(has(row, "less leaves panel S1 too narrow, more makes it too wide")) << row;
    window.panelBelow.reset();
    window.lostBelow = {strip.blanks[0].purpose};
    row = limitRow(document, 0, window);
    EXPECT_TRUE(has(row, "less loses L1a, more makes panel S1 too wide")) << row;
    // The judge's word, or a lock's, where neither a part nor a panel is at fault.
    window.lostBelow.clear();
    window.whyBelow = "L1a is locked and would not stay as it is";
    window.openAbove = true;
    row = limitRow(document, 0, window);
    EXPECT_TRUE(has(row, "less means: L1a is locked and would not stay as it is")) << row;
}

TEST(RowWords, anAimIsNeverToldOutsideItsWindow) {
    Document document = sample::makeJob();
    document.info.units = UnitSystem::Millimetres;
    Section& section = document.plan->boards[0].sections[0];
    Strip& strip = section.strips[0];
    strip.across.to = Length::micrometres(82'200);
    hand::CutWindow window;
    window.cut = {section.id, strip.id, true};
    window.mark = strip.across.to;
    window.window = {window.mark - in(0, 1, 4), window.mark};
    window.lostBelow = window.lostAbove = {strip.blanks[0].purpose};
    const std::string row = limitRow(document, 0, window);
    EXPECT_TRUE(has(row, "1a-1 ripped 82.2: 75.9 to 82.2;")) << row; // not: to 82
}

TEST(RowWords, aCutWithoutAWindowHasToBeExact) {
    const std::string exact = limitOfRip(in(3, 1, 4), in(3, 1, 4), in(3, 1, 4));
    EXPECT_NE(exact.find("ripped 3 1/4: exactly; anything else loses"), std::string::npos) << exact;
    // A fence is set to a sixty-fourth, as the step says.
    const std::string wide = limitOfRip(in(3, 15, 64), in(3, 3, 16), in(3, 1, 4));
    EXPECT_NE(wide.find("ripped 3 15/64: 3 3/16 to 3 1/4; anything else loses"), std::string::npos)
        << wide;
}

TEST(RowWords, aPanelIsDrawnSmallerWhereThatSavesAPage) {
    const checks::PlainMeasure measure;
    const Document document = sample::makeJob();
    std::vector<panels::Panel> panels = panels::panelsOf(document).value();
    ASSERT_FALSE(panels.empty());
    panels[0].width = in(60); // so that its height says how large it is drawn
    const Rect area{10_mm, 10_mm, 206_mm, 260_mm};
    const auto endWhere = [&](const std::function<bool(Length)>& fits) {
        Page page = tallPage();
        Pen pen(page, measure);
        return drawPanel(pen, document, panels[0], area, 20_mm, fits);
    };
    const Length roomy = endWhere([](Length) { return true; });
    const Length needed = roomy - 12_mm;
    EXPECT_LE(endWhere([&](Length end) { return end <= needed; }), needed);
    // Where two pages are needed anyway it is as large as it can be.
    EXPECT_EQ(endWhere([](Length) { return false; }), roomy);
}

} // namespace
} // namespace stavewright::papers
