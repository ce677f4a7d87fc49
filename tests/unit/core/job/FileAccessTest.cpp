#include "core/job/FileAccess.h"

#include <gtest/gtest.h>

#include <csignal>

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "core/job/JobFile.h"
#include "tests/unit/core/job/TemporaryFolder.h"

namespace stavewright {
namespace {

using testing::contentOf;
using testing::TemporaryFolder;
using testing::writeTo;
using Names = std::set<std::string>;

void expectCannotWrite(const Status& status, const std::string& path, const std::string& words) {
    ASSERT_FALSE(status);
    EXPECT_EQ(status.error().code, ErrorCode::CannotWrite);
    EXPECT_EQ(status.error().place, path);
    EXPECT_NE(status.error().message.find(words), std::string::npos) << status.error().message;
}

mode_t permissionsOf(const std::string& path) {
    struct stat status {};
    EXPECT_EQ(stat(path.c_str(), &status), 0);
    return status.st_mode & 07777U;
}

TEST(FileAccessTest, ANewFileHoldsTheBytesAndNothingLiesBesideIt) {
    const TemporaryFolder folder;
    const std::string bytes("with a zero \0 inside", 20);
    ASSERT_TRUE(writeAtomically(folder.file("job.json"), bytes));
    EXPECT_EQ(contentOf(folder.file("job.json")), bytes);
    EXPECT_EQ(folder.content(), Names{"job.json"});
    ASSERT_TRUE(writeAtomically(folder.file("job.json"), ""));
    EXPECT_EQ(contentOf(folder.file("job.json")), "");
}

TEST(FileAccessTest, ANewFileGetsThePermissionsThatTheUserAsksFor) {
    const TemporaryFolder folder;
    const mode_t before = umask(027);
    const Status status = writeAtomically(folder.file("job.json"), "x");
    umask(before);
    ASSERT_TRUE(status);
    EXPECT_EQ(permissionsOf(folder.file("job.json")), 0640U);
}

TEST(FileAccessTest, AReplacedFileKeepsItsPermissions) {
    const TemporaryFolder folder;
    const std::string path = folder.file("job.json");
    writeTo(path, "old");
    ASSERT_EQ(chmod(path.c_str(), 0604), 0);
    ASSERT_TRUE(writeAtomically(path, "new"));
    EXPECT_EQ(contentOf(path), "new");
    EXPECT_EQ(permissionsOf(path), 0604U);
}

TEST(FileAccessTest, ThroughALinkTheFileBehindItIsWritten) {
    const TemporaryFolder folder;
    std::filesystem::create_directory(folder.file("real"));
    writeTo(folder.file("real/job.json"), "old");
    std::filesystem::create_symlink("real/job.json", folder.file("link"));
    std::filesystem::create_symlink(folder.file("link"), folder.file("second"));
    ASSERT_TRUE(writeAtomically(folder.file("second"), "new"));
    EXPECT_EQ(contentOf(folder.file("real/job.json")), "new");
    EXPECT_TRUE(std::filesystem::is_symlink(folder.file("link")));
    EXPECT_TRUE(std::filesystem::is_symlink(folder.file("second")));

    std::filesystem::create_symlink("real/none-yet.json", folder.file("dangling"));
    ASSERT_TRUE(writeAtomically(folder.file("dangling"), "made"));
    EXPECT_EQ(contentOf(folder.file("real/none-yet.json")), "made");
}

TEST(FileAccessTest, LinksInACircleAreRefused) {
    const TemporaryFolder folder;
    std::filesystem::create_symlink("b", folder.file("a"));
    std::filesystem::create_symlink("a", folder.file("b"));
    expectCannotWrite(writeAtomically(folder.file("a"), "x"), folder.file("a"), "link");
}

TEST(FileAccessTest, FoldersAndDevicesAreNotReplaced) {
    const TemporaryFolder folder;
    std::filesystem::create_directory(folder.file("job.json"));
    expectCannotWrite(writeAtomically(folder.file("job.json"), "x"), folder.file("job.json"),
                      "a folder of that name");
    expectCannotWrite(writeAtomically("/dev/full", "x"), "/dev/full", "a device");
    expectCannotWrite(writeAtomically(folder.file("no/such.json"), "x"),
                      folder.file("no/such.json"), "No such file");
    EXPECT_EQ(folder.content(), Names{"job.json"});
}

/// The superuser may write everywhere; so the test goes on as the user who owns nothing.
class AsOrdinaryUser {
  public:
    AsOrdinaryUser() {
        constexpr uid_t nobody = 65534;
        if (geteuid() == 0) {
            EXPECT_EQ(seteuid(nobody), 0);
        }
    }
    ~AsOrdinaryUser() { EXPECT_EQ(seteuid(m_before), 0); }
    AsOrdinaryUser(const AsOrdinaryUser&) = delete;
    AsOrdinaryUser& operator=(const AsOrdinaryUser&) = delete;

