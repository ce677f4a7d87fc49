#pragma once
// The defects of one board as rows of figures: what the eye finds and the tape measures.

#include "ui/entry/EntryModel.h"

namespace stavewright::ui {

enum class DefectColumn {
    Mark,
    Kind,
    FromDatum,
    FromEdge,
    Along,
    Across,
    Face,
    SlantAlong,
    SlantAcross,
    Depth
};

[[nodiscard]] std::vector<EntryTitle> defectTitles();
[[nodiscard]] EntryCell defectCell(const DocumentSession& session, const Board& board,
                                   const Defect& defect, DefectColumn column);
/// "S sound knot"
[[nodiscard]] QString kindText(DefectKind kind);
/// By key letter or by name.
[[nodiscard]] Result<DefectKind> readKind(const QString& typed);

/// The defect goes through: what shows on one face shows on the other as well.
[[nodiscard]] Defect shownOnBothFaces(const Defect& defect);

} // namespace stavewright::ui
