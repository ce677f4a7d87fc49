#include "core/planning/PanelWidth.h"

namespace stavewright::planning {

namespace {

template <class Visit>
void forEachBlank(const Plan& plan, Visit visit) {
    for (const BoardLayout& layout : plan.boards) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    visit(blank);
                }
            }
        }
    }
}

} // namespace

Length netWidthOf(const Blank& stave, const StavePool& pool) {
    return woodOf(stave).width() - pool.jointAllowance;
}

Length netWidthOf(const Plan& plan, const StavePool& pool, const BlankPurpose& panel) {
    Length net;
    forEachBlank(plan, [&](const Blank& blank) {
        if (wholeOf(blank.purpose) == panel) {
            net += netWidthOf(blank, pool);
        }
    });
    return net;
}

std::map<BlankPurpose, Length> netWidthsIn(const Plan& plan, const std::vector<BlankSpec>& specs) {
    std::map<BlankPurpose, Length> widths;
    forEachBlank(plan, [&](const Blank& blank) {
        Length& net = widths[wholeOf(blank.purpose)];
        const BlankSpec* spec = specOf(specs, blank.purpose);
        if (spec && spec->staves) {
            net += netWidthOf(blank, *spec->staves);
        }
    });
    return widths;
}

} // namespace stavewright::planning
