#include "core/cutting/EdgePlaces.h"

#include <algorithm>
#include <deque>
#include <set>

namespace stavewright::cutting {

EdgePlaces edgePlaces(const std::vector<Nm>& lows, const std::vector<Nm>& highs,
                      const std::vector<Nm>& lengths, const std::vector<Nm>& kerfs, Nm begin,
                      Nm end, std::size_t most) {
    struct Edge {
        Nm at = 0;
        bool isHigh = false;
    };
    std::set<Nm> low;
    std::set<Nm> high;
    std::deque<Edge> next;
    EdgePlaces places;
    places.isComplete = true;
    const auto reach = [&](Nm at, bool isHigh) {
        std::set<Nm>& known = isHigh ? high : low;
        if (at < begin || at > end || known.contains(at)) {
            return;
        }
        if (known.size() >= most) {
            places.isComplete = false;
            return;
        }
        known.insert(at);
        next.push_back({at, isHigh});
    };
    for (const Nm at : lows) {
        reach(at, false);
    }
    for (const Nm at : highs) {
        reach(at, true);
    }
    while (!next.empty()) {
        const Edge edge = next.front();
        next.pop_front();
        for (const Nm length : lengths) {
            reach(edge.isHigh ? edge.at - length : edge.at + length, !edge.isHigh);
        }
        for (const Nm kerf : kerfs) {
            reach(edge.isHigh ? edge.at + kerf : edge.at - kerf, !edge.isHigh);
        }
    }
    places.lows.assign(low.begin(), low.end());
    places.highs.assign(high.begin(), high.end());
    return places;
}

} // namespace stavewright::cutting
