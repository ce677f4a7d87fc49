#pragma once
// Private to core/midjob: a lost piece may still hold another part.

#include "core/midjob/ShopEvent.h"

namespace stavewright::midjob {

/// A piece of cut wood whose blank is gone, as it lies on its board.
struct LostWood {
    BlankPurpose was;
    BoardId board;
    SectionId section;
    Point corner; ///< low corner of what was the blank, in the board frame
    Rect size;    ///< of the blank as it was cut
};

/// A way to use it: the job with a part that was planned elsewhere, and is not begun, laid into it.
struct Reuse {
    Document after;
    BlankPurpose becomes;
    BoardId from; ///< that it was planned on
};

/// At most `most` ways, the largest part that fits first. `document` is the job with the lost blank
/// taken out of its plan; what it misses is not laid yet.
[[nodiscard]] std::vector<Reuse> reusesOf(const Document& document, const LostWood& wood,
                                          std::size_t most);

} // namespace stavewright::midjob
