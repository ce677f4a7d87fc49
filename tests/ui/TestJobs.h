#pragma once
// Jobs for the tests of the window.

#include "core/planning/Planner.h"
#include "tests/unit/core/document/SampleDocument.h"

namespace stavewright::testing_ui {

/// A few seconds are plenty for two boards; counted work keeps the plan the same on every machine.
inline PlanOptions quickOptions() {
    PlanOptions options;
    options.seconds = 20;
    options.work = 1'000;
    options.threads = 1;
    return options;
}

inline Board withMark(Board board, const std::string& mark) {
    board.mark = mark;
    return board;
}

} // namespace stavewright::testing_ui
