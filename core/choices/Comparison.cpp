#include "core/choices/Comparison.h"

#include <cstdlib>

#include "core/units/QuantityText.h"

namespace stavewright::choices {

std::string countedNoun(std::int64_t count, const char* one, const char* many) {
    return std::to_string(count) + " " + (count == 1 ? one : many);
}

std::string moreOrLess(Money difference, std::string_view currency) {
    if (formatMoney(difference, currency) == formatMoney(Money(), currency) ||
        formatMoney(-difference, currency) == formatMoney(Money(), currency)) {
        return "nothing more"; // less than the smallest coin
    }
    return difference > Money() ? formatMoney(difference, currency) + " more"
                                : formatMoney(-difference, currency) + " less";
}

std::string against(const PlanFigures& plan, const PlanFigures& other, const JobInfo& info) {
    std::string text = "costs " + moreOrLess(plan.cost - other.cost, info.currency);
    const auto add = [&](int difference, const char* one, const char* many,
                         const std::string& where) {
        if (difference != 0) {
            text += "; " + countedNoun(std::abs(difference), one, many) +
                    (difference > 0 ? " more" : " fewer") + where;
        }
    };
    add(plan.missing - other.missing, "blank or panel", "blanks or panels", " without a place");
    const BoardFeet lumber = plan.lumber - other.lumber;
    if (lumber != BoardFeet()) {
        const bool isMore = lumber > BoardFeet();
        text += "; " + lumberText(isMore ? lumber : BoardFeet() - lumber, info.units) +
                (isMore ? " more lumber" : " less lumber");
    }
    add(plan.knotsOnShow - other.knotsOnShow, "knot", "knots", " on show");
    add(plan.setUps.total() - other.setUps.total(), "set-up", "set-ups", "");
    add(plan.boardsTooMany - other.boardsTooMany, "board", "boards", " for match groups");
    return text;
}

} // namespace stavewright::choices
