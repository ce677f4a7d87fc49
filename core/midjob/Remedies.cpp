#include "core/midjob/Remedies.h"

#include <algorithm>
#include <set>

#include "core/audit/BoardJudge.h"
#include "core/choices/Relaxations.h"
#include "core/hand/PlanTree.h"
#include "core/midjob/Words.h"
#include "core/milling/BlankSpec.h"
#include "core/planning/PanelWidth.h"
#include "core/units/QuantityText.h"

namespace stavewright::midjob {

namespace {

constexpr std::size_t mostEased = 40;

/// The lost piece would still give its part if one demand were eased.
std::vector<std::string> easings(const Document& before, const Document& document,
                                 const std::vector<BlankId>& lost) {
    std::vector<std::string> found;
    if (lost.empty() || !before.plan) {
        return found;
    }
    Document standing = document; // the boards as they are, the pieces where they were
    standing.plan = before.plan;
    for (const choices::Relaxation& eased : choices::relaxationsOf(standing, mostEased)) {
        Document tried = standing;
        if (!apply(tried, eased.edit) || !tried.plan) {
            continue;
        }
        const BoardJudge judge(tried);
        for (const BlankId id : lost) {
            const std::optional<hand::TreePlace> place = hand::placeOf(*tried.plan, id);
            if (!place) {
                continue;
            }
            const Blank& blank = hand::blankAt(*tried.plan, *place);
            if (eased.part.isSet() && eased.part != blank.purpose.part) {
                continue;
            }
            const std::vector<Finding> findings = judge.failures(tried.plan->boards[place->board]);
            if (std::none_of(findings.begin(), findings.end(),
                             [&](const Finding& each) { return each.blank == id; })) {
                found.push_back("The piece still gives " + labelOf(tried, blank.purpose) +
                                " when the job eases one requirement: " + eased.words + ".");
            }
        }
    }
    return found;
}

/// One more stave that makes up the width a panel lacks.
std::vector<std::string> fillers(const Document& document,
                                 const std::vector<BlankPurpose>& missing) {
    std::vector<std::string> found;
    const Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    if (!specs) {
        return found;
    }
    for (const BlankPurpose& panel : missing) {
        const BlankSpec* spec = specOf(specs.value(), panel);
        if (!spec || !spec->staves) {
            continue;
        }
        const StavePool& pool = *spec->staves;
        const Length net = planning::netWidthOf(*document.plan, pool, panel);
        const Length rough = pool.netWanted - net + pool.jointAllowance;
        if (net <= Length() || net >= pool.netWanted || rough > pool.widestRough) {
            continue; // no panel yet, or more than one stave short
        }
        const Length sawn = std::max(rough, pool.leastRough);
        found.push_back(labelOf(document, panel) + " lacks " +
                        said(document, pool.netWanted - net) + " of width: a filler stave " +
                        said(document, sawn) + " wide and " + said(document, spec->length) +
                        " long, rough, from any offcut makes it whole.");
    }
    return found;
}

/// Lumber to buy for what is missing, with as much waste as the plan has.
std::string buying(const Document& document, const std::vector<BlankPurpose>& missing) {
    const Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    if (!specs) {
        return {};
    }
    Volume wood;
    for (const BlankPurpose& purpose : missing) {
        const BlankSpec* spec = specOf(specs.value(), purpose);
        if (spec) {
            const Length width = spec->staves ? spec->staves->netWanted : spec->width;
            wood += Rect{Length(), Length(), spec->length, width}.area() * spec->thicknessWanted;
        }
    }
    BoardFeet wanted = BoardFeet::ofVolume(wood);
    const PlanTotals& totals = document.plan->totals;
    if (totals.blanks > BoardFeet()) {
        wanted = BoardFeet::millionths(static_cast<std::int64_t>(
            static_cast<Int128>(wanted.inMillionths()) * totals.lumberUsed.inMillionths() /
            totals.blanks.inMillionths()));
    }
    return "Buying about " + lumberText(wanted, document.info.units, LumberDetail::Glance) +
           " more would do, at the waste of the rest.";
}

} // namespace

std::vector<std::string> remediesFor(const Document& before, const Document& document,
                                     const std::vector<BlankPurpose>& missing,
                                     const std::vector<BlankId>& lost) {
    std::vector<std::string> found;
    if (missing.empty()) {
        return found;
    }
    found = easings(before, document, lost);
    found.resize(std::min<std::size_t>(found.size(), 2));
    for (std::string& filler : fillers(document, missing)) {
        found.push_back(std::move(filler));
    }
    std::set<std::string> said;
    for (const Unplaced& each : document.plan->unplaced) {
        const bool isNew = std::find(missing.begin(), missing.end(), each.purpose) != missing.end();
        if (isNew && !each.nearestMiss.empty() && said.insert(each.nearestMiss).second) {
            found.push_back(each.nearestMiss);
        }
    }
    found.push_back(buying(document, missing));
    return found;
}

} // namespace stavewright::midjob
