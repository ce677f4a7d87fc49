#pragma once
// Zones of a part: where they lie, measured from which end, and the rules that hold there. The same
// area is typed for the side of a joint.

#include "ui/entry/EntryModel.h"

namespace stavewright::ui {

/// The columns of an area, from `column` 0: faces; from, to along; from, to across.
inline constexpr int areaColumns = 5;
[[nodiscard]] std::vector<EntryTitle> areaTitles();
using SetArea = std::function<Edit(const ZoneArea&)>;
[[nodiscard]] EntryCell areaCell(const LengthStyle& style, const ZoneArea& area, int column,
                                 const SetArea& set);

/// "2" from the low end, "end - 3 1/2" from the high end.
[[nodiscard]] QString anchoredText(const Anchored& anchored, const LengthStyle& style);
[[nodiscard]] Result<Anchored> readAnchored(const QString& typed, const LengthStyle& style);

/// A choice among the rule sets of the shop.
[[nodiscard]] EntryCell ruleSetCell(const Shop& shop, RuleSetId now,
                                    const std::function<Edit(RuleSetId)>& take);
[[nodiscard]] QStringList ruleSetNames(const Shop& shop);

[[nodiscard]] std::vector<EntryTitle> zoneTitles();
/// `zone` is a place in zonesOrDefaults(); changing a default writes the defaults out.
[[nodiscard]] EntryCell zoneCell(const DocumentSession& session, const Part& part, std::size_t zone,
                                 int column);

} // namespace stavewright::ui
