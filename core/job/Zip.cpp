#include "core/job/Zip.h"

#include <algorithm>
#include <array>
#include <memory>
#include <mutex>

#include <zip.h>

#include "core/job/JsonValue.h"
#include "core/lumber/Sha256.h"
#include "core/units/Glyph.h"

namespace stavewright::job {

namespace {

struct Discard {
    void operator()(zip_t* archive) const { zip_discard(archive); }
};
struct CloseEntry {
    void operator()(zip_file_t* entry) const { zip_fclose(entry); }
};
struct FreeSource {
    void operator()(zip_source_t* source) const { zip_source_free(source); }
};
using Archive = std::unique_ptr<zip_t, Discard>;
using Entry = std::unique_ptr<zip_file_t, CloseEntry>;
using Source = std::unique_ptr<zip_source_t, FreeSource>;

Error refused(std::string message) { return {ErrorCode::BadInput, std::move(message), {}}; }

/// Why a name may not stand in a job's zip; empty when it may.
std::string offenceOf(std::string_view name) {
    if (name.empty()) {
        return "has no name";
    }
    if (name.front() == '/' || name.find('\\') != std::string_view::npos ||
        name.find(':') != std::string_view::npos) {
        return "is not a plain relative name";
    }
    for (std::size_t start = 0; start <= name.size();) {
        const std::size_t end = std::min(name.find('/', start), name.size());
        const std::string_view step = name.substr(start, end - start);
        if (step == ".." || step == ".") {
            return "points out of its folder";
        }
        start = end + 1;
    }
    return {};
}

/// Takes over the source.
Result<Archive> openFrom(zip_source_t* given, zip_error_t& error) {
    Source source(given);
    Archive archive;
    if (source) {
        archive.reset(zip_open_from_source(source.get(), ZIP_RDONLY | ZIP_CHECKCONS, &error));
    }
    const std::string why = zip_error_strerror(&error);
    const bool nameTwice = zip_error_code_zip(&error) == ZIP_ER_EXISTS;
    zip_error_fini(&error);
    if (!archive && nameTwice) {
        return refused("The zip holds two entries of one name; each name may stand there once.");
    }
    if (!archive) {
        return refused("The zip is damaged or cut short (" + why + ").");
    }
    (void)source.release(); // the archive owns it now
    return archive;
}

/// The SHA-256 in a name like "photos/<sha256>"; empty for other names.
std::string photoNamed(std::string_view name) {
    const bool inFolder = name.substr(0, photoFolder.size()) == photoFolder;
    const std::string_view rest = inFolder ? name.substr(photoFolder.size()) : "";
    return isSha256(rest) ? std::string(rest) : std::string();
}

/// Judges the names of all entries; gives those that are no part of a job, as a sentence, in
/// `stranger`.
Status checkNames(zip_t* archive, std::string& stranger) {
    const zip_int64_t count = zip_get_num_entries(archive, 0);
    if (count < 0 || static_cast<std::size_t>(count) > mostZipEntries) {
        return refused("The zip holds " + std::to_string(count) + " entries; at most " +
                       std::to_string(mostZipEntries) + " are allowed.");
    }
    for (zip_int64_t i = 0; i < count; ++i) {
        const char* raw = zip_get_name(archive, static_cast<zip_uint64_t>(i), ZIP_FL_ENC_RAW);
        const std::string name = raw ? raw : "";
        const std::string offence = offenceOf(name);
        if (!offence.empty()) {
            return refused("The entry " + reading::inQuotes(name) + " in the zip " + offence +
                           "; only plain names such as “job.json” are allowed.");
        }
        if (stranger.empty() && name != jobEntryName && photoNamed(name).empty()) {
            stranger = "The entry " + reading::inQuotes(name) +
                       " in the zip is no part of a job of this format; only “job.json” and "
                       "photographs named “photos/” and their SHA-256 are allowed.";
        }
    }
    return Done{};
}

/// Size of an entry that may be read.
Result<std::uint64_t> sizeOfEntry(zip_t* archive, zip_uint64_t index, const std::string& name,
                                  std::size_t most) {
    zip_stat_t stat;
    zip_stat_init(&stat);
    if (zip_stat_index(archive, index, 0, &stat) != 0 || (stat.valid & ZIP_STAT_SIZE) == 0) {
        return refused("The zip is damaged: the size of “" + name + "” cannot be read.");
    }
    if ((stat.valid & ZIP_STAT_ENCRYPTION_METHOD) != 0 && stat.encryption_method != ZIP_EM_NONE) {
        return refused("“" + name +
                       "” in the zip is encrypted; a job must be readable without a key.");
    }
    if (stat.size > most) {
        return refused("“" + name + "” in the zip unpacks to " + std::to_string(stat.size) +
                       " bytes; at most " + std::to_string(most / mebibyte) + " MiB are allowed.");
    }
    return std::uint64_t{stat.size};
}

Result<std::string> readEntry(zip_t* archive, zip_uint64_t index, const std::string& name,
                              std::size_t most) {
    const Result<std::uint64_t> size = sizeOfEntry(archive, index, name, most);
    if (!size) {
        return size.error();
    }
    const Entry entry(zip_fopen_index(archive, index, 0));
    if (!entry) {
        return refused("“" + name + "” in the zip cannot be unpacked (" + zip_strerror(archive) +
                       ").");
    }
    std::string content(static_cast<std::size_t>(size.value()), '\0');
    std::size_t got = 0;
    while (got < content.size()) {
        const zip_int64_t read = zip_fread(entry.get(), content.data() + got, content.size() - got);
        if (read <= 0) {
            break;
        }
        got += static_cast<std::size_t>(read);
    }
    // One read past the end makes the library compare the checksum, and shows a size that lied.
    char beyond = 0;
    if (got != content.size() || zip_fread(entry.get(), &beyond, 1) != 0) {
        return refused("“" + name +
                       "” in the zip is damaged: its size or checksum does not agree.");
    }
    return content;
}

} // namespace

bool looksLikeZip(std::string_view bytes) {
    return bytes.substr(0, 4) == std::string_view("PK\x03\x04", 4) ||
           bytes.substr(0, 4) == std::string_view("PK\x05\x06", 4); // an empty one
}

struct JobArchive::Held {
    std::string jobText;
    std::mutex guard; ///< of the archive: the library reads one entry at a time
    Archive archive;
    std::uint64_t device = 0;
    std::uint64_t number = 0;
    bool isFile = false;
};

namespace {

/// A photograph in a zip that stays open.
template <class Held>
class InArchive final : public PhotoSource {
  public:
    InArchive(std::shared_ptr<Held> held, zip_uint64_t index, std::uint64_t size, std::string name)
        : m_held(std::move(held))
        , m_index(index)
        , m_size(size)
        , m_name(std::move(name)) {}
    [[nodiscard]] std::uint64_t size() const override { return m_size; }
    [[nodiscard]] Result<std::shared_ptr<const std::string>> read() const override {
        const std::lock_guard lock(m_held->guard);
        Result<std::string> content =
            readEntry(m_held->archive.get(), m_index, m_name, mostPhotoBytes);
        if (!content) {
            return content.error();
        }
        return std::make_shared<const std::string>(std::move(content).value());
    }
    [[nodiscard]] bool standsIn(const std::string& path) const override {
        return m_held->isFile && isFileAt(path, m_held->device, m_held->number);
    }

