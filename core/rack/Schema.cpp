#include "core/rack/Schema.h"

#include <array>

namespace stavewright::rack {

namespace {

/// Step n makes version n + 1 of what version n was. A step that has been released never changes.
constexpr std::array<const char*, schemaVersion> steps = {
    // 1: the pieces. `board` is the board as in a job file; the columns beside it are what is
    // searched and shown, worked out from it. Numbers are never used again.
    R"(
CREATE TABLE rack (name TEXT NOT NULL);
INSERT INTO rack VALUES (lower(hex(randomblob(16))));
CREATE TABLE piece (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  kind TEXT NOT NULL CHECK (kind IN ('board', 'offcut')),
  state TEXT NOT NULL CHECK (state IN ('on rack', 'in job', 'used up', 'thrown out')),
  mark TEXT NOT NULL,
  species TEXT NOT NULL,
  quarter INTEGER NOT NULL,
  length INTEGER NOT NULL,
  width INTEGER NOT NULL,
  moisture INTEGER,
  price INTEGER NOT NULL,
  put_in INTEGER NOT NULL,
  source_board TEXT NOT NULL,
  source_job TEXT NOT NULL,
  parent INTEGER REFERENCES piece(id),
  job TEXT NOT NULL,
  since INTEGER NOT NULL,
  loan INTEGER NOT NULL,
  words TEXT NOT NULL,
  board TEXT NOT NULL
) STRICT;
CREATE INDEX piece_by_kind_of_wood ON piece (state, species, quarter, length);
)",
    // 2: every change with what was there before and after, so that it can be taken back; and the
    // photographs of boards, once each.
    R"(
CREATE TABLE change (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  time INTEGER NOT NULL,
  job TEXT NOT NULL,
  taken_back INTEGER NOT NULL DEFAULT 0 CHECK (taken_back IN (0, 1))
) STRICT;
CREATE TABLE changed_piece (
  change INTEGER NOT NULL REFERENCES change(id),
  step INTEGER NOT NULL,
  piece INTEGER NOT NULL,
  before TEXT,
  after TEXT,
  PRIMARY KEY (change, step)
) STRICT;
CREATE TABLE photograph (
  sha256 TEXT PRIMARY KEY,
  bytes BLOB NOT NULL
) STRICT;
)"};

std::int64_t number(Database& database, const char* sql) {
    Query query(database, sql);
    return query.next() ? query.integer(0) : 0;
}

} // namespace

Status bringUpTo(Database& database, int version) {
    Transaction change(database);
    const std::int64_t owner = number(database, "PRAGMA application_id");
    const std::int64_t before = number(database, "PRAGMA user_version");
    const bool isEmpty = number(database, "SELECT count(*) FROM sqlite_master") == 0;
    if (database.ok() && (owner != applicationId || before < 1) && !isEmpty) {
        database.fail(
            {ErrorCode::CannotRead,
             "This file belongs to another program; a shop rack that Stavewright wrote is "
             "due.",
             database.path()});
    }
    if (database.ok() && before > schemaVersion) {
        database.fail({ErrorCode::TooNew,
                       "This shop rack was written by a newer Stavewright, in version " +
                           std::to_string(before) + "; this one reads version " +
                           std::to_string(schemaVersion) +
                           ", so please open it with a newer version of the program.",
                       database.path()});
    }
    if (!database.ok() || before >= version) {
        return database.status(); // nothing is written to a rack of today
    }
    for (std::int64_t step = before; step < version; ++step) {
        database.run(steps[static_cast<std::size_t>(step)]);
    }
    database.run(("PRAGMA application_id = " + std::to_string(applicationId)).c_str());
    database.run(("PRAGMA user_version = " + std::to_string(version)).c_str());
    return change.commit();
}

} // namespace stavewright::rack
