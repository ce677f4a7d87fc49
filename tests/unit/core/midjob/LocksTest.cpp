// What is locked is the same to the bit after anything that plans: anew, keeping places, for other
// wishes, and after whatever happens in the shop elsewhere.

#include "core/hand/Locks.h"
#include <functional>

#include "core/choices/Alternatives.h"
#include "core/hand/Drag.h"
#include "core/hand/HandEdits.h"
#include "core/hand/PlanTree.h"
#include "core/hand/SafeWindow.h"
#include "core/midjob/MadeCuts.h"
#include "core/midjob/Mishaps.h"
#include "core/midjob/PlanRest.h"
#include "tests/unit/core/midjob/ShopSample.h"

namespace stavewright::midjob {
namespace {

using namespace shop_sample;

const PlanOptions quick{.seed = 3, .seconds = 0, .work = 20, .threads = 1};

/// Everything that is locked, with where it lies.
struct Locked {
    std::vector<BoardLayout> boards;
    std::vector<std::pair<BoardId, Section>> sections;
    struct Piece {
        BoardId board;
        Frame frame;
        Blank blank;
        friend bool operator==(const Piece&, const Piece&) = default;
    };
    std::vector<Piece> blanks;
    friend bool operator==(const Locked&, const Locked&) = default;
};

Locked lockedIn(const Plan& plan) {
    Locked locked;
    for (const BoardLayout& layout : plan.boards) {
        if (layout.locked) {
            locked.boards.push_back(layout);
        }
        for (const Section& section : layout.sections) {
            if (section.locked) {
                locked.sections.emplace_back(layout.board, section);
            }
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    if (blank.locked) {
                        locked.blanks.push_back({layout.board, section.frame, blank});
                    }
                }
            }
        }
    }
    return locked;
}

/// Two or three blanks, a section and a board, drawn at random.
Document withLocks(Document job, std::mt19937_64& random) {
    const auto lock = [&job](auto id) {
        ASSERT_TRUE(apply(job, hand::setLocked(job, id, true).value()).ok());
    };
    const std::vector<BlankId> blanks = blanksOf(*job.plan);
    for (std::uint64_t i = 0; i < 2 + random() % 2; ++i) {
        lock(blanks[random() % blanks.size()]);
    }
    const std::vector<BoardLayout> layouts = job.plan->boards;
    const BoardLayout& some = layouts[random() % layouts.size()];
    lock(some.sections[random() % some.sections.size()].id);
    lock(layouts[random() % layouts.size()].board);
    return job;
}

bool hasLock(const Document& job, BoardId board) {
    for (const BoardLayout& layout : job.plan->boards) {
        if (layout.board == board) {
            Plan only;
            only.boards = {layout};
            return !(lockedIn(only) == Locked{});
        }
    }
    return false;
}

class Locks : public testing::TestWithParam<Document (*)()> {};

TEST_P(Locks, AreTheSameToTheBitWhicheverWayItIsPlanned) {
    const Document plannedOnce = planned(GetParam()());
    for (std::uint64_t seed = 1; seed <= rounds(1); ++seed) {
        SCOPED_TRACE(seed);
        std::mt19937_64 random(seed);
        const Document job = withLocks(plannedOnce, random);
        const Locked before = lockedIn(*job.plan);
        const auto expectSame = [&](const Plan& plan, const char* way) {
            SCOPED_TRACE(way);
            EXPECT_TRUE(lockedIn(plan) == before);
            EXPECT_TRUE(audit(job, plan).passed());
        };
        for (const RestMode mode : {RestMode::KeepPlaces, RestMode::FromScratch}) {
            Document moved = job;
            for (const BlankId id : blanksOf(*job.plan)) { // what is free goes back to the tray
                const auto place = hand::placeOf(*moved.plan, id);
                if (place && hand::whyFixed(moved, *place).empty()) {
                    ASSERT_TRUE(apply(moved, hand::backToTray(moved, id).value()).ok());
                    break;
                }
            }
            ASSERT_TRUE(lockedIn(*moved.plan) == before);
            const Result<RestOutcome> rest = planRest(moved, mode, quick);
            ASSERT_TRUE(rest.ok()) << describe(rest.error());
            expectSame(rest.value().outcome.plan, "the rest");
        }
        const Result<PlanOutcome> anew = planJob(job, quick);
        ASSERT_TRUE(anew.ok());
        expectSame(anew.value().plan, "the job");
        if (GetParam() != samples::hallShelf && rounds(1) == 1) {
            continue; // three more plans take long, and those of the smallest tell as much
        }
        choices::AlternativesWish wish;
        wish.each = quick;
        const Result<choices::Alternatives> other = choices::findAlternatives(job, wish, {});
        ASSERT_TRUE(other.ok());
        for (const auto& plan : other.value().plans) {
            expectSame(plan.plan, "another plan");
        }
    }
}

