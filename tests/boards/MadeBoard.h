#pragma once
// Rough boards that never grew: outline, defects on both faces and what the faces look like, so
// that for every picture of one the truth is known. The same seed makes the same board.
//
//   const MadeBoard board = makeBoard(7, {});
//   const photo::Image face = facePicture(board, BoardFace::A, 40);

#include <cstdint>
#include <vector>

#include "core/lumber/Board.h"
#include "core/photo/Image.h"

namespace stavewright::boards {

struct BoardWish {
    double inchesLong = 60;
    double inchesWide = 8;
    int knots = 8;          ///< about; small ones at the edge of sight come on top
    double leastKnot = 0.5; ///< inches, the longer side
    bool dark = false;      ///< a brown wood instead of a pale one
    bool varied = false;    ///< knots differ in how far they stand out, some hardly do
    bool traps = true; ///< resin, pith, sapwood, chalk, pencil: what is no knot but looks like one
};

/// A knot as it lies in the wood; inches, in the board frame of each face (both seen through from
/// A).
struct MadeKnot {
    enum class Look { Sound, Ringed, Loose, Hole };
    Look look = Look::Sound;
    double x = 0;
    double y = 0;
    double along = 1;  ///< full length along its own axis
    double across = 1; ///< full width
    double turn = 0;   ///< radians
    double skewX = 0;  ///< where it comes out on face B, less x
    double skewY = 0;
    double sizeOnB = 0.8; ///< of its size on A; 0: it does not reach B
    double standsOut = 1; ///< 1: as dark as its kind is, 0: as the wood around
    std::uint32_t seed = 0;
};

/// What is no knot.
struct MadeTrap {
    enum class What { Resin, Pith, Pencil, Chalk, Check };
    What what = What::Resin;
    double x0 = 0;
    double y0 = 0;
    double x1 = 0;
    double y1 = 0;
    double width = 0.1;
    std::uint32_t seed = 0;
};

struct MadeBoard {
    Board board; ///< outline, knots, checks and wane as they would be marked
    std::vector<MadeKnot> knots;
    std::vector<MadeTrap> traps;
    double pithY = 0;     ///< inches; where the heart of the log ran
    double pithDepth = 2; ///< inches below face A
    double ring = 0.15;   ///< inches between growth rings
    double sapwood = 0;   ///< inches from the far edge, 0: none
    bool dark = false;
    std::uint32_t seed = 0;
};

[[nodiscard]] MadeBoard makeBoard(std::uint64_t seed, const BoardWish& wish);

/// The face square on, the board alone and black round it; face B as one sees it when the board is
/// turned over about its length (far edge at the bottom).
[[nodiscard]] photo::Image facePicture(const MadeBoard& board, BoardFace face,
                                       double pixelsPerInch);

} // namespace stavewright::boards
