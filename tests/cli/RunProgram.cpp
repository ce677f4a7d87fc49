#include "tests/cli/RunProgram.h"

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <sys/wait.h>
#include <unistd.h>

namespace stavewright::testing {

Ran runProgram(const std::string& arguments, const std::string& before) {
    const TemporaryFolder folder;
    const std::string command = before + std::string(STAVEWRIGHT_PROGRAM) + " " + arguments + " >" +
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
    return std::string(STAVEWRIGHT_SOURCE_DIR "/samples/") + name + ".stavejob";
}

} // namespace stavewright::testing
