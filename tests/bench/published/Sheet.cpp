#include "Sheet.h"

#include <utility>

#include "Racks.h"

namespace stavewright::cutting::bench {

Sheet swapped(const Sheet& sheet) {
    Sheet other = sheet;
    std::swap(other.length, other.width);
    for (SheetPiece& piece : other.pieces) {
        std::swap(piece.length, piece.width);
    }
    for (SheetHole& hole : other.holes) {
        std::swap(hole.x, hole.y);
        std::swap(hole.length, hole.width);
    }
    return other;
}

Sheet withTurned(const Sheet& sheet) {
    Sheet both = sheet;
    for (const SheetPiece& piece : sheet.pieces) {
        if (piece.length != piece.width) {
            both.pieces.push_back({piece.width, piece.length, piece.value, piece.copies});
        }
    }
    return both;
}

std::optional<Sheet> readSheet(Numbers& numbers, PieceFields fields) {
    Sheet sheet;
    sheet.length = numbers.next();
    sheet.width = numbers.next();
    readPieces(numbers, fields, sheet);
    if (!numbers.isSound()) {
        return std::nullopt;
    }
    return sheet;
}

void readPieces(Numbers& numbers, PieceFields fields, Sheet& sheet) {
    for (std::int64_t left = numbers.next(); left > 0 && numbers.isSound(); --left) {
        SheetPiece piece;
        piece.length = numbers.next();
        piece.width = numbers.next();
        if (fields != PieceFields::Copies) {
            piece.value = numbers.next();
        }
        if (fields != PieceFields::Value) {
            piece.copies = numbers.next();
        }
        sheet.pieces.push_back(piece);
    }
}

Problem problemOf(const Sheet& sheet, int boards, Cost boardCost, Stages stages) {
    Problem problem;
    if (stages == Stages::Two) {
        problem.limits.stripCrosscutKerf = sheet.length * sheetUnit;
    }
    Board board;
    board.outline = testing::box(0, 0, sheet.length * sheetUnit, sheet.width * sheetUnit);
    board.cost = boardCost;
    board.boardFeetMillionths = 1'000'000;
    board.layers.resize(1);
    for (std::size_t h = 0; h < sheet.holes.size(); ++h) {
        const SheetHole& hole = sheet.holes[h];
        board.layers[0].onA.push_back(
            {testing::box(hole.x * sheetUnit, hole.y * sheetUnit,
                          (hole.x + hole.length) * sheetUnit, (hole.y + hole.width) * sheetUnit),
             std::nullopt, false, static_cast<int>(h)});
    }
    for (int b = 0; b < boards; ++b) {
        board.name = "sheet " + std::to_string(b + 1);
        problem.boards.push_back(board);
    }
    for (const SheetPiece& piece : sheet.pieces) {
        Kind kind;
        kind.name = std::to_string(piece.length) + " x " + std::to_string(piece.width);
        kind.length = piece.length * sheetUnit;
        kind.width = piece.width * sheetUnit;
        kind.demand = static_cast<int>(piece.copies);
        kind.mayTurn = false;
        kind.mayFaceOver = false;
        kind.penaltyUnplaced = piece.value * valueUnit;
        if (!sheet.holes.empty()) {
            kind.zones.push_back({0, false, {false, 0}, {true, 0}, {false, 0}, {true, 0}});
        }
        problem.kinds.push_back(std::move(kind));
    }
    return problem;
}

} // namespace stavewright::cutting::bench
