#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "core/job/JobFile.h"
#include "tests/cli/RunProgram.h"
#include "tests/tools/samples/Samples.h"

namespace stavewright::testing {
namespace {

TEST(Samples, CommittedFilesAreWhatTheToolWrites) {
    const std::pair<const char*, Document> jobs[] = {{"hall-shelf", samples::hallShelf()},
                                                     {"kitchen-table", samples::kitchenTable()},
                                                     {"reading-room", samples::readingRoom()},
                                                     {"linen-chest", samples::linenChest()}};
    for (const auto& [name, job] : jobs) {
        const Result<Document> committed = readJob(samplePath(name));
        ASSERT_TRUE(committed) << describe(committed.error());
        // Photographs come last and are encoded by whatever library is there.
        Document bare = committed.value();
        for (Board& board : bare.boards) {
            bare.nextId -= static_cast<std::int64_t>(board.photos.size());
            board.photos.clear();
        }
        EXPECT_EQ(toJson(bare), toJson(job)) << name;
    }
}

TEST(PlanCommand, PlansEverySampleCleanAndReportsIt) {
    for (const char* name : {"hall-shelf", "kitchen-table", "reading-room", "linen-chest"}) {
        const Ran ran =
            runProgram("plan " + sampleArgument(name) + " --seconds 0 --work 20000000 --json");
        EXPECT_EQ(ran.exitCode, 0) << name << ran.err << ran.out;
        const auto report = nlohmann::json::parse(ran.out, nullptr, false);
        ASSERT_TRUE(report.is_object()) << ran.out;
        EXPECT_EQ(report.at("audit"), "pass") << name;
        EXPECT_EQ(report.at("placed"), report.at("demanded")) << name;
        EXPECT_GT(report.at("yield").get<double>(), 0.2) << name;
        EXPECT_LE(report.at("yield").get<double>(), 1.0) << name;
        EXPECT_LT(report.at("yield_finished").get<double>(), report.at("yield").get<double>())
            << name;
        for (const char* key : {"status", "boards_used", "board_feet_used", "board_feet_parts",
                                "board_feet_offcuts_kept", "cost", "fills", "seconds_first_plan",
                                "seconds", "unplaced"}) {
            EXPECT_TRUE(report.contains(key)) << key;
        }
    }
}

TEST(PlanCommand, WritesAJobThatChecksCleanAndPrints) {
    const TemporaryFolder folder;
    const std::string planned = folder.file("planned.stavejob");
    ASSERT_EQ(
        runProgram("plan " + sampleArgument("hall-shelf") + " --seconds 1 -o " + planned).exitCode,
        0);
    const Ran check = runProgram("check " + planned);
    EXPECT_EQ(check.exitCode, 0) << check.out << check.err;
    const Ran papers =
        runProgram("papers " + planned + " --date 2026-01-31 -o " + folder.file("p.pdf"));
    EXPECT_EQ(papers.exitCode, 0) << papers.err;
    EXPECT_EQ(readText(folder.file("p.pdf")).substr(0, 5), "%PDF-");
}

TEST(PlanCommand, WithoutOutWritesNothing) {
    const TemporaryFolder folder;
    const std::string job = folder.file("job.stavejob");
    const std::string before = readText(samplePath("hall-shelf"));
    writeText(job, before);
    ASSERT_EQ(runProgram("plan " + job + " --seconds 1").exitCode, 0);
    EXPECT_EQ(readText(job), before);
    EXPECT_EQ(std::distance(std::filesystem::directory_iterator(folder.path()),
                            std::filesystem::directory_iterator{}),
              1);
}

TEST(PlanCommand, SameSeedAndWorkGiveTheSamePlanWhateverTheThreads) {
    const TemporaryFolder folder;
    for (const char* threads : {"1", "2"}) {
        const Ran ran = runProgram("plan " + sampleArgument("linen-chest") +
                                   " --seconds 0 --work 200000 --seed 5 --threads " + threads +
                                   " -o " + folder.file(std::string(threads) + ".json"));
        ASSERT_EQ(ran.exitCode, 0) << ran.err;
    }
    EXPECT_EQ(readText(folder.file("1.json")), readText(folder.file("2.json")));
}

TEST(PlanCommand, CountsLumberInTheMeasureOfTheJobsUnit) {
    const auto words = [](const char* sample) {
        return runProgram("plan " + sampleArgument(sample) + " --seconds 0 --work 1000").out;
    };
    const std::string inches = words("hall-shelf");
    EXPECT_NE(inches.find(" bd ft"), std::string::npos) << inches;
    EXPECT_EQ(inches.find("m³"), std::string::npos) << inches;
    const std::string metric = words("linen-chest");
    EXPECT_NE(metric.find(" m³; rough blanks"), std::string::npos) << metric;
    EXPECT_EQ(metric.find("bd ft"), std::string::npos) << metric;
}

TEST(PlanCommand, AlternativesStandSideBySideAndOneIsTaken) {
    const TemporaryFolder folder;
    const std::string planned = folder.file("planned.stavejob");
    const Ran ran = runProgram("plan " + sampleArgument("kitchen-table") +
                               " --seconds 0 --work 200000 --alternatives --json "
                               "--take fewest-knots -o " +
                               planned);
    EXPECT_EQ(ran.exitCode, 0) << ran.err;
    const auto report = nlohmann::json::parse(ran.out, nullptr, false);
    ASSERT_TRUE(report.is_object()) << ran.out;
    const auto& plans = report.at("alternatives");
    ASSERT_FALSE(plans.empty());
    EXPECT_EQ(plans.front().at("best_at").front(), "cheapest");
    int taken = 0;
    for (const auto& plan : plans) {
        for (const char* key : {"cost", "board_feet_used", "knots_on_show", "set_ups",
                                "set_ups_by_saw", "against_the_first"}) {
            EXPECT_TRUE(plan.contains(key)) << key;
        }
        if (plan.at("taken").get<bool>()) {
            ++taken;
            EXPECT_EQ(plan.at("cost"), report.at("cost"));
            const auto& aims = plan.at("best_at");
            EXPECT_NE(std::find(aims.begin(), aims.end(), "fewest-knots"), aims.end());
        }
    }
    EXPECT_EQ(taken, 1);
    EXPECT_EQ(runProgram("check " + planned).exitCode, 0);
}

TEST(PlanCommand, AlternativesInWordsNameEveryFigure) {
    const Ran ran = runProgram("plan " + sampleArgument("hall-shelf") +
                               " --seconds 0 --work 20000 --alternatives");
    EXPECT_EQ(ran.exitCode, 0) << ran.err;
    for (const char* word : {"Cheapest", "(taken)", "on show", "set-ups", "bd ft"}) {
        EXPECT_NE(ran.out.find(word), std::string::npos) << word << '\n' << ran.out;
    }
}

TEST(PlanCommand, SaysWhatFoundNoPlaceAndExitsWithOne) {
    const TemporaryFolder folder;
    Document job = samples::hallShelf();
    job.parts.front().length.base = Length::inches(140); // longer than every board
    ASSERT_TRUE(writeJob(job, folder.file("long.json")));
    const Ran ran = runProgram("plan " + folder.file("long.json") + " --seconds 1 --json");
    EXPECT_EQ(ran.exitCode, 1) << ran.err << ran.out;
    const auto report = nlohmann::json::parse(ran.out, nullptr, false);
    ASSERT_TRUE(report.is_object());
    ASSERT_FALSE(report.at("unplaced").empty());
    EXPECT_FALSE(report.at("unplaced").front().at("nearest_miss").get<std::string>().empty());
    EXPECT_EQ(report.at("audit"), "pass");
}

} // namespace
} // namespace stavewright::testing
