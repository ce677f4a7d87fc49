#include "core/rack/Database.h"

#include <sqlite3.h>

namespace stavewright::rack {

namespace {

/// How long another program may be writing before it is said, in milliseconds.
constexpr int patience = 5'000;

} // namespace

void Database::Close::operator()(sqlite3* handle) const { sqlite3_close(handle); }

Result<Database> Database::open(const std::string& path) {
    sqlite3* raw = nullptr;
    const int opened =
        sqlite3_open_v2(path.c_str(), &raw,
                        SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOMUTEX, nullptr);
    Database database(std::unique_ptr<sqlite3, Close>(raw), path);
    if (opened != SQLITE_OK) {
        database.failAs(opened);
        return *database.m_error;
    }
    sqlite3_extended_result_codes(raw, 1);
    sqlite3_busy_timeout(raw, patience);
    // The schema of the file is not trusted with functions that could do harm.
    sqlite3_db_config(raw, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(raw, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
    // One file that can be copied, and on the disk (with its folder's entry) when it says so.
    database.run("PRAGMA journal_mode = DELETE");
    database.run("PRAGMA synchronous = EXTRA");
    database.run("PRAGMA foreign_keys = ON");
    if (!database.ok()) {
        return *database.m_error;
    }
    return database;
}

void Database::fail(Error error) {
    if (!m_error) {
        m_error = std::move(error);
    }
}

void Database::failAs(int code) {
    switch (code & 0xff) { // the kind, without its detail
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return fail({ErrorCode::CannotWrite,
                     "Another program is writing the shop rack; try again in a moment.", m_path});
    case SQLITE_NOTADB:
    case SQLITE_CORRUPT:
        return fail(
            {ErrorCode::CannotRead,
             "This file is no shop rack, or it is damaged; a rack that Stavewright wrote is "
             "due.",
             m_path});
    case SQLITE_FULL:
        return fail(
            {ErrorCode::CannotWrite, "The disk is full; the shop rack was not changed.", m_path});
    case SQLITE_READONLY:
        return fail({ErrorCode::CannotWrite,
                     "The shop rack may only be read; its file and folder must be writable.",
                     m_path});
    case SQLITE_CANTOPEN:
        return fail({ErrorCode::CannotRead,
                     "The shop rack cannot be opened; its folder must be there and the file be "
                     "readable and writable.",
                     m_path});
    default:
        return fail({ErrorCode::CannotWrite,
                     std::string("The shop rack was not changed: ") +
                         (m_handle ? sqlite3_errmsg(m_handle.get()) : sqlite3_errstr(code)) + '.',
                     m_path});
    }
}

Status Database::status() const {
    if (m_error) {
        return *m_error;
    }
    return Done{};
}

void Database::run(const char* sql) {
    if (!ok()) {
        return;
    }
    if (const int code = sqlite3_exec(m_handle.get(), sql, nullptr, nullptr, nullptr);
        code != SQLITE_OK) {
        failAs(code);
    }
}

std::int64_t Database::lastInsertedId() const { return sqlite3_last_insert_rowid(m_handle.get()); }

void Query::Finish::operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }

Query::Query(Database& database, const std::string& sql)
    : m_database(database) {
    if (!database.ok()) {
        return;
    }
    sqlite3_stmt* raw = nullptr;
    const int code = sqlite3_prepare_v2(database.m_handle.get(), sql.data(),
                                        static_cast<int>(sql.size()), &raw, nullptr);
    m_statement.reset(raw);
    if (code != SQLITE_OK) {
        database.failAs(code);
    }
}

Query& Query::with(std::int64_t value) {
    if (m_statement) {
        sqlite3_bind_int64(m_statement.get(), ++m_bound, value);
    }
    return *this;
}

Query& Query::with(std::string_view text) {
    if (m_statement) {
        sqlite3_bind_text64(m_statement.get(), ++m_bound, text.data(), text.size(),
                            SQLITE_TRANSIENT, SQLITE_UTF8);
    }
    return *this;
}

Query& Query::withBytes(std::string_view bytes) {
    if (m_statement) {
        sqlite3_bind_blob64(m_statement.get(), ++m_bound, bytes.data(), bytes.size(),
                            SQLITE_TRANSIENT);
    }
    return *this;
}

Query& Query::withNothing() {
    if (m_statement) {
        sqlite3_bind_null(m_statement.get(), ++m_bound);
    }
    return *this;
}

bool Query::next() {
    if (!m_statement || !m_database.ok()) {
        return false;
    }
    const int code = sqlite3_step(m_statement.get());
    if (code == SQLITE_ROW) {
        return true;
    }
    if (code != SQLITE_DONE) {
        m_database.failAs(code);
    }
    m_statement.reset(); // nothing more comes; an open statement would hold the file
    return false;
}

bool Query::isNothing(int column) const {
    return sqlite3_column_type(m_statement.get(), column) == SQLITE_NULL;
}

std::int64_t Query::integer(int column) const {
    return sqlite3_column_int64(m_statement.get(), column);
}

std::string Query::text(int column) const {
    const void* bytes = sqlite3_column_blob(m_statement.get(), column);
    const int size = sqlite3_column_bytes(m_statement.get(), column);
    return bytes == nullptr
               ? std::string()
               : std::string(static_cast<const char*>(bytes), static_cast<std::size_t>(size));
}

Transaction::Transaction(Database& database)
    : m_database(database) {
    database.forgetError();
    database.run("BEGIN IMMEDIATE");
    m_open = database.ok();
}

Transaction::~Transaction() {
    if (m_open) {
        const std::optional<Error> kept = m_database.error();
        m_database.forgetError(); // so that the rollback runs
        m_database.run("ROLLBACK");
        m_database.forgetError();
        if (kept) {
            m_database.fail(*kept);
        }
    }
}

Status Transaction::commit() {
    if (m_open && m_database.ok()) {
        m_database.run("COMMIT");
        m_open = !m_database.ok();
    }
    return m_database.status();
}

} // namespace stavewright::rack
