#include "core/cutting/SectionsToCut.h"

#include <algorithm>

#include "core/cutting/SectionFit.h"
#include "core/cutting/SectionMenu.h"

namespace stavewright::cutting {

namespace {

/// What a section may need beyond what a lattice gives it, whose lengths are rounded down.
constexpr Nm roomForRounding = 10'000'000;

/// `x1`, or the end of the free stretch in which `x0` lies.
Nm endWithin(const BoardModel& model, Nm x0, Nm x1) {
    for (const Stretch& stretch : model.freeStretches()) {
        if (stretch.from.inNanometres() <= x0 && x0 < stretch.to.inNanometres()) {
            return std::min(x1, stretch.to.inNanometres());
        }
    }
    return x1;
}

} // namespace

std::vector<BoundSection> sectionsToCut(const Context& context, const BoardModel& model,
                                        const Values& values,
                                        const std::vector<BoundSection>& chain,
                                        const Interrupt& interrupt, std::int64_t& work) {
    const Limits& limits = context.problem->limits;
    std::vector<BoundSection> sections;
    Nm from = 0;
    for (const BoundSection& found : chain) {
        if (interrupt.isCalled()) {
            return {};
        }
        BoundSection section = found;
        section.x0 = std::max(found.x0, from);
        section.x1 = endWithin(model, found.x0, found.x1 + roomForRounding);
        if (section.x1 - section.x0 < context.shortest) {
            continue;
        }
        const SectionMenu menu(context, model, section.x0, section.x1, Fineness::fine(), &found);
        const SectionChoice choice = menu.best(values, work);
        if (choice.isEmpty) {
            continue;
        }
        sections.push_back(section);
        Nm last = 0;
        for (const PlacedStrip& strip : menu.cut(values, choice).strips) {
            last = std::max(last, strip.blanks.back().rect.x1.inNanometres());
        }
        const Nm needed = menu.shape().lengthFor(std::max(last, limits.leastFacedLength));
        from = std::min(section.x1, section.x0 + needed);
        if (from < section.x1) {
            section.x1 = from;
            sections.push_back(section);
        }
        from += limits.crosscutKerf;
    }
    return sections;
}

Pattern chainAsCut(const Context& context, const BoardModel& model,
                   const std::vector<BoundSection>& chain) {
    Pattern pattern;
    pattern.board = model.index();
    Nm from = 0;
    for (const BoundSection& wanted : chain) {
        const Nm x0 = std::max(wanted.x0, from);
        const Nm x1 = endWithin(model, wanted.x0, wanted.x1 + roomForRounding);
        if (x1 - x0 < context.shortest) {
            continue;
        }
        const SectionFit whole(context, model, wanted, x0, x1);
        if (whole.blanks() == 0) {
            continue;
        }
        PlacedSection section = whole.cut();
        // No longer than its blanks need; where the edge bends, its frame turns with it.
        if (x0 + whole.lengthNeeded() < x1) {
            const SectionFit shorter(context, model, wanted, x0, x0 + whole.lengthNeeded());
            if (shorter.blanks() >= whole.blanks()) {
                section = shorter.cut();
            }
        }
        from = section.x1 + context.problem->limits.crosscutKerf;
        pattern.sections.push_back(std::move(section));
    }
    return pattern;
}

} // namespace stavewright::cutting
