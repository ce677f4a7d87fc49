#pragma once
// What is left of a selection when some of what was selected is no longer in the job.

#include "ui/session/DocumentSession.h"

namespace stavewright::ui {

[[nodiscard]] Selection withoutLost(const Document& document, Selection selection);

} // namespace stavewright::ui
