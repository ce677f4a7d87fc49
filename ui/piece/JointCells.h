#pragma once
// Joints as they concern one part, a row for each side, and the groups of parts that should match.

#include "ui/entry/EntryModel.h"

namespace stavewright::ui {

/// One side of one joint, by places in the document's list.
struct JointRow {
    std::size_t joint = 0;
    std::size_t side = 0;
};
/// The sides that lie on the part.
[[nodiscard]] std::vector<JointRow> jointRows(const Document& document, PartId part);
[[nodiscard]] std::vector<EntryTitle> jointTitles();
[[nodiscard]] EntryCell jointCell(const DocumentSession& session, const JointRow& row, int column);
[[nodiscard]] QString jointText(JointKind kind);

[[nodiscard]] std::vector<EntryTitle> groupTitles();
/// Columns: name, wish, marks of its parts ("R L T").
[[nodiscard]] EntryCell groupCell(const DocumentSession& session, std::size_t group, int column);
[[nodiscard]] std::vector<MatchGroup> withGroup(const Document& document, PartId part);

} // namespace stavewright::ui