TEST_P(Locks, AreTheSameToTheBitAfterWhatHappensElsewhere) {
    const Document plannedOnce = planned(GetParam()());
    std::uint64_t happened = 0;
    for (std::uint64_t seed = 11; happened < rounds(2) && seed < 11 + rounds(40); ++seed) {
        SCOPED_TRACE(seed);
        std::mt19937_64 random(seed);
        const Document job = withLocks(plannedOnce, random);
        const Locked before = lockedIn(*job.plan);
        const BoardId board = job.plan->boards[random() % job.plan->boards.size()].board;
        if (hasLock(job, board)) {
            continue;
        }
        const std::vector<hand::CutRef> cuts = hand::cutsOn(job, board);
        Plan only;
        only.boards = {*hand::layoutOf(*job.plan, board)};
        const std::vector<BlankId> blanks = blanksOf(only);
        std::vector<Result<ShopEvent>> events;
        events.push_back(cutMade(job, board, cuts.front(),
                                 *hand::markOf(job, board, cuts.front()) + Length::inches(1), {}));
        events.push_back(spoiled(job, blanks[random() % blanks.size()], {}));
        events.push_back(boardRejected(job, board, {}));
        for (const Result<ShopEvent>& event : events) {
            if (!event) {
                continue; // there is no such cut there
            }
            ++happened;
            EXPECT_TRUE(lockedIn(event.value().plan) == before) << event.value().sentence;
        }
    }
    EXPECT_GT(happened, 0U);
}

/// One thing that happens somewhere: a cut on its mark or a little off, a knot, a spoiled blank, a
/// board rejected.
Result<ShopEvent> happensIn(const Document& job, std::mt19937_64& random) {
    const BoardLayout& layout = job.plan->boards[random() % job.plan->boards.size()];
    Plan only;
    only.boards = {layout};
    const std::vector<BlankId> blanks = blanksOf(only);
    const std::vector<hand::CutRef> cuts = hand::cutsOn(job, layout.board);
    const std::uint64_t which = random() % 8;
    if (which < 4 && !cuts.empty()) {
        const hand::CutRef& cut = cuts[random() % cuts.size()];
        const Length off = Length::inches(static_cast<std::int64_t>(random() % 9) - 4, 8);
        return cutMade(job, layout.board, cut,
                       *hand::markOf(job, layout.board, cut) + (which < 2 ? Length() : off), {});
    }
    if (which == 7 || blanks.empty()) {
        return boardRejected(job, layout.board, {});
    }
    const BlankId id = blanks[random() % blanks.size()];
    if (which < 6) {
        const Rect wood = woodOf(hand::blankAt(*job.plan, *hand::placeOf(*job.plan, id)));
        const Result<Defect> knot = markedOnBlank(
            job, id, DefectKind::LooseKnot,
            {wood.length() / 2, wood.width() / 3, wood.width() / 3, wood.width() / 3}, true);
        return knot ? defectFound(job, layout.board, knot.value(), {})
                    : Result<ShopEvent>(knot.error());
    }
    return spoiled(job, id, {});
}

