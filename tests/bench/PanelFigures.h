#pragma once
// How a plan's panels are made up: from how many staves, from how many boards, how narrow they are.

#include "core/cutting/Problem.h"

namespace stavewright::cutting::bench {

struct PanelFigures {
    int panels = 0;
    int staves = 0;
    int boards = 0; ///< summed over the panels: a board that gives to two counts twice
    int mostStaves = 0;
    int mostBoards = 0;
    Nm narrowest = 0; ///< net
    /// Panels of more staves than one to every 4 in of their net width (9 for a 36 in top), or with
    /// a stave under 3 in net.
    int beyondLimits = 0;

    PanelFigures& operator+=(const PanelFigures& other);
};

/// Of the panels that a solution completes.
[[nodiscard]] PanelFigures panelFigures(const Problem& problem, const Solution& solution);

} // namespace stavewright::cutting::bench
