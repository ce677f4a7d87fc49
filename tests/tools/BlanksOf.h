#pragma once
// The blanks of a plan, in its order, for tests and benches that pick some of them.

#include <vector>

#include "core/layout/Plan.h"

namespace stavewright::plan_tools {

inline std::vector<BlankId> blanksOf(const Plan& plan) {
    std::vector<BlankId> ids;
    for (const BoardLayout& layout : plan.boards) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    ids.push_back(blank.id);
                }
            }
        }
    }
    return ids;
}

} // namespace stavewright::plan_tools
