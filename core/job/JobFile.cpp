#include "core/job/JobFile.h"

#include <algorithm>
#include <filesystem>
#include <set>

#include "core/job/FileAccess.h"
#include "core/job/Zip.h"
#include "core/job/read/Readers.h"
#include "core/job/write/Writers.h"

namespace stavewright {

namespace {

/// Fails unless the version is one that this program reads; looks at nothing else.
void checkFormatVersion(const job::Cursor& at) {
    if (at.value().kind != job::JsonValue::Kind::Object) {
        at.failDue("a job, an object with the key “formatVersion”");
        return;
    }
    const job::JsonValue* version = at.value().find("formatVersion");
    if (!version) {
        at.fail("The key “formatVersion” is missing; " + std::to_string(jobFormatVersion) +
                " is the one that this program reads.");
        return;
    }
    const job::Cursor atVersion = at.member("formatVersion", *version);
    if (version->kind == job::JsonValue::Kind::Integer && version->number > jobFormatVersion) {
        atVersion.fail("This job was written by a newer Stavewright, in format " +
                           job::shown(*version) + "; this one reads format " +
                           std::to_string(jobFormatVersion) +
                           ", so please open it with a newer version of the program.",
                       ErrorCode::TooNew);
        return;
    }
    (void)atVersion.integer(jobFormatVersion, jobFormatVersion, "a format version");
}

bool looksLikeJson(std::string_view text) {
    const std::size_t first = text.find_first_not_of(" \t\r\n");
    return first != std::string_view::npos && text[first] == '{';
}

/// Upper and lower case alike.
bool hasExtension(std::string_view path, std::string_view extension) {
    const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; };
    return path.size() > extension.size() &&
           std::equal(extension.begin(), extension.end(),
                      path.end() - static_cast<std::ptrdiff_t>(extension.size()),
                      [&](char a, char b) { return a == lower(b); });
}

} // namespace

std::string toJson(const Document& document) {
    return job::canonicalText(job::documentToJson(document));
}

Result<Document> fromJson(std::string_view text) {
    const Result<job::JsonValue> value = job::parseJson(text);
    if (!value) {
        return value.error();
    }
    job::FirstError firstError;
    const job::Cursor at(value.value(), firstError);
    checkFormatVersion(at);
    Document document;
    if (!at.failed()) {
        read(at, document);
    }
    if (firstError.error) {
        return *std::move(firstError.error);
    }
    if (const Status valid = validate(document); !valid) {
        return valid.error();
    }
    return document;
}

namespace {

template <class Visit>
void visitPhotos(const Document& document, const Visit& visit) {
    for (const Board& board : document.boards) {
        for (const BoardPhoto& photo : board.photos) {
            visit(photo);
        }
    }
    for (const LaidOut& laid : document.glueUp.laidOut) {
        visit(laid.photo);
    }
}

std::vector<PhotoFile> photosOf(const Document& document) {
    std::vector<PhotoFile> files;
    visitPhotos(document, [&](const BoardPhoto& photo) { files.push_back(photo.file); });
    return files;
}

/// A photograph as a file of its own.
class InFolder final : public PhotoSource {
  public:
    explicit InFolder(std::string path)
        : m_path(std::move(path)) {}
    [[nodiscard]] std::uint64_t size() const override {
        std::error_code code;
        const auto size = std::filesystem::file_size(m_path, code);
        return code ? 0 : size;
    }
    [[nodiscard]] Result<std::shared_ptr<const std::string>> read() const override {
        Result<std::string> content = job::readWholeFile(m_path, job::mostPhotoBytes);
        if (!content) {
            return content.error();
        }
        return std::make_shared<const std::string>(std::move(content).value());
    }
    [[nodiscard]] bool standsIn(const std::string& path) const override {
        return path == std::filesystem::path(m_path).parent_path().string();
    }

