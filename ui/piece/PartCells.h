#pragma once
// The parts of the piece: one row for each, with finished sizes.

#include "ui/entry/EntryModel.h"

namespace stavewright::ui {

enum class PartColumn {
    Mark,
    Name,
    Group,
    Species,
    Count,
    Length,
    Width,
    Thickness,
    Least,
    MakeUp,
    PerBlank
};

[[nodiscard]] std::vector<EntryTitle> partTitles();
[[nodiscard]] EntryCell partCell(const DocumentSession& session, const Part& part,
                                 PartColumn column);

/// One board, a panel of staves, a block of plies, or plies that are panels.
[[nodiscard]] QStringList makeUpWords();
[[nodiscard]] int makeUpOf(const Part& part);
[[nodiscard]] Part withMakeUp(Part part, int makeUp, UnitSystem units);

} // namespace stavewright::ui
