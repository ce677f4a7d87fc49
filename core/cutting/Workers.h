#pragma once
// Runs numbered items on a few threads. Results are stored by number, so the outcome is the same
// whatever the number of threads. An item that is skipped because of a stop leaves the whole round
// unusable.

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <thread>
#include <vector>

#include "core/cutting/Interrupt.h"

namespace stavewright::cutting {

/// Calls item(i) for i in [0, count); returns false when an interrupt left any of them undone.
template <class Item>
bool runItems(std::size_t count, int threads, const Item& item, const Interrupt& interrupt) {
    std::atomic<std::size_t> next{0};
    std::atomic<bool> skipped{false};
    const auto work = [&] {
        for (std::size_t i = next++; i < count; i = next++) {
            if (skipped || interrupt.isCalled()) {
                skipped = true;
                return;
            }
            item(i);
        }
    };
    const std::size_t helpers =
        count > 1 && threads > 1 ? std::min(count, static_cast<std::size_t>(threads)) - 1 : 0;
    std::vector<std::jthread> pool;
    pool.reserve(helpers);
    for (std::size_t i = 0; i < helpers; ++i) {
        pool.emplace_back(work);
    }
    work();
    pool.clear(); // joins
    return !skipped && !interrupt.isCalled();
}

} // namespace stavewright::cutting
