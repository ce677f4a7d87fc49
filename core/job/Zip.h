#pragma once
// The zip that a *.stavejob is: `job.json` and `photos/<sha256>`. Canonical: entries stored without
// compression, in fixed order, with one fixed time, so the same content always gives the same
// bytes. Photographs are read from it one by one when somebody wants to see them.

#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/Result.h"
#include "core/job/FileAccess.h"
#include "core/lumber/PhotoFile.h"

namespace stavewright::job {

/// Of a job without photographs, or as bare text: more than the longest job text, so that whatever
/// can be written as text fits in.
inline constexpr std::size_t mostZipBytes = std::size_t{256} * 1024 * 1024;
/// With photographs: what a zip can hold without its extension for larger ones.
inline constexpr std::size_t mostArchiveBytes = 0xFFFF'0000U;
inline constexpr std::size_t mostPhotoBytes = std::size_t{512} * 1024 * 1024;
inline constexpr std::size_t mostZipEntries = 5'000;
inline constexpr std::string_view jobEntryName = "job.json";
inline constexpr std::string_view photoFolder = "photos/";

/// True when the bytes begin like a zip.
[[nodiscard]] bool looksLikeZip(std::string_view bytes);

/// An opened zip. It can be read from any thread, and lives as long as a photograph rests on it.
class JobArchive {
  public:
    /// Refuses damaged and encrypted zips, entries that point out of the folder, names given twice,
    /// strangers, and contents that are larger than a job may be. No photograph is read.
    static Result<std::shared_ptr<JobArchive>> open(OpenFile file);
    static Result<std::shared_ptr<JobArchive>> open(std::string_view bytes); ///< must outlive it
    ~JobArchive();
    JobArchive(const JobArchive&) = delete;
    JobArchive& operator=(const JobArchive&) = delete;

    /// The text of job.json.
    [[nodiscard]] const std::string& jobText() const;
    /// By their SHA-256.
    [[nodiscard]] const std::map<std::string, std::shared_ptr<const PhotoSource>>& photos() const {
        return m_photos;
    }

  private:
    struct Held;
    explicit JobArchive(std::shared_ptr<Held> held);
    static Result<std::shared_ptr<JobArchive>> take(std::shared_ptr<Held> held);

    std::shared_ptr<Held> m_held;
    std::map<std::string, std::shared_ptr<const PhotoSource>> m_photos;
};

/// Fails where a photograph cannot be read, with its SHA-256 as the place, and where all together
/// are too large.
Status writeZip(std::string_view jobJson, const std::vector<PhotoFile>& photos, const Sink& sink);

Result<std::string> zipOfJob(std::string_view jobJson);
/// The text of job.json.
Result<std::string> jobOfZip(std::string_view bytes);

} // namespace stavewright::job
