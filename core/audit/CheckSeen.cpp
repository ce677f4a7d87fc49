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
