#include "core/cutting/BlankPose.h"

#include <algorithm>
#include <tuple>

namespace stavewright::cutting {

namespace {

/// The same place measured from the other side.
Mark mirrored(const Mark& mark) { return {!mark.fromHigh, -mark.offset}; }

auto key(const PosedZone& zone) {
    return std::tuple(zone.rule, zone.onB, zone.x0, zone.x1, zone.y0.fromHigh, zone.y0.offset,
                      zone.y1.fromHigh, zone.y1.offset);
}

} // namespace

std::vector<PosedZone> posedZones(const Kind& kind, bool endForEnd, bool faceOver) {
    // End for end reverses both axes; face over reverses v and changes the faces. Both: v twice.
    const bool reverseAcross = endForEnd != faceOver;
    std::vector<PosedZone> zones;
    zones.reserve(kind.zones.size());
    for (const Zone& zone : kind.zones) {
        PosedZone posed;
        posed.rule = zone.rule;
        posed.onB = zone.onB != faceOver;
        const Nm from = std::clamp<Nm>(zone.x0.in(kind.length), 0, kind.length);
        const Nm to = std::clamp<Nm>(zone.x1.in(kind.length), 0, kind.length);
        if (from >= to) {
            continue;
        }
        posed.x0 = endForEnd ? kind.length - to : from;
        posed.x1 = endForEnd ? kind.length - from : to;
        posed.y0 = reverseAcross ? mirrored(zone.y1) : zone.y0;
        posed.y1 = reverseAcross ? mirrored(zone.y0) : zone.y1;
        zones.push_back(posed);
    }
    std::sort(zones.begin(), zones.end(),
              [](const PosedZone& a, const PosedZone& b) { return key(a) < key(b); });
    return zones;
}

std::vector<BlankPose> distinctPoses(const Problem& problem, int kind) {
    const Kind& wanted = problem.kinds[static_cast<std::size_t>(kind)];
    std::vector<BlankPose> poses;
    for (const bool faceOver : {false, true}) {
        for (const bool endForEnd : {false, true}) {
            if ((faceOver && !wanted.mayFaceOver) || (endForEnd && !wanted.mayTurn)) {
                continue;
            }
            std::vector<PosedZone> zones = posedZones(wanted, endForEnd, faceOver);
            const bool known = std::any_of(poses.begin(), poses.end(), [&](const BlankPose& other) {
                return other.zones == zones;
            });
            if (!known) {
                poses.push_back({kind, endForEnd, faceOver, std::move(zones)});
            }
        }
    }
    return poses;
}

} // namespace stavewright::cutting
