#include <algorithm>
#include <unordered_map>

#include "core/audit/Checks.h"

namespace stavewright::audit_detail {

namespace {

std::vector<Stretch> merged(std::vector<Stretch> stretches) {
    std::sort(stretches.begin(), stretches.end(),
              [](const Stretch& a, const Stretch& b) { return a.from < b.from; });
    std::vector<Stretch> runs;
    for (const Stretch& stretch : stretches) {
        if (!runs.empty() && stretch.from <= runs.back().to) {
            runs.back().to = std::max(runs.back().to, stretch.to);
        } else {
            runs.push_back(stretch);
        }
    }
    return runs;
}

/// What of `wanted` lies in none of `seen`; both merged.
std::vector<Stretch> without(const std::vector<Stretch>& wanted, const std::vector<Stretch>& seen) {
    std::vector<Stretch> rest;
    for (const Stretch& stretch : wanted) {
        Length from = stretch.from;
        for (const Stretch& looked : seen) {
            if (looked.to <= from || looked.from >= stretch.to) {
                continue;
            }
            if (looked.from > from) {
                rest.push_back({from, looked.from});
            }
            from = std::max(from, looked.to);
        }
        if (from < stretch.to) {
            rest.push_back({from, stretch.to});
        }
    }
    return rest;
}

/// Every zone of the blank takes sound knots of this size and needs no fill.
bool takesKnotsUnder(const Need& need, Length size) {
    return std::all_of(need.zones.begin(), need.zones.end(), [size](const NeededZone& zone) {
        const DefectRule& rule = zone.rules->ruleFor(DefectKind::SoundKnot);
        return rule.verdict == Verdict::Allowed && (!rule.largest || size <= *rule.largest);
    });
}

/// Where blanks that may not hold such knots lie on wood whose small sound knots nobody marked.
void checkQuickLooks(const Case& opened, const Board& board, BoardFace face, Report& report) {
    const Words& words = report.words();
    std::vector<Stretch> places;
    Length largest;
    for (const PlacedBlank& placed : opened.blanks) {
        if (placed.board != &board || !placed.sound || !placed.need) {
            continue;
        }
        for (const QuickLook& look : quicklyLookedAt(board, face, {placed.box.x0, placed.box.x1})) {
            if (!takesKnotsUnder(*placed.need, look.knotsUnder)) {
                places.push_back(look.stretch);
                largest = std::max(largest, look.knotsUnder);
            }
        }
    }
    if (places.empty()) {
        return;
    }
    std::string where;
    for (const Stretch& stretch : merged(places)) {
        where += (where.empty() ? "" : " and ") + words.length(stretch.from) + " to " +
                 words.length(stretch.to);
    }
    report.remark(FindingKind::NotLookedAt, {.board = board.id},
                  std::string("Face ") + (face == BoardFace::A ? "A" : "B") + " of board " +
                      board.mark + " had only a quick look from " + where +
                      ", where blanks lie: sound knots under " + words.length(largest) +
                      " may be there unmarked; look before cutting.");
}

} // namespace

void checkSeen(const Case& opened, Report& report) {
    std::unordered_map<const Board*, std::vector<Stretch>> cutFrom;
    std::vector<const Board*> inOrder;
    for (const PlacedBlank& placed : opened.blanks) {
        if (placed.sound) {
            std::vector<Stretch>& stretches = cutFrom[placed.board];
            if (stretches.empty()) {
                inOrder.push_back(placed.board);
            }
            stretches.push_back({placed.box.x0, placed.box.x1});
        }
    }
    const Words& words = report.words();
    for (const Board* board : inOrder) {
        for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
            checkQuickLooks(opened, *board, face, report);
            std::vector<Stretch> seen;
            for (const LookedAt& looked : board->lookedAt) {
                if (looked.face == face) {
                    seen.push_back(looked.stretch);
                }
            }
            const std::vector<Stretch> rest = without(merged(cutFrom[board]), merged(seen));
            if (rest.empty()) {
                continue;
            }
            std::string where;
            for (const Stretch& stretch : rest) {
                where += (where.empty() ? "" : " and ") + words.length(stretch.from) + " to " +
                         words.length(stretch.to);
            }
            report.remark(FindingKind::NotLookedAt, {.board = board->id},
                          std::string("Face ") + (face == BoardFace::A ? "A" : "B") + " of board " +
                              board->mark + " has not been looked at from " + where +
                              ", where blanks lie: look before cutting.");
        }
    }
}

} // namespace stavewright::audit_detail
