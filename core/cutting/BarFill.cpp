#include "core/cutting/BarFill.h"

#include <algorithm>
#include <limits>

namespace stavewright::cutting {

BarFill fillBar(const ClearBoard& bar, const std::vector<Cost>& prices,
                const std::vector<int>& limits, std::int64_t& work) {
    constexpr Cost never = std::numeric_limits<Cost>::min() / 4;
    const int kerf = bar.stripKerf();
    const int length = bar.length();
    const std::size_t room = static_cast<std::size_t>(length + kerf) + 1;
    std::vector<Cost> best(room, never); // by exact length, a kerf behind each blank
    best[0] = 0;
    struct Copy {
        int item = 0;
        std::vector<bool> taken; ///< by length
    };
    std::vector<Copy> copies;
    std::size_t reached = 0; // no longer row so far
    for (std::size_t i = 0; i < prices.size(); ++i) {
        const auto step = static_cast<std::size_t>(bar.items()[i].length + kerf);
        const Cost gain = prices[i] - bar.crosscutCost();
        const int most = std::min(limits[i], static_cast<int>((room - 1) / step));
        for (int n = 0; n < most && prices[i] > 0; ++n) {
            Copy copy{static_cast<int>(i), std::vector<bool>(room, false)};
            reached = std::min(room - 1, reached + step);
            bool used = false;
            for (std::size_t end = reached; end >= step; --end) {
                if (best[end - step] + gain > best[end]) {
                    best[end] = best[end - step] + gain;
                    copy.taken[end] = true;
                    used = true;
                }
            }
            work += static_cast<std::int64_t>(reached / 8) + 1;
            if (!used) {
                break;
            }
            copies.push_back(std::move(copy));
        }
    }
    std::size_t at = 0;
    const auto worth = [&](std::size_t end) {
        return best[end] + (end == room - 1 ? bar.highEndSaved() : 0);
    };
    for (std::size_t end = 1; end < room; ++end) {
        if (worth(end) > worth(at)) {
            at = end;
        }
    }
    BarFill filled;
    filled.value = worth(at) - bar.lowEndCut() - 2 * bar.ripCost();
    if (at == 0 || filled.value <= 0) {
        filled.value = 0;
        return filled;
    }
    ClearPattern::Section section;
    section.length = static_cast<int>(at) - kerf;
    section.strips.emplace_back();
    for (auto copy = copies.rbegin(); copy != copies.rend() && at > 0; ++copy) {
        if (copy->taken[at]) {
            section.strips[0].push_back(copy->item);
            at -= static_cast<std::size_t>(
                bar.items()[static_cast<std::size_t>(copy->item)].length + kerf);
        }
    }
    std::sort(section.strips[0].begin(), section.strips[0].end());
    filled.pattern.sections.push_back(std::move(section));
    return filled;
}

} // namespace stavewright::cutting
