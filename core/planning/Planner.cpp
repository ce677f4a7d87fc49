#include "core/planning/Planner.h"

#include <algorithm>
#include <utility>

#include "core/document/Ids.h"
#include "core/milling/BlankSpec.h"
#include "core/planning/PlanRun.h"

namespace stavewright {

Result<PlanOutcome> planJob(const Document& document, const PlanOptions& options,
                            const Progress& progress, const OnBetterPlan& better) {
    const Status valid = validate(document);
    if (!valid) {
        return valid.error();
    }
    Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    if (!specs) {
        return specs.error();
    }
    return planning::PlanRun(document, std::move(specs).value(), options, progress, better).run();
}

std::int64_t largestId(const Plan& plan) {
    std::int64_t largest = 0;
    visitPlanIds(plan, [&](const auto& id) { largest = std::max(largest, id.value); });
    return largest;
}

} // namespace stavewright
