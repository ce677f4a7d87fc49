#include "core/rack/Pieces.h"

#include <array>
#include <string_view>

#include "core/base/PlainText.h"
#include "core/geometry/PolygonOps.h"
#include "core/job/BoardText.h"
#include "core/wood/Species.h"

namespace stavewright::rack {

namespace {

constexpr std::array<std::string_view, 4> stateWords = {"on rack", "in job", "used up",
                                                        "thrown out"};

constexpr std::array<std::string_view, 18> columns = {
    "id",         "kind",   "state",    "mark",  "species", "quarter",
    "length",     "width",  "moisture", "price", "put_in",  "source_board",
    "source_job", "parent", "job",      "since", "loan",    "words"};

/// What a search for text looks into.
std::string wordsOf(const Piece& piece) {
    const Species* species = findSpecies(piece.board.species);
    std::string words;
    for (const std::string_view part :
         {std::string_view(piece.board.mark),
          species ? species->name : std::string_view(piece.board.species),
          std::string_view(piece.board.notes), std::string_view(piece.sourceBoard),
          std::string_view(piece.sourceJob), std::string_view(piece.job)}) {
        words.append(part).append("\n");
    }
    return lowerCase(words);
}

std::string joined(std::string_view before, std::string_view after) {
    std::string text;
    for (const std::string_view column : columns) {
        text.append(before).append(column).append(after);
    }
    return text;
}

} // namespace

const char* const pieceColumns = "id, kind, state, put_in, source_board, source_job, parent, job, "
                                 "since, loan, board";

Piece readPiece(Database& database, const Query& row) {
    Piece piece;
    piece.number = row.integer(0);
    piece.kind = row.text(1) == "offcut" ? PieceKind::Offcut : PieceKind::Board;
    const std::string state = row.text(2);
    for (std::size_t i = 0; i < stateWords.size(); ++i) {
        piece.state = state == stateWords[i] ? static_cast<PieceState>(i) : piece.state;
    }
    piece.putIn = row.integer(3);
    piece.sourceBoard = row.text(4);
    piece.sourceJob = row.text(5);
    if (!row.isNothing(6)) {
        piece.parent = row.integer(6);
    }
    piece.job = row.text(7);
    piece.since = row.integer(8);
    piece.loan = row.integer(9);
    Result<Board> board = boardFromJson(row.text(10));
    if (!board) {
        database.fail({ErrorCode::CannotRead,
                       "Piece no. " + std::to_string(piece.number) +
                           " on the shop rack cannot be read: " + board.error().message,
                       database.path()});
        return piece;
    }
    piece.board = std::move(board).value();
    return piece;
}

std::optional<Piece> findPiece(Database& database, std::int64_t number) {
    Query row(database, std::string("SELECT ") + pieceColumns + " FROM piece WHERE id = ?");
    row.with(number);
    if (!row.next()) {
        database.fail({ErrorCode::BadInput,
                       "There is no piece no. " + std::to_string(number) + " on the shop rack.",
                       {}});
        return std::nullopt;
    }
    Piece piece = readPiece(database, row);
    return database.ok() ? std::optional(std::move(piece)) : std::nullopt;
}

void writePiece(Database& database, Piece& piece) {
    const Board& board = piece.board;
    const bool isNew = piece.number == 0;
    std::string places = "?";
    std::string updates;
    for (const std::string_view column : columns) {
        places += ", ?";
        updates.append(", ").append(column).append(" = excluded.").append(column);
    }
    Query write(database, "INSERT INTO piece (" + joined("", ", ") + "board) VALUES (" + places +
                              ") ON CONFLICT (id) DO UPDATE SET board = excluded.board" + updates);
    isNew ? write.withNothing() : write.with(piece.number);
    write.with(piece.kind == PieceKind::Offcut ? "offcut" : "board")
        .with(stateWords[static_cast<std::size_t>(piece.state)])
        .with(board.mark)
        .with(board.species)
        .with(std::int64_t{board.quarter.quarters})
        .with(lengthOf(board).inNanometres())
        .with(widthOf(board).inNanometres())
        .withMaybe(board.moistureTenths)
        .with(board.pricePerBoardFoot.inTenThousandths())
        .with(piece.putIn)
        .with(piece.sourceBoard)
        .with(piece.sourceJob)
        .withMaybe(piece.parent)
        .with(piece.job)
        .with(piece.since)
        .with(piece.loan)
        .with(wordsOf(piece))
        .with(boardToJson(board))
        .run();
    if (isNew) {
        piece.number = database.lastInsertedId();
    }
}

void removePiece(Database& database, std::int64_t number) {
    Query(database, "DELETE FROM piece WHERE id = ?").with(number).run();
}

std::optional<std::string> rowText(Database& database, std::int64_t number) {
    std::string pairs;
    for (const std::string_view column : columns) {
        pairs.append("'").append(column).append("', ").append(column).append(", ");
    }
    Query row(database, "SELECT json_object(" + pairs + "'board', board) FROM piece WHERE id = ?");
    row.with(number);
    return row.next() ? std::optional(row.text(0)) : std::nullopt;
}

void writeRowText(Database& database, const std::string& text) {
    std::string updates;
    for (const std::string_view column : columns) {
        updates.append(", ").append(column).append(" = excluded.").append(column);
    }
    // "WHERE true" tells the parser that ON belongs to the upsert, not to a join.
    Query(database, "INSERT INTO piece (" + joined("", ", ") + "board) SELECT " +
                        joined("json_extract(?1, '$.", "'), ") +
                        "json_extract(?1, '$.board') WHERE true ON CONFLICT (id) DO UPDATE SET "
                        "board = excluded.board" +
                        updates)
        .with(text)
        .run();
}

void keepPhotographs(Database& database, const Board& board) {
    for (const BoardPhoto& photo : board.photos) {
        Query known(database, "SELECT 1 FROM photograph WHERE sha256 = ?");
        known.with(photo.file.sha256());
        if (known.next() || !database.ok()) {
            continue;
        }
        const auto bytes = photo.file.read();
        if (!bytes) {
            database.fail({bytes.error().code,
                           "The photograph “" + photo.name + "” of board " + board.mark +
                               " cannot go on the shop rack: " + bytes.error().message,
                           {}});
            return;
        }
        Query(database, "INSERT INTO photograph VALUES (?, ?)")
            .with(photo.file.sha256())
            .withBytes(*bytes.value())
            .run();
    }
}

void findPhotographs(Database& database, const Board& board) {
    for (const BoardPhoto& photo : board.photos) {
        Query bytes(database, "SELECT bytes FROM photograph WHERE sha256 = ?");
        bytes.with(photo.file.sha256());
        if (bytes.next()) {
            photo.file.restOn(PhotoFile::inMemory(bytes.text(0)));
        }
    }
}

} // namespace stavewright::rack
