#pragma once
// SQLite by its C library, and the only place that knows it. The first thing that goes wrong is
// kept; everything after it does nothing, so that a run of statements is asked once at its end.
//
//   Transaction change(database);
//   Query(database, "UPDATE piece SET state = ? WHERE id = ?").with("on rack").with(12).run();
//   return change.commit();

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/Result.h"

struct sqlite3;
struct sqlite3_stmt;

namespace stavewright::rack {

class Database {
  public:
    /// Opens or creates the file. A rollback journal stands beside it while something is written,
    /// and a change counts as made only when all of it is on the disk.
    static Result<Database> open(const std::string& path);

    [[nodiscard]] bool ok() const { return !m_error; }
    [[nodiscard]] const std::optional<Error>& error() const { return m_error; }
    /// The first refusal or fault since the last transaction began.
    void fail(Error error);
    void forgetError() { m_error.reset(); }
    [[nodiscard]] Status status() const;

    /// Statements without values or rows.
    void run(const char* sql);
    [[nodiscard]] std::int64_t lastInsertedId() const;
    [[nodiscard]] const std::string& path() const { return m_path; }

  private:
    friend class Query;
    struct Close {
        void operator()(sqlite3* handle) const;
    };
    Database(std::unique_ptr<sqlite3, Close> handle, std::string path)
        : m_handle(std::move(handle))
        , m_path(std::move(path)) {}
    /// Says what SQLite reports as a sentence.
    void failAs(int code);

    std::unique_ptr<sqlite3, Close> m_handle;
    std::string m_path;
    std::optional<Error> m_error;
};

/// One statement; values are bound from left to right.
class Query {
  public:
    Query(Database& database, const std::string& sql);
    Query& with(std::int64_t value);
    Query& with(std::string_view text);
    Query& withBytes(std::string_view bytes);
    Query& withNothing();
    template <class Value>
    Query& withMaybe(const std::optional<Value>& value) {
        return value ? with(*value) : withNothing();
    }

    /// The next row; false at the end, and after an error.
    bool next();
    void run() {
        while (next()) {
        }
    }
    [[nodiscard]] bool isNothing(int column) const;
    [[nodiscard]] std::int64_t integer(int column) const;
    [[nodiscard]] std::string text(int column) const; ///< or bytes

  private:
    struct Finish {
        void operator()(sqlite3_stmt* statement) const;
    };
    Database& m_database;
    std::unique_ptr<sqlite3_stmt, Finish> m_statement;
    int m_bound = 0;
};

/// All of it or nothing: what is not committed is rolled back. It holds the file from the start, so
/// nothing that it read is changed by another program before it ends.
class Transaction {
  public:
    explicit Transaction(Database& database);
    ~Transaction();
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    /// Returns once the change is on the disk; an error means that nothing was changed.
    Status commit();

  private:
    Database& m_database;
    bool m_open = false;
};

} // namespace stavewright::rack
