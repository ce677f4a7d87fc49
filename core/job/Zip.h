#pragma once
// The zip that a *.stavejob is, in memory. Canonical: entries stored without compression, in fixed
// order, with one fixed time, so the same content always gives the same bytes.

#include <string>
#include <string_view>

#include "core/base/Result.h"

namespace stavewright::job {

/// More than the longest job text, so that whatever can be written as text fits in.
inline constexpr std::size_t mostZipBytes = std::size_t{256} * 1024 * 1024;
inline constexpr std::size_t mostZipEntries = 5'000;
inline constexpr std::string_view jobEntryName = "job.json";

/// True when the bytes begin like a zip.
[[nodiscard]] bool looksLikeZip(std::string_view bytes);

Result<std::string> zipOfJob(std::string_view jobJson);

/// The text of job.json. Refuses damaged and encrypted zips, entries that point out of the folder,
/// names given twice, and contents that are larger than a job may be.
Result<std::string> jobOfZip(std::string_view bytes);

} // namespace stavewright::job
