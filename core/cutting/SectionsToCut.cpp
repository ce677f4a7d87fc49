#include "core/cutting/SectionsToCut.h"

#include <algorithm>

#include "core/cutting/SectionFit.h"
#include "core/cutting/SectionMenu.h"

namespace stavewright::cutting {

namespace {

/// What a section may need beyond what a lattice gives it, whose lengths are rounded down.
constexpr Nm roomForRounding = 10'000'000;
/// Later begins that are tried, and how far they lie apart at least.
constexpr Nm timesLater = 12;
constexpr Nm leastLater = 8'000'000;

/// `x1`, or the end of the free stretch in which `x0` lies.
Nm endWithin(const BoardModel& model, Nm x0, Nm x1) {
    for (const Stretch& stretch : model.freeStretches()) {
        if (stretch.from.inNanometres() <= x0 && x0 < stretch.to.inNanometres()) {
            return std::min(x1, stretch.to.inNanometres());
        }
    }
    return x1;
}

Nm rowLength(const Context& context, const BoundStrip& strip) {
    Nm length = -context.problem->limits.stripCrosscutKerf;
    for (const BoundBlank& blank : strip.blanks) {
        length +=
            context.problem->kinds[blank.kind].length + context.problem->limits.stripCrosscutKerf;
    }
    return length;
}

/// The same section where it begins at x0, with its blanks no earlier.
BoundSection beginningAt(const Context& context, const BoundSection& wanted, Nm x0) {
    BoundSection later = wanted;
    later.x0 = x0;
    for (BoundStrip& strip : later.strips) {
        Nm from = x0;
        for (BoundBlank& blank : strip.blanks) {
            blank.along = std::max(blank.along, from);
            from = blank.along + context.problem->kinds[blank.kind].length +
                   context.problem->limits.stripCrosscutKerf;
        }
    }
    return later;
}

/// What a fit holds: its blanks first, then their width.
struct Held {
    std::size_t blanks = 0;
    Nm width = 0;
    friend auto operator<=>(const Held&, const Held&) = default;
};

Held heldBy(const BoundSection& section) {
    Held held;
    for (const BoundStrip& strip : section.strips) {
        held.blanks += strip.blanks.size();
        for (const BoundBlank& blank : strip.blanks) {
            held.width += blank.width;
        }
    }
    return held;
}

Held heldBy(const PlacedSection& section) {
    Held held;
    for (const PlacedStrip& strip : section.strips) {
        held.blanks += strip.blanks.size();
        for (const Placed& blank : strip.blanks) {
            held.width += blank.rect.width().inNanometres();
        }
    }
    return held;
}

/// The section cut between x0 and x1, and no longer than its blanks need: where the edge bends, its
/// frame turns with it. Without strips where no blank has room.
PlacedSection fitBetween(const Context& context, const BoardModel& model,
                         const BoundSection& wanted, Nm x0, Nm x1) {
    const SectionFit whole(context, model, wanted, x0, x1);
    if (whole.blanks() > 0 && x0 + whole.lengthNeeded() < x1) {
        const SectionFit shorter(context, model, wanted, x0, x0 + whole.lengthNeeded());
        if (shorter.blanks() >= whole.blanks()) {
            return shorter.cut();
        }
    }
    return whole.cut();
}

/// A lattice gives a section the slack of the bends between any of its places; where it begins a
/// little later than it might, the board really has it.
PlacedSection fitLater(const Context& context, const BoardModel& model, const BoundSection& wanted,
                       Nm x0, Nm x1) {
    Nm longest = 0;
    for (const BoundStrip& strip : wanted.strips) {
        longest = std::max(longest, rowLength(context, strip));
    }
    const Nm step = std::max(leastLater, (x1 - x0 - longest) / timesLater);
    PlacedSection best = fitBetween(context, model, wanted, x0, x1);
    const Held foreseen = heldBy(wanted);
    Held held = heldBy(best);
    for (Nm later = x0 + step; held < foreseen && x1 - later >= longest; later += step) {
        PlacedSection section =
            fitBetween(context, model, beginningAt(context, wanted, later), later, x1);
        if (const Held there = heldBy(section); there > held) {
            held = there;
            best = std::move(section);
        }
    }
    return best;
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
        PlacedSection section = fitLater(context, model, wanted, x0, x1);
        if (section.strips.empty()) {
            continue;
        }
        from = section.x1 + context.problem->limits.crosscutKerf;
        pattern.sections.push_back(std::move(section));
    }
    return pattern;
}

} // namespace stavewright::cutting
