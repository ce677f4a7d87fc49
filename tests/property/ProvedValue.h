#pragma once
// The engine put together by hand for one problem, so that a test can ask its parts.

#include <memory>
#include <optional>
#include <vector>

#include "core/cutting/BoardBound.h"
#include "core/cutting/JobBound.h"

namespace stavewright::cutting::property {

struct Engine {
    explicit Engine(const Problem& wanted);
    /// Of a tiny job; nothing when it is too large to try everything.
    [[nodiscard]] std::optional<Cost> bestValue() const;
    /// The best bound at so many prices, chosen by the seed; no plan costs less.
    [[nodiscard]] Cost bound(int prices, std::uint64_t seed, int looks) const;
    [[nodiscard]] std::vector<const BoardModel*> plainModels() const;

    const Problem* problem;
    Context context;
    std::vector<std::unique_ptr<BoardModel>> models;
    std::unique_ptr<Accounts> accounts;
};

/// From nothing to three times what the kinds' share of the lumber costs.
[[nodiscard]] Values anyPrices(const Problem& problem, std::uint64_t seed);

} // namespace stavewright::cutting::property
