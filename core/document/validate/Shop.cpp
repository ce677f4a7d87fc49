#include <utility>

#include "core/document/Limits.h"
#include "core/document/validate/Findings.h"
#include "core/units/Glyph.h"

namespace stavewright::validation {

namespace {

void checkSaw(const Saw& saw, const std::string& place, const std::string& whose,
              Findings& findings) {
    findings.text(place + "/name", "The name of the " + whose, saw.name, limits::nameCharacters);
    findings.length(place + "/kerf", "The kerf of the " + whose, saw.kerf,
                    Range::aboveZeroBelow(limits::kerfBelow));
    findings.length(place + "/deepest", "The deepest cut of the " + whose, saw.deepest,
                    Range::aboveZeroUpTo(limits::shopLength));
    findings.length(place + "/widest", "The widest crosscut of the " + whose, saw.widest,
                    Range::zeroUpTo(limits::shopLength));
}

void checkMachines(const Machines& machines, Findings& findings) {
    const std::string place = "/shop/machines";
    checkSaw(machines.crosscut, place + "/crosscut", "crosscut saw", findings);
    checkSaw(machines.rip, place + "/rip", "rip saw", findings);
    checkSaw(machines.stripCrosscut, place + "/stripCrosscut", "saw for second crosscuts",
             findings);
    checkSaw(machines.roughRip, place + "/roughRip", "saw for rough rips", findings);
    const auto capacity = [&](const char* key, const char* what, Length value) {
        findings.length(place + key, what, value, Range::aboveZeroUpTo(limits::shopLength));
    };
    const auto least = [&](const char* key, const char* what, Length value) {
        findings.length(place + key, what, value, Range::zeroUpTo(limits::shopLength));
    };
    capacity("/jointerWidth", "The width of the jointer", machines.jointerWidth);
    least("/jointerLeastLength", "The shortest piece for the jointer", machines.jointerLeastLength);
    capacity("/planerWidth", "The width of the planer", machines.planerWidth);
    least("/planerLeastLength", "The shortest piece for the planer", machines.planerLeastLength);
    least("/planerLeastThickness", "The thinnest piece for the planer",
          machines.planerLeastThickness);
    capacity("/longestBoard", "The longest board that can be handled", machines.longestBoard);
    least("/narrowestRip", "The narrowest rip", machines.narrowestRip);
    least("/cautionRip", "The width of rip below which a caution is given", machines.cautionRip);
}

void checkChain(const MillingChain& chain, const std::string& place, Findings& findings) {
    findings.count(place, "stages in one milling chain", chain.size(), limits::stagesInOneChain);
    const Range range = Range::zeroUpTo(limits::allowance);
    for (std::size_t i = 0; i < chain.size() && findings.ok(); ++i) {
        const StageAllowance& stage = chain[i];
        const std::string here = at(place, i);
        findings.length(here + "/along", "What the stage takes along the grain", stage.along,
                        range);
        findings.length(here + "/across", "What the stage takes across the grain", stage.across,
                        range);
        findings.length(here + "/thick", "What the stage takes off the thickness", stage.thick,
                        range);
        findings.text(here + "/why", "The reason for the stage", stage.why, limits::noteCharacters,
                      Findings::Lines::Many);
    }
}

void checkRuleSet(const RuleSet& ruleSet, const std::string& place, Findings& findings) {
    const std::string whose = "rule set " + reading::inQuotes(ruleSet.name);
    findings.text(place + "/name", "The name of the rule set", ruleSet.name,
                  limits::nameCharacters);
    for (const DefectKind kind : allDefectKinds) {
        const DefectRule& rule = ruleSet.ruleFor(kind);
        if (rule.largest) {
            const std::string name(nameOf(kind));
            std::string what = "The largest ";
            what.append(name).append(" in ").append(whose);
            std::string key = place;
            key.append("/rules/").append(name).append("/largest");
            findings.length(key, what, *rule.largest, Range::aboveZeroUpTo(limits::longestBoard));
        }
    }
    constexpr int tenSizes = 1'000;
    const Halo& halo = ruleSet.halo;
    findings.number(place + "/halo/alongHundredths",
                    "The clear wood along the grain around a knot in " + whose,
                    halo.alongHundredths, 0, tenSizes);
    findings.number(place + "/halo/acrossHundredths",
                    "The clear wood across the grain around a knot in " + whose,
                    halo.acrossHundredths, 0, tenSizes);
    findings.length(place + "/halo/leastAlong",
                    "The least clear wood along the grain around a knot in " + whose,
                    halo.leastAlong, Range::zeroUpTo(limits::allowance));
    findings.length(place + "/halo/leastAcross",
                    "The least clear wood across the grain around a knot in " + whose,
                    halo.leastAcross, Range::zeroUpTo(limits::allowance));
}

} // namespace

void checkShop(const Document& document, Findings& findings) {
    const Shop& shop = document.shop;
    findings.text("/shop/name", "The name of the shop", shop.name, limits::nameCharacters);
    checkMachines(shop.machines, findings);
    for (const auto& [key, chain] :
         {std::pair("oneBoard", &shop.chains.oneBoard), std::pair("panel", &shop.chains.panel),
          std::pair("stave", &shop.chains.stave), std::pair("block", &shop.chains.block),
          std::pair("ply", &shop.chains.ply)}) {
        checkChain(*chain, std::string("/shop/chains/") + key, findings);
    }
    findings.length("/shop/cleaning", "The thickness that cleaning takes", shop.cleaning,
                    Range::zeroUpTo(limits::thickest));
    findings.length("/shop/mostPlanedAway", "The most that may be planed away", shop.mostPlanedAway,
                    Range::zeroUpTo(limits::thickest));
    findings.length("/shop/rawEnd", "The trim at a raw end", shop.rawEnd,
                    Range::zeroUpTo(limits::allowance));
    findings.length("/shop/widthStep", "The step of stave widths", shop.widthStep,
                    Range::aboveZeroUpTo(limits::allowance));
    findings.length("/shop/panelSlack", "The slack of a panel's width", shop.panelSlack,
                    Range::zeroUpTo(limits::allowance));
    const OffcutRule& offcuts = shop.offcuts;
    findings.length("/shop/offcuts/leastLength", "The least length of an offcut to keep",
                    offcuts.leastLength, Range::aboveZeroUpTo(limits::longestBoard));
    findings.length("/shop/offcuts/leastWidth", "The least width of an offcut to keep",
                    offcuts.leastWidth, Range::aboveZeroUpTo(limits::widestBoard));
    findings.length("/shop/offcuts/leastThickness", "The least thickness of an offcut to keep",
                    offcuts.leastThickness, Range::zeroUpTo(limits::thickest));
    findings.number("/shop/offcuts/worthPercent", "The worth of an offcut in percent of its price",
                    offcuts.worthPercent, 0, limits::worthPercent);
    findings.money("/shop/prices/fillEach", "The price of one fill", shop.prices.fillEach);
    findings.money("/shop/prices/crosscut", "The price of one crosscut", shop.prices.crosscut);
    findings.money("/shop/prices/rip", "The price of one rip", shop.prices.rip);
    findings.money("/shop/prices/knotOnShow", "The price of one knot on a show face",
                   shop.prices.knotOnShow);
    findings.money("/shop/prices/groupApart", "The price of a further board for a match group",
                   shop.prices.groupApart);
    for (std::size_t i = 0; i < shop.ruleSets.size() && findings.ok(); ++i) {
        checkRuleSet(shop.ruleSets[i], at("/shop/ruleSets", i), findings);
    }
}

} // namespace stavewright::validation
