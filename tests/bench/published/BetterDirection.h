#pragma once
// The engine always crosscuts first; an instance that leaves the direction open is solved as it is
// and with its axes exchanged, half the time each.

#include <functional>
#include <string>

#include "Row.h"
#include "published/Sheet.h"

namespace stavewright::cutting::bench {

/// The better of both rows by `isBetter(a, b)`; faults of both. Appends " V" or " H" to the name.
template <class IsBetter>
[[nodiscard]] Row betterDirection(const Sheet& sheet, const std::string& name,
                                  const std::function<Row(const Sheet&)>& solved,
                                  const IsBetter& isBetter) {
    Row row = solved(sheet);
    Row other = solved(swapped(sheet));
    const bool swap = isBetter(other, row);
    if (swap) {
        std::swap(row, other);
    }
    row.faults.insert(row.faults.end(), other.faults.begin(), other.faults.end());
    row.instance = name + (swap ? " H" : " V");
    return row;
}

} // namespace stavewright::cutting::bench
