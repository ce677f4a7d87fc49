// Every tests/unit/core/job/bad/NAME.json must be refused with exactly the sentence in NAME.txt. A
// case is added by adding the two files.

#include <gtest/gtest.h>

#include <algorithm>

#include "core/job/JobFile.h"
#include "tests/SourceFolder.h"
#include "tests/unit/core/job/TemporaryFolder.h"

namespace stavewright {
namespace {

const std::filesystem::path badFolder =
    std::filesystem::path(sourceFolder()) / "tests/unit/core/job/bad";

std::vector<std::string> badJobs() {
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(badFolder)) {
        if (entry.path().extension() == ".json") {
            names.push_back(entry.path().stem());
        }
    }
    std::sort(names.begin(), names.end());
    return names;
}

class BadJobsTest : public ::testing::TestWithParam<std::string> {};

TEST_P(BadJobsTest, IsRefusedWithItsSentence) {
    const std::string expected = testing::contentOf(badFolder / (GetParam() + ".txt"));
    ASSERT_FALSE(expected.empty()) << "the sentence is due in " << GetParam() << ".txt";
    const Result<Document> read = fromJson(testing::contentOf(badFolder / (GetParam() + ".json")));
    ASSERT_FALSE(read) << "it was accepted";
    EXPECT_EQ(describe(read.error()) + '\n', expected);
}

INSTANTIATE_TEST_SUITE_P(Folder, BadJobsTest, ::testing::ValuesIn(badJobs()));

TEST(BadJobsFolder, IsThere) { EXPECT_GE(badJobs().size(), 40U); }

} // namespace
} // namespace stavewright
