#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "core/job/JobFile.h"
#include "tests/cli/RunProgram.h"

namespace stavewright::testing {
namespace {

TEST(ArrangeCommand, PrintsTermsBeforeAndAfterAndWritesTheJob) {
    const TemporaryFolder folder;
    const std::string planned = folder.file("planned.stavejob");
    ASSERT_EQ(runProgram("plan " + sampleArgument("kitchen-table") +
                         " --seconds 0 --work 3000000 -o " + planned)
                  .exitCode,
              0);
    const std::string out = folder.file("arranged.stavejob");
    const Ran ran = runProgram("arrange " + planned + " --json -o " + out);
    ASSERT_EQ(ran.exitCode, 0) << ran.err;
    const auto report = nlohmann::json::parse(ran.out, nullptr, false);
    ASSERT_TRUE(report.is_object()) << ran.out;
    EXPECT_EQ(report.at("audit"), "pass");
    ASSERT_FALSE(report.at("arranged").empty());
    for (const auto& each : report.at("arranged")) {
        EXPECT_LE(each.at("points_after").get<double>(), each.at("points_before").get<double>());
        double sum = 0;
        for (const auto& term : each.at("terms")) {
            sum += term.at("points_after").get<double>();
            EXPECT_EQ(term.at("worse").get<bool>(), term.at("points_after").get<double>() >
                                                        term.at("points_before").get<double>());
        }
        EXPECT_NEAR(sum, each.at("points_after").get<double>(), 1e-6);
    }
    // The plies of its legs are paired by the same command; nothing about them gets worse.
    ASSERT_FALSE(report.at("paired").empty());
    for (const auto& part : report.at("paired")) {
        const auto cost = [&](const char* when) {
            const auto& figures = part.at(when);
            return 4 * figures.at("same_way").get<int>() +
                   2 * figures.at("hearts_meet").get<int>() +
                   3 * figures.at("blocks_of_several_boards").get<int>();
        };
        EXPECT_LE(cost("after"), cost("before"));
        EXPECT_EQ(part.at("better").get<bool>(), part.at("after") != part.at("before"));
        int sameWay = 0;
        for (const auto& block : part.at("blocks")) {
            EXPECT_EQ(block.at("seams").size() + 1, block.at("plies").size());
            for (const auto& seam : block.at("seams")) {
                sameWay += seam == "hearts the same way" ? 1 : 0;
            }
        }
        EXPECT_EQ(sameWay, part.at("after").at("same_way").get<int>());
    }
    const Result<Document> written = readJob(out);
    ASSERT_TRUE(written);
    EXPECT_FALSE(written.value().glueUp.panels.empty());
    EXPECT_EQ(runProgram("check " + out).exitCode, 0);
    // Arranged again, nothing is better; and the words name the terms.
    const Ran words = runProgram("arrange " + out);
    EXPECT_EQ(words.exitCode, 0);
    EXPECT_NE(words.out.find("Planing direction"), std::string::npos);
    EXPECT_NE(words.out.find("(left as it was)"), std::string::npos);
    EXPECT_NE(words.out.find("(left as they were)"), std::string::npos);
    EXPECT_NE(words.out.find("from face A"), std::string::npos);
}

TEST(ArrangeCommand, APanelThatIsNotThereIsNamed) {
    const TemporaryFolder folder;
    const std::string planned = folder.file("planned.stavejob");
    ASSERT_EQ(runProgram("plan " + sampleArgument("hall-shelf") +
                         " --seconds 0 --work 1000000 -o " + planned)
                  .exitCode,
              0);
    const Ran ran = runProgram("arrange " + planned + " --panel Q9");
    EXPECT_EQ(ran.exitCode, 2);
    EXPECT_NE(ran.err.find("Q9"), std::string::npos);
}

} // namespace
} // namespace stavewright::testing
