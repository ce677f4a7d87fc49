#include "tests/cli/RunProgram.h"

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <sys/wait.h>
#include <unistd.h>

#include "tests/SourceFolder.h"

namespace stavewright::testing {

namespace {

/// For the shell: the project may lie in a folder whose name has spaces.
std::string quoted(const std::string& path) { return '"' + path + '"'; }

} // namespace

Ran runProgram(const std::string& arguments, const std::string& before) {
    const TemporaryFolder folder;
    const std::string command = before + quoted(STAVEWRIGHT_PROGRAM) + " " + arguments + " >" +
                                folder.file("out") + " 2>" + folder.file("err");
    const int status = std::system(command.c_str());
    Ran ran;
    ran.exitCode = WIFEXITED(status) ? WEXITSTATUS(status) : 128;
    ran.out = readText(folder.file("out"));
    ran.err = readText(folder.file("err"));
    return ran;
}

TemporaryFolder::TemporaryFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "stavewright-XXXXXX").string();
    m_path = ::mkdtemp(name.data());
}

TemporaryFolder::~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(m_path, ignored);
}

std::string readText(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

void writeText(const std::string& path, const std::string& text) {
    std::ofstream(path, std::ios::binary) << text;
}

std::string samplePath(const std::string& name) {
    return sourceFolder() + "/samples/" + name + ".stavejob";
}

std::string sampleArgument(const std::string& name) { return quoted(samplePath(name)); }

} // namespace stavewright::testing
