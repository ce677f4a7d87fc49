#pragma once
// A blank laid on a bed: what becomes of the board's cut tree.

#include "core/hand/Ground.h"

namespace stavewright::hand {

/// Where a blank is to lie.
struct Laying {
    BoardId board;
    Bed bed;
    Length along; ///< of the low end, u in the bed's frame
    Pose pose;
    friend bool operator==(const Laying&, const Laying&) = default;
};

/// The blank's rectangle in the bed's frame.
[[nodiscard]] Rect rectOf(const Laying& laying, Length length);
/// The same in the board frame.
[[nodiscard]] Polygon outlineOf(const Laying& laying, Length length);

/// The layout with the blank laid down: in its strip, in a new strip, or in a new section. A free
/// section reaches as far as the blank. New strips and sections take ids from `nextId` on. The
/// blank keeps its id, purpose, note and states; rectangle and pose are the laying's.
[[nodiscard]] BoardLayout laid(BoardLayout layout, const Laying& laying, Length length, Blank blank,
                               std::int64_t& nextId);

/// The place a blank has now, said as a laying.
[[nodiscard]] Laying layingOf(const BoardLayout& layout, const Section& section, const Strip& strip,
                              const Blank& blank);

} // namespace stavewright::hand
