#pragma once
// What can be done by hand with what is selected: one list for the rack's menu and the side panel.

#include <QString>

#include <vector>

#include "ui/session/DocumentSession.h"

namespace stavewright::ui {

struct HandStep {
    int key; ///< on the rack (RackKeys.cpp)
    QString text;
    QString keyText;
};

/// Empty where neither a blank nor a board that the plan cuts is selected.
[[nodiscard]] std::vector<HandStep> handSteps(const Document& document, const Selection& selection);

} // namespace stavewright::ui
