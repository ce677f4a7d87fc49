#include "core/panels/StaveFacts.h"

#include <algorithm>

#include "core/geometry/PolygonOps.h"
#include "core/planning/BlankZoneAt.h"
#include "core/planning/DefectRuling.h"
#include "core/shop/Presets.h"
#include "core/wood/Species.h"

namespace stavewright::panels {

namespace {

using glueup::FaceView;
using glueup::Figure;
using glueup::KnotPlace;
using glueup::Stave;

/// The first noted stretch that holds the place counts, as everywhere.
std::optional<Sawn> sawnAt(const Board& board, Point place) {
    for (const SawnRegion& region : board.sawn) {
        const Rect& where = region.where;
        if (where.x0 <= place.x && place.x <= where.x1 && where.y0 <= place.y &&
            place.y <= where.y1) {
            return region.sawn;
        }
    }
    return std::nullopt;
}

Figure figureOf(std::optional<Sawn> sawn) {
    if (!sawn) {
        return Figure::Unknown;
    }
    return *sawn == Sawn::Plain ? Figure::Arched : Figure::Straight;
}

Length sunk(Length value, Length most) { return std::clamp(value, Length(), most); }

/// In the stave's frame, cut off at its ends and edges.
Rect inStave(const Rect& rect, const Rect& net) {
    return {sunk(rect.x0 - net.x0, net.length()), sunk(rect.y0 - net.y0, net.width()),
            sunk(rect.x1 - net.x0, net.length()), sunk(rect.y1 - net.y0, net.width())};
}

/// A share of the knot's size, where the shop has no rules for glued edges (common practice).
RuleSet commonHalo() {
    RuleSet rules;
    rules.halo = {100, 50, Length::inches(1, 2), Length()};
    return rules;
}

FaceView faceOf(const StavePlace& place, BoardFace face) {
    FaceView view;
    RuleSet plain; // without a halo
    const RuleSet* known = findRuleSet(place.document.shop, presetRules::gluedEdge);
    const RuleSet haloed = known ? *known : commonHalo();
    for (const Defect& defect : place.board.defects) {
        if (!planning::disturbsGrain(defect.kind)) {
            continue;
        }
        const auto knot = planning::judgedRegion(plain, defect, place.board, face, place.apart);
        const auto halo = planning::judgedRegion(haloed, defect, place.board, face, place.apart);
        if (!knot || !halo) {
            continue;
        }
        const Rect box = boundingBox(toLocal(place.frame, *knot));
        if (!box.overlaps(place.net)) {
            continue;
        }
        Rect reach = boundingBox(toLocal(place.frame, *halo));
        // The halo may reach over the stave's edges; that is what the joint term asks for.
        reach = {reach.x0 - place.net.x0, reach.y0 - place.net.y0, reach.x1 - place.net.x0,
                 reach.y1 - place.net.y0};
        view.knots.push_back({inStave(box, place.net), reach});
    }
    return view;
}

void addRings(const StavePlace& place, Stave& stave) {
    const Rect& net = place.net;
    const Length middleX = net.x0 + net.length() / 2;
    const auto at = [&](Length v) { return toOuter(place.frame, Point{middleX, v}); };
    const std::optional<Sawn> middle = sawnAt(place.board, at(net.y0 + net.width() / 2));
    stave.nearEdge = figureOf(sawnAt(place.board, at(net.y0)));
    stave.farEdge = figureOf(sawnAt(place.board, at(net.y1)));
    stave.rings.heart = place.board.heart;
    stave.rings.angleTenths = glueup::angleTenthsOf(middle.value_or(Sawn::Plain));
    stave.rings.radius = place.board.ringRadius.value_or(place.document.glueUp.settings.ringRadius);
}

} // namespace

bool isForbidden(const StavePlace& place, Pose pose) {
    for (const BlankZone& zone : place.spec.zones) {
        const RuleSet* rules = findRuleSet(place.document.shop, zone.rules);
        if (!rules) {
            continue;
        }
        const Polygon area = toOuter(place.frame, planning::zoneRect(zone, place.blank.rect, pose));
        const BoardFace face = planning::faceOnBoard(zone, pose);
        for (const Defect& defect : place.board.defects) {
            if (planning::rulingFor(*rules, defect) != planning::Ruling::Forbidden) {
                continue;
            }
            const auto region =
                planning::judgedRegion(*rules, defect, place.board, face, place.apart);
            if (region && boundingBox(*region).overlaps(boundingBox(area)) &&
                overlapsBeyondTolerance(*region, area)) {
                return true;
            }
        }
    }
    return false;
}

glueup::Stave staveFacts(const StavePlace& place, const LooksOnBoard& looks) {
    const GlueSettings& settings = place.document.glueUp.settings;
    Stave stave;
    stave.number = place.blank.purpose.stave;
    stave.board = place.board.id;
    stave.width = place.net.width();
    stave.length = place.net.length();
    stave.thickness = place.apart;
    stave.planing = place.board.planing;
    addRings(place, stave);
    if (const Species* species = findSpecies(place.board.species)) {
        const auto now =
            static_cast<std::int32_t>(place.board.moistureTenths.value_or(settings.moistureTenths));
        stave.movement = {species->radialMillionths, species->tangentialMillionths,
                          settings.moistureInUseTenths - now};
    }
    stave.faceA = faceOf(place, BoardFace::A);
    stave.faceB = faceOf(place, BoardFace::B);
    if (looks) {
        stave.faceA.photo = looks(place.board.id, BoardFace::A, place.frame, place.net);
        stave.faceB.photo = looks(place.board.id, BoardFace::B, place.frame, place.net);
    }
    for (int pose = 0; pose < 4; ++pose) {
        stave.forbidden[static_cast<std::size_t>(pose)] = isForbidden(place, glueup::poseOf(pose));
    }
    if (std::all_of(stave.forbidden.begin(), stave.forbidden.end(), [](bool no) { return no; })) {
        stave.forbidden = {}; // however it lies, the audit has something to say; see PanelChecks.h
    }
    return stave;
}

} // namespace stavewright::panels
