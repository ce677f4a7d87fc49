#include "core/photo/Resample.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/photo/Straighten.h"
#include "tests/boards/Camera.h"

namespace stavewright::photo {

namespace {

const BoardSize board{Length::inches(40), Length::inches(8), Length::inches(8)};

/// A board with two-inch squares, photographed.
Image chequered(const boards::Camera& camera, const PhotoMap& truth) {
    Image photo(camera.width, camera.height);
    for (int y = 0; y < camera.height; ++y) {
        for (int x = 0; x < camera.width; ++x) {
            const auto place = truth.toBoard({x + 0.5, y + 0.5});
            if (place && place->x >= Length() && place->x < board.length && place->y >= Length() &&
                place->y < board.widthAtDatum) {
                const auto square = place->x / Length::inches(2) + place->y / Length::inches(2);
                std::fill_n(photo.at(x, y), 3, square % 2 == 0 ? 240 : 60);
            }
        }
    }
    return photo;
}

TEST(Resample, SquaresOfAPhotographedBoardComeOutSquare) {
    boards::Camera camera;
    camera.width = 1200;
    camera.height = 800;
    camera.focal = 900;
    camera.x = 20;
    camera.distance = 36;
    camera.lean = 0.3;
    camera.tilt = 0.1;
    boards::Hand hand(1);
    const PhotoControls controls = boards::cornersSeen(camera, board, hand, 0);
    const Result<Straightening> fit = straighten(controls, board);
    ASSERT_TRUE(fit.ok());
    const Image photo = chequered(camera, fit.value().map);
    const Rect whole{Length(), Length(), board.length, board.widthAtDatum};
    const Image straight = resampled(photo.view(), fit.value().map, whole, 400, 80);
    ASSERT_EQ(straight.width(), 400);
    for (int i = 0; i < 20; ++i) {
        for (int j = 0; j < 4; ++j) {
            const int value = straight.view().at(i * 20 + 10, 79 - (j * 20 + 10))[0];
            EXPECT_NEAR(value, (i + j) % 2 == 0 ? 240 : 60, 6) << i << ' ' << j;
        }
    }
}

TEST(Resample, WhatThePhotographDoesNotShowIsBlack) {
    Image photo(100, 50);
    std::fill_n(photo.data(), 100 * 50 * 3, std::uint8_t{200});
    const Rect shown{Length(), Length(), Length::inches(10), Length::inches(5)};
    const PhotoMap map = PhotoMap::ofStraightened(shown, 100, 50);
    const Rect more{-Length::inches(10), Length(), Length::inches(10), Length::inches(5)};
    const Image wide = resampled(photo.view(), map, more, 200, 50);
    EXPECT_EQ(wide.view().at(20, 20)[0], 0);
    EXPECT_EQ(wide.view().at(150, 20)[0], 200);
}

TEST(Resample, FineStripesAreAveraged) {
    Image photo(1000, 200);
    for (int y = 0; y < 200; ++y) {
        for (int x = 0; x < 1000; ++x) {
            std::fill_n(photo.at(x, y), 3, static_cast<std::uint8_t>(x % 2 == 0 ? 0 : 200));
        }
    }
    const Rect shown{Length(), Length(), Length::inches(10), Length::inches(2)};
    const Image small =
        resampled(photo.view(), PhotoMap::ofStraightened(shown, 1000, 200), shown, 125, 25);
    for (int x = 1; x < 124; ++x) {
        EXPECT_NEAR(small.view().at(x, 12)[1], 100, 3);
    }
    EXPECT_NEAR(scaled(photo.view(), 125, 25).view().at(60, 12)[1], 100, 3);
}

TEST(Resample, NaturalSizeKeepsTheDetailWithinALimit) {
    const Rect shown{Length(), Length(), Length::inches(40), Length::inches(10)};
    const PhotoMap map = PhotoMap::ofStraightened(shown, 4000, 1000);
    const PictureSize all = naturalSize(map, shown, 1e7);
    EXPECT_EQ(all.width, 4000);
    EXPECT_EQ(all.height, 1000);
    const PictureSize less = naturalSize(map, shown, 1e6);
    EXPECT_NEAR(double(less.width) * less.height, 1e6, 3e3);
}

} // namespace

} // namespace stavewright::photo
