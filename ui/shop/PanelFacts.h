#pragma once
// What the forecast of panels and their checks take for granted, as facts of the place Shop; the
// weights of an arrangement stand beside the panels themselves.

#include <vector>

#include "ui/entry/EntryModel.h"

namespace stavewright::ui {

[[nodiscard]] std::vector<Fact> panelFacts(const DocumentSession& session);

} // namespace stavewright::ui
