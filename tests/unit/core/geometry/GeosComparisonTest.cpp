// The predicates against GEOS, another library for the same questions (LGPL, linked in this test
// only, through its C interface). Shapes are seeded and lie on the micrometre grid.

#include <geos_c.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <memory>

#include "core/geometry/PolygonOps.h"
#include "tests/unit/core/geometry/Random.h"

namespace stavewright {
namespace {

constexpr int cases = 4'000;

class GeosComparison : public testing::Test {
  protected:
    void SetUp() override { initGEOS(ignore, ignore); }
    static void ignore(const char* /*message*/, ...) {}
    void TearDown() override { finishGEOS(); }

    struct Destroy {
        void operator()(GEOSGeometry* geometry) const { GEOSGeom_destroy(geometry); }
    };
    using Geometry = std::unique_ptr<GEOSGeometry, Destroy>;

    /// In micrometres.
    static Geometry geometryOf(const Polygon& polygon) {
        const auto count = static_cast<unsigned>(polygon.size());
        GEOSCoordSequence* corners = GEOSCoordSeq_create(count + 1, 2);
        for (unsigned i = 0; i <= count; ++i) {
            const Point& corner = polygon[i % count];
            GEOSCoordSeq_setXY(corners, i, static_cast<double>(corner.x.inNanometres()) / 1000,
                               static_cast<double>(corner.y.inNanometres()) / 1000);
        }
        return Geometry(GEOSGeom_createPolygon(GEOSGeom_createLinearRing(corners), nullptr, 0));
    }

    static void compare(const Polygon& a, const Polygon& b, int number) {
        const Geometry geometryA = geometryOf(a);
        const Geometry geometryB = geometryOf(b);
        ASSERT_EQ(GEOSisValid(geometryA.get()), 1) << number;
        EXPECT_TRUE(validatePolygon(a).ok()) << number;
        EXPECT_EQ(coveredBy(a, b), GEOSCoveredBy(geometryA.get(), geometryB.get()) == 1) << number;
        EXPECT_EQ(interiorsMeet(a, b),
                  GEOSRelatePattern(geometryA.get(), geometryB.get(), "T********") == 1)
            << number;

        const Geometry common(GEOSIntersection(geometryA.get(), geometryB.get()));
        double theirs = 0;
        double around = 0;
        ASSERT_EQ(GEOSArea(common.get(), &theirs), 1);
        ASSERT_EQ(GEOSLength(common.get(), &around), 1);
        const auto ours =
            static_cast<double>(intersection(a, b).area.inSquareNanometres() / 1'000'000);
        // Our corners are rounded to the grid: at most a micrometre all along the border.
        EXPECT_NEAR(ours, theirs, around + 1) << number;
        if (GEOSisEmpty(common.get()) == 0 && theirs > 100 * around) {
            EXPECT_TRUE(overlapsBeyondTolerance(a, b)) << number;
        }
        if (!interiorsMeet(a, b)) {
            EXPECT_FALSE(overlapsBeyondTolerance(a, b)) << number;
        }
    }

    static void compareCover(const Polygon& inner, const Polygon& outer, int number) {
        const Geometry geometryInner = geometryOf(inner);
        const Geometry geometryOuter = geometryOf(outer);
        if (GEOSCoveredBy(geometryInner.get(), geometryOuter.get()) == 1) {
            EXPECT_TRUE(coveredWithinTolerance(inner, outer)) << number;
            return;
        }
        // The farthest corner of what lies outside: inner reaches out at least that far.
        const Geometry outside(GEOSDifference(geometryInner.get(), geometryOuter.get()));
        const Geometry corners(GEOSGeom_extractUniquePoints(outside.get()));
        double farthest = 0;
        for (int i = 0; i < GEOSGetNumGeometries(corners.get()); ++i) {
            double distance = 0;
            GEOSDistance(GEOSGetGeometryN(corners.get(), i), geometryOuter.get(), &distance);
            farthest = std::max(farthest, distance);
        }
        if (farthest > 5) {
            EXPECT_FALSE(coveredWithinTolerance(inner, outer)) << number << " by " << farthest;
        }
    }
};

const Rect field{Length::millimetres(-600), Length::millimetres(-600), Length::millimetres(600),
                 Length::millimetres(600)};

TEST_F(GeosComparison, starsAgainstStars) {
    test::Shapes shapes(1);
    for (int i = 0; i < cases && !HasFailure(); ++i) {
        const auto star = [&] {
            return shapes.star(field, static_cast<int>(shapes.between(3, 14)),
                               shapes.between(50'000, 600'000));
        };
        const Polygon a = star();
        const Polygon b = star();
        compare(a, b, i);
        compareCover(a, b, i);
    }
}

TEST_F(GeosComparison, rectanglesAgainstBoards) {
    test::Shapes shapes(2);
    for (int i = 0; i < cases && !HasFailure(); ++i) {
        const Polygon board = shapes.board(static_cast<int>(shapes.between(1, 10)));
        Rect near = boundingBox(board);
        near.x0 -= Length::millimetres(20);
        near.y0 -= Length::millimetres(20);
        near.y1 += Length::millimetres(20);
        const Polygon rectangle = shapes.rectangle(near);
        compare(rectangle, board, i);
        compareCover(rectangle, board, i);
    }
}

TEST_F(GeosComparison, smallTightShapesWhereContactIsFrequent) {
    // On a grid of ten micrometre steps corners and edges fall on one another all the time.
    test::Shapes shapes(3);
    const Rect small{Length::micrometres(-5), Length::micrometres(-5), Length::micrometres(5),
                     Length::micrometres(5)};
    int tried = 0;
    for (int i = 0; tried < cases && !HasFailure(); ++i) {
        const Polygon a = shapes.rectangle(small);
        Polygon b;
        for (int corner = 0; corner < 5; ++corner) {
            b.push_back(shapes.spot(small));
        }
        b = normalised(b);
        if (!validatePolygon(b).ok()) {
            continue;
        }
        ++tried;
        EXPECT_EQ(coveredBy(a, b), GEOSCoveredBy(geometryOf(a).get(), geometryOf(b).get()) == 1)
            << i;
        EXPECT_EQ(coveredBy(b, a), GEOSCoveredBy(geometryOf(b).get(), geometryOf(a).get()) == 1)
            << i;
        EXPECT_EQ(interiorsMeet(a, b),
                  GEOSRelatePattern(geometryOf(a).get(), geometryOf(b).get(), "T********") == 1)
            << i;
    }
}

} // namespace
} // namespace stavewright
