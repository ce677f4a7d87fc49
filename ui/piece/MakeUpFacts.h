#pragma once
// How a part is made up and what its sizes lean on, as facts to type into.

#include "ui/entry/EntryModel.h"

namespace stavewright::ui {

[[nodiscard]] std::vector<Fact> makeUpFacts(const DocumentSession& session, const Part& part);

} // namespace stavewright::ui
