#pragma once
// The job on disk: `*.stavejob`, a zip with job.json and photos, or a bare JSON job. Canonical: the
// same document always gives the same bytes. Writing is atomic; a damaged or hostile file is
// refused with one sentence and changes nothing.

#include <stop_token>
#include <string>
#include <string_view>

#include "core/document/Document.h"

namespace stavewright {

inline constexpr int jobFormatVersion = 1;

/// Sorted keys, integers for lengths (nanometres), C locale, two-space indent, final newline.
[[nodiscard]] std::string toJson(const Document& document);

/// Errors name the JSON pointer, the value and what is allowed. Validates the document.
Result<Document> fromJson(std::string_view text);

/// Where photographs are looked for that do not stand in the job file itself.
struct PhotoPlaces {
    std::string folder; ///< of files named by their SHA-256; of a bare JSON job: photos/ beside it
    std::string otherJob; ///< a job file that holds them
};

/// Photographs are found, not read: PhotoFile fetches each when it is wanted, and tells then if it
/// is missing or damaged. Those in a zip keep it open.
Result<Document> readJob(const std::string& path, const PhotoPlaces& places = {});

/// Zip when the name ends in .stavejob, bare JSON when it ends in .json. Fails for bare JSON with
/// photographs, and when one of them cannot be read: a job is never written without one.
Status writeJob(const Document& document, const std::string& path);

/// The job without its photographs, for copies that are written often. Those that do not stand in
/// the file at `places.otherJob` are written to `places.folder` once; one that cannot be read or
/// written there is left out.
Status writeJobApart(const Document& document, const std::string& path, const PhotoPlaces& places);

/// The photographs alone, so that writeJobApart finds them there and is quick. Stops between two.
void writePhotosApart(const Document& document, const PhotoPlaces& places,
                      const std::stop_token& stop);

/// Before that folder goes away: what stands in it is held in memory.
void holdPhotosInMemory(const Document& document, const std::string& folder);

/// After writeJob: photographs are read from that file from now on, which frees the memory of new
/// ones and the file that was there before.
void restPhotosOn(const Document& document, const std::string& path);

/// Writes bytes beside the target, syncs, and renames over it; the old file stays on any failure.
Status writeAtomically(const std::string& path, std::string_view bytes);

} // namespace stavewright
