#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>

#include "core/job/JobFile.h"
#include "tests/cli/RunProgram.h"
#include "tests/tools/samples/Samples.h"

namespace stavewright::testing {
namespace {

/// One sentence on standard error that names the file; nothing on standard output; exit 2.
void expectRefused(const std::string& path, const std::string& mustSay) {
    const Ran ran = runProgram("plan " + path + " --seconds 1");
    EXPECT_EQ(ran.exitCode, 2) << path << ran.out;
    EXPECT_EQ(ran.out, "");
    EXPECT_EQ(std::count(ran.err.begin(), ran.err.end(), '\n'), 1) << ran.err;
    EXPECT_NE(ran.err.find(std::filesystem::path(path).filename().string()), std::string::npos)
        << ran.err;
    EXPECT_NE(ran.err.find(mustSay), std::string::npos) << ran.err;
}

class BadInput : public ::testing::Test {
  protected:
    nlohmann::json job() const { return nlohmann::json::parse(toJson(samples::hallShelf())); }
    std::string written(const std::string& name, const std::string& text) {
        writeText(m_folder.file(name), text);
        return m_folder.file(name);
    }
    TemporaryFolder m_folder;
};

TEST_F(BadInput, TruncatedJson) {
    const std::string text = toJson(samples::hallShelf());
    expectRefused(written("cut.json", text.substr(0, text.size() / 2)), "line");
}

TEST_F(BadInput, WrongType) {
    auto bad = job();
    bad["boards"][1]["mark"] = 7;
    expectRefused(written("type.json", bad.dump()), "/boards/1/mark");
}

TEST_F(BadInput, NotANumber) {
    std::string text = toJson(samples::hallShelf());
    const auto at = text.find("\"thinnest\": ") + 12;
    text.replace(at, text.find_first_of(",\n", at) - at, "NaN");
    expectRefused(written("nan.json", text), "line");
}

TEST_F(BadInput, HugeNumber) {
    auto bad = job();
    bad["boards"][0]["thinnest"] = 9'000'000'000'000'000'000;
    expectRefused(written("huge.json", bad.dump()), "/boards/0/thinnest");
}

TEST_F(BadInput, SelfCrossingOutline) {
    auto bad = job();
    auto& outline = bad["boards"][0]["outline"];
    std::swap(outline[1], outline[outline.size() - 2]);
    expectRefused(written("crossing.json", bad.dump()), "/boards/0/outline");
}

TEST_F(BadInput, NegativeSize) {
    auto bad = job();
    bad["parts"][0]["width"]["base"] = -25'400'000;
    expectRefused(written("negative.json", bad.dump()), "/parts/0/width");
}

TEST_F(BadInput, TooManyBoards) {
    Document many = samples::hallShelf();
    while (many.boards.size() <= mostBoards) {
        Board copy = many.boards.front();
        copy.id = many.takeId<BoardId>();
        copy.mark = "x" + std::to_string(many.boards.size());
        copy.defects.clear();
        many.boards.push_back(copy);
    }
    expectRefused(written("many.json", toJson(many)), "2000");
}

TEST_F(BadInput, DamagedZip) {
    // One without photographs: those are only read when they are wanted.
    std::string bytes = readText(samplePath("linen-chest"));
    bytes[bytes.size() / 2] = static_cast<char>(bytes[bytes.size() / 2] ^ 0x55);
    expectRefused(written("damaged.stavejob", bytes), "damaged.stavejob");
    expectRefused(written("half.stavejob", bytes.substr(0, bytes.size() / 3)), "half.stavejob");
}

TEST_F(BadInput, NewerVersionIsDeclinedKindly) {
    auto newer = job();
    newer["formatVersion"] = jobFormatVersion + 1;
    expectRefused(written("newer.json", newer.dump()), "newer");
}

TEST_F(BadInput, DirectoryMissingAndEmptyFile) {
    std::filesystem::create_directory(m_folder.file("folder.stavejob"));
    expectRefused(m_folder.file("folder.stavejob"), "folder");
    expectRefused(m_folder.file("missing.stavejob"), "missing.stavejob");
    expectRefused(written("empty.json", ""), "empty");
}

TEST_F(BadInput, UnwritableTargetIsExitThreeAndLeavesNothing) {
    const Ran missing = runProgram("plan " + sampleArgument("hall-shelf") + " --seconds 1 -o " +
                                   m_folder.file("no/such.json"));
    EXPECT_EQ(missing.exitCode, 3) << missing.err;
    const Ran folder = runProgram("papers " + sampleArgument("hall-shelf") + " --seconds 1 -o " +
                                  m_folder.path().string());
    EXPECT_EQ(folder.exitCode, 3) << folder.err;
    EXPECT_TRUE(std::filesystem::is_empty(m_folder.path()));
}

TEST_F(BadInput, AJobIsNotWrittenOverAFolderOrADevice) {
    // Never a real device here: a named pipe is just as little a file.
    const std::string pipe = m_folder.file("pipe.json");
    ASSERT_EQ(std::system(("mkfifo " + pipe).c_str()), 0);
    const std::string folder = m_folder.file("folder.stavejob");
    std::filesystem::create_directory(folder);
    for (const std::string& target : {pipe, folder}) {
        const Ran ran =
            runProgram("plan " + sampleArgument("hall-shelf") + " --seconds 1 -o " + target);
        EXPECT_EQ(ran.exitCode, 3) << target << ran.err;
        EXPECT_NE(ran.err.find(target), std::string::npos) << ran.err;
        EXPECT_EQ(std::count(ran.err.begin(), ran.err.end(), '\n'), 1) << ran.err;
    }
    EXPECT_TRUE(std::filesystem::is_fifo(pipe));
    EXPECT_TRUE(std::filesystem::is_empty(folder));
}

TEST_F(BadInput, FullDiskIsExitThreeAndKeepsTheOldFile) {
    const std::string target = written("old.json", "old");
    // A file-size limit of one block stands in for a full disk; SIGXFSZ is ignored so that write()
    // fails.
    const Ran ran = runProgram("plan " + sampleArgument("hall-shelf") + " --seconds 1 -o " + target,
                               "trap '' XFSZ; ulimit -f 1; ");
    EXPECT_EQ(ran.exitCode, 3) << ran.err;
    EXPECT_EQ(readText(target), "old");
    EXPECT_EQ(std::distance(std::filesystem::directory_iterator(m_folder.path()),
                            std::filesystem::directory_iterator{}),
              1);
}

TEST_F(BadInput, UnknownOptionIsOneSentence) {
    const Ran ran = runProgram("plan " + sampleArgument("hall-shelf") + " --colour red");
    EXPECT_EQ(ran.exitCode, 2);
    EXPECT_NE(ran.err.find("--colour"), std::string::npos) << ran.err;
}

} // namespace
} // namespace stavewright::testing
