#include "core/choices/WhyHere.h"

#include <algorithm>
#include <tuple>

#include "core/choices/Comparison.h"
#include "core/units/QuantityText.h"

namespace stavewright::choices {

namespace {

struct Place {
    const BoardLayout* layout = nullptr;
    const Section* section = nullptr;
    const Blank* blank = nullptr;
};

template <class Wanted>
std::optional<Place> findPlace(const Plan& plan, const Wanted& isWanted) {
    for (const BoardLayout& layout : plan.boards) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    if (isWanted(blank)) {
                        return Place{&layout, &section, &blank};
                    }
                }
            }
        }
    }
    return std::nullopt;
}

auto rank(const PlanFigures& figures) { return std::tuple(figures.missing, figures.counted); }

/// What stays without being asked.
std::optional<std::string> fixedBecause(const Place& place) {
    if (place.blank->state != CutState::Planned) {
        return "it is cut already";
    }
    if (place.blank->locked) {
        return "it is locked";
    }
    if (place.section->locked || place.section->state != CutState::Planned) {
        return "its section is locked or begun";
    }
    if (place.layout->locked) {
        return "the board is locked";
    }
    return std::nullopt;
}

} // namespace

std::optional<BlankId> blankLabelled(const Document& document, const std::string& label) {
    if (!document.plan) {
        return std::nullopt;
    }
    const std::optional<Place> place = findPlace(*document.plan, [&](const Blank& blank) {
        return labelOf(document, blank.purpose) == label;
    });
    return place ? std::optional(place->blank->id) : std::nullopt;
}

Result<WhyHere> whyHere(const Document& document, BlankId id, const PlanOptions& options,
                        const Progress& progress) {
    if (!document.plan) {
        return Error{ErrorCode::BadInput, "There is no plan to ask about. Plan the job first.", {}};
    }
    const std::optional<Place> place =
        findPlace(*document.plan, [&](const Blank& blank) { return blank.id == id; });
    if (!place) {
        return Error{ErrorCode::BadInput, "That blank is not in the plan.", {}};
    }
    const std::string label = labelOf(document, place->blank->purpose);
    const std::string board = "board " + findBoard(document, place->layout->board)->mark;
    WhyHere why;
    if (const std::optional<std::string> fixed = fixedBecause(*place)) {
        why.sentence = label + " stays on " + board + " because " + *fixed + ".";
        return why;
    }
    PlanOptions without = options;
    without.weights = {};
    without.keptOff = {{place->blank->purpose.part, place->layout->board}};
    std::string nearestMiss;
    Money noise;
    for (int search = 0; search < 2 && !progress.stopRequested(); ++search, ++without.seed) {
        Result<PlanOutcome> outcome = planJob(document, without, progress);
        if (!outcome) {
            return outcome.error();
        }
        const Plan& plan = outcome.value().plan;
        const PlanFigures figures = figuresOf(document, plan);
        if (why.without) {
            noise = std::max(figures.counted, why.without->counted) -
                    std::min(figures.counted, why.without->counted);
        }
        if (!why.without || rank(figures) < rank(*why.without)) {
            why.without = figures;
            nearestMiss = plan.unplaced.empty() ? "" : plan.unplaced.front().nearestMiss;
        }
    }
    if (!why.without || progress.stopRequested()) {
        why.without.reset();
        why.sentence = "Stopped before it was known why " + label + " lies on " + board + ".";
        return why;
    }
    const PlanFigures here = figuresOf(document, *document.plan);
    const std::string mark = findPart(document, place->blank->purpose.part)->mark;
    const std::string kept = "with no " + mark + " from " + board;
    why.costs = why.without->counted - here.counted;
    if (why.without->missing > here.missing) {
        why.sentence = label + " lies on " + board + " because " +
                       countedNoun(why.without->missing - here.missing, "blank or panel finds",
                                   "blanks or panels find") +
                       " no place " + kept + ". " + nearestMiss;
        return why;
    }
    why.isWithinNoise = why.costs <= noise && why.costs >= -noise;
    if (why.costs < Money() && !why.isWithinNoise) {
        why.sentence = label + " need not lie on " + board + ": " + kept +
                       " a plan was found that " + against(*why.without, here, document.info) +
                       ". Planning for longer may find a better plan.";
        return why;
    }
    why.sentence = label + " lies on " + board + ": " + kept + " the plan " +
                   against(*why.without, here, document.info) + ".";
    if (why.isWithinNoise) {
        why.sentence += noise < Money::cents(1) ? " Another board would do as well."
                                                : " Two searches differ by " +
                                                      formatMoney(noise, document.info.currency) +
                                                      ", so another board may do as well.";
    }
    return why;
}

} // namespace stavewright::choices
