#include "core/papers/PageModel.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

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

TEST(Pages, theDatumEndIsNamedOnEveryBoardSheet) {
    for (const Page& page : pagesFor(sample::makeJob())) {
        if (page.title != "Board 1" && page.title != "Board 2") {
            continue;
        }
        const std::vector<const Text*> texts = checks::textsOf(page);
        EXPECT_TRUE(std::any_of(texts.begin(), texts.end(),
                                [](const Text* text) { return text->utf8 == "DATUM END"; }));
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
