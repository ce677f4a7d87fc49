#pragma once
// What the maker marks in one photograph of one face so that it can be straightened. These values
// are what a job keeps; everything else follows from them.

#include <vector>

#include "core/lumber/PhotoPoint.h"
#include "core/units/Length.h"

namespace stavewright::photo {

/// The board as measured: a straight near edge (y = 0), and two end widths that may differ.
struct BoardSize {
    Length length;
    Length widthAtDatum;
    Length widthAtFar;
    friend bool operator==(const BoardSize&, const BoardSize&) = default;
};

enum class Corner { DatumNear, DatumFar, EndNear, EndFar };
/// A corner of the board: DatumNear is (0, 0), EndFar is (length, widthAtFar).
struct CornerMark {
    Corner corner = Corner::DatumNear;
    PhotoPoint at;
    friend bool operator==(const CornerMark&, const CornerMark&) = default;
};

/// A place on a tape that lies along the board, and what the tape says there. Where the tape lies
/// across the board does not matter.
struct TapeReading {
    PhotoPoint at;
    Length reading; ///< from the datum end
    friend bool operator==(const TapeReading&, const TapeReading&) = default;
};

enum class LongEdge { Near, Far };
/// A place on a long edge of the board; its distance along need not be known.
struct EdgeMark {
    LongEdge edge = LongEdge::Near;
    PhotoPoint at;
    friend bool operator==(const EdgeMark&, const EdgeMark&) = default;
};

/// A spot of the face (a knot, a pencil cross) that several photographs of it show: the same number
/// is the same spot. It ties the photographs together where they overlap.
struct SpotMark {
    int number = 1; ///< 1 to highestSpot, once in each photograph
    PhotoPoint at;
    friend bool operator==(const SpotMark&, const SpotMark&) = default;
};
inline constexpr int highestSpot = 999;

/// Everything marked in one photograph. A photograph of the whole board has four corners; one of a
/// stretch has readings of the tape and places on both edges.
struct PhotoControls {
    int width = 0;  ///< of the upright picture, in pixels
    int height = 0; ///< of the upright picture, in pixels
    std::vector<CornerMark> corners;
    std::vector<TapeReading> tape;
    std::vector<EdgeMark> edges;
    std::vector<SpotMark> spots;
    friend bool operator==(const PhotoControls&, const PhotoControls&) = default;
};

} // namespace stavewright::photo
