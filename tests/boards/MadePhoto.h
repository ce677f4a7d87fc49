#pragma once
// A photograph of a made board: seen by a camera, on a floor, in the light of a shop.

#include "tests/boards/Camera.h"
#include "tests/boards/MadeBoard.h"

namespace stavewright::boards {

struct PhotoWish {
    int width = 2400;
    int height = 1800;
    double barrel = 0;
    double askew = 1;     ///< how far the camera leans and turns; 0: square on
    double noise = 3;     ///< of 255
    bool shadow = false;  ///< somebody's shadow over a part of the board
    double uneven = 0.25; ///< light from one side
};

struct MadePhoto {
    photo::Image image;
    Camera camera;
    /// The true corners of the outline's box, which is what a straightened picture shows.
    photo::PhotoControls controls;
    photo::BoardSize size;
};

/// Shows all of the face. The same seed makes the same photograph.
[[nodiscard]] MadePhoto photographOf(const MadeBoard& board, BoardFace face, std::uint64_t seed,
                                     const PhotoWish& wish);

} // namespace stavewright::boards
