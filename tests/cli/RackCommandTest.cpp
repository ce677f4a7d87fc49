#include <gmock/gmock.h>

#include <nlohmann/json.hpp>

#include "core/job/JobFile.h"
#include "tests/cli/RunProgram.h"

namespace stavewright::testing {
namespace {

using ::testing::HasSubstr;

nlohmann::json listed(const std::string& rack, const std::string& more = {}) {
    const Ran ran = runProgram("rack list --json --rack " + rack + ' ' + more);
    EXPECT_EQ(ran.exitCode, 0) << ran.err;
    return nlohmann::json::parse(ran.out, nullptr, false);
}

TEST(RackCommand, OffcutsOfOneJobAreTakenIntoAnother) {
    const TemporaryFolder folder;
    const std::string rack = folder.file("shop.staverack");
    const std::string planned = folder.file("planned.stavejob");
    ASSERT_EQ(runProgram("plan " + sampleArgument("hall-shelf") +
                         " --seconds 0 --work 1000000 -o " + planned)
                  .exitCode,
              0);
    const std::string done = folder.file("done.stavejob");
    const Ran back = runProgram("rack return " + planned + " -o " + done + " --rack " + rack);
    ASSERT_EQ(back.exitCode, 0) << back.err;
    EXPECT_EQ(runProgram("check " + done).exitCode, 0);
    const nlohmann::json there = listed(rack);
    ASSERT_FALSE(there.empty());
    EXPECT_EQ(there.at(0).at("kind"), "offcut");
    // Once only: a second return of the job as it was before is refused, too.
    EXPECT_EQ(runProgram("rack return " + done + " -o " + done + " --rack " + rack).exitCode, 2);

    const std::string number = std::to_string(there.at(0).at("number").get<int>());
    const std::string other = folder.file("other.stavejob");
    const Ran taken = runProgram("rack take " + sampleArgument("kitchen-table") + ' ' + number +
                                 " -o " + other + " --rack " + rack);
    ASSERT_EQ(taken.exitCode, 0) << taken.err;
    const Result<Document> job = readJob(other);
    ASSERT_TRUE(job);
    ASSERT_TRUE(job.value().boards.back().rackLink);
    EXPECT_EQ(std::to_string(job.value().boards.back().rackLink->piece), number);
    // In two jobs at once it is refused, and the other job is named.
    const std::string third = folder.file("third.stavejob");
    const Ran refused = runProgram("rack take " + sampleArgument("linen-chest") + ' ' + number +
                                   " -o " + third + " --rack " + rack);
    EXPECT_EQ(refused.exitCode, 2);
    EXPECT_THAT(refused.err, HasSubstr("“" + job.value().info.title + "”"));
    EXPECT_FALSE(std::filesystem::exists(third));
    // The job's file is lost; the wood is not.
    EXPECT_EQ(runProgram("rack call-back " + number + " --rack " + rack).exitCode, 0);
    EXPECT_EQ(listed(rack).size(), there.size());
    EXPECT_EQ(listed(rack, "--length 1mm --text \"" + job.value().info.title + '"').size(), 0U);
}

TEST(RackCommand, AJobThatCannotBeWrittenLeavesTheRackAsItWas) {
    const TemporaryFolder folder;
    const std::string rack = folder.file("shop.staverack");
    const std::string planned = folder.file("planned.stavejob");
    ASSERT_EQ(runProgram("plan " + sampleArgument("hall-shelf") +
                         " --seconds 0 --work 1000000 -o " + planned)
                  .exitCode,
              0);
    const Ran ran =
        runProgram("rack return " + planned + " -o /nowhere/at-all.stavejob --rack " + rack);
    EXPECT_EQ(ran.exitCode, 3);
    EXPECT_TRUE(listed(rack, "--all").empty());
}

TEST(RackCommand, WhatMakesNoSenseIsSaid) {
    const TemporaryFolder folder;
    const std::string rack = folder.file("shop.staverack");
    const Ran species = runProgram("rack list --species teakwood --rack " + rack);
    EXPECT_EQ(species.exitCode, 2);
    EXPECT_THAT(species.err, HasSubstr("“teakwood”"));
    const Ran length = runProgram("rack list --length long --rack " + rack);
    EXPECT_EQ(length.exitCode, 2);
    const Ran board = runProgram("rack return " + sampleArgument("hall-shelf") + " --board Q9 -o " +
                                 folder.file("x.stavejob") + " --rack " + rack);
    EXPECT_EQ(board.exitCode, 2);
    EXPECT_THAT(board.err, HasSubstr("“Q9”"));
    writeText(folder.file("letter.txt"), std::string(4000, 'x'));
    const Ran foreign = runProgram("rack list --rack " + folder.file("letter.txt"));
    EXPECT_EQ(foreign.exitCode, 2);
    EXPECT_THAT(foreign.err, HasSubstr("is no shop rack"));
}

} // namespace
} // namespace stavewright::testing
