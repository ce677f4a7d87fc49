// Places for what the plan misses, found as a maker would: on the boards of its group if it has
// one, then in wood that is cut already.

#include <algorithm>
#include <set>

#include "core/audit/Audit.h"
#include "core/hand/Drag.h"
#include "core/hand/PlanTree.h"
#include "core/midjob/Settle.h"

namespace stavewright::midjob {

namespace {

/// Places looked at for all blanks together; keeps the first answer quick.
constexpr int mostLooks = 600;
/// Staves that one panel may want at once.
constexpr int mostStaves = 24;

struct Corner {
    BoardId board;
    Point at;
};

/// Where to begin looking: each cut section along both edges, then the free stretches of begun
/// boards, then boards that the plan does not touch, the smallest first.
std::vector<Corner> cornersOf(const Document& document, LayIn wood) {
    std::vector<Corner> inCut;
    std::vector<Corner> onBegun;
    std::vector<std::pair<BoardFeet, Corner>> fresh;
    for (const Board& board : document.boards) {
        if (board.setAside) {
            continue;
        }
        const Rect box = boundingBox(board.outline);
        const BoardLayout* layout = hand::layoutOf(*document.plan, board.id);
        if (!layout || layout->sections.empty()) {
            fresh.push_back({boardFeetOf(board), {board.id, {box.x0, box.y0}}});
            continue;
        }
        if (layout->locked) {
            continue;
        }
        Length free = box.x0;
        for (const Section& section : layout->sections) {
            if (section.along.from > free) {
                onBegun.push_back({board.id, {free, box.y0}});
            }
            free = section.along.to;
            std::vector<Corner>& into = section.state == CutState::Planned ? onBegun : inCut;
            if (section.locked) {
                continue;
            }
            into.push_back({board.id, {section.along.from, box.y0}});
            for (const Strip& strip : section.strips) {
                const Rect lies = hand::boxOnBoard(
                    section, {Length(), strip.across.from, Length::inches(1), strip.across.to});
                into.push_back({board.id, {section.along.from, lies.y0}});
                into.push_back({board.id, {section.along.from, lies.y1}});
            }
        }
        if (free < box.x1) {
            onBegun.push_back({board.id, {free, box.y0}});
        }
    }
    std::stable_sort(fresh.begin(), fresh.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<Corner> all = std::move(inCut);
    if (wood == LayIn::CutWood) {
        return all;
    }
    all.insert(all.end(), onBegun.begin(), onBegun.end());
    for (const auto& each : fresh) {
        all.push_back(each.second);
    }
    return all;
}

/// Boards that hold parts which should come from one board with this one.
std::set<BoardId> boardsOfGroup(const Document& document, PartId part) {
    std::set<PartId> mates;
    for (const MatchGroup& group : document.groups) {
        if (std::find(group.parts.begin(), group.parts.end(), part) != group.parts.end()) {
            mates.insert(group.parts.begin(), group.parts.end());
        }
    }
    std::set<BoardId> boards;
    for (const BoardLayout& layout : document.plan->boards) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                if (std::any_of(strip.blanks.begin(), strip.blanks.end(), [&](const Blank& blank) {
                        return mates.contains(blank.purpose.part);
                    })) {
                    boards.insert(layout.board);
                }
            }
        }
    }
    return boards;
}

bool layOne(Document& document, const BlankPurpose& purpose, LayIn wood, int& looks) {
    const Result<hand::Drag> drag = hand::Drag::fromTray(document, purpose);
    if (!drag) {
        return false;
    }
    std::vector<Corner> corners = cornersOf(document, wood);
    const std::set<BoardId> mates = boardsOfGroup(document, purpose.part);
    std::stable_partition(corners.begin(), corners.end(),
                          [&](const Corner& corner) { return mates.contains(corner.board); });
    for (const Corner& corner : corners) {
        for (const Pose pose : {Pose{}, Pose{true, false}, Pose{false, true}}) {
            if (++looks > mostLooks) {
                return false;
            }
            const std::optional<hand::Laying> place =
                drag.value().nearest(corner.board, corner.at, pose);
            if (!place || (wood == LayIn::CutWood && !place->bed.section)) {
                continue;
            }
            const Result<Edit> edit = drag.value().drop(*place);
            if (edit && apply(document, edit.value())) {
                return true;
            }
        }
    }
    return false;
}

/// Panels whose staves are too wide together, or too many, although each may have its place.
auto unevenPanels(const Document& document) {
    const AuditReport report = audit(document);
    return std::count_if(report.findings.begin(), report.findings.end(),
                         [](const Finding& finding) {
                             return finding.kind == FindingKind::PanelWidth ||
                                    finding.kind == FindingKind::StaveCount;
                         });
}

} // namespace

int layMissing(Document& document, const std::vector<BlankPurpose>& wanted, LayIn wood) {
    int laid = 0;
    int looks = 0;
    const Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    const auto isPool = [&](const BlankPurpose& purpose) {
        const BlankSpec* spec = specs ? specOf(specs.value(), purpose) : nullptr;
        return spec && spec->staves;
    };
    for (const BlankPurpose& purpose : wanted) {
        const auto isMissing = [&] {
            const std::vector<Unplaced>& unplaced = document.plan->unplaced;
            return std::any_of(unplaced.begin(), unplaced.end(),
                               [&](const Unplaced& each) { return each.purpose == purpose; });
        };
        const Document before = document;
        int staves = 0;
        while (staves < mostStaves && isMissing() && layOne(document, purpose, wood, looks)) {
            ++staves;
        }
        const auto uneven = staves > 0 && isPool(purpose) ? unevenPanels(document) : 0;
        if (uneven > 0 && uneven > unevenPanels(before)) {
            document = before;
            continue;
        }
        laid += staves;
    }
    return laid;
}

} // namespace stavewright::midjob
