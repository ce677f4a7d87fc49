#include "core/midjob/Standby.h"

#include <algorithm>

#include "core/audit/BoardJudge.h"
#include "core/geometry/PolygonOps.h"
#include "core/hand/PlanTree.h"
#include "core/midjob/MadeCuts.h"
#include "core/midjob/Settle.h"
#include "core/midjob/Words.h"

namespace stavewright::midjob {

namespace {

/// Standbys for knots that are told of one board; more would bury the steps of its sheet.
constexpr std::size_t mostStandbys = 2;

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
        found.push_back("At " + saidReading(document, where) + ": " +
                        consequencesOf(event.value(), what + 1));
    };
    look(window->openBelow, window->beyondBelow);
    look(window->openAbove, window->beyondAbove);
    return found;
}

namespace {

/// A knot that would lose the blank over it by opening.
struct Risk {
    BlankId blank;
    DefectId knot;
    Length size;
};

/// The board as it is when the knot has come out.
Board withKnotOpen(Board board, DefectId knot) {
    for (Defect& defect : board.defects) {
        if (defect.id == knot) {
            defect.kind = DefectKind::KnotHole;
            defect.through = true;
        }
    }
    return board;
}

/// Knots of the board under the blank (or under any) that may open and then lose it, the largest
/// first.
std::vector<Risk> risksOn(const Document& document, BoardId id, std::optional<BlankId> only) {
    std::vector<Risk> risks;
    const BoardLayout* layout = hand::layoutOf(*document.plan, id);
    const Board* board = findBoard(document, id);
    if (!layout || !board) {
        return risks;
    }
    for (const Defect& defect : board->defects) {
        const bool mayOpen =
            defect.kind == DefectKind::SoundKnot || defect.kind == DefectKind::LooseKnot;
        if (!mayOpen) {
            continue;
        }
        std::vector<BlankId> over;
        for (const Section& section : layout->sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    if ((!only || blank.id == *only) &&
                        liesUnder(defect, toOuter(section.frame, woodOf(blank)))) {
                        over.push_back(blank.id);
                    }
                }
            }
        }
        if (over.empty()) {
            continue;
        }
        Document opened = document;
        for (Board& each : opened.boards) {
            if (each.id == id) {
                each = withKnotOpen(each, defect.id);
            }
        }
        const BoardJudge judge(opened);
        for (const Finding& finding : judge.failures(*layout)) {
            const bool isOver = std::find(over.begin(), over.end(), finding.blank) != over.end();
            const bool isNew = std::none_of(risks.begin(), risks.end(), [&](const Risk& each) {
                return each.knot == defect.id && each.blank == finding.blank;
            });
            if (isOver && isNew) {
                risks.push_back({finding.blank, defect.id, sizeOf(defect)});
            }
        }
    }
    std::stable_sort(risks.begin(), risks.end(),
                     [](const Risk& a, const Risk& b) { return a.size > b.size; });
    return risks;
}

/// What would be done, by doing it on a copy; empty where nothing is lost.
std::string standbyFor(const Document& document, BoardId id, const Risk& risk) {
    const std::optional<hand::TreePlace> place = hand::placeOf(*document.plan, risk.blank);
    if (!place) {
        return {};
    }
    // As it will be then: the piece is cut.
    Document cut = document;
    Section& section = cut.plan->boards[place->board].sections[place->section];
    Blank& blank = section.strips[place->strip].blanks[place->blank];
    section.state = std::max(section.state, CutState::Cut);
    blank.state = std::max(blank.state, CutState::Milled);
    Happened happened{cut, {id}, {id}, {}, {}};
    std::string mark;
    for (Board& each : happened.after.boards) {
        if (each.id == id) {
            each = withKnotOpen(each, risk.knot);
            for (const Defect& defect : each.defects) {
                mark = defect.id == risk.knot ? defect.mark : mark;
            }
        }
    }
    happened.what = "If knot " + mark + " opens at the planer:";
    const Result<ShopEvent> event = settle(cut, std::move(happened), {});
    const bool isWorthIt = event && !(event.value().lost.empty() && event.value().turned.empty());
    return isWorthIt ? event.value().sentence : std::string();
}

} // namespace

std::vector<std::string> standbysIfKnotsOpen(const Document& document, BlankId id,
                                             std::size_t most) {
    std::vector<std::string> found;
    const std::optional<hand::TreePlace> place =
        document.plan ? hand::placeOf(*document.plan, id) : std::nullopt;
    if (!place) {
        return found;
    }
    const BoardId board = document.plan->boards[place->board].board;
    for (const Risk& risk : risksOn(document, board, id)) {
        if (found.size() == most) {
            break;
        }
        std::string sentence = standbyFor(document, board, risk);
        if (!sentence.empty()) {
            found.push_back(std::move(sentence));
        }
    }
    return found;
}

hand::BoardLimits limitsOf(const Document& document, const hand::SafeWindows& windows,
                           BoardId board, const std::stop_token& stop) {
    hand::BoardLimits limits{board, windows.onBoard(board, stop), {}};
    for (const Risk& risk : risksOn(document, board, {})) {
        if (limits.standbys.size() == mostStandbys || stop.stop_requested()) {
            break;
        }
        std::string sentence = standbyFor(document, board, risk);
        if (!sentence.empty()) {
            limits.standbys.push_back(std::move(sentence));
        }
    }
    return limits;
}

std::vector<hand::BoardLimits> limitsOf(const Document& document, const std::stop_token& stop) {
    std::vector<hand::BoardLimits> all;
    if (!document.plan) {
        return all;
    }
    const hand::SafeWindows windows(document);
    for (const BoardLayout& layout : document.plan->boards) {
        if (stop.stop_requested()) {
            break;
        }
        if (!layout.sections.empty()) {
            all.push_back(limitsOf(document, windows, layout.board, stop));
        }
    }
    return all;
}

} // namespace stavewright::midjob
