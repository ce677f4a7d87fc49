#include "core/job/BoardText.h"

#include "core/document/Ids.h"
#include "core/job/read/Readers.h"
#include "core/job/write/Writers.h"
#include "core/shop/Presets.h"

namespace stavewright {

std::string boardToJson(const Board& board) { return job::toJson(board).dump(); }

Result<Board> boardFromJson(std::string_view text) {
    const Result<job::JsonValue> value = job::parseJson(text);
    if (!value) {
        return value.error();
    }
    job::FirstError firstError;
    const job::Cursor at(value.value(), firstError);
    Board board;
    read(at, board);
    if (firstError.error) {
        return *std::move(firstError.error);
    }
    if (const Status sound = validateBoard(board); !sound) {
        return sound.error();
    }
    return board;
}

Status validateBoard(const Board& board) {
    Document document;
    document.shop = inchShop();
    document.boards = {board};
    document.boards[0].parent.reset();
    document.nextId = presetRules::last + 1;
    visitBoardIds(document.boards[0], [&](auto& id) { id.value = document.nextId++; });
    return validate(document);
}

} // namespace stavewright
