// What must be true of the best value there is, and of bounds, whatever the job: more lumber and
// milder rules never cost anything, and it does not matter from which end a board is looked at.

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include "tests/property/CuttingJobs.h"
#include "tests/property/ProvedValue.h"

namespace stavewright::cutting::property {
namespace {

constexpr int prices = 2;
constexpr int looks = 40;

/// What the best plan costs, and that no bound is above it; nothing for a job too large to know.
std::optional<Cost> best(const Problem& problem) {
    const Engine engine(problem);
    const std::optional<Cost> value = engine.bestValue();
    if (value) {
        RC_ASSERT(engine.bound(prices, problem.boards.size(), looks) <= *value);
    }
    return value;
}

/// The easier job's best plan costs no more, nor is its bound above what the harder one costs.
void isNoDearer(const Problem& easier, const Problem& harder) {
    const std::optional<Cost> least = best(easier);
    const std::optional<Cost> most = best(harder);
    RC_PRE(least && most);
    RC_LOG() << describe(easier) << "costs " << *least << "\n"
             << describe(harder) << "costs " << *most << '\n';
    RC_CLASSIFY(*least < *most, "it mattered");
    RC_ASSERT(*least <= *most);
}

void costTheSame(const Problem& one, const Problem& other) {
    const std::optional<Cost> first = best(one);
    const std::optional<Cost> second = best(other);
    RC_PRE(first && second);
    RC_LOG() << describe(one) << "costs " << *first << "\n"
             << describe(other) << "costs " << *second << '\n';
    RC_ASSERT(*first == *second);
}

/// Sections are straightened along the near edge, so a sloping far one would not give the same
/// plans in a mirror that lies along the board; and across it, the best plan could not be known.
void straighten(Board& board) {
    const Rect box = boundingBox(board.outline);
    board.outline = {{box.x0, box.y0}, {box.x1, box.y0}, {box.x1, box.y1}, {box.x0, box.y1}};
}

RC_GTEST_PROP(BestValue, anotherBoardNeverMakesTheJobDearer, ()) {
    const Problem fewer = *tinyJob();
    const Problem other = *tinyJob();
    Problem more = fewer;
    more.boards.push_back(other.boards.front());
    isNoDearer(more, fewer);
}

RC_GTEST_PROP(BestValue, aMirrorAcrossTheBoardsChangesNothing, ()) {
    Problem job = *tinyJob();
    for (Board& board : job.boards) {
        straighten(board);
    }
    costTheSame(job, endsMirrored(job));
}

RC_GTEST_PROP(BestValue, aMirrorAlongTheBoardsChangesNothing, ()) {
    Problem job = *tinyJob();
    for (Board& board : job.boards) {
        straighten(board);
    }
    costTheSame(job, edgesMirrored(job));
}

RC_GTEST_PROP(BestValue, aBoardMayBeLaidDownTheOtherWay, ()) {
    Problem job = *tinyJob();
    straighten(job.boards.front());
    for (Kind& kind : job.kinds) {
        kind.mayTurn = true;
        kind.mayFaceOver = true;
    }
    Problem turned = job;
    if (*rc::gen::arbitrary<bool>()) {
        turnEndForEnd(turned.boards.front());
    } else {
        rollOver(turned.boards.front());
    }
    costTheSame(job, turned);
}

RC_GTEST_PROP(BestValue, aWiderKerfNeverHelps, ()) {
    // Where cuts cost nothing: a gap that one wide kerf makes in one pass, a narrow one makes in
    // two.
    Problem narrow = *tinyJob();
    narrow.limits.crosscutCost = 0;
    narrow.limits.ripCost = 0;
    Problem wide = narrow;
    for (int times = *rc::gen::inRange(1, 4); times > 0; --times) {
        widenKerf(wide);
    }
    isNoDearer(narrow, wide);
}

RC_GTEST_PROP(BestValue, aStricterRuleNeverHelps, ()) {
    const Problem mild = *tinyJob();
    Problem strict = mild;
    for (int times = *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(2, 7)); times > 0;
         --times) {
        makeStricter(strict);
    }
    isNoDearer(mild, strict);
}

} // namespace
} // namespace stavewright::cutting::property
