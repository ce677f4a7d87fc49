// Planning again leaves what is locked or cut where it is, to the last field, and plans the rest
// round it.

#include "core/planning/Kept.h"

#include <algorithm>
#include <random>

#include <gtest/gtest.h>

#include "core/audit/Audit.h"
#include "core/document/Ids.h"
#include "tests/tools/samples/Samples.h"
#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright {
namespace {

using namespace small_job;

Document planned(Document job, std::uint64_t seed, std::int64_t work = 20'000) {
    job.plan = planOf(job, seed, work);
    job.nextId = std::max(job.nextId, largestId(*job.plan) + 1);
    return job;
}

void expectAudited(const Document& job, const Plan& plan) {
    const AuditReport report = audit(job, plan);
    for (const Finding& finding : report.findings) {
        EXPECT_NE(finding.severity, Severity::Failure)
            << static_cast<int>(finding.kind) << ": " << finding.sentence;
    }
    EXPECT_EQ(report.totals, plan.totals);
}

const BoardLayout* layoutOf(const Plan& plan, BoardId board) {
    for (const BoardLayout& layout : plan.boards) {
        if (layout.board == board) {
            return &layout;
        }
    }
    return nullptr;
}

const Section* sectionOf(const Plan& plan, SectionId id) {
    for (const BoardLayout& layout : plan.boards) {
        for (const Section& section : layout.sections) {
            if (section.id == id) {
                return &section;
            }
        }
    }
    return nullptr;
}

/// What a maker might do to the pieces of a plan before she plans again.
void touch(Plan& plan, std::mt19937_64& random) {
    const auto oneIn = [&](std::uint64_t n) { return random() % n == 0; };
    for (BoardLayout& layout : plan.boards) {
        layout.locked = oneIn(9);
        for (Section& section : layout.sections) {
            section.locked = oneIn(7);
            if (oneIn(6)) {
                section.state = CutState::Cut;
            }
            for (Strip& strip : section.strips) {
                for (Blank& blank : strip.blanks) {
                    blank.locked = oneIn(8);
                    if (section.state == CutState::Cut && oneIn(2)) {
                        blank.state = CutState::Cut;
                        blank.note = "cut a hair short";
                        blank.actual = blank.rect;
                        blank.actual->x1 -= Length::millimetres(1);
                    }
                }
            }
        }
    }
}

void expectKept(const Plan& before, const Plan& after) {
    for (const BoardLayout& layout : before.boards) {
        if (layout.locked) {
            const BoardLayout* now = layoutOf(after, layout.board);
            ASSERT_TRUE(now);
            EXPECT_EQ(*now, layout);
            continue;
        }
        for (const Section& section : layout.sections) {
            if (planning::mustStay(layout, section)) {
                const Section* now = sectionOf(after, section.id);
                ASSERT_TRUE(now);
                EXPECT_EQ(*now, section);
            }
        }
    }
}

void planAgainWithLocks(const Document& job, std::uint64_t seed) {
    SCOPED_TRACE(job.info.title + ", seed " + std::to_string(seed));
    Document begun = planned(job, seed);
    ASSERT_TRUE(begun.plan->unplaced.empty());
    std::mt19937_64 random(seed);
    touch(*begun.plan, random);
    const Plan again = planOf(begun, seed + 100);
    expectKept(*begun.plan, again);
    expectAudited(begun, again);
}

TEST(Kept, KitchenTable) {
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
        planAgainWithLocks(samples::kitchenTable(), seed);
    }
}

TEST(Kept, LinenChest) {
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
        planAgainWithLocks(samples::linenChest(), seed);
    }
}

TEST(Kept, WithoutLocksNothingStays) {
    const Document job = planned(samples::kitchenTable(), 1);
    const Plan again = planOf(job, 2);
    visitPlanIds(again, [&](const auto& id) { EXPECT_GE(id.value, job.nextId); });
}

TEST(Kept, APlanThatIsCutWholeComesBackAsItWas) {
    Document job = planned(samples::kitchenTable(), 1);
    for (BoardLayout& layout : job.plan->boards) {
        layout.locked = true;
    }
    const Plan again = planOf(job, 2);
    EXPECT_EQ(again.boards, job.plan->boards);
    EXPECT_EQ(reasons(again), "");
    expectAudited(job, again);
}

/// Both panels of this job get staves from one board.
Document twoPanels() {
    Document job = oneBar();
    Part& panel = job.parts[0];
    panel.count = 2;
    panel.width.base = in(12);
    panel.makeUp.panel = PanelMakeUp{in(2), in(6), 2, 8};
    for (const char* mark : {"1", "2", "3", "4", "5"}) {
        job.boards.push_back(board(job, mark, {4}, in(1)));
    }
    return job;
}

