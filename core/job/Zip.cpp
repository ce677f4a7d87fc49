#include "core/job/Zip.h"

#include <algorithm>
#include <memory>

#include <zip.h>

#include "core/job/JsonValue.h"
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
Error cannotPack() { return {ErrorCode::Internal, "The job could not be packed into a zip.", {}}; }

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

Result<Archive> open(std::string_view bytes) {
    zip_error_t error;
    zip_error_init(&error);
    Source source(zip_source_buffer_create(bytes.data(), bytes.size(), 0, &error));
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
        if (stranger.empty() && name != jobEntryName) {
            stranger =
                "The entry " + reading::inQuotes(name) +
                " in the zip is no part of a job of this format; only “job.json” is allowed.";
        }
    }
    return Done{};
}

Result<std::string> readEntry(zip_t* archive, zip_uint64_t index, const std::string& name) {
    zip_stat_t stat;
    zip_stat_init(&stat);
    if (zip_stat_index(archive, index, 0, &stat) != 0 || (stat.valid & ZIP_STAT_SIZE) == 0) {
        return refused("The zip is damaged: the size of “" + name + "” cannot be read.");
    }
    if ((stat.valid & ZIP_STAT_ENCRYPTION_METHOD) != 0 && stat.encryption_method != ZIP_EM_NONE) {
        return refused("“" + name +
                       "” in the zip is encrypted; a job must be readable without a key.");
    }
    if (stat.size > mostJsonBytes) {
        return refused("“" + name + "” in the zip unpacks to " + std::to_string(stat.size) +
                       " bytes; at most " + std::to_string(mostJsonBytes / mebibyte) +
                       " MiB are allowed.");
    }
    const Entry entry(zip_fopen_index(archive, index, 0));
    if (!entry) {
        return refused("“" + name + "” in the zip cannot be unpacked (" + zip_strerror(archive) +
                       ").");
    }
    std::string content(static_cast<std::size_t>(stat.size), '\0');
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

Result<std::string> zipOfJob(std::string_view jobJson) {
    zip_error_t error;
    zip_error_init(&error);
    Source target(zip_source_buffer_create(nullptr, 0, 0, &error));
    zip_error_fini(&error);
    if (!target) {
        return cannotPack();
    }
    Archive archive(zip_open_from_source(target.get(), ZIP_CREATE | ZIP_TRUNCATE, nullptr));
    if (!archive) {
        return cannotPack();
    }
    zip_source_keep(target.get()); // so that it outlives the archive, which owns one share of it

    Source content(zip_source_buffer(archive.get(), jobJson.data(), jobJson.size(), 0));
    const zip_int64_t index = content
                                  ? zip_file_add(archive.get(), std::string(jobEntryName).c_str(),
                                                 content.get(), ZIP_FL_ENC_UTF_8)
                                  : -1;
    if (index < 0) {
        return cannotPack();
    }
    (void)content.release(); // the archive owns it now
    constexpr zip_uint16_t midnight = 0;
    constexpr zip_uint16_t firstOfJanuary1980 = (1U << 5U) | 1U;
    const auto entry = static_cast<zip_uint64_t>(index);
    if (zip_set_file_compression(archive.get(), entry, ZIP_CM_STORE, 0) != 0 ||
        zip_file_set_dostime(archive.get(), entry, midnight, firstOfJanuary1980, 0) != 0 ||
        zip_close(archive.get()) != 0) {
        return cannotPack();
    }
    (void)archive.release(); // closed

    zip_stat_t stat;
    zip_stat_init(&stat);
    if (zip_source_stat(target.get(), &stat) != 0 || (stat.valid & ZIP_STAT_SIZE) == 0 ||
        zip_source_open(target.get()) != 0) {
        return cannotPack();
    }
    std::string bytes(static_cast<std::size_t>(stat.size), '\0');
    const zip_int64_t read = zip_source_read(target.get(), bytes.data(), bytes.size());
    zip_source_close(target.get());
    if (read != static_cast<zip_int64_t>(bytes.size())) {
        return cannotPack();
    }
    return bytes;
}

Result<std::string> jobOfZip(std::string_view bytes) {
    const Result<Archive> opened = open(bytes);
    if (!opened) {
        return opened.error();
    }
    zip_t* archive = opened.value().get();
    std::string stranger;
    if (const Status names = checkNames(archive, stranger); !names) {
        return names.error();
    }
    const std::string name(jobEntryName);
    const zip_int64_t index = zip_name_locate(archive, name.c_str(), ZIP_FL_ENC_RAW);
    if (index < 0) {
        return refused("There is no “job.json” in the zip, so it is not a job.");
    }
    Result<std::string> content = readEntry(archive, static_cast<zip_uint64_t>(index), name);
    if (content && !stranger.empty()) {
        return refused(std::move(stranger));
    }
    return content;
}

} // namespace stavewright::job
