#pragma once
// What a piece's state is called; one table for everything that says it.

#include "core/layout/Plan.h"

namespace stavewright {

/// As it is said in a sentence: "R2 is milled", "R2 is at its final size".
[[nodiscard]] constexpr const char* nameOf(CutState state) {
    switch (state) {
    case CutState::Planned:
        return "not cut yet";
    case CutState::Cut:
        return "crosscut";
    case CutState::Milled:
        return "milled";
    case CutState::Ripped:
        return "ripped";
    case CutState::Glued:
        return "glued";
    case CutState::SecondMilled:
        return "milled a second time";
    case CutState::Final:
        return "at its final size";
    }
    return "in an unknown state";
}

/// The same in a word or two, for lists: "crosscut", "second milling", "final".
[[nodiscard]] constexpr const char* briefOf(CutState state) {
    return state == CutState::SecondMilled ? "second milling"
           : state == CutState::Final      ? "final"
                                           : nameOf(state);
}

} // namespace stavewright
