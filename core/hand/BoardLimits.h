#pragma once
// How far each cut of one board may land off, and what would be done where a step is risky: what
// the window shows beside a board and the board sheet prints.

#include "core/hand/SafeWindow.h"

namespace stavewright::hand {

struct BoardLimits {
    BoardId board;
    std::vector<CutWindow> cuts; ///< in the order of the board sheet
    std::vector<std::string>
        standbys; ///< "If knot K3 opens at the planer: ...", worked out by doing it
};

} // namespace stavewright::hand
