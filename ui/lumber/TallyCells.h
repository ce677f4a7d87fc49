#pragma once
// The tally: one row for each board of the rack, typed as it is called out at the yard.

#include "ui/entry/EntryModel.h"

namespace stavewright::ui {

enum class TallyColumn {
    Mark,
    Species,
    Quarter,
    Length,
    WidthAtDatum,
    WidthAtFar,
    Thinnest,
    Price,
    BoardFeet,
    SetAside
};

[[nodiscard]] std::vector<EntryTitle> tallyTitles(UnitSystem units);
[[nodiscard]] EntryCell tallyCell(const DocumentSession& session, const Board& board,
                                  TallyColumn column);

} // namespace stavewright::ui
