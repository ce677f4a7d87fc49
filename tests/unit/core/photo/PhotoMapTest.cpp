#include "core/photo/PhotoMap.h"

#include <gtest/gtest.h>

namespace stavewright::photo {

namespace {

TEST(PhotoMap, AStraightenedPictureHasTheFarEdgeAtTheTop) {
    const Rect shown{Length::inches(10), Length(), Length::inches(30), Length::inches(8)};
    const PhotoMap map = PhotoMap::ofStraightened(shown, 400, 160);
    const auto topLeft = map.toBoard({0, 0});
    ASSERT_TRUE(topLeft);
    EXPECT_LE(abs(topLeft->x - Length::inches(10)), Length::nanometres(2));
    EXPECT_LE(abs(topLeft->y - Length::inches(8)), Length::nanometres(2));
    const auto seen = map.toPhoto({Length::inches(30), Length()});
    ASSERT_TRUE(seen);
    EXPECT_NEAR(seen->x, 400, 1e-9);
    EXPECT_NEAR(seen->y, 160, 1e-9);
}

TEST(PhotoMap, TheLensIsTakenOutAndPutBack) {
    PhotoMap::Values values;
    values.width = 4000;
    values.height = 3000;
    values.lens = 0.05;
    values.h = {1, 0.02, 0.5, 0.01, -1, 0.3, 0.1, -0.2};
    values.scale = Length::inches(96);
    const PhotoMap map(values);
    for (int x = 0; x <= 4000; x += 500) {
        for (int y = 0; y <= 3000; y += 500) {
            const auto place = map.toBoardPlain({double(x), double(y)});
            ASSERT_TRUE(place);
            const auto back = map.toPhotoPlain(*place);
            ASSERT_TRUE(back);
            EXPECT_NEAR(back->x, x, 1e-6);
            EXPECT_NEAR(back->y, y, 1e-6);
        }
    }
}

TEST(PhotoMap, NothingLiesBeyondTheHorizon) {
    PhotoMap::Values values;
    values.width = 1000;
    values.height = 1000;
    values.h = {1, 0, 0, 0, -1, 0, 0, 2};
    const PhotoMap map(values);
    EXPECT_TRUE(map.toBoard({500, 900}));
    EXPECT_FALSE(map.toBoard({500, 100}));
}

} // namespace

} // namespace stavewright::photo
