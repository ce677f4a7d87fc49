// Laws of boards, warp and defects.

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include "core/lumber/Board.h"
#include "core/lumber/SurfaceMeasure.h"
#include "tests/property/Generators.h"

namespace stavewright {
namespace {

using namespace property;

Length part(Length whole, int percent) { return whole * percent / 100; }

RC_GTEST_PROP(Lumber, reachableThicknessNeverGrowsWithLengthOrWidth, ()) {
    const Board board = *property::board();
    const Length length = lengthOf(board);
    const Length width = widthOf(board);
    const int from = *rc::gen::inRange(0, 90);
    const int to = *rc::gen::inRange(from, 101);
    const int outerFrom = *rc::gen::inRange(0, from + 1);
    const int outerTo = *rc::gen::inRange(to, 101);
    const int across = *rc::gen::inRange(1, 101);
    const int wider = *rc::gen::inRange(across, 101);
    const Length cleaning = *lengthWithin(0, 4);
    const Length small = reachableThickness(board, {part(length, from), part(length, to)},
                                            part(width, across), cleaning);
    const Length large = reachableThickness(board, {part(length, outerFrom), part(length, outerTo)},
                                            part(width, wider), cleaning);
    RC_ASSERT(large <= small);
    RC_ASSERT(small <= board.thinnest - cleaning);
}

RC_GTEST_PROP(Lumber, aMirroredBoardMeasuresTheSame, ()) {
    const Board board = *property::board();
    Board mirrored = board;
    const Length length = lengthOf(board);
    for (Point& corner : mirrored.outline) {
        corner.x = length - corner.x;
    }
    std::reverse(mirrored.outline.begin(), mirrored.outline.end());
    RC_ASSERT(exactBoardFeet(mirrored) == exactBoardFeet(board));
    RC_ASSERT(lengthOf(mirrored) == length);
    RC_ASSERT(widthOf(mirrored) == widthOf(board));
}

RC_GTEST_PROP(Lumber, whatWasNotLookedAtAndWhatWasMakeTheWhole, ()) {
    Board board = *property::board();
    const Stretch whole{Length(), lengthOf(board)};
    const int looks = *rc::gen::inRange(0, 6);
    for (int i = 0; i < looks; ++i) {
        const int from = *rc::gen::inRange(0, 100);
        board.lookedAt.push_back(
            {*rc::gen::element(BoardFace::A, BoardFace::B),
             {part(whole.to, from), part(whole.to, *rc::gen::inRange(from, 101))}});
    }
    const std::vector<Stretch> open = notLookedAt(board, BoardFace::A, whole);
    for (int percent = 0; percent < 100; ++percent) {
        const Length x = part(whole.to, percent) + Length::nanometres(1);
        const bool looked =
            std::any_of(board.lookedAt.begin(), board.lookedAt.end(), [&](const LookedAt& seen) {
                return seen.face == BoardFace::A && seen.stretch.from <= x && x < seen.stretch.to;
            });
        const bool isOpen = std::any_of(open.begin(), open.end(), [&](const Stretch& stretch) {
            return stretch.from <= x && x < stretch.to;
        });
        RC_ASSERT(looked != isOpen);
    }
}

RC_GTEST_PROP(Lumber, aSliceOfAThroughKnotLiesInTheHullOfItsMarks, ()) {
    Defect knot;
    knot.through = true;
    knot.onA = FaceMark{*convexPolygon(), std::nullopt};
    knot.onB = FaceMark{*convexPolygon(), std::nullopt};
    const Length thickness = Length::millimetres(50);
    const auto slice = outlineAtDepth(knot, thickness, *lengthWithin(0, 50));
    RC_ASSERT(slice.has_value());
    Polygon both = knot.onA->outline;
    both.insert(both.end(), knot.onB->outline.begin(), knot.onB->outline.end());
    RC_ASSERT(coveredWithinTolerance(*slice, convexHull(both)));
}

RC_GTEST_PROP(Lumber, aTallyStaysWithinAFootOfTheExactMeasure, ()) {
    SurfaceMeasureTally tally;
    std::int64_t tallied = 0;
    double exact = 0;
    const int boards = *rc::gen::inRange(1, 30);
    for (int i = 0; i < boards; ++i) {
        const int feet = *rc::gen::inRange(4, 17);
        const int quarters = *rc::gen::inRange(12, 60);
        const std::int64_t measure =
            tally.add(Length::inches(12 * feet), Length::inches(quarters, 4));
        RC_ASSERT(std::abs(static_cast<double>(measure) - feet * quarters / 48.0) <= 0.5);
        tallied += measure;
        exact += feet * quarters / 48.0;
    }
    RC_ASSERT(std::abs(static_cast<double>(tallied) - exact) <= 0.5 * boards);
}

} // namespace
} // namespace stavewright
