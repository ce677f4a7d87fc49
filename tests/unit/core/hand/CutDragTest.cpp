// A crosscut or rip dragged: good places are audited when the cut is let go there, bad ones say why
// and offer the nearest good one.

#include "core/hand/CutDrag.h"

#include "core/hand/PlanTree.h"
#include "tests/unit/core/hand/HandSample.h"

namespace stavewright::hand {
namespace {

using namespace hand_sample;

TEST(CutDrag, ACutGoesOnlyWhereEverythingStillComesOut) {
    int moved = 0;
    int refusedPlaces = 0;
    std::size_t number = 0;
    for (Document job : {planned(samples::hallShelf()), planned(samples::kitchenTable())}) {
        const Length step =
            job.info.units == UnitSystem::Inches ? Length::inches(1, 16) : Length::millimetres(1);
        for (const BoardLayout& layout : Plan(*job.plan).boards) {
            for (const CutRef& cut : cutsOn(job, layout.board)) {
                if (cut.kind() == CutKind::Second) {
                    EXPECT_FALSE(CutDrag::take(job, layout.board, cut).ok());
                    continue;
                }
                if (++number % 4 != 0) {
                    continue; // a quarter of them is enough here
                }
                const Result<CutDrag> drag = CutDrag::take(job, layout.board, cut);
                ASSERT_TRUE(drag.ok()) << describe(drag.error());
                const Length mark = drag.value().mark();
                for (const int marks : {-24, -3, 3, 24}) {
                    const CutDrag::Held held = drag.value().at(mark + step * marks, Length());
                    SCOPED_TRACE(held.words);
                    if (!held.isLegal) {
                        ++refusedPlaces;
                        ASSERT_TRUE(held.nearest);
                        EXPECT_TRUE(drag.value().at(*held.nearest, Length()).isLegal ||
                                    *held.nearest == mark);
                        continue;
                    }
                    const Result<Edit> edit = drag.value().drop(held.where);
                    ASSERT_TRUE(edit.ok()) << describe(edit.error());
                    Document after = job;
                    doUndoRedo(after, edit.value());
                    expectAudited(after);
                    EXPECT_EQ(markOf(after, layout.board, cut), std::optional(held.where));
                    ++moved;
                }
            }
        }
    }
    EXPECT_GT(moved, 5);
    EXPECT_GT(refusedPlaces, 5);
}

TEST(CutDrag, ItSnapsToTheEndOfABlank) {
    const Document job = planned(samples::kitchenTable());
    for (const BoardLayout& layout : job.plan->boards) {
        for (const CutRef& cut : cutsOn(job, layout.board)) {
            if (cut.kind() != CutKind::Crosscut) {
                continue;
            }
            const Result<CutDrag> drag = CutDrag::take(job, layout.board, cut);
            ASSERT_TRUE(drag.ok());
            const CutDrag::Held held =
                drag.value().at(drag.value().mark() + Length::inches(1, 64), Length::inches(1, 8));
            if (!held.snappedTo.empty()) {
                EXPECT_NE(held.words.find(held.snappedTo), std::string::npos);
                return;
            }
        }
    }
    FAIL() << "no crosscut stands at anything";
}

TEST(CutDrag, WhatIsLockedOrCutStays) {
    Document job = planned(samples::hallShelf());
    const BoardId board = job.plan->boards[0].board;
    const CutRef cut = cutsOn(job, board).front();
    job.plan->boards[0].locked = true;
    EXPECT_FALSE(CutDrag::take(job, board, cut).ok());
    job.plan->boards[0].locked = false;
    for (Section& section : job.plan->boards[0].sections) {
        section.state = CutState::Cut;
    }
    EXPECT_FALSE(CutDrag::take(job, board, cut).ok());
}

} // namespace
} // namespace stavewright::hand
