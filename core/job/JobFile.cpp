#include "core/job/JobFile.h"

#include "core/job/read/Readers.h"
#include "core/job/write/Writers.h"

namespace stavewright {

namespace {

/// Fails unless the version is one that this program reads; looks at nothing else.
void checkFormatVersion(const job::Cursor& at) {
    if (at.value().kind != job::JsonValue::Kind::Object) {
        at.failDue("a job; an object with the key \"formatVersion\" is due");
        return;
    }
    const job::JsonValue* version = at.value().find("formatVersion");
    if (!version) {
        at.fail("the key \"formatVersion\" is missing; " + std::to_string(jobFormatVersion) +
                " is the one that this program reads.");
        return;
    }
    const job::Cursor atVersion = at.member("formatVersion", *version);
    if (version->kind == job::JsonValue::Kind::Integer && version->number > jobFormatVersion) {
        atVersion.fail("this job was written by a newer Stavewright, in format " +
                           job::shown(*version) + "; this one reads format " +
                           std::to_string(jobFormatVersion) +
                           ", so please open it with a newer version of the program.",
                       ErrorCode::TooNew);
        return;
    }
    (void)atVersion.integer(jobFormatVersion, jobFormatVersion, "a format version");
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

} // namespace stavewright