/// Cuts and what they take off an allowance break no lock; place, pose and purpose stay.
TEST_P(Locks, StayThroughADayInTheShopAndTheRestPlannedAfterIt) {
    const Document plannedOnce = planned(GetParam()());
    std::uint64_t taken = 0;
    for (std::uint64_t seed = 21; seed < 21 + rounds(1); ++seed) {
        SCOPED_TRACE(seed);
        std::mt19937_64 random(seed);
        const Document locked = withLocks(plannedOnce, random);
        Document job = locked;
        for (int i = 0; i < 4; ++i) {
            const Result<ShopEvent> event = happensIn(job, random);
            if (!event) {
                continue; // a lock would not stay
            }
            const Document was = job; // own cuts may land off at one end, then at the other
            ASSERT_NO_FATAL_FAILURE(takeOfMany(job, event));
            ++taken;
            const std::vector<hand::Lock> broken = hand::locksBroken(*was.plan, *job.plan);
            EXPECT_TRUE(broken.empty())
                << event.value().sentence << ' ' << hand::namesOf(was, broken);
            // A rejected board that is begun is locked on top.
            EXPECT_GE(hand::locksOf(*job.plan).size(), hand::locksOf(*locked.plan).size());
        }
        const Locked before = lockedIn(*job.plan);
        std::vector<RestMode> modes = {RestMode::KeepPlaces, RestMode::FromScratch};
        if (rounds(1) == 1) { // one of them on each sample
            modes.erase(GetParam() == samples::linenChest ? modes.begin() + 1 : modes.begin());
        }
        for (const RestMode mode : modes) {
            const Result<RestOutcome> rest = planRest(job, mode, quick);
            ASSERT_TRUE(rest.ok()) << describe(rest.error());
            EXPECT_TRUE(lockedIn(rest.value().outcome.plan) == before);
            EXPECT_TRUE(audit(job, rest.value().outcome.plan).passed());
        }
    }
    EXPECT_GT(taken, 0U);
}

/// Blanks beside locked ones laid elsewhere, turned and changed with one another by hand.
TEST_P(Locks, StayWhateverTheHandDoesBesideThem) {
    const Document plannedOnce = planned(GetParam()());
    std::uint64_t done = 0;
    for (std::uint64_t seed = 31; done < rounds(4) && seed < 31 + rounds(20); ++seed) {
        SCOPED_TRACE(seed);
        std::mt19937_64 random(seed);
        Document job = withLocks(plannedOnce, random);
        const Locked before = lockedIn(*job.plan);
        for (int i = 0; i < 12; ++i) {
            const std::vector<BlankId> blanks = blanksOf(*job.plan);
            const BlankId id = blanks[random() % blanks.size()];
            const BlankId other = blanks[random() % blanks.size()];
            std::vector<Result<Edit>> edits = {
                hand::turn(job, id, {random() % 2 == 0, random() % 2 == 0}),
                hand::swap(job, id, other), hand::backToTray(job, id)};
            if (const Result<hand::Drag> drag = hand::Drag::lift(job, id)) {
                const Board& board = job.boards[random() % job.boards.size()];
                const Rect box = boundingBox(board.outline);
                const Point corner{box.x0 + box.length() * (random() % 8) / 8, box.y0};
                if (const auto place = drag.value().nearest(board.id, corner, {})) {
                    edits.push_back(drag.value().drop(*place));
                }
            }
            const Result<Edit>& edit = edits[random() % edits.size()];
            if (edit && apply(job, edit.value())) {
                ++done;
                ASSERT_TRUE(lockedIn(*job.plan) == before);
            }
        }
    }
    EXPECT_GT(done, 0U);
}

/// A blank, its section or its board is locked, and something happens to the blank's wood.
enum class What { Blank, Section, Board };

Document lockedAt(Document job, BlankId id, What what) {
    const hand::TreePlace place = *hand::placeOf(*job.plan, id);
    const Result<Edit> edit = what == What::Blank ? hand::setLocked(job, id, true)
                              : what == What::Section
                                  ? hand::setLocked(job, hand::sectionAt(*job.plan, place).id, true)
                                  : hand::setLocked(job, job.plan->boards[place.board].board, true);
    EXPECT_TRUE(edit.ok());
    EXPECT_TRUE(apply(job, edit.value()).ok());
    return job;
}

