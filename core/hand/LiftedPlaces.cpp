// Where a lifted blank can lie: drawn to marks where it is held, or at the nearest legal place.

#include <algorithm>

#include "core/geometry/PolygonOps.h"
#include "core/hand/Lifted.h"

namespace stavewright::hand {

namespace {

/// Places that are judged before the search says that there is none.
constexpr std::size_t mostPlacesJudged = 40;

/// Places too thin for the blank after which the others of the board are taken to be so as well.
constexpr std::size_t mostTooThin = 8;

bool isTooThin(const Finding& finding) { return finding.kind == FindingKind::ThicknessNotReached; }

} // namespace

Lifted::Snapped Lifted::snapped(const Ground& ground, const Bed& bed, Point corner, Pose pose,
                                Length within) const {
    const Point local = toLocal(bed.frame, corner);
    Snapped snapped{{ground.board().id, bed, local.x, pose}, std::nullopt};
    if (within <= Length()) {
        return snapped;
    }
    const Load load = loadIn(pose);
    const std::vector<Bar> bars = ground.bars(load, bed);
    Length best = within;
    const auto drawTo = [&](Length position, bool withFarEnd, const std::string& name) {
        if (abs(position - local.x) > best || isBarred(bars, position)) {
            return;
        }
        best = abs(position - local.x);
        snapped.laying.along = position;
        const Length mark = withFarEnd ? position + spec->length : position;
        snapped.snap =
            Drag::Snap{toOuter(bed.frame, Point{mark, bed.across.from}).x, name, withFarEnd};
    };
    for (const Bar& bar : bars) { // before the bar it stands with its far end
        drawTo(bar.from, true, bar.name);
        drawTo(bar.to, false, bar.name);
    }
    if (const auto in = ground.withoutGrowing(load, bed)) {
        drawTo(in->from, false, "section end");
        drawTo(in->to, true, "section end");
    }
    return snapped;
}

std::vector<Lifted::Candidate> Lifted::candidates(const Ground& ground,
                                                  const std::vector<Point>& corners, Point wish,
                                                  Pose pose, std::vector<Bed>& known) const {
    std::vector<Candidate> found;
    const Load load = loadIn(pose);
    for (const Point corner : corners) {
        for (const Bed& bed : ground.beds(load, corner)) {
            if (std::find(known.begin(), known.end(), bed) != known.end()) {
                continue;
            }
            known.push_back(bed);
            const Point local = toLocal(bed.frame, wish);
            const std::vector<Bar> bars = ground.bars(load, bed);
            std::vector<Length> positions = freePositions(bars, local.x, tapeMarksOf(lifted, bed));
            // A section that grows may become too warped for the blanks beside.
            if (const auto within = ground.withoutGrowing(load, bed)) {
                for (const Length end : {within->from, within->to}) {
                    if (!isBarred(bars, end)) {
                        positions.push_back(end);
                    }
                }
            }
            for (const Length u : positions) {
                found.push_back({{ground.board().id, bed, u, pose},
                                 abs(u - local.x) + abs(bed.across.from - local.y)});
            }
        }
    }
    if (const std::optional<Laying> back = wayBack(ground, pose)) {
        const Point low = cornerOf(*back);
        found.push_back({*back, abs(low.x - wish.x) + abs(low.y - wish.y)});
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const Candidate& a, const Candidate& b) { return a.away < b.away; });
    return found;
}

std::vector<Point> Lifted::cornersAllAlong(const Ground& ground, Point wish) const {
    const Rect box = boundingBox(ground.board().outline);
    std::vector<Point> corners;
    const auto add = [&](Stretch along) {
        const Length last = along.to - spec->length;
        if (last >= along.from) {
            corners.push_back({std::clamp(wish.x, along.from, last), wish.y});
        }
    };
    Length from = box.x0;
    for (const Section& section : ground.layout().sections) {
        add({from, section.along.from});
        add(section.along);
        from = section.along.to;
    }
    add({from, box.x1});
    return corners;
}

Lifted::Looked Lifted::firstLegal(const Ground& ground,
                                  const std::vector<Candidate>& candidates) const {
    std::size_t tooThin = 0;
    for (std::size_t i = 0; i < std::min(candidates.size(), mostPlacesJudged); ++i) {
        Laying laying = candidates[i].laying;
        if (laying == origin) {
            return {laying, false};
        }
        const std::vector<Finding> findings = against(ground, laying);
        if (findings.empty()) {
            return {laying, false};
        }
        tooThin += std::any_of(findings.begin(), findings.end(), isTooThin) ? 1 : 0;
        if (tooThin == mostTooThin ||
            std::any_of(findings.begin(), findings.end(), isOfTheWholeBoard)) {
            return {std::nullopt, true};
        }
    }
    return {};
}

std::optional<Laying> Lifted::nearest(const Ground& ground, Point corner, Pose pose) const {
    std::vector<Bed> known;
    Looked looked = firstLegal(ground, candidates(ground, {corner}, corner, pose, known));
    if (!looked.legal && !looked.isHopeless) { // nothing where it is held; the rest of the board
        looked = firstLegal(
            ground, candidates(ground, cornersAllAlong(ground, corner), corner, pose, known));
    }
    return looked.legal ? looked.legal : wayBack(ground, pose);
}

} // namespace stavewright::hand