  private:
    uid_t m_before = geteuid();
};

TEST(FileAccessTest, AFileOrFolderWithoutWritePermissionStaysAsItIs) {
    const AsOrdinaryUser user;
    const TemporaryFolder folder;
    const std::string path = folder.file("job.json");
    writeTo(path, "old");
    ASSERT_EQ(chmod(path.c_str(), 0444), 0);
    expectCannotWrite(writeAtomically(path, "new"), path, "ermission");
    EXPECT_EQ(contentOf(path), "old");
    const std::string closed = folder.file("closed");
    std::filesystem::create_directory(closed);
    ASSERT_EQ(chmod(closed.c_str(), 0555), 0);
    expectCannotWrite(writeAtomically(closed + "/job.json", "new"), closed + "/job.json",
                      "ermission");
    ASSERT_EQ(chmod(closed.c_str(), 0755), 0);
}

// A limit on the size of files stands in for a full disk: both fail in the middle of writing. The
// limit comes with a signal that would end the process; a child process shows that it does not.
TEST(FileAccessTest, OnAFullDiskTheOldFileStaysAndNoLitterIsLeft) {
    const TemporaryFolder folder;
    const std::string path = folder.file("job.json");
    writeTo(path, "old");
    const pid_t child = fork();
    if (child == 0) {
        std::signal(SIGXFSZ, SIG_DFL);
        const rlimit limit{4096, 4096};
        setrlimit(RLIMIT_FSIZE, &limit);
        const Status status = writeAtomically(path, std::string(100'000, 'x'));
        _exit(!status && status.error().code == ErrorCode::CannotWrite ? 7 : 8);
    }
    ASSERT_GT(child, 0);
    int ended = 0;
    ASSERT_EQ(waitpid(child, &ended, 0), child);
    ASSERT_TRUE(WIFEXITED(ended)) << "ended by signal " << WTERMSIG(ended);
    EXPECT_EQ(WEXITSTATUS(ended), 7);
    EXPECT_EQ(contentOf(path), "old");
    EXPECT_EQ(folder.content(), Names{"job.json"});
}

TEST(FileAccessTest, ReadsWholeFilesUpToTheLimit) {
    const TemporaryFolder folder;
    writeTo(folder.file("a"), "12345");
    EXPECT_EQ(job::readWholeFile(folder.file("a"), 5).value(), "12345");
    const Result<std::string> tooMuch = job::readWholeFile(folder.file("a"), 4);
    ASSERT_FALSE(tooMuch);
    EXPECT_EQ(tooMuch.error().message,
              "The file cannot be read: it has 5 bytes; at most 4 are allowed.");
}

TEST(FileAccessTest, FoldersDevicesAndPipesAreNotRead) {
    const TemporaryFolder folder;
    ASSERT_EQ(mkfifo(folder.file("pipe").c_str(), 0600), 0);
    for (const std::string& path :
         {folder.file(""), std::string("/dev/zero"), folder.file("pipe")}) {
        const Result<std::string> content = job::readWholeFile(path, 1'000);
        ASSERT_FALSE(content) << path;
        EXPECT_EQ(content.error().code, ErrorCode::CannotRead);
        EXPECT_NE(content.error().message.find("a job file is due"), std::string::npos);
    }
}

} // namespace
} // namespace stavewright
