// The pages of the small hand-made job as text, compared with what was last read and approved.
// When they are meant to change: tests/golden/approve.sh, then read the diff as a maker would.

#include <gtest/gtest.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "core/papers/Sheets.h"
#include "tests/SourceFolder.h"
#include "tests/unit/core/papers/PageChecks.h"
#include "tests/unit/core/papers/PaperJob.h"

namespace stavewright::papers {
namespace {

const std::string approvedFile = sourceFolder() + "/tests/golden/papers.txt";

std::string millimetres(Length length) {
    char text[32];
    std::snprintf(text, sizeof text, "%6.1f", length.toMillimetres());
    return text;
}

/// One line per text, in painting order: place, size, words. Lines and shapes are only counted.
std::string dump(const std::vector<Page>& pages) {
    std::ostringstream out;
    for (const Page& page : pages) {
        std::size_t lines = 0;
        std::size_t shapes = 0;
        for (const Mark& mark : page.marks) {
            lines += std::holds_alternative<Line>(mark) ? 1U : 0U;
            shapes += std::holds_alternative<Shape>(mark) ? 1U : 0U;
        }
        out << "== " << page.title << ", " << millimetres(page.width) << " x"
            << millimetres(page.height) << " mm, " << lines << " lines, " << shapes << " shapes\n";
        for (const Text* text : checks::textsOf(page)) {
            out << millimetres(text->at.x) << millimetres(text->at.y) << "  " << text->points
                << "pt" << (text->weight == Weight::Regular ? "  " : " *") << text->utf8 << '\n';
        }
    }
    return out.str();
}

TEST(PapersGolden, thePagesOfTheSampleAreAsApproved) {
    const Document document = sample::makeJob();
    const checks::PlainMeasure measure;
    const std::string now =
        dump(pagesOf(document, sample::makeReport(document), sample::makeSpecs(),
                     {Paper::Letter, "2026-11-25"}, measure));
    if (std::getenv("APPROVE_GOLDEN") != nullptr) {
        std::ofstream(approvedFile, std::ios::binary) << now;
        GTEST_SKIP() << "wrote " << approvedFile;
    }
    std::ifstream file(approvedFile, std::ios::binary);
    ASSERT_TRUE(file) << approvedFile << " is missing; run tests/golden/approve.sh";
    std::stringstream approved;
    approved << file.rdbuf();
    EXPECT_EQ(now, approved.str())
        << "The pages have changed. If they should, run tests/golden/approve.sh and read the diff.";
}

} // namespace
} // namespace stavewright::papers
