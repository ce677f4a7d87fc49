#include <gtest/gtest.h>

#include "core/job/JobFile.h"
#include "core/lumber/BoardShape.h"
#include "tests/cli/RunProgram.h"

namespace stavewright::testing {
namespace {

TEST(TallyCommand, PutsATableOnTheRackAndWritesItOutAgain) {
    const TemporaryFolder folder;
    writeText(folder.file("t.csv"), "Width (mm),No,Length (mm)\n210,X1,2400\n190,X2,1800\n");
    const std::string job = folder.file("job.stavejob"); // it has photographs
    const Ran ran = runProgram("tally " + folder.file("t.csv") + " --into " +
                               sampleArgument("hall-shelf") + " -o " + job);
    ASSERT_EQ(ran.exitCode, 0) << ran.err;
    EXPECT_NE(ran.out.find("2 boards: "), std::string::npos) << ran.out;
    EXPECT_NE(ran.out.find("No -> Mark"), std::string::npos) << ran.out;
    const Result<Document> before = readJob(samplePath("hall-shelf"));
    const Result<Document> after = readJob(job);
    ASSERT_TRUE(before && after);
    ASSERT_EQ(after.value().boards.size(), before.value().boards.size() + 2);
    EXPECT_EQ(lengthOf(after.value().boards.back()), Length::millimetres(1800));
    const Ran boards = runProgram("boards " + job + " --units mm");
    EXPECT_EQ(boards.exitCode, 0) << boards.err;
    EXPECT_NE(boards.out.find("\nX2,"), std::string::npos) << boards.out;
    EXPECT_EQ(runProgram("boards " + job + " -o " + folder.file("r.csv")).exitCode, 0);
    EXPECT_EQ(readText(folder.file("r.csv")).substr(0, 5), "Mark,");
}

TEST(TallyCommand, ABadCellIsToldAndChangesNothing) {
    const TemporaryFolder folder;
    writeText(folder.file("t.csv"), "Mark,Length,Width\n1,96,8\n2,long,8\n3,90,\n");
    const std::string job = folder.file("job.json");
    const Ran ran = runProgram("tally " + folder.file("t.csv") + " --into " +
                               sampleArgument("hall-shelf") + " -o " + job);
    EXPECT_EQ(ran.exitCode, 2);
    EXPECT_NE(ran.err.find("row 3: Length: "), std::string::npos) << ran.err;
    EXPECT_NE(ran.err.find("row 4: Width: "), std::string::npos) << ran.err;
    EXPECT_FALSE(std::filesystem::exists(job));
    writeText(folder.file("u.csv"), std::string("PK\0\3", 4));
    for (const char* arguments : {"u.csv", "missing.csv", ""}) {
        const Ran bad = runProgram("tally " + folder.file(arguments));
        EXPECT_EQ(bad.exitCode, 2) << arguments;
        EXPECT_FALSE(bad.err.empty());
    }
    EXPECT_EQ(runProgram("tally").exitCode, 2);
    EXPECT_EQ(runProgram("boards " + folder.file("missing.json")).exitCode, 2);
}

} // namespace
} // namespace stavewright::testing
