#pragma once
// Pieces as rows of the table, there and back, and as the text that the journal keeps.

#include "core/rack/Rack.h"

namespace stavewright::rack {

/// In the order of readPiece.
extern const char* const pieceColumns;

/// The current row of "SELECT <pieceColumns> FROM piece"; a board that cannot be read fails the
/// database.
Piece readPiece(Database& database, const Query& row);
std::optional<Piece> findPiece(Database& database, std::int64_t number);

/// Writes all of it. Without a number it becomes a new row and gets its number.
void writePiece(Database& database, Piece& piece);
void removePiece(Database& database, std::int64_t number);

/// The whole row as one JSON text, or nothing without such a row.
std::optional<std::string> rowText(Database& database, std::int64_t number);
void writeRowText(Database& database, const std::string& text);

/// The bytes of the board's photographs, once each.
void keepPhotographs(Database& database, const Board& board);
void findPhotographs(Database& database, const Board& board);

} // namespace stavewright::rack
