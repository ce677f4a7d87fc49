#include "core/choices/EasedRules.h"

#include <algorithm>
#include <array>

#include "core/milling/PartZones.h"
#include "core/units/SaidLength.h"

namespace stavewright::choices {

namespace {

constexpr std::array openKnots = {DefectKind::LooseKnot, DefectKind::KnotHole,
                                  DefectKind::BarkPocket};

DefectRule& ruleOf(RuleSet& rules, DefectKind kind) {
    return rules.rules[static_cast<std::size_t>(kind)];
}

/// Allowed > allowed if filled > forbidden.
int freedom(Verdict verdict) {
    return verdict == Verdict::Allowed ? 2 : verdict == Verdict::AllowedIfFilled ? 1 : 0;
}

bool isNoStricter(const DefectRule& a, const DefectRule& b) {
    if (b.verdict == Verdict::Forbidden) {
        return true;
    }
    return freedom(a.verdict) >= freedom(b.verdict) &&
           (!a.largest || (b.largest && *a.largest >= *b.largest));
}

/// The rule with the next size up; nothing where any size is allowed already.
std::optional<Length> eased(const DefectRule& rule, UnitSystem units) {
    if (rule.verdict == Verdict::Forbidden) {
        return nextSize(Length(), units);
    }
    return rule.largest ? nextSize(*rule.largest, units) : std::nullopt;
}

} // namespace

std::optional<Length> nextSize(Length size, UnitSystem units) {
    static constexpr std::array inches = {
        Length::inches(1, 4), Length::inches(1, 2), Length::inches(3, 4), Length::inches(1),
        Length::inches(3, 2), Length::inches(2),    Length::inches(3),    Length::inches(4)};
    static constexpr std::array metric = {Length::millimetres(6),  Length::millimetres(12),
                                          Length::millimetres(20), Length::millimetres(25),
                                          Length::millimetres(40), Length::millimetres(50),
                                          Length::millimetres(75), Length::millimetres(100)};
    const auto& ladder = units == UnitSystem::Inches ? inches : metric;
    const auto next = std::upper_bound(ladder.begin(), ladder.end(), size);
    return next == ladder.end() ? std::nullopt : std::optional(*next);
}

std::vector<EasedRules> easedRules(const RuleSet& rules, const JobInfo& info) {
    std::vector<EasedRules> found;
    const auto add = [&](RuleSet changed, const char* what, Length size) {
        const std::string upTo = what + std::string(" up to ") +
                                 saidLength(size, {info.units, info.inchDenominator, true});
        changed.id = {};
        changed.name = rules.name + ", " + upTo;
        found.push_back({"allowing " + upTo, std::move(changed)});
    };
    RuleSet sound = rules;
    DefectRule& rule = ruleOf(sound, DefectKind::SoundKnot);
    const bool isFilled = rule.verdict == Verdict::AllowedIfFilled;
    if (const std::optional<Length> size = eased(rule, info.units)) {
        rule = {isFilled ? Verdict::AllowedIfFilled : Verdict::Allowed, size};
        add(sound, isFilled ? "filled sound knots" : "sound knots", *size);
    }
    // Open knots together, up to the smallest of their next sizes.
    RuleSet filled = rules;
    std::optional<Length> up;
    for (const DefectKind kind : openKnots) {
        const std::optional<Length> size = eased(ruleOf(filled, kind), info.units);
        up = size && (!up || *size < *up) ? size : up;
    }
    if (up) {
        for (const DefectKind kind : openKnots) {
            DefectRule& open = ruleOf(filled, kind);
            const DefectRule wanted{Verdict::AllowedIfFilled, up};
            open = isNoStricter(open, wanted) || open.verdict == Verdict::Allowed ? open : wanted;
        }
        add(filled, "filled knots", *up);
    }
    return found;
}

bool isLetIn(const RuleSet& rules, const Defect& defect) {
    const DefectRule& rule = rules.ruleFor(defect.kind);
    return rule.verdict != Verdict::Forbidden && (!rule.largest || sizeOf(defect) <= *rule.largest);
}

bool isLooser(const RuleSet& a, const RuleSet& b) {
    bool isMore = false;
    for (std::size_t kind = 0; kind < a.rules.size(); ++kind) {
        if (!isNoStricter(a.rules[kind], b.rules[kind])) {
            return false;
        }
        isMore = isMore || !isNoStricter(b.rules[kind], a.rules[kind]);
    }
    return isMore && a.halo.alongHundredths <= b.halo.alongHundredths &&
           a.halo.acrossHundredths <= b.halo.acrossHundredths &&
           a.halo.leastAlong <= b.halo.leastAlong && a.halo.leastAcross <= b.halo.leastAcross;
}

Edit withRules(const Document& document, const Part& part, std::size_t zone, const RuleSet& rules) {
    EditSequence steps;
    Part changed = part;
    changed.zones = zonesOrDefaults(document.shop, part);
    std::int64_t next = document.nextId;
    for (Zone& each : changed.zones) {
        if (!each.id.isSet()) {
            each.id = ZoneId{next++};
        }
    }
    RuleSet wanted = rules;
    for (const RuleSet& known : document.shop.ruleSets) {
        if (known.rules == rules.rules && known.halo == rules.halo && !wanted.id.isSet()) {
            wanted.id = known.id;
        }
    }
    if (!wanted.id.isSet()) {
        wanted.id = RuleSetId{next++};
        Shop shop = document.shop;
        shop.ruleSets.push_back(wanted);
        steps.edits.push_back(Edit{ReplaceShop{std::move(shop)}});
    }
    changed.zones[zone].rules = wanted.id;
    steps.edits.push_back(Edit{ReplacePart{std::move(changed)}});
    return Edit{std::move(steps)};
}

} // namespace stavewright::choices
