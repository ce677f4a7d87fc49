#include "core/photo/SuggestedMarks.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/geometry/PolygonOps.h"
#include "tests/boards/MadePhoto.h"
#include "tests/knots/KnotPicture.h"
#include "tests/knots/MadePictures.h"
#include "tests/knots/Score.h"

namespace stavewright::photo {

namespace {

knots::Box boxOf(const std::vector<Pixels>& outline) {
    knots::Box box{1e9, 1e9, -1e9, -1e9};
    for (const Pixels& p : outline) {
        box = {std::min(box.x0, p.x), std::min(box.y0, p.y), std::max(box.x1, p.x),
               std::max(box.y1, p.y)};
    }
    return box;
}

std::vector<knots::FoundBox> knotBoxes(const Suggestions& suggestions) {
    std::vector<knots::FoundBox> boxes;
    for (const SuggestedMark& mark : suggestions.marks) {
        if (isKnot(mark.kind)) {
            boxes.push_back({boxOf(mark.outline), mark.confidence});
        }
    }
    return boxes;
}

TEST(SuggestedMarks, FindsTheKnotsOfMadeBoards) {
    knots::Score sum;
    for (const std::uint64_t seed : {2002U, 2004U, 2005U, 2008U}) {
        const knots::KnotPicture picture = knots::madePicture(seed, 1000);
        const Suggestions found = suggestMarks(picture.image.view(), {true, 0.5});
        sum += knots::scoreOf(knotBoxes(found), picture.marks, 0.5);
    }
    EXPECT_GE(sum.knots, 15);
    EXPECT_GE(sum.recall(), 0.9);
    EXPECT_GE(sum.precision(), 0.8);
}

TEST(SuggestedMarks, ABoardStandingUprightIsReadAsWell) {
    const knots::KnotPicture picture = knots::madePicture(2008, 800);
    Image upright(picture.image.height(), picture.image.width());
    for (int y = 0; y < picture.image.height(); ++y) {
        for (int x = 0; x < picture.image.width(); ++x) {
            std::copy_n(picture.image.view().at(x, y), 3, upright.at(y, x));
        }
    }
    const auto lying = knotBoxes(suggestMarks(picture.image.view(), {true, 0.5}));
    const auto standing = knotBoxes(suggestMarks(upright.view(), {true, 0.5}));
    ASSERT_EQ(standing.size(), lying.size());
    ASSERT_FALSE(lying.empty());
    for (std::size_t i = 0; i < lying.size(); ++i) {
        // A picture is reduced a little differently when it stands: half a hundredth of its width.
        EXPECT_NEAR(standing[i].box.x0, lying[i].box.y0, 2);
        EXPECT_NEAR(standing[i].box.y1, lying[i].box.x1, 2);
    }
}

TEST(SuggestedMarks, TheBoardIsFoundOnItsBackgroundAndNothingOutside) {
    for (std::uint64_t seed = 2011; seed <= 2012; ++seed) {
        boards::BoardWish wish;
        wish.inchesLong = 24;
        wish.inchesWide = 7;
        const boards::MadeBoard made = boards::makeBoard(seed, wish);
        boards::PhotoWish photo;
        photo.width = 700;
        photo.height = 400;
        photo.askew = 0.2;
        const boards::MadePhoto taken = boards::photographOf(made, BoardFace::A, seed, photo);
        const Suggestions found = suggestMarks(taken.image.view(), {false, 0.5});
        ASSERT_TRUE(found.boardFound) << seed;
        const knots::Box box = boxOf(found.board);
        knots::Box truth{1e9, 1e9, -1e9, -1e9};
        for (const CornerMark& corner : taken.controls.corners) {
            const Pixels p = corner.at.pixels();
            truth = {std::min(truth.x0, p.x), std::min(truth.y0, p.y), std::max(truth.x1, p.x),
                     std::max(truth.y1, p.y)};
        }
        EXPECT_GE(knots::overlap(box, truth), 0.85) << seed;
        for (const knots::FoundBox& knot : knotBoxes(found)) {
            EXPECT_GE(knots::common(knot.box, box), 0.8 * knot.box.area()) << seed;
        }
    }
}

TEST(SuggestedMarks, TheSamePictureGivesTheSameMarks) {
    const knots::KnotPicture picture = knots::madePicture(2008, 800);
    const Suggestions a = suggestMarks(picture.image.view(), {true, 0.2});
    const Suggestions b = suggestMarks(picture.image.view(), {true, 0.2});
    ASSERT_EQ(a.marks.size(), b.marks.size());
    for (std::size_t i = 0; i < a.marks.size(); ++i) {
        EXPECT_EQ(a.marks[i].outline, b.marks[i].outline);
        EXPECT_EQ(a.marks[i].confidence, b.marks[i].confidence);
        EXPECT_GE(a.marks[i].confidence, 0.2);
    }
    EXPECT_TRUE(std::is_sorted(a.marks.begin(), a.marks.end(), [](const auto& p, const auto& q) {
        return p.confidence > q.confidence;
    }));
}

TEST(SuggestedMarks, OddPicturesGiveNothingAndNoCrash) {
    EXPECT_TRUE(suggestMarks({}, {}).marks.empty());
    for (const auto& [w, h] : {std::pair(1, 1), std::pair(3, 400), std::pair(400, 3),
                               std::pair(17, 17), std::pair(60, 900), std::pair(2000, 20)}) {
        const Image black(w, h);
        EXPECT_TRUE(suggestMarks(black.view(), {}).marks.empty()) << w << ' ' << h;
        Image grey(w, h);
        std::fill_n(grey.data(), w * h * 3, std::uint8_t{180});
        EXPECT_TRUE(suggestMarks(grey.view(), {}).marks.empty()) << w << ' ' << h;
    }
}

TEST(SuggestedMarks, OutlinesAreSoundPolygonsOnTheBoard) {
    const knots::KnotPicture picture = knots::madePicture(2008, 800);
    const Rect shown{Length(), Length(), Length::inches(40), Length::inches(8)};
    const PhotoMap map =
        PhotoMap::ofStraightened(shown, picture.image.width(), picture.image.height());
    const Suggestions found = suggestMarks(picture.image.view(), {true, 0.3});
    ASSERT_FALSE(found.marks.empty());
    for (const SuggestedMark& mark : found.marks) {
        const Polygon outline = outlineOnBoard(mark.outline, map);
        const Status status = validatePolygon(outline);
        EXPECT_TRUE(status.ok()) << (status.ok() ? "" : status.error().message);
        EXPECT_TRUE(coveredWithinTolerance(outline, polygonOf(shown)));
    }
}

} // namespace

} // namespace stavewright::photo
