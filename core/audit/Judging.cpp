#include "core/audit/Judging.h"

#include <algorithm>
#include <array>

#include "core/audit/Surface.h"
#include "core/geometry/PolygonOps.h"

namespace stavewright::audit_detail {

namespace {

Rect around(const Rect& a, const Rect& b) {
    return {std::min(a.x0, b.x0), std::min(a.y0, b.y0), std::max(a.x1, b.x1), std::max(a.y1, b.y1)};
}

/// Round everything the defect can show at any depth.
Rect reachOf(const Defect& defect) {
    if (defect.onA && defect.onB) {
        return around(boundingBox(defect.onA->outline), boundingBox(defect.onB->outline));
    }
    const auto& mark = defect.onA ? defect.onA : defect.onB;
    return mark ? boundingBox(mark->outline) : Rect{};
}

Rect spread(const Rect& rect, Margin margin) {
    return {rect.x0 - margin.along, rect.y0 - margin.across, rect.x1 + margin.along,
            rect.y1 + margin.across};
}

/// Worst first: forbidden where the defect itself lies, forbidden because of its size, forbidden
/// because of its margin, to be filled.
int badness(const Meeting& meeting) {
    if (meeting.verdict != Verdict::Forbidden) {
        return 0;
    }
    return meeting.marginOnly ? 1 : meeting.tooLarge ? 2 : 3;
}

Point middleOf(const Polygon& mark) {
    const Rect box = boundingBox(mark);
    return {(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
}

/// Planing takes equal amounts off both faces.
Length depthOfSurface(const Board& board, const Need& need, BoardFace face) {
    const Length removal = std::max(Length(), board.thinnest - need.finalThickness) / 2;
    return face == BoardFace::A ? removal : board.thinnest - removal;
}

} // namespace

Rect zoneInSection(const NeededZone& zone, const Rect& wood, Pose pose) {
    const Stretch across = zone.across.in(wood.width());
    const Stretch& along = zone.along;
    Rect placed{wood.x0 + along.from, wood.y0 + across.from, wood.x0 + along.to,
                wood.y0 + across.to};
    if (pose.endForEnd) {
        placed.x0 = wood.x1 - along.to;
        placed.x1 = wood.x1 - along.from;
    }
    if (pose.endForEnd != pose.faceOver) {
        placed.y0 = wood.y1 - across.to;
        placed.y1 = wood.y1 - across.from;
    }
    return placed;
}

namespace {

/// With the zones as they lie in `holds`, which is the wood or the rough size within it.
std::vector<Meeting> meetingsIn(const Rect& holds, const Position& position, const Need& need) {
    std::vector<Meeting> worst;
    const Board& board = position.board;
    const Rect blankBox = boundingBox(toOuter(position.frame, position.wood));
    for (const Defect& defect : board.defects) {
        const Rect reach = reachOf(defect);
        const Length size = ruleSize(defect);
        std::optional<Meeting> found;
        bool fillOnA = false;
        bool fillOnB = false;
        bool fillMarginOnly = true;
        std::array<std::optional<std::optional<Polygon>>, 2> marks; // worked out once for each face
        const RuleSet* rules = nullptr; // most zones of a blank share one
        Margin margin;
        Rect shadow;
        for (const NeededZone& zone : need.zones) {
            if (zone.rules != rules) {
                rules = zone.rules;
                margin = marginOf(defect, zone.rules->halo);
                shadow = spread(reach, margin);
            }
            if (!shadow.overlaps(blankBox)) {
                continue;
            }
            const DefectRule& rule = zone.rules->ruleFor(defect.kind);
            const bool tooLarge =
                rule.verdict != Verdict::Forbidden && rule.largest && size > *rule.largest;
            const Verdict verdict = tooLarge ? Verdict::Forbidden : rule.verdict;
            if (verdict == Verdict::Allowed) {
                continue;
            }
            const Polygon area = toOuter(position.frame, zoneInSection(zone, holds, position.pose));
            if (!shadow.overlaps(boundingBox(area))) {
                continue;
            }
            const BoardFace face = position.pose.faceOver ? other(zone.face) : zone.face;
            std::optional<std::optional<Polygon>>& known = marks.at(face == BoardFace::A ? 0 : 1);
            if (!known) {
                known = markAtDepth(defect, board.thinnest, depthOfSurface(board, need, face));
            }
            const std::optional<Polygon>& mark = *known;
            if (!mark) {
                continue;
            }
            const bool itself = overlapsBeyondTolerance(*mark, area);
            if (!itself &&
                (margin.isNothing() ||
                 !overlapsBeyondTolerance(grown(*mark, margin.along, margin.across), area))) {
                continue;
            }
            if (verdict == Verdict::AllowedIfFilled) {
                (face == BoardFace::A ? fillOnA : fillOnB) = true;
                fillMarginOnly = fillMarginOnly && !itself;
            }
            const Meeting meeting{&defect,  &zone,   face,           verdict,
                                  tooLarge, !itself, middleOf(*mark)};
            if (!found || badness(meeting) > badness(*found)) {
                found = meeting;
            }
        }
        if (found) {
            found->fillOnA = fillOnA;
            found->fillOnB = fillOnB;
            found->fillMarginOnly = fillMarginOnly;
            worst.push_back(*found);
        }
    }
    return worst;
}

} // namespace

std::vector<Meeting> meetings(const Position& position, const Need& need) {
    const Rect& wood = position.wood;
    const Length spare = wood.length() - need.length;
    const auto meetingsFrom = [&](Length low) {
        return meetingsIn({low, wood.y0, low + need.length, wood.y1}, position, need);
    };
    const auto isClear = [](const std::vector<Meeting>& met) {
        return std::none_of(met.begin(), met.end(), [](const Meeting& meeting) {
            return meeting.verdict == Verdict::Forbidden;
        });
    };
    // Measured from one end, the part has its whole allowance there and what is left at the other.
    const Length allowance = (need.length - need.leastLength) / 2;
    if (-spare <= allowance) {
        const Length fromLow = wood.x0;
        const Length fromHigh = wood.x1 - need.length;
        const bool isTurned = position.pose.endForEnd;
        std::vector<Meeting> met = meetingsFrom(isTurned ? fromHigh : fromLow);
        if (spare == Length() || isClear(met)) {
            return met;
        }
        met = meetingsFrom(isTurned ? fromLow : fromHigh);
        if (isClear(met)) {
            return met;
        }
    }
    return meetingsFrom(wood.x0 + spare / 2);
}

} // namespace stavewright::audit_detail
