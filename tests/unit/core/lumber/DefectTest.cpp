#include "core/lumber/Defect.h"

#include <cmath>
#include <optional>
#include <set>

#include <gtest/gtest.h>

#include "core/geometry/PolygonOps.h"

namespace stavewright {
namespace {

constexpr Length in(std::int64_t numerator, std::int64_t denominator = 1) {
    return Length::inches(numerator, denominator);
}

FaceMark box(Length x0, Length y0, Length x1, Length y1) {
    return {polygonOf({x0, y0, x1, y1}), std::nullopt};
}

TEST(DefectKinds, lettersAndNamesAreDistinct) {
    std::set<char> letters;
    std::set<std::string_view> names;
    for (const DefectKind kind : allDefectKinds) {
        letters.insert(letterOf(kind));
        names.insert(nameOf(kind));
    }
    EXPECT_EQ(letters,
              (std::set<char>{'S', 'L', 'O', 'C', 'T', 'K', 'W', 'P', 'B', 'A', 'N', 'Y', 'X'}));
    EXPECT_EQ(names.size(), allDefectKinds.size());
    EXPECT_EQ(nameOf(DefectKind::SoundKnot), "sound knot");
    EXPECT_EQ(letterOf(DefectKind::KnotHole), 'O');
    EXPECT_EQ(letterOf(DefectKind::Other), 'X');
}

TEST(DefectSize, isTheLongerSideOfTheLargerMark) {
    Defect defect;
    EXPECT_EQ(sizeOf(defect), Length());
    defect.onA = box(in(0), in(0), in(1), in(1, 2));
    EXPECT_EQ(sizeOf(defect), in(1));
    defect.onB = box(in(0), in(0), in(1, 4), in(3, 2));
    EXPECT_EQ(sizeOf(defect), in(3, 2));
}

TEST(DefectSize, ofAnEllipseIsItsLongerAxisHoweverItIsTurned) {
    const Ellipse form{{in(5), in(5)}, in(1), in(2), 785'398};
    Defect defect;
    defect.onA =
        FaceMark{ellipsePolygon(form.centre, form.along, form.across, form.turnMicroradians), form};
    EXPECT_EQ(sizeOf(defect), in(2));
}

TEST(OutlineAtDepth, aThroughKnotSlantsFromMarkToMark) {
    Defect knot;
    knot.through = true;
    knot.onA = box(in(10), in(2), in(12), in(3));
    knot.onB = box(in(14), in(4), in(15), in(6));
    const auto at = [&](Length depth) { return boundingBox(*outlineAtDepth(knot, in(2), depth)); };
    EXPECT_EQ(at(in(0)), (Rect{in(10), in(2), in(12), in(3)}));
    EXPECT_EQ(at(in(2)), (Rect{in(14), in(4), in(15), in(6)}));
    EXPECT_EQ(at(in(1)), (Rect{in(12), in(3), in(27, 2), in(9, 2)}));
    EXPECT_EQ(at(in(1, 2)), (Rect{in(11), in(5, 2), in(51, 4), in(15, 4)}));
}

TEST(OutlineAtDepth, betweenTwoMarksItIsTheMinkowskiCombination) {
    // A square and a diamond of the same width, half way: an octagon of half their corners' sum.
    Defect knot;
    knot.through = true;
    knot.onA = box(in(-1), in(-1), in(1), in(1));
    knot.onB =
        FaceMark{{{in(0), in(-1)}, {in(1), in(0)}, {in(0), in(1)}, {in(-1), in(0)}}, std::nullopt};
    const Polygon half = *outlineAtDepth(knot, in(1), in(1, 2));
    EXPECT_EQ(half.size(), 8U);
    EXPECT_EQ(boundingBox(half), (Rect{in(-1), in(-1), in(1), in(1)}));
    // Area of (A + B)/2 = (4 + 2 * mixed + 2) / 4 with mixed area 4: the diamond's support is 1.
    EXPECT_EQ(areaOf(half), in(7, 2) * in(1));
}

TEST(OutlineAtDepth, isTheHullOfAllPairsOfCorners) {
    // The definition, corner by corner, against the walk round both marks.
    for (int i = 0; i < 200; ++i) {
        const auto mark = [](int x, int y, int along, int across, int degrees) {
            Ellipse ellipse{{in(x, 8), in(y, 8)}, in(along, 16), in(across, 16), degrees * 17'453};
            return FaceMark{ellipsePolygon(ellipse.centre, ellipse.along, ellipse.across,
                                           ellipse.turnMicroradians),
                            ellipse};
        };
        Defect knot;
        knot.through = true;
        knot.onA = mark(40 + i % 7, 30 + i % 5, 3 + i % 11, 2 + i % 6, i * 17 % 180);
        knot.onB = mark(42 + i % 9, 31 + i % 3, 4 + i % 8, 3 + i % 4, i * 31 % 180);
        const Length thickness = in(2);
        const Length depth = in(i % 33, 16);
        Polygon corners;
        for (const Point& a : knot.onA->outline) {
            for (const Point& b : knot.onB->outline) {
                const double share = depth.toInches() / thickness.toInches();
                corners.push_back({a.x + Length::nanometres(std::llround(
                                             (b.x - a.x).toMillimetres() * 1e6 * share)),
                                   a.y + Length::nanometres(std::llround(
                                             (b.y - a.y).toMillimetres() * 1e6 * share))});
            }
        }
        const std::optional<Polygon> slice = outlineAtDepth(knot, thickness, depth);
        ASSERT_TRUE(slice);
        const double wanted = areaOf(convexHull(corners)).toSquareInches();
        EXPECT_NEAR(areaOf(*slice).toSquareInches(), wanted, wanted * 1e-6) << i;
    }
}

TEST(OutlineAtDepth, aThroughDefectWithOneMarkRunsStraight) {
    Defect split;
    split.through = true;
    split.onB = box(in(0), in(2), in(9), in(17, 8));
    for (const Length depth : {in(0), in(1), in(2)}) {
        EXPECT_EQ(outlineAtDepth(split, in(2), depth), split.onB->outline);
    }
}

TEST(OutlineAtDepth, aShallowDefectEndsAtItsDepth) {
    Defect check;
    check.onA = box(in(0), in(2), in(9), in(17, 8));
    check.depth = in(1, 4);
    EXPECT_TRUE(outlineAtDepth(check, in(1), in(0)).has_value());
    EXPECT_TRUE(outlineAtDepth(check, in(1), in(15, 64)).has_value());
    EXPECT_FALSE(outlineAtDepth(check, in(1), in(1, 4)).has_value());
    EXPECT_FALSE(outlineAtDepth(check, in(1), in(1)).has_value());
}

TEST(OutlineAtDepth, withoutADepthItReachesHalfTheBoard) {
    Defect stain;
    stain.onB = box(in(0), in(0), in(4), in(3));
    EXPECT_TRUE(outlineAtDepth(stain, in(1), in(1)).has_value());
    EXPECT_TRUE(outlineAtDepth(stain, in(1), in(17, 32)).has_value());
    EXPECT_FALSE(outlineAtDepth(stain, in(1), in(1, 2)).has_value());
    EXPECT_FALSE(outlineAtDepth(stain, in(1), in(0)).has_value());
}

TEST(OutlineAtDepth, twoMarksThatAreNotThroughCountEachOnItsSide) {
    Defect pair;
    pair.onA = box(in(0), in(0), in(1), in(1));
    pair.onB = box(in(5), in(0), in(6), in(1));
    EXPECT_EQ(outlineAtDepth(pair, in(2), in(1, 2)), pair.onA->outline);
    EXPECT_EQ(outlineAtDepth(pair, in(2), in(3, 2)), pair.onB->outline);
    pair.depth = in(3, 2); // both reach the middle
    EXPECT_EQ(boundingBox(*outlineAtDepth(pair, in(2), in(1))), (Rect{in(0), in(0), in(6), in(1)}));
}

} // namespace
} // namespace stavewright
