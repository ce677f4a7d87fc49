#pragma once
// Lists of places along one axis.

#include <algorithm>
#include <vector>

#include "core/cutting/Problem.h"

namespace stavewright::cutting {

inline void sortUnique(std::vector<Nm>& places) {
    std::sort(places.begin(), places.end());
    places.erase(std::unique(places.begin(), places.end()), places.end());
}

/// At most `most` of them, spread evenly, the first and the last among them; ascending.
[[nodiscard]] inline std::vector<Nm> thinned(std::vector<Nm> places, std::size_t most) {
    sortUnique(places);
    if (places.size() <= most || most < 2) {
        return places;
    }
    std::vector<Nm> kept;
    kept.reserve(most);
    for (std::size_t i = 0; i < most; ++i) {
        kept.push_back(places[i * (places.size() - 1) / (most - 1)]);
    }
    return kept;
}

} // namespace stavewright::cutting
