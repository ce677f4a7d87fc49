#include "core/job/write/Writers.h"

namespace stavewright::job {

Json toJson(const Saw& saw) {
    return {{"name", toJson(saw.name)},
            {"kerf", toJson(saw.kerf)},
            {"deepest", toJson(saw.deepest)},
            {"widest", toJson(saw.widest)}};
}

Json toJson(const Machines& machines) {
    return {{"crosscut", toJson(machines.crosscut)},
            {"rip", toJson(machines.rip)},
            {"stripCrosscut", toJson(machines.stripCrosscut)},
            {"roughRip", toJson(machines.roughRip)},
            {"jointerWidth", toJson(machines.jointerWidth)},
            {"jointerLeastLength", toJson(machines.jointerLeastLength)},
            {"planerWidth", toJson(machines.planerWidth)},
            {"planerLeastLength", toJson(machines.planerLeastLength)},
            {"planerLeastThickness", toJson(machines.planerLeastThickness)},
            {"longestBoard", toJson(machines.longestBoard)},
            {"narrowestRip", toJson(machines.narrowestRip)},
            {"cautionRip", toJson(machines.cautionRip)}};
}

Json toJson(const StageAllowance& allowance) {
    return {{"stage", toJson(allowance.stage)},
            {"along", toJson(allowance.along)},
            {"across", toJson(allowance.across)},
            {"thick", toJson(allowance.thick)},
            {"why", toJson(allowance.why)}};
}

Json toJson(const Chains& chains) {
    return {{"oneBoard", toJson(chains.oneBoard)},
            {"panel", toJson(chains.panel)},
            {"stave", toJson(chains.stave)},
            {"block", toJson(chains.block)},
            {"ply", toJson(chains.ply)}};
}

Json toJson(const OffcutRule& rule) {
    return {{"leastLength", toJson(rule.leastLength)},
            {"leastWidth", toJson(rule.leastWidth)},
            {"leastThickness", toJson(rule.leastThickness)},
            {"worthPercent", toJson(rule.worthPercent)}};
}

Json toJson(const Prices& prices) {
    return {{"fillEach", toJson(prices.fillEach)},
            {"crosscut", toJson(prices.crosscut)},
            {"rip", toJson(prices.rip)},
            {"knotOnShow", toJson(prices.knotOnShow)},
            {"groupApart", toJson(prices.groupApart)}};
}

Json toJson(const DefectRule& rule) {
    Json json{{"verdict", toJson(rule.verdict)}};
    putIfSet(json, "largest", rule.largest);
    return json;
}

Json toJson(const Halo& halo) {
    return {{"alongHundredths", toJson(halo.alongHundredths)},
            {"acrossHundredths", toJson(halo.acrossHundredths)},
            {"leastAlong", toJson(halo.leastAlong)},
            {"leastAcross", toJson(halo.leastAcross)}};
}

Json toJson(const RuleSet& ruleSet) {
    Json rules = Json::object();
    for (const DefectKind kind : allDefectKinds) {
        rules[std::string(wordOf(kind))] = toJson(ruleSet.ruleFor(kind));
    }
    return {{"id", toJson(ruleSet.id)},
            {"name", toJson(ruleSet.name)},
            {"rules", std::move(rules)},
            {"halo", toJson(ruleSet.halo)}};
}

Json toJson(const Shop& shop) {
    return {{"name", toJson(shop.name)},
            {"machines", toJson(shop.machines)},
            {"chains", toJson(shop.chains)},
            {"flatten", toJson(shop.flatten)},
            {"cleaning", toJson(shop.cleaning)},
            {"mostPlanedAway", toJson(shop.mostPlanedAway)},
            {"rawEnd", toJson(shop.rawEnd)},
            {"widthStep", toJson(shop.widthStep)},
            {"panelSlack", toJson(shop.panelSlack)},
            {"offcuts", toJson(shop.offcuts)},
            {"prices", toJson(shop.prices)},
            {"ruleSets", toJson(shop.ruleSets)}};
}

} // namespace stavewright::job