  private:
    std::shared_ptr<Held> m_held;
    zip_uint64_t m_index;
    std::uint64_t m_size;
    std::string m_name;
};

} // namespace

JobArchive::JobArchive(std::shared_ptr<Held> held)
    : m_held(std::move(held)) {}
JobArchive::~JobArchive() = default;

Result<std::shared_ptr<JobArchive>> JobArchive::open(OpenFile file) {
    auto held = std::make_shared<Held>();
    held->isFile = true;
    held->device = file.device;
    held->number = file.number;
    zip_error_t error;
    zip_error_init(&error);
    // The library closes the file with the source, unless making the source fails.
    zip_source_t* source = zip_source_filep_create(file.file.get(), 0, -1, &error);
    if (source != nullptr) {
        (void)file.file.release();
    }
    Result<Archive> archive = openFrom(source, error);
    if (!archive) {
        return archive.error();
    }
    held->archive = std::move(archive).value();
    return take(std::move(held));
}

Result<std::shared_ptr<JobArchive>> JobArchive::open(std::string_view bytes) {
    auto held = std::make_shared<Held>();
    zip_error_t error;
    zip_error_init(&error);
    Result<Archive> archive =
        openFrom(zip_source_buffer_create(bytes.data(), bytes.size(), 0, &error), error);
    if (!archive) {
        return archive.error();
    }
    held->archive = std::move(archive).value();
    return take(std::move(held));
}

Result<std::shared_ptr<JobArchive>> JobArchive::take(std::shared_ptr<Held> held) {
    zip_t* archive = held->archive.get();
    std::string stranger;
    if (const Status names = checkNames(archive, stranger); !names) {
        return names.error();
    }
    const std::string jobName(jobEntryName);
    const zip_int64_t index = zip_name_locate(archive, jobName.c_str(), ZIP_FL_ENC_RAW);
    if (index < 0) {
        return refused("There is no “job.json” in the zip, so it is not a job.");
    }
    Result<std::string> text =
        readEntry(archive, static_cast<zip_uint64_t>(index), jobName, mostJsonBytes);
    if (!text) {
        return text.error();
    }
    if (!stranger.empty()) {
        return refused(std::move(stranger));
    }
    held->jobText = std::move(text).value();
    std::shared_ptr<JobArchive> result(new JobArchive(held));
    const auto count = static_cast<zip_uint64_t>(zip_get_num_entries(archive, 0));
    for (zip_uint64_t i = 0; i < count; ++i) {
        const char* raw = zip_get_name(archive, i, ZIP_FL_ENC_RAW);
        const std::string name = raw ? raw : "";
        const std::string sha256 = photoNamed(name);
        if (sha256.empty()) {
            continue;
        }
        const Result<std::uint64_t> size = sizeOfEntry(archive, i, name, mostPhotoBytes);
        if (!size) {
            return size.error();
        }
        result->m_photos[sha256] = std::make_shared<InArchive<Held>>(held, i, size.value(), name);
    }
    return result;
}

const std::string& JobArchive::jobText() const { return m_held->jobText; }

// ---- writing -----------------------------------------------------------------------------------

namespace {

/// CRC-32 of zip files, polynomial 0xEDB88320 reflected.
std::uint32_t checksumOf(std::string_view bytes) {
    static const auto table = [] {
        std::array<std::array<std::uint32_t, 256>, 4> made{};
        for (std::uint32_t i = 0; i < 256; ++i) {
            std::uint32_t value = i;
            for (int bit = 0; bit < 8; ++bit) {
                value = (value >> 1) ^ ((value & 1U) != 0 ? 0xEDB8'8320U : 0U);
            }
            made[0][i] = value;
        }
        for (std::uint32_t i = 0; i < 256; ++i) {
            for (std::size_t k = 1; k < 4; ++k) {
                made[k][i] = (made[k - 1][i] >> 8) ^ made[0][made[k - 1][i] & 0xFFU];
            }
        }
        return made;
    }();
    const auto* data = reinterpret_cast<const unsigned char*>(bytes.data());
    std::uint32_t crc = 0xFFFF'FFFFU;
    std::size_t at = 0;
    for (; bytes.size() - at >= 4; at += 4) { // four bytes at a time: photographs are large
        crc ^= std::uint32_t{data[at]} | (std::uint32_t{data[at + 1]} << 8) |
               (std::uint32_t{data[at + 2]} << 16) | (std::uint32_t{data[at + 3]} << 24);
        crc = table[3][crc & 0xFFU] ^ table[2][(crc >> 8) & 0xFFU] ^ table[1][(crc >> 16) & 0xFFU] ^
              table[0][crc >> 24];
    }
    for (; at < bytes.size(); ++at) {
        crc = (crc >> 8) ^ table[0][(crc ^ data[at]) & 0xFFU];
    }
    return ~crc;
}

void put(std::string& to, std::uint64_t value, std::size_t bytes) {
    for (std::size_t i = 0; i < bytes; ++i) {
        to.push_back(static_cast<char>((value >> (8 * i)) & 0xFFU));
    }
}

/// Stored entries one behind the other, then their directory: PKWARE's APPNOTE 6.3, 4.3.
class ZipWriter {
  public:
    explicit ZipWriter(const Sink& sink)
        : m_sink(sink) {}

    bool add(const std::string& name, std::string_view content) {
        std::string facts; // the same in the entry's header and in the directory
        put(facts, 10, 2); // version 1.0 will read it
        put(facts, 0, 2);  // no flags
        put(facts, 0, 2);  // stored
        constexpr std::uint64_t midnight = 0;
        constexpr std::uint64_t firstOfJanuary1980 = (1U << 5U) | 1U;
        put(facts, midnight, 2);
        put(facts, firstOfJanuary1980, 2);
        put(facts, checksumOf(content), 4);
        put(facts, content.size(), 4);
        put(facts, content.size(), 4);
        put(facts, name.size(), 2);
        put(facts, 0, 2); // nothing extra
        m_directory += "PK\x01\x02";
        put(m_directory, 0x033F, 2); // made by: Unix, 6.3
        m_directory += facts;
        put(m_directory, 0, 2);           // no comment
        put(m_directory, 0, 2);           // first disk
        put(m_directory, 0, 2);           // bytes
        put(m_directory, 0x81B6'0000, 4); // an ordinary file, read and written by all
        put(m_directory, m_written, 4);
        m_directory += name;
        ++m_entries;
        return write("PK\x03\x04" + facts + name) && write(content);
    }
    bool finish() {
        const std::uint64_t directoryAt = m_written;
        std::string end = "PK\x05\x06";
        put(end, 0, 4); // one disk
        put(end, m_entries, 2);
        put(end, m_entries, 2);
        put(end, m_directory.size(), 4);
        put(end, directoryAt, 4);
        put(end, 0, 2); // no comment
        return write(m_directory) && write(end);
    }

  private:
    bool write(std::string_view bytes) {
        m_written += bytes.size();
        return m_sink(bytes);
    }
    const Sink& m_sink;
    std::string m_directory;
    std::uint64_t m_entries = 0;
    std::uint64_t m_written = 0;
};

} // namespace

Status writeZip(std::string_view jobJson, const std::vector<PhotoFile>& photos, const Sink& sink) {
    std::uint64_t total = jobJson.size();
    std::map<std::string, const PhotoFile*> inOrder; // each once
    for (const PhotoFile& photo : photos) {
        if (inOrder.emplace(photo.sha256(), &photo).second) {
            constexpr std::uint64_t headers = 256;
            total += photo.size() + headers;
        }
    }
    if (total > mostArchiveBytes || inOrder.size() >= mostZipEntries) {
        return Error{ErrorCode::CannotWrite,
                     "The job has " + std::to_string(inOrder.size()) +
                         " photographs and comes to " + std::to_string(total / mebibyte) +
                         " MiB; at most " + std::to_string(mostZipEntries - 1) +
                         " photographs and " + std::to_string(mostArchiveBytes / mebibyte) +
                         " MiB go into one file.",
                     {}};
    }
    ZipWriter writer(sink);
    bool good = writer.add(std::string(jobEntryName), jobJson);
    for (const auto& [sha256, photo] : inOrder) {
        if (!good) {
            break;
        }
        const auto bytes = photo->readUnchecked();
        if (!bytes) {
            return Error{ErrorCode::CannotWrite, bytes.error().message, sha256};
        }
        good = writer.add(std::string(photoFolder) + sha256, *bytes.value());
    }
    (void)(good && writer.finish()); // the sink's owner tells why it could not write
    return Done{};
}

Result<std::string> zipOfJob(std::string_view jobJson) {
    std::string bytes;
    const Status written = writeZip(jobJson, {}, [&bytes](std::string_view more) {
        bytes += more;
        return true;
    });
    if (!written) {
        return written.error();
    }
    return bytes;
}

Result<std::string> jobOfZip(std::string_view bytes) {
    const Result<std::shared_ptr<JobArchive>> archive = JobArchive::open(bytes);
    if (!archive) {
        return archive.error();
    }
    return archive.value()->jobText();
}

} // namespace stavewright::job
