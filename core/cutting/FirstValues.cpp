#include "core/cutting/FirstValues.h"

#include <algorithm>

namespace stavewright::cutting {

Values firstValues(const Problem& problem, const std::vector<const BoardModel*>& models) {
    // The price of an average square metre of lumber, twice over: about half of it becomes waste.
    // Long and wide blanks find fewer places, so they are worth more for their size.
    double cost = 0;
    double area = 0;
    for (const BoardModel* model : models) {
        cost += static_cast<double>(model->board().cost);
        area += model->outlineArea();
    }
    const double perArea = area > 0 && cost > 0 ? 2 * cost / area : 1e-12;
    double longest = 1;
    for (const Kind& kind : problem.kinds) {
        longest = std::max(longest, static_cast<double>(kind.length));
    }
    Values values;
    for (const Kind& kind : problem.kinds) {
        const double length = static_cast<double>(kind.length);
        const double worth = perArea * length * (1 + 0.5 * length / longest);
        if (kind.isPool) {
            // A stave of the panel's average width is worth its area; narrower ones less, because a
            // panel may have only so many.
            const double average = static_cast<double>(kind.netWanted) / std::max(1, kind.most);
            values.each.push_back(static_cast<Cost>(-0.2 * worth * average));
            values.perMetre.push_back(
                static_cast<Cost>(1.2 * worth * static_cast<double>(nanometresPerMetre)));
        } else {
            values.each.push_back(static_cast<Cost>(worth * static_cast<double>(kind.width)));
            values.perMetre.push_back(0);
        }
    }
    return values;
}

} // namespace stavewright::cutting
