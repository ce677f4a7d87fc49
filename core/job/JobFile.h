#pragma once
// The job on disk: `*.stavejob`, a zip with job.json and photos, or a bare JSON job. Canonical: the
// same document always gives the same bytes. Writing is atomic; a damaged or hostile file is
// refused with one sentence and changes nothing.

#include <string>
#include <string_view>

#include "core/document/Document.h"

namespace stavewright {

inline constexpr int jobFormatVersion = 1;

/// Sorted keys, integers for lengths (nanometres), C locale, two-space indent, final newline.
[[nodiscard]] std::string toJson(const Document& document);

/// Errors name the JSON pointer, the value and what is allowed. Validates the document.
Result<Document> fromJson(std::string_view text);

Result<Document> readJob(const std::string& path);

/// Zip when the name ends in .stavejob, bare JSON when it ends in .json.
Status writeJob(const Document& document, const std::string& path);

/// Writes bytes beside the target, syncs, and renames over it; the old file stays on any failure.
Status writeAtomically(const std::string& path, std::string_view bytes);

} // namespace stavewright
