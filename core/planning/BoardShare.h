#pragma once
// How much of one board becomes blanks, apart from all else that a plan comes to: the window says
// it beside every board after each change.

#include "core/layout/Plan.h"
#include "core/lumber/Board.h"

namespace stavewright {

/// The rough wood of the blanks on the board.
[[nodiscard]] inline BoardFeet roughBlanksOn(const Board& board, const BoardLayout& layout) {
    Volume wood;
    for (const Section& section : layout.sections) {
        for (const Strip& strip : section.strips) {
            for (const Blank& blank : strip.blanks) {
                wood += blank.rect.area() * board.quarter.nominal();
            }
        }
    }
    return BoardFeet::ofVolume(wood);
}

} // namespace stavewright
