#include "core/rack/Rack.h"

#include <algorithm>
#include <chrono>
#include <filesystem>

#include "core/document/Ids.h"
#include "core/geometry/PolygonOps.h"
#include "core/rack/Pieces.h"
#include "core/rack/Schema.h"

namespace stavewright::rack {

Result<Rack> Rack::open(const std::string& path) {
    std::error_code code;
    const std::filesystem::path folder = std::filesystem::path(path).parent_path();
    if (!folder.empty()) {
        std::filesystem::create_directories(folder, code); // a failure shows when it is opened
    }
    Result<Database> database = Database::open(path);
    if (!database) {
        return database.error();
    }
    if (const Status sound = bringUpTo(database.value()); !sound) {
        return sound.error();
    }
    std::string name;
    {
        Query row(database.value(), "SELECT name FROM rack");
        if (row.next()) {
            name = row.text(0);
        }
    }
    if (const Status read = database.value().status(); !read) {
        return read.error();
    }
    return Rack(std::move(database).value(), std::move(name));
}

namespace {

/// The words of a search, lower case, each ready for LIKE with '\' as the escape.
std::vector<std::string> patternsOf(const std::string& text) {
    std::vector<std::string> patterns;
    std::string word;
    const auto finish = [&] {
        if (!word.empty()) {
            patterns.push_back('%' + word + '%');
        }
        word.clear();
    };
    for (const char c : text) {
        if (c == ' ' || c == '\t' || c == '\n') {
            finish();
            continue;
        }
        if (c == '%' || c == '_' || c == '\\') {
            word += '\\';
        }
        word += c;
    }
    finish();
    return patterns;
}

} // namespace

Result<std::vector<Piece>> Rack::find(const Search& search) {
    m_database.forgetError();
    std::string sql =
        std::string("SELECT ") + pieceColumns + " FROM piece WHERE length >= ? AND width >= ?";
    sql += search.alsoAway ? "" : " AND state = 'on rack'";
    sql += search.species.empty() ? "" : " AND species = ?";
    sql += search.quarter ? " AND quarter = ?" : "";
    const std::vector<std::string> patterns = patternsOf(search.text);
    for (std::size_t i = 0; i < patterns.size(); ++i) {
        sql += " AND words LIKE ? ESCAPE '\\'";
    }
    sql += " ORDER BY species, quarter, length DESC, id";
    std::vector<Piece> found;
    Query row(m_database, sql);
    row.with(search.leastLength.inNanometres()).with(search.leastWidth.inNanometres());
    if (!search.species.empty()) {
        row.with(search.species);
    }
    if (search.quarter) {
        row.with(std::int64_t{search.quarter->quarters});
    }
    for (const std::string& pattern : patterns) {
        row.with(pattern);
    }
    while (row.next()) {
        Piece piece = readPiece(m_database, row);
        if (m_database.ok() &&
            holdsRectangle(piece.board.outline, search.leastLength, search.leastWidth)) {
            found.push_back(std::move(piece));
        }
    }
    if (const Status read = m_database.status(); !read) {
        return read.error();
    }
    return found;
}

Result<Piece> Rack::piece(std::int64_t number) {
    m_database.forgetError();
    const std::optional<Piece> piece = findPiece(m_database, number);
    if (piece) {
        findPhotographs(m_database, piece->board);
    }
    if (const Status read = m_database.status(); !read) {
        return read.error();
    }
    return *piece;
}

Status Rack::check() {
    m_database.forgetError();
    const auto damaged = [this](const std::string& what) {
        m_database.fail({ErrorCode::CannotRead, "The shop rack is damaged: " + what + '.', path()});
    };
    {
        Query row(m_database, "PRAGMA integrity_check");
        while (row.next()) {
            if (row.text(0) != "ok") {
                damaged(row.text(0));
            }
        }
        Query dangling(m_database, "PRAGMA foreign_key_check");
        if (dangling.next()) {
            damaged("a piece names another one that is not there");
        }
    }
    return m_database.status();
}

Board asKept(Board board) {
    board.parent.reset();
    board.rackLink.reset();
    std::int64_t next = 1;
    visitBoardIds(board, [&](auto& id) { id.value = next++; });
    return board;
}

std::string dayText(std::int64_t time) {
    using namespace std::chrono;
    const year_month_day day{floor<days>(sys_seconds{seconds{time}})};
    const auto twoDigits = [](unsigned number) {
        return (number < 10 ? "0" : "") + std::to_string(number);
    };
    return std::to_string(static_cast<int>(day.year())) + '-' +
           twoDigits(static_cast<unsigned>(day.month())) + '-' +
           twoDigits(static_cast<unsigned>(day.day()));
}

std::string nameOf(const Piece& piece) {
    return (piece.kind == PieceKind::Offcut ? "offcut " : "board ") + piece.board.mark + " (no. " +
           std::to_string(piece.number) + ')';
}

bool holdsRectangle(const Polygon& outline, Length length, Length width) {
    const Rect box = boundingBox(outline);
    if (length <= Length() || width <= Length()) {
        return box.length() >= length && box.width() >= width;
    }
    const Length room = box.length() - length;
    if (room < Length()) {
        return false;
    }
    constexpr int places = 64;
    std::vector<Length> starts;
    for (int i = 0; i <= places; ++i) {
        starts.push_back(box.x0 + room * i / places);
    }
    for (const Point& corner : outline) {
        starts.push_back(corner.x);
        starts.push_back(corner.x - length);
    }
    return std::any_of(starts.begin(), starts.end(), [&](Length start) {
        if (start < box.x0 || start > box.x0 + room) {
            return false;
        }
        const std::optional<Stretch> clear = clearAcross(outline, {start, start + length});
        return clear && clear->length() >= width;
    });
}

} // namespace stavewright::rack
