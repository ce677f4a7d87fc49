#include "core/audit/Surface.h"

#include <random>

#include <gtest/gtest.h>

#include "core/geometry/PolygonOps.h"

namespace stavewright::audit_detail {
namespace {

constexpr Length in(std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); }
constexpr Length thickness = in(2);

FaceMark square(Point centre, Length side) {
    const Length half = side / 2;
    return {polygonOf({centre.x - half, centre.y - half, centre.x + half, centre.y + half}), {}};
}

Defect knotOnA(Point centre, Length side) {
    Defect defect;
    defect.kind = DefectKind::SoundKnot;
    defect.onA = square(centre, side);
    return defect;
}

TEST(Surface, AThroughDefectWithOneMarkRunsStraight) {
    Defect knot = knotOnA({in(10), in(3)}, in(1));
    knot.through = true;
    for (const Length depth : {in(0), in(1), in(2)}) {
        const auto mark = markAtDepth(knot, thickness, depth);
        ASSERT_TRUE(mark);
        EXPECT_EQ(boundingBox(*mark), boundingBox(knot.onA->outline));
    }
}

TEST(Surface, BetweenTwoMarksAKnotIsALinearCone) {
    Defect knot = knotOnA({in(10), in(3)}, in(1));
    knot.onB = square({in(14), in(5)}, in(2));
    knot.through = true;
    const auto quarter = markAtDepth(knot, thickness, in(1, 2));
    ASSERT_TRUE(quarter);
    // a quarter of the way: centre 11, 3 1/2, side 1 1/4
    EXPECT_EQ(boundingBox(*quarter), (Rect{in(83, 8), in(23, 8), in(93, 8), in(33, 8)}));
    EXPECT_EQ(boundingBox(*markAtDepth(knot, thickness, in(2))), boundingBox(knot.onB->outline));
}

TEST(Surface, TheConeIsTheHullOfAllLinesBetweenItsMarks) {
    std::mt19937_64 random(4);
    const auto micrometres = [&random](std::uint64_t below) {
        return Length::micrometres(static_cast<std::int64_t>(random() % below));
    };
    const auto anywhere = [&](int corners, Point near) {
        Polygon polygon;
        for (int i = 0; i < corners; ++i) {
            polygon.push_back({near.x + micrometres(60'000), near.y + micrometres(40'000)});
        }
        return polygon;
    };
    for (int round = 0; round < 200; ++round) {
        Defect knot;
        knot.kind = DefectKind::SoundKnot;
        knot.through = true;
        knot.onA = FaceMark{anywhere(3 + round % 12, {in(10), in(3)}), {}};
        knot.onB = FaceMark{round % 5 == 0 ? knot.onA->outline // edges that run alike
                                           : anywhere(3 + round % 7, {in(12), in(4)}),
                            {}};
        const Length depth = thickness * (round % 9) / 8;
        Polygon all;
        for (const Point& a : knot.onA->outline) {
            for (const Point& b : knot.onB->outline) {
                all.push_back(
                    {a.x + (b.x - a.x) * (round % 9) / 8, a.y + (b.y - a.y) * (round % 9) / 8});
            }
        }
        const Polygon hull = convexHull(all);
        const Polygon cone = *markAtDepth(knot, thickness, depth);
        ASSERT_TRUE(coveredWithinTolerance(hull, cone)) << round;
        ASSERT_TRUE(coveredWithinTolerance(cone, hull)) << round;
    }
}

TEST(Surface, ADefectThatIsNotThroughEndsAtItsDepth) {
    Defect knot = knotOnA({in(10), in(3)}, in(1));
    knot.depth = in(1, 4);
    EXPECT_TRUE(markAtDepth(knot, thickness, in(1, 4) - Length::nanometres(1)));
    EXPECT_FALSE(markAtDepth(knot, thickness, in(1, 4)));
}

TEST(Surface, WithoutADepthHalfTheThicknessIsTaken) {
    const Defect knot = knotOnA({in(10), in(3)}, in(1));
    EXPECT_TRUE(markAtDepth(knot, thickness, in(15, 16)));
    EXPECT_FALSE(markAtDepth(knot, thickness, in(17, 16)));
}

TEST(Surface, DepthCountsFromTheFaceThatIsMarked) {
    Defect knot;
    knot.onB = square({in(10), in(3)}, in(1));
    knot.depth = in(1, 4);
    EXPECT_FALSE(markAtDepth(knot, thickness, in(1, 8)));
    EXPECT_TRUE(markAtDepth(knot, thickness, in(15, 8)));
}

TEST(Surface, TwoDeepMarksAreTrustedNowhereBetweenThem) {
    Defect knot = knotOnA({in(10), in(3)}, in(1));
    knot.onB = square({in(20), in(3)}, in(1));
    knot.depth = in(3, 2);
    const auto mark = markAtDepth(knot, thickness, in(1));
    ASSERT_TRUE(mark);
    EXPECT_EQ(boundingBox(*mark), (Rect{in(19, 2), in(5, 2), in(41, 2), in(7, 2)}));
}

TEST(Surface, RulesCompareTheLongerSideOfTheLargerMark) {
    Defect knot = knotOnA({in(10), in(3)}, in(1));
    EXPECT_EQ(ruleSize(knot), in(1));
    knot.onB = FaceMark{polygonOf({in(9), in(3), in(12), in(4)}), {}};
    EXPECT_EQ(ruleSize(knot), in(3));
    knot.onB->form = Ellipse{{in(10), in(3)}, in(2), in(5, 2), 700'000};
    EXPECT_EQ(ruleSize(knot), in(5, 2));
}

TEST(Surface, HaloIsTheLargerOfLeastAndShareOfTheSize) {
    const Halo halo{100, 50, in(1, 2), in(3, 4)};
    const Margin margin = marginOf(knotOnA({in(10), in(3)}, in(1)), halo);
    EXPECT_EQ(margin.along, in(1));
    EXPECT_EQ(margin.across, in(3, 4));
}

TEST(Surface, OnlyKnotsHolesAndBarkHaveAHalo) {
    const Halo halo{100, 50, in(1, 2), in(1, 2)};
    for (const DefectKind kind : allDefectKinds) {
        Defect defect = knotOnA({in(10), in(3)}, in(1));
        defect.kind = kind;
        const bool disturbs = kind == DefectKind::SoundKnot || kind == DefectKind::LooseKnot ||
                              kind == DefectKind::KnotHole || kind == DefectKind::BarkPocket;
        EXPECT_EQ(marginOf(defect, halo).isNothing(), !disturbs);
    }
}

} // namespace
} // namespace stavewright::audit_detail