TEST(Kept, StavesStayInTheirOwnPanel) {
    Document job = planned(twoPanels(), 1);
    ASSERT_TRUE(job.plan->unplaced.empty());
    // One stave of each panel is locked.
    std::set<int> panels;
    std::vector<Blank> locked;
    for (BoardLayout& layout : job.plan->boards) {
        for (Section& section : layout.sections) {
            for (Strip& strip : section.strips) {
                for (Blank& blank : strip.blanks) {
                    if (panels.insert(blank.purpose.instance).second) {
                        blank.locked = true;
                        locked.push_back(blank);
                    }
                }
            }
        }
    }
    ASSERT_EQ(locked.size(), 2U);
    const Plan again = planOf(job, 3);
    expectKept(*job.plan, again);
    expectAudited(job, again);
    EXPECT_EQ(reasons(again), "");
}

TEST(Kept, APieceInALockedPiecesSectionGoesWhenItsWoodTurnsOutBad) {
    Document job = oneBar();
    job.parts[0].count = 2;
    job.boards = {board(job, "1", {4}, in(1)), board(job, "2", {4}, in(1))};
    job = planned(job, 1);
    ASSERT_TRUE(job.plan->unplaced.empty());
    ASSERT_EQ(job.plan->boards.size(), 1U);
    // Both bars lie on one board; one is locked, a hole is found in the middle of the other.
    std::vector<std::pair<Section*, Blank*>> bars;
    for (Section& section : job.plan->boards[0].sections) {
        for (Strip& strip : section.strips) {
            for (Blank& blank : strip.blanks) {
                bars.emplace_back(&section, &blank);
            }
        }
    }
    ASSERT_EQ(bars.size(), 2U);
    ASSERT_EQ(bars[0].first, bars[1].first);
    bars[0].second->locked = true;
    const Blank lockedBar = *bars[0].second;
    const Rect& other = bars[1].second->rect;
    const Point middle =
        toOuter(bars[1].first->frame, Point{(other.x0 + other.x1) / 2, (other.y0 + other.y1) / 2});
    Board& drilled = *std::find_if(job.boards.begin(), job.boards.end(), [&](const Board& b) {
        return b.id == job.plan->boards[0].board;
    });
    drilled.defects.push_back(defect(job, DefectKind::KnotHole, middle, in(1)));
    const Plan again = planOf(job, 2);
    EXPECT_EQ(reasons(again), "");
    expectAudited(job, again);
    const Section* now = sectionOf(again, bars[0].first->id);
    ASSERT_TRUE(now);
    ASSERT_EQ(now->strips.size(), 1U);
    EXPECT_EQ(now->strips[0].blanks, std::vector<Blank>{lockedBar});
}

TEST(Kept, WhatTheJobNoLongerWantsGoesUnlessItIsLocked) {
    Document job = oneBar();
    job.parts[0].count = 3;
    job.boards = {board(job, "1", {4}, in(1))};
    job = planned(job, 1);
    ASSERT_TRUE(job.plan->unplaced.empty());
    Blank* last = nullptr;
    for (Section& section : job.plan->boards[0].sections) {
        for (Strip& strip : section.strips) {
            for (Blank& blank : strip.blanks) {
                if (blank.purpose.instance == 1) {
                    blank.locked = true;
                }
                last = blank.purpose.instance == 3 ? &blank : last;
            }
        }
    }
    ASSERT_TRUE(last);
    job.parts[0].count = 2;
    const Plan again = planOf(job, 2);
    expectAudited(job, again);
    EXPECT_EQ(again.totals.placed, 2);
    // Locked, it stays, and the audit says what is wrong with it.
    last->locked = true;
    const Plan withIt = planOf(job, 2);
    EXPECT_EQ(withIt.totals.placed, 3);
    EXPECT_FALSE(audit(job, withIt).passed());
}

TEST(Kept, KeepsTheThicknessThatLockedPiecesWerePlannedAt) {
    Document job = oneBar();
    job.parts[0].count = 2;
    job.parts[0].leastThickness = in(5, 8);
    // Flat, 7/8 in thick: 3/4 in and what milling takes do not come out of it.
    job.boards = {board(job, "1", {4}, in(7, 8))};
    job = planned(job, 1);
    ASSERT_TRUE(job.plan->unplaced.empty());
    ASSERT_EQ(job.plan->thicknesses.size(), 1U);
    std::vector<Section>& sections = job.plan->boards[0].sections;
    const auto cut = std::find_if(sections.begin(), sections.end(),
                                  [](const Section& section) { return !section.strips.empty(); });
    ASSERT_NE(cut, sections.end());
    cut->locked = true;
    job.boards.push_back(board(job, "2", {4}, in(1)));
    const Plan again = planOf(job, 2);
    EXPECT_EQ(again.thicknesses, job.plan->thicknesses);
    expectKept(*job.plan, again);
    expectAudited(job, again);
}

} // namespace
} // namespace stavewright
