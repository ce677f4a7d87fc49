#pragma once
// Finding things in a plan's cut tree, and taking a blank out of it.

#include <optional>

#include "core/document/Document.h"

namespace stavewright::hand {

/// Where a blank stands in the tree: indices into boards, sections, strips and blanks.
struct TreePlace {
    std::size_t board = 0;
    std::size_t section = 0;
    std::size_t strip = 0;
    std::size_t blank = 0;
};
[[nodiscard]] std::optional<TreePlace> placeOf(const Plan& plan, BlankId id);
[[nodiscard]] const Blank& blankAt(const Plan& plan, const TreePlace& place);
[[nodiscard]] const Section& sectionAt(const Plan& plan, const TreePlace& place);

[[nodiscard]] const BoardLayout* layoutOf(const Plan& plan, BoardId board);

/// The section is as free as wood that nobody has touched: no lock and no cut on it or in it.
[[nodiscard]] bool isFree(const BoardLayout& layout, const Section& section);

/// Waste that is only marked is marked anew after every change; it never stands in the way.
void dropPlannedOffcuts(BoardLayout& layout);

/// Takes the blank out. A strip without blanks goes with it, and so does a free section without
/// strips; a free section whose end stood only for that blank ends with the next one.
void takeOut(BoardLayout& layout, BlankId id);

/// Box of the blank in the board frame.
[[nodiscard]] Rect boxOnBoard(const Section& section, const Rect& rect);

/// The board, a section or a blank of it is locked; a lock is only ever taken off by the maker.
[[nodiscard]] bool holdsLock(const BoardLayout& layout);

} // namespace stavewright::hand
