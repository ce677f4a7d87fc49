#include "core/audit/ZoneNeeds.h"

#include <algorithm>

#include "core/shop/Presets.h"

namespace stavewright::audit_detail {

namespace {

/// A zone in the frame of the finished part.
struct PartZone {
    Stretch along;
    Stretch across;
    RuleSetId rules;
    std::string name;
};

bool isOn(ZoneFaces faces, BoardFace face) {
    return faces == ZoneFaces::Both || (faces == ZoneFaces::A) == (face == BoardFace::A);
}

std::string nameOfRole(ZoneRole role) {
    switch (role) {
    case ZoneRole::ShowFace:
        return "show face";
    case ZoneRole::HiddenFace:
        return "hidden face";
    case ZoneRole::JoineryEnd:
        return "joint";
    case ZoneRole::GluedEdge:
        return "glued edge";
    case ZoneRole::ProfiledEdge:
        return "profiled edge";
    }
    return "zone";
}

/// What of the zone lies on the finished part: what will be trimmed off may hold any defect.
Stretch onPart(const AnchoredStretch& anchored, Length extent) {
    const Stretch stretch = anchored.in(extent);
    return {std::max(stretch.from, Length()), std::min(stretch.to, extent)};
}

std::vector<PartZone> zonesOnFace(const Document& document, const Part& part,
                                  const PartInBlank& place, BoardFace face) {
    std::vector<PartZone> zones;
    const auto add = [&](const ZoneArea& area, RuleSetId rules, std::string name) {
        if (isOn(area.faces, face)) {
            zones.push_back({onPart(area.along, place.finishedLength),
                             onPart(area.across, place.finishedWidth), rules, std::move(name)});
        }
    };
    for (const Zone& zone : part.zones) {
        add(zone.area, zone.rules, zone.name.empty() ? nameOfRole(zone.role) : zone.name);
    }
    if (part.zones.empty()) {
        const bool shows = face == BoardFace::A;
        add(ZoneArea{}, shows ? presetRules::showFace : presetRules::hiddenFace,
            shows ? "show face" : "hidden face");
    }
    for (const Joint& joint : document.joints) {
        for (const JointSide& side : joint.sides) {
            if (side.part == part.id) {
                add(side.area, joint.rules, joint.name.empty() ? "joint" : joint.name + " joint");
            }
        }
    }
    return zones;
}

const RuleSet* rulesOrReport(const Document& document, const Part& part, RuleSetId id,
                             const std::string& zone, Report& report) {
    const RuleSet* rules = findRuleSet(document.shop, id);
    if (!rules) {
        report.failOnce(FindingKind::UnknownRules, {.part = part.id},
                        "The " + zone + " of part " + report.words().part(part.id) +
                            " follows rule set " + std::to_string(id.value) +
                            ", which the shop does not have.");
    }
    return rules;
}

AnchoredStretch fromBothEdges(Length inset) {
    return {{Anchored::From::Low, inset}, {Anchored::From::High, -inset}};
}

} // namespace

void addZones(const Document& document, const Part& part, const PartInBlank& place, Need& need,
              Report& report) {
    const auto addToBlank = [&](BoardFace face, const PartZone& zone) {
        const RuleSet* rules = rulesOrReport(document, part, zone.rules, zone.name, report);
        if (!rules || zone.along.length() <= Length() || zone.across.length() <= Length()) {
            return;
        }
        AnchoredStretch across{{Anchored::From::Low, place.across + zone.across.from},
                               {Anchored::From::Low, place.across + zone.across.to}};
        if (need.staves) {
            across = fromBothEdges(need.staves->jointing / 2);
        }
        for (int i = 0; i < place.parts; ++i) {
            const Length at = place.along + place.repeat * i;
            need.zones.push_back(
                {face, {at + zone.along.from, at + zone.along.to}, across, rules, zone.name});
        }
    };
    const PartZone glueFace{{Length(), place.finishedLength},
                            {Length(), place.finishedWidth},
                            presetRules::glueFace,
                            "glue face"};
    for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
        const bool isInside = need.ply > 0 && need.ply != (face == BoardFace::A ? 1 : need.plies);
        if (isInside) {
            addToBlank(face, glueFace);
            continue;
        }
        for (const PartZone& zone : zonesOnFace(document, part, place, face)) {
            addToBlank(face, zone);
        }
    }
    if (!need.staves || need.staves->jointing <= Length()) {
        return;
    }
    const RuleSet* rules =
        rulesOrReport(document, part, presetRules::gluedEdge, "glued edge", report);
    if (!rules) {
        return;
    }
    // From the rough edge to the net edge line: no defect, grown by its halo, may touch that line.
    const Length line = need.staves->jointing / 2;
    const Stretch along{place.along, place.along + place.finishedLength};
    for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
        const AnchoredStretch near{{Anchored::From::Low, Length()}, {Anchored::From::Low, line}};
        const AnchoredStretch far{{Anchored::From::High, -line}, {Anchored::From::High, Length()}};
        need.zones.push_back({face, along, near, rules, "glued edge"});
        need.zones.push_back({face, along, far, rules, "glued edge"});
    }
}

} // namespace stavewright::audit_detail
