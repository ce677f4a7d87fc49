#include "core/job/write/Writers.h"

namespace stavewright::job {

static void putPurpose(Json& json, const BlankPurpose& purpose) {
    json["part"] = toJson(purpose.part);
    json["instance"] = toJson(purpose.instance);
    json["ply"] = toJson(purpose.ply);
    json["stave"] = toJson(purpose.stave);
}

void putPose(Json& json, Pose pose) {
    json["endForEnd"] = toJson(pose.endForEnd);
    json["faceOver"] = toJson(pose.faceOver);
}

Json toJson(const Blank& blank) {
    Json json{{"id", toJson(blank.id)},
              {"rect", toJson(blank.rect)},
              {"state", toJson(blank.state)},
              {"locked", toJson(blank.locked)},
              {"note", toJson(blank.note)}};
    putPose(json, blank.pose);
    putPurpose(json, blank.purpose);
    putIfSet(json, "actual", blank.actual);
    const bool isOffIfUnsaid = blank.state == CutState::Ripped && blank.actual;
    if (blank.lowEndCut != isOffIfUnsaid || blank.highEndCut != isOffIfUnsaid) {
        json["lowEndCut"] = toJson(blank.lowEndCut);
        json["highEndCut"] = toJson(blank.highEndCut);
    }
    return json;
}

Json toJson(const Offcut& offcut) {
    return {
        {"id", toJson(offcut.id)}, {"rect", toJson(offcut.rect)}, {"state", toJson(offcut.state)}};
}

Json toJson(const Strip& strip) {
    Json json{{"id", toJson(strip.id)},
              {"across", toJson(strip.across)},
              {"blanks", toJson(strip.blanks)},
              {"offcuts", toJson(strip.offcuts)}};
    if (strip.lowEdgeRipped || strip.highEdgeRipped) {
        json["lowEdgeRipped"] = toJson(strip.lowEdgeRipped);
        json["highEdgeRipped"] = toJson(strip.highEdgeRipped);
    }
    if (strip.milled) {
        json["milled"] = toJson(strip.milled);
    }
    putIfSet(json, "planedTo", strip.planedTo);
    return json;
}

Json toJson(const Frame& frame) {
    return {
        {"origin", toJson(frame.origin)}, {"run", toJson(frame.run)}, {"rise", toJson(frame.rise)}};
}

Json toJson(const Section& section) {
    Json json{{"id", toJson(section.id)},         {"along", toJson(section.along)},
              {"frame", toJson(section.frame)},   {"facing", toJson(section.facing)},
              {"strips", toJson(section.strips)}, {"offcuts", toJson(section.offcuts)},
              {"locked", toJson(section.locked)}, {"state", toJson(section.state)}};
    if (section.lowEndUncut) {
        json["lowEndUncut"] = toJson(section.lowEndUncut);
    }
    if (section.highEndUncut) {
        json["highEndUncut"] = toJson(section.highEndUncut);
    }
    putIfSet(json, "planedTo", section.planedTo);
    return json;
}

Json toJson(const BoardLayout& layout) {
    return {{"board", toJson(layout.board)},
            {"sections", toJson(layout.sections)},
            {"locked", toJson(layout.locked)}};
}

Json toJson(const ThicknessChoice& choice) {
    return {{"part", toJson(choice.part)}, {"finished", toJson(choice.finished)}};
}

Json toJson(const Unplaced& unplaced) {
    Json json{{"nearestMiss", toJson(unplaced.nearestMiss)}};
    putPurpose(json, unplaced.purpose);
    return json;
}

Json toJson(const PlanTotals& totals) {
    return {{"boardsUsed", toJson(totals.boardsUsed)},
            {"placed", toJson(totals.placed)},
            {"demanded", toJson(totals.demanded)},
            {"fills", toJson(totals.fills)},
            {"lumberUsed", toJson(totals.lumberUsed)},
            {"blanks", toJson(totals.blanks)},
            {"parts", toJson(totals.parts)},
            {"offcutsKept", toJson(totals.offcutsKept)},
            {"cost", toJson(totals.cost)}};
}

Json toJson(const Proof& proof) {
    Json json = {{"counted", toJson(proof.counted)}, {"least", toJson(proof.least)}};
    putIfSet(json, "leastLumber", proof.leastLumber);
    return json;
}

Json toJson(const Origin& origin) {
    Json json = {{"source", toJson(origin.source)},
                 {"seed", toJson(origin.seed)},
                 {"work", toJson(origin.work)},
                 {"engine", toJson(origin.engine)}};
    putIfSet(json, "proof", origin.proof);
    return json;
}

Json toJson(const Plan& plan) {
    return {{"boards", toJson(plan.boards)},
            {"thicknesses", toJson(plan.thicknesses)},
            {"unplaced", toJson(plan.unplaced)},
            {"totals", toJson(plan.totals)},
            {"origin", toJson(plan.origin)}};
}

} // namespace stavewright::job
