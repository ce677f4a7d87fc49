// The shop: machines, chains, rules, prices. Every key may be left out: the preset the job starts
// from fills in.

#include "core/job/read/Readers.h"

namespace stavewright::job {

static void read(const Cursor& at, Saw& saw) {
    Object object(at);
    object.optional("name", saw.name);
    object.optional("kerf", saw.kerf);
    object.optional("deepest", saw.deepest);
    object.optional("widest", saw.widest);
    object.finish();
}

static void read(const Cursor& at, Machines& machines) {
    Object object(at);
    object.optional("crosscut", machines.crosscut);
    object.optional("rip", machines.rip);
    object.optional("stripCrosscut", machines.stripCrosscut);
    object.optional("roughRip", machines.roughRip);
    object.optional("jointerWidth", machines.jointerWidth);
    object.optional("jointerLeastLength", machines.jointerLeastLength);
    object.optional("planerWidth", machines.planerWidth);
    object.optional("planerLeastLength", machines.planerLeastLength);
    object.optional("planerLeastThickness", machines.planerLeastThickness);
    object.optional("longestBoard", machines.longestBoard);
    object.optional("narrowestRip", machines.narrowestRip);
    object.optional("cautionRip", machines.cautionRip);
    object.finish();
}

static void read(const Cursor& at, StageAllowance& allowance) {
    Object object(at);
    object.required("stage", allowance.stage);
    object.optional("along", allowance.along);
    object.optional("across", allowance.across);
    object.optional("thick", allowance.thick);
    object.optional("why", allowance.why);
    object.finish();
}

static void read(const Cursor& at, Chains& chains) {
    Object object(at);
    object.optional("oneBoard", chains.oneBoard);
    object.optional("panel", chains.panel);
    object.optional("stave", chains.stave);
    object.optional("block", chains.block);
    object.optional("ply", chains.ply);
    object.finish();
}

static void read(const Cursor& at, OffcutRule& rule) {
    Object object(at);
    object.optional("leastLength", rule.leastLength);
    object.optional("leastWidth", rule.leastWidth);
    object.optional("leastThickness", rule.leastThickness);
    object.optional("worthPercent", rule.worthPercent);
    object.finish();
}

static void read(const Cursor& at, Prices& prices) {
    Object object(at);
    object.optional("fillEach", prices.fillEach);
    object.optional("crosscut", prices.crosscut);
    object.optional("rip", prices.rip);
    object.optional("knotOnShow", prices.knotOnShow);
    object.optional("groupApart", prices.groupApart);
    object.finish();
}

static void read(const Cursor& at, DefectRule& rule) {
    Object object(at);
    object.required("verdict", rule.verdict);
    object.optional("largest", rule.largest);
    object.finish();
}

static void read(const Cursor& at, Halo& halo) {
    Object object(at);
    object.optional("alongHundredths", halo.alongHundredths);
    object.optional("acrossHundredths", halo.acrossHundredths);
    object.optional("leastAlong", halo.leastAlong);
    object.optional("leastAcross", halo.leastAcross);
    object.finish();
}

/// By kind of defect; a kind that is left out is forbidden.
struct RulesByKind {
    std::array<DefectRule, allDefectKinds.size()>& rules;
};
static void read(const Cursor& at, RulesByKind& byKind) {
    Object object(at);
    for (const DefectKind kind : allDefectKinds) {
        object.optional(wordOf(kind), byKind.rules[static_cast<std::size_t>(kind)]);
    }
    object.finish();
}

void read(const Cursor& at, RuleSet& ruleSet) {
    RulesByKind byKind{ruleSet.rules};
    Object object(at);
    object.required("id", ruleSet.id);
    object.required("name", ruleSet.name);
    object.required("rules", byKind);
    object.optional("halo", ruleSet.halo);
    object.finish();
}

void read(const Cursor& at, Shop& shop) {
    Object object(at);
    object.optional("name", shop.name);
    object.optional("machines", shop.machines);
    object.optional("chains", shop.chains);
    object.optional("flatten", shop.flatten);
    object.optional("cleaning", shop.cleaning);
    object.optional("mostPlanedAway", shop.mostPlanedAway);
    object.optional("rawEnd", shop.rawEnd);
    object.optional("widthStep", shop.widthStep);
    object.optional("panelSlack", shop.panelSlack);
    object.optional("offcuts", shop.offcuts);
    object.optional("prices", shop.prices);
    object.optional("ruleSets", shop.ruleSets);
    object.finish();
}

} // namespace stavewright::job
