#include "core/job/JobFile.h"

#include <algorithm>

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

Result<Document> readJob(const std::string& path) {
    const auto inFile = [&path](Error error) {
        error.place = error.place.empty() ? path : path + ": " + error.place;
        return error;
    };
    Result<std::string> content = job::readWholeFile(path, job::mostZipBytes);
    if (content && content.value().empty()) {
        return inFile({ErrorCode::BadInput, "The file is empty; a job is due.", {}});
    }
    if (content && job::looksLikeZip(content.value())) {
        content = job::jobOfZip(content.value());
    } else if (content && !looksLikeJson(content.value())) {
        return inFile({ErrorCode::BadInput,
                       "This is neither a zip nor a JSON object, so it is not a job.",
                       {}});
    }
    if (!content) {
        return inFile(content.error());
    }
    Result<Document> document = fromJson(content.value());
    return document ? document : inFile(document.error());
}

Status writeJob(const Document& document, const std::string& path) {
    const bool bare = hasExtension(path, ".json");
    if (!bare && !hasExtension(path, ".stavejob")) {
        return Error{ErrorCode::CannotWrite,
                     "The name of a job file must end in .stavejob or .json.", path};
    }
    const std::string text = toJson(document);
    if (text.size() > job::mostJsonBytes) { // never write what could not be opened again
        return Error{ErrorCode::CannotWrite,
                     "The job has " + std::to_string(text.size()) + " bytes as text; at most " +
                         std::to_string(job::mostJsonBytes / job::mebibyte) +
                         " MiB can be opened again.",
                     path};
    }
    if (bare) {
        return writeAtomically(path, text);
    }
    const Result<std::string> zip = job::zipOfJob(text);
    if (!zip) {
        return Error{zip.error().code, zip.error().message, path};
    }
    return writeAtomically(path, zip.value());
}

} // namespace stavewright