  private:
    std::string m_path;
};

Result<std::shared_ptr<job::JobArchive>> openArchive(const std::string& path) {
    Result<job::OpenFile> file = job::openWholeFile(path, job::mostArchiveBytes);
    if (!file) {
        return file.error();
    }
    return job::JobArchive::open(std::move(file).value());
}

bool beginsLikeZip(const std::string& path) {
    const Result<job::OpenFile> file = job::openWholeFile(path, job::mostArchiveBytes);
    char begin[4] = {};
    return file && std::fread(begin, 1, sizeof begin, file.value().file.get()) == sizeof begin &&
           job::looksLikeZip(std::string_view(begin, sizeof begin));
}

std::string besides(const std::string& path) {
    return (std::filesystem::path(path).parent_path() / "photos").string();
}

/// Says of each photograph where its bytes are, as far as that is known.
void findPhotos(const Document& document, const job::JobArchive* own, const PhotoPlaces& places) {
    std::shared_ptr<job::JobArchive> other;
    bool otherTried = false;
    visitPhotos(document, [&](const BoardPhoto& photo) {
        const std::string& name = photo.file.sha256();
        if (own != nullptr) {
            if (const auto found = own->photos().find(name); found != own->photos().end()) {
                photo.file.restOn(found->second);
                return;
            }
        }
        const std::string apart = places.folder + '/' + name;
        std::error_code code;
        if (!places.folder.empty() && std::filesystem::is_regular_file(apart, code)) {
            photo.file.restOn(std::make_shared<InFolder>(apart));
            return;
        }
        if (!places.otherJob.empty() && !otherTried) {
            otherTried = true;
            if (auto opened = openArchive(places.otherJob)) {
                other = std::move(opened).value();
            }
        }
        if (other) {
            if (const auto found = other->photos().find(name); found != other->photos().end()) {
                photo.file.restOn(found->second);
            }
        }
    });
}

/// An entry that nothing in the job names would be lost by the next save.
Status nothingUnnamed(const Document& document, const job::JobArchive& archive) {
    std::set<std::string> named;
    visitPhotos(document, [&](const BoardPhoto& photo) { named.insert(photo.file.sha256()); });
    for (const auto& entry : archive.photos()) {
        if (!named.contains(entry.first)) {
            return Error{
                ErrorCode::BadInput,
                "The entry “photos/" + entry.first +
                    "” in the zip belongs to no board and no panel of the job; each photograph "
                    "must be named by one.",
                {}};
        }
    }
    return Done{};
}

} // namespace

Result<Document> readJob(const std::string& path, const PhotoPlaces& places) {
    const auto inFile = [&path](Error error) {
        error.place = error.place.empty() ? path : path + ": " + error.place;
        return error;
    };
    if (beginsLikeZip(path)) {
        const auto archive = openArchive(path);
        if (!archive) {
            return inFile(archive.error());
        }
        Result<Document> document = fromJson(archive.value()->jobText());
        if (!document) {
            return inFile(document.error());
        }
        if (const Status named = nothingUnnamed(document.value(), *archive.value()); !named) {
            return inFile(named.error());
        }
        findPhotos(document.value(), archive.value().get(), places);
        return document;
    }
    const Result<std::string> content = job::readWholeFile(path, job::mostZipBytes);
    if (!content) {
        return inFile(content.error());
    }
    if (content.value().empty()) {
        return inFile({ErrorCode::BadInput, "The file is empty; a job is wanted.", {}});
    }
    if (job::looksLikeZip(content.value()) || !looksLikeJson(content.value())) {
        return inFile({ErrorCode::BadInput,
                       "This is neither a zip nor a JSON object, so it is not a job.",
                       {}});
    }
    Result<Document> document = fromJson(content.value());
    if (!document) {
        return inFile(document.error());
    }
    PhotoPlaces where = places;
    if (where.folder.empty()) {
        where.folder = besides(path);
    }
    findPhotos(document.value(), nullptr, where);
    return document;
}

