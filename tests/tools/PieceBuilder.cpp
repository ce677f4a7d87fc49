#include "tests/tools/PieceBuilder.h"

namespace stavewright::samples {

namespace {

ZoneArea wholeFace(ZoneFaces faces) { return {faces, {}, {}}; }

ZoneArea lowEnd(Length reach) {
    return {ZoneFaces::Both, {{Anchored::From::Low, Length()}, {Anchored::From::Low, reach}}, {}};
}

ZoneArea highEnd(Length reach) {
    return {
        ZoneFaces::Both, {{Anchored::From::High, -reach}, {Anchored::From::High, Length()}}, {}};
}

} // namespace

Part plainPart(Document& document, const std::string& mark, const std::string& name,
               const std::string& group, const std::string& species, int count, Finished finished) {
    Part part;
    part.id = document.takeId<PartId>();
    part.mark = mark;
    part.name = name;
    part.group = group;
    part.species = species;
    part.count = count;
    part.length.base = finished.length;
    part.width.base = finished.width;
    part.thickness.base = finished.thickness;
    part.zones = {{document.takeId<ZoneId>(), "show face", ZoneRole::ShowFace,
                   wholeFace(ZoneFaces::A), presetRules::showFaceFilled},
                  {document.takeId<ZoneId>(), "hidden face", ZoneRole::HiddenFace,
                   wholeFace(ZoneFaces::B), presetRules::hiddenFace}};
    return part;
}

void showBothFaces(Part& part, RuleSetId rules) {
    for (Zone& zone : part.zones) {
        zone.name = zone.area.faces == ZoneFaces::A ? "face" : "back";
        zone.role = ZoneRole::ShowFace;
        zone.rules = rules;
    }
}

void setShowRules(Part& part, RuleSetId rules) {
    for (Zone& zone : part.zones) {
        if (zone.role == ZoneRole::ShowFace) {
            zone.rules = rules;
        }
    }
}

void addEndJoint(Document& document, const std::string& name, JointKind kind, PartId endPart,
                 Length reach, PartId facePart) {
    const auto add = [&](const std::string& which, std::vector<JointSide> sides) {
        document.joints.push_back(
            {document.takeId<JointId>(), name + which, kind, std::move(sides), presetRules::joint});
    };
    add(", datum end", {{endPart, lowEnd(reach)}});
    std::vector<JointSide> far{{endPart, highEnd(reach)}};
    if (facePart.isSet()) {
        far.push_back({facePart, highEnd(reach)});
    }
    add(", far end", std::move(far));
}

} // namespace stavewright::samples