TEST_P(Locks, AreNamedWhereTheirWoodFailsAndOnlyTheMakerTakesThemOff) {
    const Document plannedOnce = planned(GetParam()());
    const std::vector<BlankId> blanks = blanksOf(*plannedOnce.plan);
    const BlankId id = blanks[blanks.size() / 2];
    const hand::TreePlace place = *hand::placeOf(*plannedOnce.plan, id);
    const BoardId board = plannedOnce.plan->boards[place.board].board;
    const std::string label = labelOf(plannedOnce, hand::blankAt(*plannedOnce.plan, place).purpose);
    const std::string mark = "board " + findBoard(plannedOnce, board)->mark;
    for (const What what : {What::Blank, What::Section, What::Board}) {
        if (what != What::Blank && GetParam() != samples::hallShelf) {
            continue; // the smallest says enough about those
        }
        SCOPED_TRACE(static_cast<int>(what));
        Document job = lockedAt(plannedOnce, id, what);
        // Another lock has nothing to do with it.
        const BlankId other = place.board == 0 ? blanks.back() : blanks.front();
        job = lockedAt(job, other, What::Blank);
        const Rect wood = hand::blankAt(*job.plan, place).rect;
        const Result<Defect> hole = markedOnBlank(
            job, id, DefectKind::KnotHole,
            {wood.length() / 4, wood.width() / 4, wood.length() / 2, wood.width() / 2}, true);
        ASSERT_TRUE(hole.ok());
        using Happens = std::function<Result<ShopEvent>(const Note&)>;
        std::vector<Happens> all = {
            [&](const Note& note) { return defectFound(job, board, hole.value(), note); }};
        if (what == What::Blank && GetParam() == samples::hallShelf) {
            all.emplace_back([&](const Note& note) { return spoiled(job, id, note); });
            all.emplace_back([&](const Note& note) { return boardRejected(job, board, note); });
        }
        for (const Happens& happens : all) {
            const Result<ShopEvent> held = happens({});
            ASSERT_FALSE(held.ok());
            const std::string& said = held.error().message;
            EXPECT_NE(said.find("locked and would not stay as it is. Unlock it first."),
                      std::string::npos)
                << said;
            EXPECT_NE(said.find(mark), std::string::npos) << said;
            EXPECT_EQ(said.find(label) != std::string::npos, what == What::Blank) << said;

            Document after = job;
            const Result<ShopEvent> event = happens({.time = 0, .why = {}, .unlock = true});
            ASSERT_NO_FATAL_FAILURE(take(after, event));
            EXPECT_NE(event.value().sentence.find("is taken off"), std::string::npos)
                << event.value().sentence;
            const auto still = hand::placeOf(*after.plan, other);
            ASSERT_TRUE(still);
            EXPECT_EQ(hand::blankAt(*after.plan, *still),
                      hand::blankAt(*job.plan, *hand::placeOf(*job.plan, other)));
            EXPECT_EQ(hand::locksBroken(*job.plan, *after.plan).size(), 1U);
        }
    }
}

/// A cut that would land where a locked blank has to give way is outside the window, and is refused
/// as long as the lock is there.
TEST_P(Locks, HoldAgainstACutThatLandsOff) {
    const Document job = planned(GetParam()());
    const hand::SafeWindows free(job);
    std::uint64_t tried = 0;
    for (const BoardLayout& layout : job.plan->boards) {
        for (const hand::CutRef& cut : hand::cutsOn(job, layout.board)) {
            const Length mark = *hand::markOf(job, layout.board, cut);
            for (const Length off : {-Length::inches(1, 2), Length::inches(1, 2)}) {
                const Length where = mark + off;
                const auto landed = free.landed(layout.board, cut, where);
                if (tried == rounds(2) || !landed || !free.isSafe(layout.board, cut, where)) {
                    continue;
                }
                Plan only;
                only.boards = {layout};
                const std::vector<BlankId> blanks = blanksOf(only);
                const auto moved = std::find_if(blanks.begin(), blanks.end(), [&](BlankId id) {
                    const Document locked = lockedAt(job, id, What::Blank);
                    return !hand::locksBroken(*hand::layoutOf(*locked.plan, layout.board),
                                              landed->layout)
                                .empty();
                });
                if (moved == blanks.end()) {
                    continue; // nothing has to give way
                }
                ++tried;
                const Document locked = lockedAt(job, *moved, What::Blank);
                const hand::SafeWindows windows(locked);
                EXPECT_FALSE(windows.isSafe(layout.board, cut, where));
                const auto held = windows.windowOf(layout.board, cut);
                ASSERT_TRUE(held);
                EXPECT_TRUE(off < Length() ? held->window.from > where : held->window.to < where);
                EXPECT_FALSE(cutMade(locked, layout.board, cut, where, {}).ok());
                EXPECT_TRUE(cutMade(locked, layout.board, cut, mark, {}).ok());
                EXPECT_TRUE(cutMade(locked, layout.board, cut, where,
                                    {.time = 0, .why = {}, .unlock = true})
                                .ok());
            }
        }
    }
    EXPECT_GT(tried, 0U);
}

INSTANTIATE_TEST_SUITE_P(Samples, Locks,
                         testing::Values(samples::hallShelf, samples::kitchenTable,
                                         samples::linenChest));

} // namespace
} // namespace stavewright::midjob
