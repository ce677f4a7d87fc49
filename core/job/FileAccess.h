#pragma once
// Whole files in and out, each failure as one sentence. Writing is in JobFile.h (writeAtomically).

#include <string>

#include "core/base/Result.h"

namespace stavewright::job {

/// Refuses folders, devices and pipes, and what is larger than `most` bytes. Errors carry no place.
Result<std::string> readWholeFile(const std::string& path, std::size_t most);

} // namespace stavewright::job
