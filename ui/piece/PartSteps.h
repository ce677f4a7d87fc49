#pragma once
// What the place Piece does to the piece, as edits: a new part like the last one, a copy, a part
// less, zones and joints more.

#include "core/document/Edit.h"

namespace stavewright::ui {

/// The selected part, or the first when none is.
[[nodiscard]] const Part* shownPart(const Document& document, const std::optional<PartId>& id);

[[nodiscard]] Part newPart(const Document& document);
[[nodiscard]] Part copyOf(const Document& document, const Part& part);
/// Takes the part away, and with it its joints, its place in groups and the plan that holds it.
/// Refused when another part's size leans on it.
[[nodiscard]] Result<Edit> removal(const Document& document, PartId part);

/// The part with its zones written out (the defaults become its own) and one more over `area`.
[[nodiscard]] Part withZone(const Document& document, const Part& part, const ZoneArea& area);
/// One more joint on the part, a short stretch at its low end.
[[nodiscard]] std::vector<Joint> withJoint(const Document& document, const Part& part);

[[nodiscard]] inline Edit replacing(Part part) { return Edit{ReplacePart{std::move(part)}}; }

} // namespace stavewright::ui
