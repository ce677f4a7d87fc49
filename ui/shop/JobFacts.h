#pragma once
// What is said of the whole job: its name, for whom it is built, how lengths and money are shown.

#include <vector>

#include "ui/entry/EntryModel.h"

namespace stavewright::ui {

[[nodiscard]] std::vector<Fact> jobFacts(const DocumentSession& session);

} // namespace stavewright::ui
