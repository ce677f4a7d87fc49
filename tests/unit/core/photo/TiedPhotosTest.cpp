#include "core/photo/TiedPhotos.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/photo/FacePhotos.h"
#include "tests/boards/Camera.h"

namespace stavewright::photo {

namespace {

using boards::Camera;
using boards::Hand;
using testing::HasSubstr;

const BoardSize board{Length::inches(96), Length::inches(8), Length::inches(8)};

struct Seen {
    Camera camera;
    PhotoControls controls;
};

/// A stretch of about 50 in round `middle`, with a tape read every foot and two places on each
/// edge.
Seen photographAt(double middle, Hand& hand) {
    Camera camera;
    camera.x = middle;
    camera.y = hand.between(2, 6);
    camera.distance = hand.between(44, 50);
    camera.lean = hand.between(-0.3, 0.3);
    camera.roll = hand.between(-0.05, 0.05);
    PhotoControls controls{camera.width, camera.height, {}, {}, {}, {}};
    const auto inPicture = [&](Pixels at) {
        return at.x > 10 && at.y > 10 && at.x < camera.width - 10 && at.y < camera.height - 10;
    };
    for (int x = 0; x <= 96; x += 12) {
        if (inPicture(camera.shows(x, 4))) {
            controls.tape.push_back({hand.mark(camera.shows(x, 4), 3), Length::inches(x)});
            controls.edges.push_back({LongEdge::Near, hand.mark(camera.shows(x, 0), 3)});
            controls.edges.push_back({LongEdge::Far, hand.mark(camera.shows(x, 8), 3)});
        }
    }
    return {camera, controls};
}

/// The same place of the board seen in both photographs, in inches, at its worst near the middle.
double apart(const TiedPhotos& face, const std::vector<Seen>& seen) {
    double worst = 0;
    for (const double y : {0.5, 4.0, 7.5}) {
        const auto a = face.photos[0].value().map.toBoard(seen[0].camera.shows(48, y));
        const auto b = face.photos[1].value().map.toBoard(seen[1].camera.shows(48, y));
        worst = std::max(worst, std::hypot((a->x - b->x).toInches(), (a->y - b->y).toInches()));
    }
    return worst;
}

TiedPhotos fitted(const std::vector<Seen>& seen) {
    std::vector<MarkedPhoto> photos;
    for (const Seen& each : seen) {
        photos.push_back({&each.controls, board});
    }
    return tiedPhotos(photos);
}

TEST(TiedPhotos, SpotsBringTwoPhotographsTogetherWhereTheyMeet) {
    double before = 0;
    double after = 0;
    for (std::uint64_t seed = 1; seed <= 12; ++seed) {
        Hand hand(seed);
        std::vector<Seen> seen = {photographAt(26, hand), photographAt(70, hand)};
        before += apart(fitted(seen), seen);
        int number = 3; // any numbers, in another order in the second
        for (const auto& [x, y] : {std::pair(46.0, 1.0), std::pair(50.0, 7.0)}) {
            const auto mark = [&](Seen& one) {
                one.controls.spots.insert(one.controls.spots.begin(),
                                          {number, hand.mark(one.camera.shows(x, y), 1.5)});
            };
            mark(seen[0]);
            mark(seen[1]);
            std::reverse(seen[1].controls.spots.begin(), seen[1].controls.spots.end());
            number += 4;
        }
        const TiedPhotos face = fitted(seen);
        EXPECT_TRUE(face.untied.empty()) << seed;
        after += apart(face, seen);
        EXPECT_LE(apart(face, seen), 0.15) << seed;
        const Straightening& left = face.photos[0].value();
        ASSERT_EQ(left.residuals.size(),
                  seen[0].controls.tape.size() + seen[0].controls.edges.size() + 2);
        for (std::size_t i = left.residuals.size() - 2; i < left.residuals.size(); ++i) {
            EXPECT_EQ(left.residuals[i].of, MarkResidual::Of::Spot);
            EXPECT_FALSE(left.residuals[i].alone);
            EXPECT_LE(std::abs(left.residuals[i].along.toInches()), 0.1) << seed;
            EXPECT_LE(std::abs(left.residuals[i].across.toInches()), 0.1) << seed;
        }
    }
    EXPECT_LE(after, before / 2) << "worst at the joint, summed over all: " << before << " in";
    RecordProperty("joint_without_spots_in", std::to_string(before / 12));
    RecordProperty("joint_with_spots_in", std::to_string(after / 12));
}

TEST(TiedPhotos, ASpotThatNoOtherShowsChangesNothing) {
    Hand hand(4);
    std::vector<Seen> seen = {photographAt(26, hand), photographAt(70, hand)};
    const TiedPhotos without = fitted(seen);
    seen[0].controls.spots = {{1, hand.mark(seen[0].camera.shows(20, 3), 1)}};
    seen[1].controls.spots = {{2, hand.mark(seen[1].camera.shows(60, 3), 1)}};
    const TiedPhotos with = fitted(seen);
    EXPECT_EQ(with.photos[0].value().map.values().h, without.photos[0].value().map.values().h);
    EXPECT_TRUE(with.photos[0].value().residuals.back().alone);
    EXPECT_TRUE(with.untied.empty());
}

TEST(TiedPhotos, WhatCannotBeTiedIsToldAndStandsByItsOwnMarks) {
    Hand hand(5);
    std::vector<Seen> seen = {photographAt(26, hand), photographAt(70, hand)};
    for (Seen& each : seen) {
        each.controls.spots = {{1, hand.mark(each.camera.shows(48, 3), 1)}};
    }
    BoardSize other = board;
    other.length = Length::inches(95);
    const TiedPhotos face = tiedPhotos({{&seen[0].controls, board}, {&seen[1].controls, other}});
    EXPECT_TRUE(face.photos[0].ok());
    EXPECT_TRUE(face.photos[1].ok());
    ASSERT_EQ(face.untied.size(), 1U);
    EXPECT_THAT(face.untied[0].message, HasSubstr("must have been measured alike"));

    // One that is not straightened yet ties nothing, and its own trouble is told.
    seen[1].controls.tape.clear();
    const TiedPhotos open = fitted(seen);
    EXPECT_TRUE(open.photos[0].ok());
    ASSERT_FALSE(open.photos[1].ok());
    EXPECT_TRUE(open.untied.empty());
    EXPECT_TRUE(open.photos[0].value().residuals.back().alone);
}

TEST(TiedPhotos, TheNextSpotIsTheOneStillToBeMarked) {
    PhotoControls here;
    PhotoControls other;
    EXPECT_EQ(nextSpot(here, {&other}), 1);
    other.spots = {{1, {}}, {2, {}}};
    EXPECT_EQ(nextSpot(here, {&other}), 1);
    EXPECT_EQ(freeSpot(here, {&other}), 3);
    here.spots = {{1, {}}};
    EXPECT_EQ(nextSpot(here, {&other}), 2);
    here.spots = {{1, {}}, {2, {}}};
    EXPECT_EQ(nextSpot(here, {&other}), 3);
    here.spots.clear();
    for (int number = 1; number <= highestSpot; ++number) {
        here.spots.push_back({number, {}});
    }
    EXPECT_EQ(nextSpot(here, {&other}), 0);
}

} // namespace

} // namespace stavewright::photo
