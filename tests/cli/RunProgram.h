#pragma once
// Runs the built program and keeps what it said.

#include <filesystem>
#include <string>

namespace stavewright::testing {

struct Ran {
    int exitCode = -1;
    std::string out;
    std::string err;
};

/// `arguments` as typed in a shell; `before` may set limits ("ulimit -f 1; ").
Ran runProgram(const std::string& arguments, const std::string& before = {});

/// A folder that is empty at the start and removed at the end.
class TemporaryFolder {
  public:
    TemporaryFolder();
    ~TemporaryFolder();
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;
    [[nodiscard]] std::string file(const std::string& name) const {
        return (m_path / name).string();
    }
    [[nodiscard]] const std::filesystem::path& path() const { return m_path; }

  private:
    std::filesystem::path m_path;
};

std::string readText(const std::string& path);
void writeText(const std::string& path, const std::string& text);

/// Path of a committed sample.
std::string samplePath(const std::string& name);
/// The same as an argument in a shell.
std::string sampleArgument(const std::string& name);

} // namespace stavewright::testing
