// Where blanks lie now, in words.

#include "core/midjob/Words.h"

#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright::midjob {
namespace {

using small_job::in;

/// A plan in which each of these boards gives one stave of the panel.
Plan panelFrom(Document& job, const std::vector<std::size_t>& boards) {
    Plan plan;
    int stave = 0;
    for (const std::size_t board : boards) {
        Blank blank;
        blank.id = job.takeId<BlankId>();
        blank.purpose = {job.parts[0].id, 1, 0, ++stave};
        Strip strip;
        strip.id = job.takeId<StripId>();
        strip.blanks = {blank};
        Section section;
        section.id = job.takeId<SectionId>();
        section.strips = {strip};
        plan.boards.push_back({job.boards[board - 1].id, {section}, false});
    }
    return plan;
}

TEST(Words, APanelOfManyBoardsIsToldWithTheOneThatIsNew) {
    Document job = small_job::oneBar();
    for (const char* mark : {"1", "2", "3", "4", "5"}) {
        job.boards.push_back(small_job::board(job, mark, Quarter{4}, in(1)));
    }
    const std::vector<BlankPurpose> panel = {{job.parts[0].id, 1, 0, 0}};
    const auto told = [&](const std::vector<std::size_t>& before,
                          const std::vector<std::size_t>& now) {
        job.plan = panelFrom(job, before);
        return placesOf(job, panelFrom(job, now), panel);
    };
    EXPECT_EQ(told({1, 2, 3}, {1, 2, 4}), "X1 with wood from board 4");
    EXPECT_EQ(told({1, 2}, {1, 2, 5}), "X1 with wood from board 5");
    EXPECT_EQ(told({1, 2, 3}, {1, 4, 5}), "X1 from other staves");
    EXPECT_EQ(told({1, 2, 3, 4}, {1, 2, 3}), "X1 from other staves");
    EXPECT_EQ(told({1, 2, 3}, {1, 4}), "X1 from boards 1 and 4");
    EXPECT_EQ(told({1, 2, 3}, {2}), "X1 from board 2");
    EXPECT_EQ(told({2, 2}, {2}), "X1 elsewhere on board 2");
}

TEST(Words, WhatIsLeftInItsStripIsToldAsShifted) {
    Document job = small_job::oneBar();
    job.boards.push_back(small_job::board(job, "1", Quarter{4}, in(1)));
    job.plan = panelFrom(job, {1});
    Plan shifted = *job.plan;
    Rect& wood = shifted.boards[0].sections[0].strips[0].blanks[0].rect;
    wood = {wood.x0 + in(1), wood.y0, wood.x1 + in(1), wood.y1};
    EXPECT_EQ(placesOf(job, shifted, {{job.parts[0].id, 1, 0, 0}}), "X1 shifted in its strip");
}

} // namespace
} // namespace stavewright::midjob
