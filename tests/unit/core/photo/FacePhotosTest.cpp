#include "core/photo/FacePhotos.h"

#include <gtest/gtest.h>

#include <cmath>
#include <tuple>

#include "tests/boards/Camera.h"

namespace stavewright::photo {

namespace {

using boards::Camera;
using boards::Hand;
using boards::inches;

const BoardSize board{Length::inches(96), Length::inches(8), Length::inches(15, 2)};

struct Seen {
    Camera camera;
    PhotoControls controls;
};

/// A photograph of about 36 in round `middle`, with the tape and both edges marked.
Seen photographAt(double middle, Hand& hand, double barrel) {
    Camera camera;
    camera.x = middle;
    camera.y = hand.between(2, 6);
    camera.distance = hand.between(30, 34);
    camera.tilt = hand.between(-0.08, 0.08);
    camera.lean = hand.between(-0.2, 0.2);
    camera.roll = hand.between(-0.05, 0.05);
    camera.barrel = barrel;
    PhotoControls controls{camera.width, camera.height, {}, {}, {}, {}};
    const auto inPicture = [&](Pixels at) {
        return at.x > 10 && at.y > 10 && at.x < camera.width - 10 && at.y < camera.height - 10;
    };
    for (int x = 0; x <= 96; x += 4) {
        const double far = 8 - 0.5 * x / 96;
        if (inPicture(camera.shows(x, 3))) {
            controls.tape.push_back({hand.mark(camera.shows(x, 3), 1.5), Length::inches(x)});
        }
        if (x % 12 == 0) {
            if (inPicture(camera.shows(x, 0))) {
                controls.edges.push_back({LongEdge::Near, hand.mark(camera.shows(x, 0), 1.5)});
            }
            if (inPicture(camera.shows(x, far))) {
                controls.edges.push_back({LongEdge::Far, hand.mark(camera.shows(x, far), 1.5)});
            }
        }
    }
    for (const Corner corner :
         {Corner::DatumNear, Corner::DatumFar, Corner::EndNear, Corner::EndFar}) {
        const CornerMark mark = boards::cornerSeen(camera, board, corner, hand, 1.5);
        if (inPicture(mark.at.pixels())) {
            controls.corners.push_back(mark);
        }
    }
    return {camera, controls};
}

/// How far apart two photographs place one and the same place of the board, in inches.
double apart(const Straightening& a, const Seen& seenA, const Straightening& b, const Seen& seenB,
             double x, double y) {
    const auto p = a.map.toBoard(seenA.camera.shows(x, y));
    const auto q = b.map.toBoard(seenB.camera.shows(x, y));
    return p && q ? std::hypot((p->x - q->x).toInches(), (p->y - q->y).toInches()) : 1e6;
}

// "Several-photo boards <= 0.15 in at the joints."
TEST(FacePhotos, SpotsAtTheJointsAreWithin15Hundredths) {
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        Hand hand(seed);
        std::vector<Seen> seen;
        std::vector<PhotoControls> controls;
        for (const double middle : {78.0, 18.0, 48.0}) { // in no order
            seen.push_back(photographAt(middle, hand, seed % 2 == 0 ? 0.02 : 0));
            controls.push_back(seen.back().controls);
        }
        std::vector<SameSpot> spots;
        for (const auto& [left, right, x, y] :
             {std::tuple(1, 2, 33.0, 6.5), std::tuple(1, 2, 34.0, 1.0), std::tuple(2, 0, 63.0, 0.8),
              std::tuple(2, 0, 62.0, 6.8)}) {
            const auto l = static_cast<std::size_t>(left);
            const auto r = static_cast<std::size_t>(right);
            spots.push_back({l, hand.mark(seen[l].camera.shows(x, y), 1.5), r,
                             hand.mark(seen[r].camera.shows(x, y), 1.5)});
        }
        const Result<std::vector<Straightening>> fit = straightenFace(controls, spots, board);
        ASSERT_TRUE(fit.ok()) << seed << ' ' << fit.error().message;
        const std::vector<Straightening>& photos = fit.value();
        const FaceArrangement face = arranged(photos, board);
        ASSERT_EQ(face.stretches.size(), 3U) << seed;
        EXPECT_TRUE(face.unseen.empty()) << seed;
        EXPECT_EQ(face.stretches.front().along.from, Length());
        EXPECT_EQ(face.stretches.back().along.to, board.length);
        ASSERT_EQ(face.joints.size(), 2U);
        for (const FaceJoint& joint : face.joints) {
            for (const double y : {0.5, 4.0, 7.0}) {
                EXPECT_LE(apart(photos[joint.left], seen[joint.left], photos[joint.right],
                                seen[joint.right], joint.at.toInches(), y),
                          0.15)
                    << seed;
            }
            EXPECT_LE(joint.expected, inches(0.15)) << seed;
            EXPECT_GE(joint.expected, inches(0.01)) << seed;
        }
        for (std::size_t i = 0; i < photos.size(); ++i) {
            const Stretch along = shownBy(photos[i].map, board).value();
            EXPECT_LE(boards::errorOf(photos[i].map, seen[i].camera, board, along.from.toInches(),
                                      along.to.toInches())
                          .rms,
                      0.1)
                << seed << ' ' << i;
        }
    }
}

TEST(FacePhotos, ATapeAloneLeavesTheLeanOpenAndSaysSo) {
    int told = 0;
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        Hand hand(seed);
        const Seen seen = photographAt(48, hand, 0);
        const Result<Straightening> fit = straighten(seen.controls, board);
        ASSERT_TRUE(fit.ok());
        const double rms = boards::errorOf(fit.value().map, seen.camera, board, 34, 62).rms;
        EXPECT_LE(rms, 3 * fit.value().worstExpected.toInches()) << seed;
        told += fit.value().otherwise ? 1 : 0;
    }
    EXPECT_GE(told, 10);
}