namespace {

Status textFor(const Document& document, const std::string& path, std::string& text) {
    text = toJson(document);
    if (text.size() > job::mostJsonBytes) { // never write what could not be opened again
        return Error{ErrorCode::CannotWrite,
                     "The job has " + std::to_string(text.size()) + " bytes as text; at most " +
                         std::to_string(job::mostJsonBytes / job::mebibyte) +
                         " MiB can be opened again.",
                     path};
    }
    return Done{};
}

/// Names the photograph by what people call it, where the place is a SHA-256.
Error named(Error error, const Document& document, const std::string& path) {
    const auto name = [&](const BoardPhoto& photo, const std::string& of, const std::string& off) {
        if (photo.file.sha256() == error.place) {
            error.message = "The photograph “" + photo.name + "” of " + of +
                            " cannot be saved: " + error.message + " Take it off " + off +
                            " to save the rest.";
            error.place = path;
        }
    };
    for (const Board& board : document.boards) {
        for (const BoardPhoto& photo : board.photos) {
            name(photo, "board " + board.mark, "the board");
        }
    }
    for (const LaidOut& laid : document.glueUp.laidOut) {
        const BlankPurpose whole{laid.panel.part, laid.panel.instance, laid.panel.ply, 0};
        name(laid.photo, "the staves of " + labelOf(document, whole), "the panel");
    }
    error.place = path;
    return error;
}

} // namespace

Status writeJob(const Document& document, const std::string& path) {
    const bool bare = hasExtension(path, ".json");
    if (!bare && !hasExtension(path, ".stavejob")) {
        return Error{ErrorCode::CannotWrite,
                     "The name of a job file must end in .stavejob or .json.", path};
    }
    const std::vector<PhotoFile> photos = photosOf(document);
    if (bare && !photos.empty()) {
        return Error{ErrorCode::CannotWrite,
                     "A job with photographs does not go into a .json file, which could not hold "
                     "them; its name must end in .stavejob.",
                     path};
    }
    std::string text;
    if (const Status made = textFor(document, path, text); !made) {
        return made;
    }
    if (bare) {
        return writeAtomically(path, text);
    }
    const Status written = job::writeAtomicallyBy(
        path, [&](const job::Sink& sink) { return job::writeZip(text, photos, sink); });
    return written ? written : Status(named(written.error(), document, path));
}

void writePhotosApart(const Document& document, const PhotoPlaces& places,
                      const std::stop_token& stop) {
    visitPhotos(document, [&](const BoardPhoto& photo) {
        const std::string target = places.folder + '/' + photo.file.sha256();
        std::error_code code;
        if (stop.stop_requested() || photo.file.standsIn(places.otherJob) ||
            std::filesystem::exists(target, code)) {
            return;
        }
        if (const auto bytes = photo.file.readUnchecked()) {
            std::filesystem::create_directories(places.folder, code);
            (void)writeAtomically(target, *bytes.value()); // left out: the job matters more
        }
    });
}

Status writeJobApart(const Document& document, const std::string& path, const PhotoPlaces& places) {
    writePhotosApart(document, places, {});
    std::string text;
    if (const Status made = textFor(document, path, text); !made) {
        return made;
    }
    return job::writeAtomicallyBy(
        path, [&](const job::Sink& sink) { return job::writeZip(text, {}, sink); });
}

void holdPhotosInMemory(const Document& document, const std::string& folder) {
    visitPhotos(document, [&](const BoardPhoto& photo) {
        if (!photo.file.standsIn(folder)) {
            return;
        }
        const auto bytes = photo.file.read();
        if (bytes) {
            photo.file.restOn(PhotoFile::inMemory(*bytes.value()));
        }
    });
}

void restPhotosOn(const Document& document, const std::string& path) {
    if (photosOf(document).empty()) {
        return;
    }
    const auto archive = openArchive(path);
    if (!archive) {
        return; // they stay where they are
    }
    visitPhotos(document, [&](const BoardPhoto& photo) {
        const auto& all = archive.value()->photos();
        if (const auto found = all.find(photo.file.sha256()); found != all.end()) {
            photo.file.restOn(found->second);
        }
    });
}

} // namespace stavewright
