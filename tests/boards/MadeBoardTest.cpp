#include "tests/boards/MadePhoto.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/geometry/PolygonOps.h"

namespace stavewright::boards {

namespace {

BoardWish small() {
    BoardWish wish;
    wish.inchesLong = 24;
    wish.inchesWide = 6;
    return wish;
}

TEST(MadeBoard, TheSameSeedMakesTheSameBoardAndPicture) {
    EXPECT_EQ(makeBoard(5, small()).board, makeBoard(5, small()).board);
    EXPECT_FALSE(makeBoard(5, small()).board == makeBoard(6, small()).board);
    const photo::Image a = facePicture(makeBoard(5, small()), BoardFace::A, 10);
    const photo::Image b = facePicture(makeBoard(5, small()), BoardFace::A, 10);
    EXPECT_TRUE(std::equal(a.view().data, a.view().data + a.stride() * a.height(), b.view().data));
}

TEST(MadeBoard, EveryMarkIsSoundAndKnotsLieOnTheBoard) {
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        const MadeBoard made = makeBoard(seed, small());
        EXPECT_TRUE(validatePolygon(made.board.outline).ok()) << seed;
        EXPECT_EQ(boundingBox(made.board.outline).x0, Length());
        for (const Defect& defect : made.board.defects) {
            ASSERT_TRUE(defect.onA) << seed;
            EXPECT_TRUE(validatePolygon(defect.onA->outline).ok()) << seed;
            EXPECT_TRUE(interiorsMeet(defect.onA->outline, made.board.outline)) << seed;
            EXPECT_EQ(defect.through, defect.onB.has_value());
        }
        for (const MadeKnot& knot : made.knots) {
            EXPECT_GE(std::max(knot.along, knot.across), 0.5);
        }
    }
}

TEST(MadeBoard, KnotsShowWhereTheTruthSaysOnBothFaces) {
    constexpr double perInch = 16;
    int looked = 0;
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
        BoardWish wish = small();
        wish.traps = false;
        const MadeBoard made = makeBoard(seed, wish);
        const Rect box = boundingBox(made.board.outline);
        for (const BoardFace side : {BoardFace::A, BoardFace::B}) {
            const photo::Image face = facePicture(made, side, perInch);
            const auto lightAt = [&](double x, double y) {
                const double row =
                    side == BoardFace::A ? box.y1.toInches() - y : y - box.y0.toInches();
                const int px = std::clamp(static_cast<int>(x * perInch), 0, face.width() - 1);
                const int py = std::clamp(static_cast<int>(row * perInch), 0, face.height() - 1);
                return face.view().at(px, py)[1];
            };
            for (std::size_t i = 0; i < made.knots.size(); ++i) {
                const MadeKnot& knot = made.knots[i];
                if (knot.look != MadeKnot::Look::Loose && knot.look != MadeKnot::Look::Hole) {
                    continue;
                }
                const auto& mark =
                    side == BoardFace::A ? made.board.defects[i].onA : made.board.defects[i].onB;
                if (!mark) {
                    continue;
                }
                const Rect at = boundingBox(mark->outline);
                const double x = ((at.x0 + at.x1) / 2).toInches();
                const double y = ((at.y0 + at.y1) / 2).toInches();
                if (y < 0.6 || y > 5) {
                    continue;
                }
                // Wood a knot's length beside it is lighter than the knot.
                const double beside = std::min(x + 1.2 * knot.along, 23.5);
                EXPECT_LT(lightAt(x, y), lightAt(beside, y)) << seed << ' ' << i;
                ++looked;
            }
        }
    }
    EXPECT_GE(looked, 10);
}

TEST(MadePhoto, TheCameraSeesBackWhatItShows) {
    Camera camera;
    camera.tilt = 0.2;
    camera.lean = -0.4;
    camera.roll = 0.1;
    camera.barrel = 0.03;
    for (const bool mirrored : {false, true}) {
        camera.mirrored = mirrored;
        for (double x = 10; x < 90; x += 13) {
            for (double y = -10; y < 20; y += 7) {
                const Camera::Place back = camera.sees(camera.shows(x, y));
                EXPECT_NEAR(back.x, x, 1e-6);
                EXPECT_NEAR(back.y, y, 1e-6);
            }
        }
    }
}

TEST(MadePhoto, ShowsAllOfTheBoard) {
    const MadeBoard made = makeBoard(3, small());
    PhotoWish wish;
    wish.width = 400;
    wish.height = 300;
    const MadePhoto photo = photographOf(made, BoardFace::A, 3, wish);
    ASSERT_EQ(photo.controls.corners.size(), 4U);
    for (const photo::CornerMark& corner : photo.controls.corners) {
        const photo::Pixels at = corner.at.pixels();
        EXPECT_GT(at.x, 0);
        EXPECT_LT(at.x, 400);
        EXPECT_GT(at.y, 0);
        EXPECT_LT(at.y, 300);
    }
}

} // namespace

} // namespace stavewright::boards
