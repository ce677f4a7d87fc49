#include "core/midjob/Standby.h"

#include <algorithm>

#include "core/geometry/PolygonOps.h"
#include "core/hand/PlanTree.h"
#include "core/midjob/MadeCuts.h"
#include "core/midjob/Settle.h"
#include "core/midjob/Words.h"
#include "core/planning/Kept.h"

namespace stavewright::midjob {

namespace {

/// The event's sentence without its first one, which says what happened.
std::string consequencesOf(const ShopEvent& event, std::size_t what) {
    return event.sentence.size() > what + 1 ? event.sentence.substr(what + 1) : event.sentence;
}

bool liesUnder(const Defect& defect, const Polygon& blank) {
    return (defect.onA && interiorsMeet(defect.onA->outline, blank)) ||
           (defect.onB && interiorsMeet(defect.onB->outline, blank));
}

} // namespace

std::vector<std::string> standbysFor(const Document& document, BoardId board,
                                     const std::optional<hand::CutWindow>& window) {
    std::vector<std::string> found;
    if (!window) {
        return found;
    }
    const auto look = [&](bool isOpen, Length where) {
        if (isOpen) {
            return;
        }
        const Result<ShopEvent> event = cutMade(document, board, window->cut, where, {});
        if (!event || event.value().lost.empty()) {
            return;
        }
        const std::size_t what = event.value().sentence.find(". ");
        found.push_back("At " + said(document, where) + ": " +
                        consequencesOf(event.value(), what + 1));
    };
    look(window->openBelow, window->beyondBelow);
    look(window->openAbove, window->beyondAbove);
    return found;
}

std::vector<std::string> standbysIfKnotsOpen(const Document& document, BlankId id,
                                             std::size_t most) {
    std::vector<std::string> found;
    const std::optional<hand::TreePlace> place =
        document.plan ? hand::placeOf(*document.plan, id) : std::nullopt;
    if (!place) {
        return found;
    }
    // As it will be then: the piece is cut.
    Document cut = document;
    BoardLayout& layout = cut.plan->boards[place->board];
    Section& section = layout.sections[place->section];
    Blank& blank = section.strips[place->strip].blanks[place->blank];
    section.state = std::max(section.state, CutState::Cut);
    blank.state = std::max(blank.state, CutState::Milled);
    const Board& board = *findBoard(cut, layout.board);
    const Polygon outline = toOuter(section.frame, planning::woodOf(blank));
    std::vector<const Defect*> knots;
    for (const Defect& defect : board.defects) {
        const bool mayOpen =
            defect.kind == DefectKind::SoundKnot || defect.kind == DefectKind::LooseKnot;
        if (mayOpen && liesUnder(defect, outline)) {
            knots.push_back(&defect);
        }
    }
    std::stable_sort(knots.begin(), knots.end(),
                     [](const Defect* a, const Defect* b) { return sizeOf(*a) > sizeOf(*b); });
    knots.resize(std::min(knots.size(), most));
    for (const Defect* knot : knots) {
        Happened happened{cut, {board.id}, {board.id}, {}, {}};
        for (Board& each : happened.after.boards) {
            for (Defect& defect : each.defects) {
                if (each.id == board.id && defect.id == knot->id) {
                    defect.kind = DefectKind::KnotHole;
                    defect.through = true;
                }
            }
        }
        happened.what = "If knot " + knot->mark + " opens at the planer:";
        const Result<ShopEvent> event = settle(cut, std::move(happened), {});
        if (event && !(event.value().lost.empty() && event.value().turned.empty())) {
            found.push_back(event.value().sentence);
        }
    }
    return found;
}

} // namespace stavewright::midjob
