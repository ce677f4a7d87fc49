#include "core/job/write/Writers.h"

namespace stavewright::job {

Json toJson(const LeanTerm& term) {
    return {{"factor", toJson(term.factor)},
            {"part", toJson(term.part)},
            {"dimension", toJson(term.dimension)}};
}

Json toJson(const Size& size) {
    return {{"base", toJson(size.base)}, {"leans", toJson(size.leans)}};
}

Json toJson(const LaminationMakeUp& lamination) { return {{"plies", toJson(lamination.plies)}}; }

Json toJson(const PanelMakeUp& panel) {
    return {{"leastStave", toJson(panel.leastStave)},
            {"widestStave", toJson(panel.widestStave)},
            {"fewestStaves", toJson(panel.fewestStaves)},
            {"mostStaves", toJson(panel.mostStaves)}};
}

Json toJson(const MakeUp& makeUp) {
    Json json = Json::object();
    putIfSet(json, "lamination", makeUp.lamination);
    putIfSet(json, "panel", makeUp.panel);
    return json;
}

Json toJson(const Anchored& anchored) {
    return {{"end", toJson(anchored.from)}, {"offset", toJson(anchored.offset)}};
}

Json toJson(const AnchoredStretch& stretch) {
    return {{"from", toJson(stretch.from)}, {"to", toJson(stretch.to)}};
}

Json toJson(const Zone& zone) {
    return {{"id", toJson(zone.id)},
            {"name", toJson(zone.name)},
            {"role", toJson(zone.role)},
            {"area", toJson(zone.area)},
            {"rules", toJson(zone.rules)}};
}

Json toJson(const JointSide& side) {
    return {{"part", toJson(side.part)}, {"area", toJson(side.area)}};
}

Json toJson(const ZoneArea& area) {
    return {{"faces", toJson(area.faces)},
            {"along", toJson(area.along)},
            {"across", toJson(area.across)}};
}

Json toJson(const Part& part) {
    Json json{{"id", toJson(part.id)},
              {"mark", toJson(part.mark)},
              {"name", toJson(part.name)},
              {"group", toJson(part.group)},
              {"species", toJson(part.species)},
              {"count", toJson(part.count)},
              {"length", toJson(part.length)},
              {"width", toJson(part.width)},
              {"thickness", toJson(part.thickness)},
              {"makeUp", toJson(part.makeUp)},
              {"zones", toJson(part.zones)},
              {"perBlank", toJson(part.perBlank)},
              {"notes", toJson(part.notes)}};
    putIfSet(json, "leastThickness", part.leastThickness);
    return json;
}

Json toJson(const Joint& joint) {
    return {{"id", toJson(joint.id)},
            {"name", toJson(joint.name)},
            {"kind", toJson(joint.kind)},
            {"sides", toJson(joint.sides)},
            {"rules", toJson(joint.rules)}};
}

Json toJson(const MatchGroup& group) {
    return {{"id", toJson(group.id)},
            {"name", toJson(group.name)},
            {"want", toJson(group.want)},
            {"parts", toJson(group.parts)}};
}

} // namespace stavewright::job
