#include "core/midjob/Moves.h"

#include <algorithm>
#include <map>
#include <set>

#include "core/geometry/PolygonOps.h"
#include "core/hand/PlanTree.h"
#include "core/midjob/Words.h"
#include "core/planning/Figures.h"
#include "core/planning/PanelWidth.h"

namespace stavewright::midjob {

namespace {

struct Lies {
    BoardId board;
    Rect box;
    Pose pose;
};

/// Frames at an angle are rounded; less than a hair is no move.
bool isSamePlace(const Lies& a, const Lies& b) {
    const auto near = [](Length p, Length q) { return abs(p - q) <= polygonTolerance; };
    return a.board == b.board && a.pose == b.pose && near(a.box.x0, b.box.x0) &&
           near(a.box.x1, b.box.x1) && near(a.box.y0, b.box.y0) && near(a.box.y1, b.box.y1);
}

/// Where everything lies, by what it becomes; staves by their panel.
std::map<BlankPurpose, std::vector<Lies>> placesIn(const Plan& plan) {
    std::map<BlankPurpose, std::vector<Lies>> places;
    for (const BoardLayout& layout : plan.boards) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    places[planning::wholeOf(blank.purpose)].push_back(
                        {layout.board, hand::boxOnBoard(section, woodOf(blank)), blank.pose});
                }
            }
        }
    }
    return places;
}

/// What lies elsewhere, by what it becomes; how many lie alike is counted.
struct Differing {
    std::map<BlankPurpose, std::vector<Lies>> was;
    std::map<BlankPurpose, std::vector<Lies>> is;
    std::set<BlankPurpose> all;
    int stays = 0;
};

Differing differing(const Plan& before, const Plan& after) {
    Differing found{placesIn(before), placesIn(after), {}, 0};
    std::set<BlankPurpose> all;
    for (const auto* places : {&found.was, &found.is}) {
        for (const auto& each : *places) {
            all.insert(each.first);
        }
    }
    for (const BlankPurpose& purpose : all) {
        std::vector<Lies>& then = found.was[purpose];
        std::vector<Lies>& now = found.is[purpose];
        std::erase_if(then, [&](const Lies& lies) {
            const auto same = std::find_if(now.begin(), now.end(), [&](const Lies& other) {
                return isSamePlace(lies, other);
            });
            if (same == now.end()) {
                return false;
            }
            now.erase(same);
            ++found.stays;
            return true;
        });
        if (!then.empty() || !now.empty()) {
            found.all.insert(purpose);
        }
    }
    return found;
}

} // namespace

Moved movedBetween(const Plan& before, const Plan& after) {
    const Differing found = differing(before, after);
    Moved moved;
    moved.stays = found.stays;
    for (const BlankPurpose& purpose : found.all) {
        (found.was.at(purpose).empty()  ? moved.gained
         : found.is.at(purpose).empty() ? moved.lost
                                        : moved.moved)
            .push_back(purpose);
    }
    moved.lumberMore = after.totals.lumberUsed - before.totals.lumberUsed;
    moved.costsMore = after.totals.cost - before.totals.cost;
    return moved;
}

bool isBetter(const Document& document, const Plan& before, const Plan& after) {
    const auto rank = [&](const Plan& plan) {
        return std::pair(plan.unplaced.size(), plan.totals.cost + groupsApart(document, plan));
    };
    return rank(after) < rank(before);
}

std::vector<Move> movesBetween(const Document& document, const Plan& before, const Plan& after) {
    const Differing found = differing(before, after);
    const auto where = [&document](const std::vector<Lies>& places) {
        std::string text;
        for (const Lies& lies : places) {
            const Board* board = findBoard(document, lies.board);
            text += (text.empty() ? "" : "; ") + std::string("board ") +
                    (board ? board->mark : "?") + " at " + saidReading(document, lies.box.x0);
        }
        return text.empty() ? "no place" : text;
    };
    std::vector<Move> moves;
    for (const BlankPurpose& purpose : found.all) {
        moves.push_back({purpose, where(found.was.at(purpose)), where(found.is.at(purpose))});
    }
    return moves;
}

} // namespace stavewright::midjob
