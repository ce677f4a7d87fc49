#pragma once
// Whole files in and out, each failure as one sentence. Writing is in JobFile.h (writeAtomically).

#include <cstdio>
#include <functional>
#include <memory>
#include <string>
#include <string_view>

#include "core/base/Result.h"

namespace stavewright::job {

/// Refuses folders, devices and pipes, and what is larger than `most` bytes. Errors carry no place.
Result<std::string> readWholeFile(const std::string& path, std::size_t most);

/// An ordinary file, held open: what stands in it can be read even after another one was renamed
/// over it. The same refusals.
struct OpenFile {
    std::unique_ptr<std::FILE, int (*)(std::FILE*)> file{nullptr, nullptr};
    std::uint64_t size = 0;
    std::uint64_t device = 0; ///< with `number`, which file of the system it is
    std::uint64_t number = 0;
};
Result<OpenFile> openWholeFile(const std::string& path, std::size_t most);
/// Whether the file at `path` is that very file.
[[nodiscard]] bool isFileAt(const std::string& path, std::uint64_t device, std::uint64_t number);

/// Takes the next bytes of a file; false when they could not be written.
using Sink = std::function<bool(std::string_view)>;
/// As writeAtomically, for what is too large to hold in memory. `fill` hands over everything and
/// stops at the first false; its own error leaves the old file as it is.
Status writeAtomicallyBy(const std::string& path, const std::function<Status(const Sink&)>& fill);

} // namespace stavewright::job
