#pragma once
// Looks for the place where a blank that found none would have lain with the least in its way: over
// all boards in wide steps first, then in narrow ones on the boards that came nearest.

#include <optional>
#include <vector>

#include "core/cutting/Interrupt.h"
#include "core/planning/Statement.h"

namespace stavewright::planning {

/// A region in the way: a defect that a zone of the blank forbids, or wood that is already taken.
struct Hindrance {
    const Defect* defect = nullptr;
    const BlankZone* zone = nullptr;
    const Blank* taker = nullptr; ///< when it is no defect
    Length depth;                 ///< how far along the grain it reaches into what must be clear
};

struct Place {
    const Board* board = nullptr;
    Stretch along;
    std::vector<Hindrance> hindrances;

    [[nodiscard]] Length depth() const;
    /// Fewest in the way, then the least of it.
    [[nodiscard]] bool isNearerThan(const Place& other) const;
};

/// What remains of the steps that may be counted, and a call to stop.
struct LookingLimits {
    std::int64_t steps = 0;
    const cutting::Interrupt* interrupt = nullptr;
    [[nodiscard]] bool isOver() const { return steps <= 0 || interrupt->isCalled(); }
};

struct NearestPlace {
    std::optional<Place> place;
    Length widest; ///< clear width found over the blank's length, thick enough
    const Board* widestOn = nullptr;
    std::size_t boardsLookedAt = 0; ///< in wide steps, to their far end
    bool isComplete = false;        ///< all boards were looked at, at least in wide steps
};

/// What is looked for: kind number `kind` of the statement, where this much thickness is left.
struct Sought {
    std::size_t kind = 0;
    Length thickness;
};

/// The boards are looked at in their order. Steps taken are counted off the limits.
[[nodiscard]] NearestPlace nearestPlace(const Document& document, const Statement& statement,
                                        const Plan& plan, const Sought& sought,
                                        const std::vector<const Board*>& boards,
                                        LookingLimits& limits);

/// The board's length between its raw ends.
[[nodiscard]] Stretch betweenRawEnds(const Board& board, const Shop& shop);

} // namespace stavewright::planning
