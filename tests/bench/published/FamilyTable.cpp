#include <algorithm>

#include "Families.h"

namespace stavewright::cutting::bench {

void FamilyTable::print(Row row, const std::string& variant, std::optional<double> distance) {
    row.suite = "published";
    row.family = m_family;
    Count& count = m_counts[variant];
    ++count.rows;
    count.reached += row.reached.value_or(false) ? 1 : 0;
    count.unfinished += distance ? 0 : 1;
    count.distance += distance.value_or(0);
    count.worst = std::max(count.worst, distance.value_or(0));
    m_printer->print(row);
}

void FamilyTable::finish() {
    for (const auto& [variant, count] : m_counts) {
        std::string text = m_family + (variant.empty() ? "" : " " + variant) + ": " +
                           std::to_string(count.reached) + " of " + std::to_string(count.rows) +
                           " reached";
        if (count.unfinished > 0) {
            text += ", " + std::to_string(count.unfinished) + " unfinished in the time";
        }
        if (const int finished = count.rows - count.unfinished; finished > 0) {
            text += "; distance on average " + asPercent(count.distance / finished) + ", worst " +
                    asPercent(count.worst);
        }
        m_printer->note(text);
    }
}

} // namespace stavewright::cutting::bench
