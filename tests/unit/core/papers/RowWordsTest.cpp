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

TEST(RowWords, aCutWithoutAWindowHasToBeExact) {
    const std::string exact = limitOfRip(in(3, 1, 4), in(3, 1, 4), in(3, 1, 4));
    EXPECT_NE(exact.find("ripped 3 1/4: exactly; outside:"), std::string::npos) << exact;
    // A fence is set to a sixty-fourth, as the step says.
    const std::string wide = limitOfRip(in(3, 15, 64), in(3, 3, 16), in(3, 1, 4));
    EXPECT_NE(wide.find("ripped 3 15/64: 3 3/16 to 3 1/4; outside:"), std::string::npos) << wide;
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
