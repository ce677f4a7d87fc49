// Locks that make a job impossible are named, and no more of them than are to blame.

#include "core/midjob/Conflicts.h"

#include <bit>
#include <random>
#include <set>

#include "core/hand/Drag.h"
#include "core/hand/Finish.h"
#include "core/hand/HandEdits.h"
#include "core/hand/PlanTree.h"
#include "core/midjob/Settle.h"
#include "tests/unit/core/hand/HandSample.h"
#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright::midjob {
namespace {

using small_job::in;

const PlanOptions each{.seed = 1, .seconds = 0, .work = 500, .threads = 1};

/// Blanks of 24 in on one board of 56 in between its raw ends of 1 in: two fit one after another,
/// as
/// long as the board is free. A bar laid in the middle takes the place of both.
Document threeSections(bool inTheMiddle) {
    Document job = small_job::oneBar();
    job.boards = {small_job::board(job, "1", Quarter{4}, in(1))};
    Board& board = job.boards[0];
    board.outline = {{in(0), in(0)}, {in(56), in(0)}, {in(56), in(4)}, {in(0), in(4)}};
    board.lookedAt = {{BoardFace::A, {in(0), in(56)}}, {BoardFace::B, {in(0), in(56)}}};
    board.trimAtDatum = in(1);
    board.trimAtFar = in(1);
    job.parts[0].count = 2;
    Plan plan;
    BoardLayout layout;
    layout.board = board.id;
    Section section;
    section.id = job.takeId<SectionId>();
    const Length from = inTheMiddle ? in(16) : in(1);
    section.along = {from, from + in(24)};
    section.frame.origin = {from, in(0)};
    Strip strip;
    strip.id = job.takeId<StripId>();
    strip.across = {in(0), in(11, 4)};
    Blank blank;
    blank.id = job.takeId<BlankId>();
    blank.purpose = {job.parts[0].id, 1, 0, 0};
    blank.rect = {in(0), in(0), in(24), in(11, 4)};
    blank.locked = true;
    strip.blanks = {blank};
    section.strips = {strip};
    layout.sections = {section};
    plan.boards = {layout};
    plan.unplaced = {{{job.parts[0].id, 2, 0, 0}, "no place"}};
    job.plan = plan;
    job.plan->totals = totalsOf(job, *job.plan).value();
    return job;
}

TEST(Conflicts, OneLockInTheMiddleIsToBlame) {
    const Document job = threeSections(true);
    ASSERT_TRUE(audit(job).passed()) << audit(job).findings.front().sentence;
    const Result<Conflict> found = conflictingLocks(job, each);
    ASSERT_TRUE(found.ok());
    ASSERT_EQ(found.value().locks.size(), 1U);
    EXPECT_TRUE(found.value().isSmallest);
    EXPECT_EQ(found.value().sentence, "The lock on X1 on board 1 leaves no place for X2.");
}

TEST(Conflicts, ALockThatLeavesRoomIsNot) {
    const Document job = threeSections(false);
    const Result<Conflict> found = conflictingLocks(job, each);
    ASSERT_TRUE(found.ok());
    EXPECT_TRUE(found.value().locks.empty());
    EXPECT_TRUE(found.value().sentence.empty());
}

TEST(Conflicts, AnIdleLockIsNotNamed) {
    // A second board with a lock on it that is in nobody's way.
    Document job = threeSections(true);
    job.parts[0].count = 3;
    Board second = job.boards[0];
    second.id = job.takeId<BoardId>();
    second.mark = "2";
    second.outline = {{in(0), in(0)}, {in(28), in(0)}, {in(28), in(4)}, {in(0), in(4)}};
    second.lookedAt = {{BoardFace::A, {in(0), in(28)}}, {BoardFace::B, {in(0), in(28)}}};
    job.boards.push_back(second);
    BoardLayout layout = job.plan->boards[0];
    layout.board = second.id;
    Section& section = layout.sections[0];
    section.id = job.takeId<SectionId>();
    section.along = {in(1), in(25)};
    section.frame.origin = {in(1), in(0)};
    section.strips[0].id = job.takeId<StripId>();
    section.strips[0].blanks[0].id = job.takeId<BlankId>();
    section.strips[0].blanks[0].purpose.instance = 2;
    job.plan->boards.push_back(layout);
    job.plan->unplaced = {{{job.parts[0].id, 3, 0, 0}, "no place"}};
    job.plan->totals = totalsOf(job, *job.plan).value();
    ASSERT_TRUE(audit(job).passed()) << audit(job).findings.front().sentence;
    ASSERT_EQ(locksOf(*job.plan).size(), 2U);
    const Result<Conflict> found = conflictingLocks(job, each);
    ASSERT_TRUE(found.ok());
    ASSERT_EQ(found.value().locks.size(), 1U);
    EXPECT_EQ(found.value().locks[0].board, job.boards[0].id);
}

/// A board like the job's first one with a locked blank of its own; so long, the blank from there.
void addLockedBoard(Document& job, const std::string& mark, Length length, Length from) {
    Board board = job.boards[0];
    board.id = job.takeId<BoardId>();
    board.mark = mark;
    board.outline = {{in(0), in(0)}, {length, in(0)}, {length, in(4)}, {in(0), in(4)}};
    board.lookedAt = {{BoardFace::A, {in(0), length}}, {BoardFace::B, {in(0), length}}};
    job.boards.push_back(board);
    BoardLayout layout = job.plan->boards[0];
    layout.board = board.id;
    Section& section = layout.sections[0];
    section.id = job.takeId<SectionId>();
    section.along = {from, from + in(24)};
    section.frame.origin = {from, in(0)};
    section.strips[0].id = job.takeId<StripId>();
    section.strips[0].blanks[0].id = job.takeId<BlankId>();
    section.strips[0].blanks[0].purpose.instance = static_cast<int>(job.plan->boards.size()) + 1;
    job.plan->boards.push_back(layout);
}

TEST(Conflicts, TheSmallestSetIsFoundAmongManyLocks) {
    // Two bars laid in the middle of boards that hold two each: one of them may stay. Ten locks on
    // boards that hold but one bar are idle; the blame is on the pair, wherever it stands.
    Document job = threeSections(true);
    for (int i = 0; i < 10; ++i) {
        addLockedBoard(job, "s" + std::to_string(i), in(28), in(1));
    }
    addLockedBoard(job, "2", in(56), in(16));
    job.parts[0].count = 13;
    job.plan->unplaced = {{{job.parts[0].id, 13, 0, 0}, "no place"}};
    job.plan->totals = totalsOf(job, *job.plan).value();
    ASSERT_TRUE(audit(job).passed()) << audit(job).findings.front().sentence;
    ASSERT_EQ(locksOf(*job.plan).size(), 12U);
    const Result<Conflict> found = conflictingLocks(job, each);
    ASSERT_TRUE(found.ok());
    ASSERT_EQ(found.value().locks.size(), 2U) << found.value().sentence;
    EXPECT_TRUE(found.value().isSmallest);
    EXPECT_EQ(found.value().locks[0].board, job.boards.front().id);
    EXPECT_EQ(found.value().locks[1].board, job.boards.back().id);
    EXPECT_EQ(found.value().sentence,
              "The locks on X1 on board 1 and X12 on board 2 together leave no place for X13.");
}

TEST(Conflicts, TheSmallestSetIsAsLargeAsCountingSays) {
    // Boards that hold two bars each, a bar locked somewhere on every one: the lock is in the way
    // where neither side of it holds another. Of k such locks and d bars without a place, any
    // k - d + 1 leave none.
    std::mt19937_64 random(3);
    std::set<std::size_t> sizes;
    for (std::uint64_t round = 0; round < hand_sample::rounds(6); ++round) {
        SCOPED_TRACE(round);
        Document job = threeSections(random() % 2 == 0);
        const std::size_t boards = 2 + random() % 3;
        for (std::size_t i = 1; i < boards; ++i) {
            addLockedBoard(job, std::to_string(i + 1), in(56),
                           in(1 + static_cast<std::int64_t>(random() % 61), 2) + in(1, 2));
        }
        const Length kerf = job.shop.machines.crosscut.kerf;
        std::set<BoardId> blockers;
        for (const BoardLayout& layout : job.plan->boards) {
            const Stretch along = layout.sections[0].along;
            const bool isRoom =
                along.from - in(1) >= in(24) + kerf || in(55) - along.to >= in(24) + kerf;
            if (!isRoom) {
                blockers.insert(layout.board);
            }
        }
        if (blockers.empty()) {
            continue;
        }
        const std::size_t free = boards - blockers.size(); // places beside locks
        const std::size_t lacking = 1 + random() % blockers.size();
        job.parts[0].count = static_cast<int>(boards + free + lacking);
        job.plan->unplaced.clear();
        for (int n = static_cast<int>(boards) + 1; n <= job.parts[0].count; ++n) {
            job.plan->unplaced.push_back({{job.parts[0].id, n, 0, 0}, "no place"});
        }
        job.plan->totals = totalsOf(job, *job.plan).value();
        ASSERT_TRUE(audit(job).passed()) << audit(job).findings.front().sentence;
        const Result<Conflict> found = conflictingLocks(job, each);
        ASSERT_TRUE(found.ok());
        EXPECT_EQ(found.value().locks.size(), blockers.size() - lacking + 1)
            << found.value().sentence;
        EXPECT_TRUE(found.value().isSmallest);
        for (const hand::Lock& lock : found.value().locks) {
            EXPECT_TRUE(blockers.contains(lock.board)) << found.value().sentence;
        }
        sizes.insert(found.value().locks.size());
    }
    EXPECT_GT(sizes.size(), 1U);
}

/// The sample with nothing to spare but the boards that its plan uses, and so many of its blanks
/// laid anywhere on them by hand, each locked.
Document lockedAnywhere(const Document& sample, std::size_t locks, std::mt19937_64& random) {
    Document job = hand_sample::planned(sample);
    std::vector<BoardId> used;
    for (Board& board : job.boards) {
        board.setAside = board.setAside || !hand::layoutOf(*job.plan, board.id);
        if (!board.setAside) {
            used.push_back(board.id);
        }
    }
    job.plan->boards.clear();
    job.plan->unplaced.clear();
    hand::listUnplaced(blankSpecs(job).value(), *job.plan, "It waits.");
    job.plan->totals = totalsOf(job, *job.plan).value();
    for (int tries = 0; tries < 100 && locksOf(*job.plan).size() < locks; ++tries) {
        const std::vector<Unplaced>& waiting = job.plan->unplaced;
        const BlankPurpose purpose = waiting[random() % waiting.size()].purpose;
        const Result<hand::Drag> drag = hand::Drag::fromTray(job, purpose);
        const BoardId board = used[random() % used.size()];
        const Point corner{in(static_cast<std::int64_t>(random() % 90)),
                           in(static_cast<std::int64_t>(random() % 4))};
        const auto place = drag ? drag.value().nearest(board, corner, {}) : std::nullopt;
        if (!place) {
            continue;
        }
        const BlankId laid{job.nextId};
        EXPECT_TRUE(apply(job, drag.value().drop(*place).value()).ok());
        EXPECT_TRUE(apply(job, hand::setLocked(job, laid, true).value()).ok());
    }
    return job;
}

/// Blanks and panels without a place when planned with these of the locks, or laid beside what
/// lies.
std::size_t missingWith(const Document& job, const std::vector<Lock>& locks) {
    Document tried = job;
    tried.plan = hand::withLocks(std::move(*tried.plan), locks);
    const std::size_t planned = planJob(tried, each).value().plan.unplaced.size();
    std::vector<BlankPurpose> missing;
    for (const Unplaced& unplaced : tried.plan->unplaced) {
        missing.push_back(unplaced.purpose);
    }
    layMissing(tried, missing);
    return std::min(planned, tried.plan->unplaced.size());
}

TEST(Conflicts, ALockIsNotBlamedForWhatAShortSearchMisses) {
    // Beside a bar that is locked on a board of its own, two bars of another length fit side by
    // side on the second board; the search, cut short, lays down but one of them.
    Document job = small_job::oneBar();
    for (const char* mark : {"Y", "Z"}) {
        Part shorter = job.parts[0];
        shorter.id = job.takeId<PartId>();
        shorter.mark = mark;
        shorter.length.base = in(12);
        job.parts.push_back(shorter);
    }
    for (const char* mark : {"1", "2"}) {
        job.boards.push_back(small_job::shortBoard(job, mark, in(8)));
    }
    job.plan = Plan{};
    job.plan->unplaced = {{{job.parts[0].id, 1, 0, 0}, "It waits."},
                          {{job.parts[1].id, 1, 0, 0}, "It waits."},
                          {{job.parts[2].id, 1, 0, 0}, "It waits."}};
    const BlankId bar{job.nextId};
    const Result<hand::Drag> drag = hand::Drag::fromTray(job, {job.parts[0].id, 1, 0, 0});
    ASSERT_TRUE(drag.ok());
    const auto place = drag.value().nearest(job.boards[0].id, {in(1), in(0)}, {});
    ASSERT_TRUE(place);
    ASSERT_TRUE(apply(job, drag.value().drop(*place).value()).ok());
    ASSERT_TRUE(apply(job, hand::setLocked(job, bar, true).value()).ok());
    ASSERT_EQ(locksOf(*job.plan).size(), 1U);
    PlanOptions more = each;
    more.work = 100'000;
    const Result<Conflict> found = conflictingLocks(job, more);
    ASSERT_TRUE(found.ok());
    EXPECT_EQ(found.value().sentence, "");
}

TEST(Conflicts, OnTheSamplesWhatIsNamedIsToBlameAndNothingSmallerIs) {
    std::mt19937_64 random(5);
    int conflicts = 0;
    int harmless = 0;
    for (const Document& sample : {samples::hallShelf(), samples::kitchenTable()}) {
        for (std::uint64_t round = 0; round < hand_sample::rounds(3); ++round) {
            const Document job = lockedAnywhere(sample, 3 + random() % 2, random);
            SCOPED_TRACE(job.info.title + ", round " + std::to_string(round));
            const std::vector<Lock> all = locksOf(*job.plan);
            const std::size_t least = missingWith(job, {});
            const Result<Conflict> found = conflictingLocks(job, each);
            ASSERT_TRUE(found.ok());
            SCOPED_TRACE(found.value().sentence);
            const std::size_t named = found.value().locks.size();
            ++(named == 0 ? harmless : conflicts);
            if (named == 0) {
                EXPECT_LE(missingWith(job, all), least);
                continue;
            }
            EXPECT_GT(missingWith(job, found.value().locks), least);
            for (const Lock& lock : found.value().locks) {
                EXPECT_EQ(std::count(all.begin(), all.end(), lock), 1);
            }
            if (!found.value().isSmallest) {
                continue;
            }
            // Every smaller set, whatever it is made of.
            for (unsigned set = 0; set < 1U << all.size(); ++set) {
                if (static_cast<std::size_t>(std::popcount(set)) >= named) {
                    continue;
                }
                std::vector<Lock> some;
                for (std::size_t i = 0; i < all.size(); ++i) {
                    if ((set >> i & 1U) != 0) {
                        some.push_back(all[i]);
                    }
                }
                EXPECT_LE(missingWith(job, some), least);
            }
        }
    }
    EXPECT_GT(conflicts, 0);
    EXPECT_GT(harmless, 0);
}

} // namespace
} // namespace stavewright::midjob