TEST(FacePhotos, ASpotMustBeInTwoPhotographs) {
    Hand hand(1);
    const Seen seen = photographAt(48, hand, 0);
    const auto fit = straightenFace({seen.controls, seen.controls}, {{0, {}, 2, {}}}, board);
    ASSERT_FALSE(fit.ok());
    EXPECT_EQ(fit.error().message, "A spot is marked in photo 1 and photo 3; it must be in two of "
                                   "the 2 photos of the face.");
}

TEST(FacePhotos, WhatNoPhotographShowsIsTold) {
    Hand hand(2);
    std::vector<Straightening> photos;
    for (const double middle : {18.0, 78.0}) {
        photos.push_back(straighten(photographAt(middle, hand, 0).controls, board).value());
    }
    const FaceArrangement face = arranged(photos, board);
    EXPECT_TRUE(face.joints.empty());
    ASSERT_EQ(face.unseen.size(), 1U);
    EXPECT_GT(face.unseen[0].from, Length::inches(30));
    EXPECT_LT(face.unseen[0].to, Length::inches(66));
    EXPECT_EQ(arranged({}, board).unseen, (std::vector<Stretch>{{Length(), board.length}}));
}

TEST(FacePhotos, OnePictureIsMadeOfAll) {
    const BoardSize plain{Length::inches(20), Length::inches(4), Length::inches(4)};
    std::vector<Image> images;
    std::vector<Straightening> photos;
    for (const int from : {0, 8}) {
        Image image(240, 80);
        std::fill_n(image.data(), 240 * 80 * 3, static_cast<std::uint8_t>(from == 0 ? 100 : 200));
        images.push_back(std::move(image));
        const Rect shown{Length::inches(from), Length(), Length::inches(from + 12),
                         Length::inches(4)};
        photos.emplace_back(PhotoMap::ofStraightened(shown, 240, 80), std::vector<double>(100));
    }
    const FaceArrangement face = arranged(photos, plain);
    ASSERT_EQ(face.joints.size(), 1U);
    EXPECT_NEAR(face.joints[0].at.toInches(), 10, 0.1);
    const Image whole = facePicture({images[0].view(), images[1].view()}, photos, face, plain, 20);
    ASSERT_EQ(whole.width(), 400);
    EXPECT_EQ(whole.view().at(190, 40)[0], 100);
    EXPECT_EQ(whole.view().at(210, 40)[0], 200);
}

} // namespace

} // namespace stavewright::photo
