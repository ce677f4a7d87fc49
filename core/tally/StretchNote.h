#pragma once
// Whole stretches of a board said in a few words, as one says them while looking along it:
//
//   "bad from 31 to 36"    "the rest sound, under 1"    "looked at 0 to 40 on B"

#include <optional>
#include <string_view>
#include <vector>

#include "core/lumber/Board.h"
#include "core/units/LengthText.h"

namespace stavewright {

struct StretchNote {
    enum class What {
        Bad,   ///< wood that nobody wants, from edge to edge: a defect that goes through
        Sound, ///< looked at; with `knotsUnder` a quick look, else nothing was left unmarked
    };
    What what = What::Bad;
    std::optional<Stretch> stretch;   ///< nothing: the rest, which nobody has looked at
    std::optional<Length> knotsUnder; ///< sound knots under this were not marked
    std::vector<BoardFace> faces;     ///< empty: not said
    friend bool operator==(const StretchNote&, const StretchNote&) = default;
};

/// Words in any order: bad; sound, clear, looked at, seen; from X to Y, X to Y, X to the end, all,
/// the rest; under N; on A, on B, both faces.
Result<StretchNote> readStretchNote(std::string_view text, UnitSystem units, Length boardLength);

/// The board after the note. A bad stretch becomes a defect with this id and mark, and has been
/// looked at; on what face a sound one is, unless it says so, `inView` says.
Result<Board> withNote(Board board, const StretchNote& note, BoardFace inView, DefectId id,
                       const std::string& mark);

} // namespace stavewright
