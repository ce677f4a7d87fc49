#include "core/job/write/Writers.h"

namespace stavewright::job {

static Json toJson(const GlueWeights& weights) {
    Json json = Json::object();
    for (const GlueTerm term : allGlueTerms) {
        json[std::string(wordOf(term))] = weights.of(term);
    }
    return json;
}

Json toJson(const GlueSettings& settings) {
    return {{"weights", toJson(settings.weights)},
            {"moistureTenths", toJson(settings.moistureTenths)},
            {"moistureInUseTenths", toJson(settings.moistureInUseTenths)},
            {"ringRadius", toJson(settings.ringRadius)},
            {"mostCup", toJson(settings.mostCup)},
            {"knotClear", toJson(settings.knotClear)},
            {"knotsApart", toJson(settings.knotsApart)},
            {"narrow", toJson(settings.narrow)},
            {"caul", toJson(settings.caul)},
            {"clampsApart", toJson(settings.clampsApart)},
            {"leastPsi", toJson(settings.leastPsi)}};
}

Json toJson(const PanelName& name) {
    return {{"part", toJson(name.part)},
            {"instance", toJson(name.instance)},
            {"ply", toJson(name.ply)}};
}

Json toJson(const GluedStave& stave) {
    Json json{{"stave", toJson(stave.stave)},
              {"locked", toJson(stave.locked)},
              {"at", toJson(stave.at)},
              {"width", toJson(stave.width)}};
    putPose(json, stave.pose);
    if (stave.board.isSet()) {
        json["board"] = toJson(stave.board);
    }
    return json;
}

Json toJson(const PanelArrangement& panel) {
    Json json{{"panel", toJson(panel.panel)},
              {"rings", toJson(panel.rings)},
              {"noCentreSeam", toJson(panel.noCentreSeam)},
              {"staves", toJson(panel.staves)}};
    putIfSet(json, "matches", panel.matches);
    return json;
}

Json toJson(const LaidStave& stave) {
    Json json{
        {"board", toJson(stave.board)}, {"frame", toJson(stave.frame)}, {"net", toJson(stave.net)}};
    putPose(json, stave.pose);
    return json;
}

Json toJson(const JointLie& lie) { return {{"lean", toJson(lie.lean)}, {"gap", toJson(lie.gap)}}; }

Json toJson(const LaidOut& laid) {
    Json json{{"panel", toJson(laid.panel)},
              {"photo", toJson(laid.photo)},
              {"staves", toJson(laid.staves)},
              {"joints", toJson(laid.joints)}};
    if (!laid.lies.empty()) {
        json["lies"] = toJson(laid.lies);
    }
    return json;
}

Json toJson(const GlueUp& glueUp) {
    Json json{{"settings", toJson(glueUp.settings)}, {"panels", toJson(glueUp.panels)}};
    if (!glueUp.laidOut.empty()) {
        json["laidOut"] = toJson(glueUp.laidOut);
    }
    return json;
}

} // namespace stavewright::job
