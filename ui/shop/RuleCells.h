#pragma once
// The rules as one matrix: a row for each kind of defect, a column for each rule set, and the halo
// round knots below.

#include "ui/entry/EntryModel.h"

namespace stavewright::ui {

[[nodiscard]] std::vector<EntryTitle> ruleTitles(const Shop& shop);
[[nodiscard]] std::size_t ruleRows();
/// Column 0 names the row; row 0 holds the names of the sets.
[[nodiscard]] EntryCell ruleCell(const DocumentSession& session, int row, int column);

/// "no", "any", "to 1/2", "fill any", "fill to 1/2".
[[nodiscard]] QString ruleText(const DefectRule& rule, const LengthStyle& style);
[[nodiscard]] Result<DefectRule> readRule(const QString& typed, const LengthStyle& style);

} // namespace stavewright::ui
