#pragma once
// What the maker decided about a board: it, or a stretch of it, is kept for one part; or a part is
// kept off it. Planner and audit both hold to it; what is cut already is cut.

#include <optional>

#include "core/base/Id.h"
#include "core/geometry/Shapes.h"

namespace stavewright {

struct BoardRule {
    enum class Kind {
        KeptFor, ///< no other part may come from there
        KeptOff  ///< this part may not come from there
    };
    Kind kind = Kind::KeptFor;
    BoardId board;
    PartId part;
    std::optional<Stretch> along; ///< x in the board frame; without it the whole board
    friend bool operator==(const BoardRule&, const BoardRule&) = default;

    /// The rule keeps this part off.
    [[nodiscard]] bool bars(PartId other) const {
        return kind == Kind::KeptFor ? other != part : other == part;
    }
};

} // namespace stavewright
