// A blank in the hand: what is called legal passes the audit of the whole job, what is not called
// legal does not, and the place that is offered instead is the nearest one.

#include "core/hand/Drag.h"

#include <algorithm>
#include <random>

#include "core/geometry/PolygonOps.h"
#include "core/hand/PlanTree.h"
#include "tests/unit/core/hand/HandSample.h"
#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright::hand {
namespace {

using namespace hand_sample;
using small_job::in;

Point anywhereOn(const Board& board, std::mt19937_64& random) {
    const Rect box = boundingBox(board.outline);
    const auto sixteenths = [&](Length length) {
        return in(static_cast<std::int64_t>(random() %
                                            static_cast<std::uint64_t>(length / in(1, 16) + 1)),
                  16);
    };
    return {box.x0 + sixteenths(box.length()), box.y0 + sixteenths(box.width())};
}

struct Seen {
    int legal = 0;
    int offered = 0;
    int refused = 0;
};

/// Holds random blanks of the job over random places.
Seen tryDrags(const Document& job, std::uint64_t seed, int times) {
    std::mt19937_64 random(seed);
    Seen seen;
    const std::vector<BlankId> blanks = blanksOf(*job.plan);
    for (int i = 0; i < times; ++i) {
        const BlankId id = blanks[random() % blanks.size()];
        Result<Drag> drag = Drag::lift(job, id);
        EXPECT_TRUE(drag.ok());
        const Board& board = job.boards[random() % job.boards.size()];
        const Pose pose{random() % 2 == 0, random() % 2 == 0};
        const Drag::Held held =
            drag.value().at(board.id, anywhereOn(board, random), pose, in(1, 4));
        const Laying* place = held.isLegal ? &held.laying : held.nearest ? &*held.nearest : nullptr;
        SCOPED_TRACE(job.info.title + ", try " + std::to_string(i) + ": " + held.words);
        EXPECT_FALSE(held.words.empty());
        EXPECT_EQ(held.isLegal, held.reasons.empty());
        if (!place) {
            ++seen.refused;
            continue;
        }
        ++(held.isLegal ? seen.legal : seen.offered);
        Result<Edit> edit = drag.value().drop(*place);
        EXPECT_TRUE(edit.ok());
        Document moved = job;
        doUndoRedo(moved, edit.value());
        EXPECT_TRUE(validate(moved).ok());
        expectAudited(moved);
        const std::optional<TreePlace> now = placeOf(*moved.plan, id);
        EXPECT_TRUE(now.has_value());
        EXPECT_EQ(moved.plan->boards[now->board].board, board.id);
        EXPECT_EQ(blankAt(*moved.plan, *now).pose, pose);
        if (!held.isLegal) {
            Result<Edit> wrong = drag.value().drop(held.laying);
            if (wrong && !held.laying.bed.across.length().inNanometres()) {
                continue;
            }
            if (wrong) {
                Document broken = job;
                EXPECT_TRUE(apply(broken, wrong.value()).ok());
                EXPECT_FALSE(audit(broken).passed());
            }
        }
    }
    return seen;
}

TEST(Drag, WhatIsLegalPassesTheAudit) {
    int legal = 0;
    for (const Document& sample : {samples::hallShelf(), samples::kitchenTable()}) {
        const Document job = planned(sample);
        ASSERT_TRUE(audit(job).passed());
        const Seen seen = tryDrags(job, 7, 25 * static_cast<int>(rounds(1)));
        legal += seen.legal;
        EXPECT_GT(seen.offered, 0) << job.info.title;
    }
    EXPECT_GT(legal, 0);
}

TEST(Drag, BackWhereItWasIsLegal) {
    for (const Document& sample : {samples::kitchenTable()}) {
        const Document job = planned(sample);
        for (const BlankId id : blanksOf(*job.plan)) {
            const std::optional<TreePlace> place = placeOf(*job.plan, id);
            const Blank& blank = blankAt(*job.plan, *place);
            Result<Drag> drag = Drag::lift(job, id);
            ASSERT_TRUE(drag.ok());
            const Laying& origin = *drag.value().origin();
            const Point corner =
                toOuter(origin.bed.frame, Point{origin.along, origin.bed.across.from});
            const Drag::Held held = drag.value().at(origin.board, corner, blank.pose, Length());
            EXPECT_TRUE(held.isLegal) << held.words;
            const Result<Edit> edit = drag.value().drop(held.laying);
            ASSERT_TRUE(edit.ok());
            Document back = job;
            ASSERT_TRUE(apply(back, edit.value()).ok());
            EXPECT_TRUE(back == job);
        }
    }
}

/// On three planned samples.
template <class Visit>
void liftEveryBlank(const Visit& visit) {
    for (const Document& sample :
         {samples::hallShelf(), samples::kitchenTable(), samples::linenChest()}) {
        const Document job = planned(sample);
        for (const BlankId id : blanksOf(*job.plan)) {
            const Result<Drag> drag = Drag::lift(job, id);
            ASSERT_TRUE(drag.ok());
            visit(job, id, drag.value());
        }
    }
}

/// The low corner on the board.
Point cornerOf(const Laying& laying) {
    return toOuter(laying.bed.frame, Point{laying.along, laying.bed.across.from});
}

Length apart(const Laying& a, const Laying& b) {
    const Point from = cornerOf(a);
    const Point to = cornerOf(b);
    return abs(from.x - to.x) + abs(from.y - to.y);
}

TEST(Drag, SlidALittleItAlwaysFindsAPlace) {
    // Its own place at least, which is never further off than it was slid.
    std::mt19937_64 random(11);
    liftEveryBlank([&](const Document& job, BlankId /*lifted*/, const Drag& drag) {
        const Laying& origin = *drag.origin();
        const Point stood = cornerOf(origin);
        for (std::uint64_t i = 0; i < rounds(2); ++i) {
            const auto slid = [&random](Length by) {
                return by * (static_cast<std::int64_t>(random() % 1001) - 500) / 500;
            };
            const Point corner{stood.x + slid(Length::millimetres(6)),
                               stood.y + slid(Length::millimetres(i % 2 == 0 ? 0 : 2))};
            for (const Length within : {Length(), Length::millimetres(3)}) {
                const Drag::Held held = drag.at(origin.board, corner, origin.pose, within);
                SCOPED_TRACE(job.info.title + ", " + drag.label() + ": " + held.words);
                ASSERT_TRUE(held.isLegal || held.nearest);
                const Laying& place = held.isLegal ? held.laying : *held.nearest;
                if (held.nearest) { // along a leaning bed it is measured a hair differently
                    EXPECT_LE(apart(place, held.laying),
                              apart(origin, held.laying) + Length::micrometres(100));
                }
                Document moved = job;
                doUndoRedo(moved, drag.drop(place).value());
                expectAudited(moved);
            }
        }
    });
}

TEST(Drag, HeldOverAnotherBlankItIsShownAPlaceOnItsOwnBoard) {
    // The one that it was lifted from, at least.
    liftEveryBlank([&](const Document& job, BlankId id, const Drag& drag) {
        const Laying origin = *drag.origin();
        Plan own;
        own.boards = {*layoutOf(*job.plan, origin.board)};
        std::uint64_t tried = 0;
        for (const BlankId other : blanksOf(own)) {
            if (other == id || ++tried > rounds(2)) {
                continue;
            }
            const TreePlace place = *placeOf(*job.plan, other);
            const Rect box =
                boxOnBoard(sectionAt(*job.plan, place), blankAt(*job.plan, place).rect);
            const Drag::Held held = drag.at(origin.board, {box.x0, box.y0}, origin.pose, in(1, 8));
            SCOPED_TRACE(job.info.title + ", " + drag.label() + ": " + held.words);
            EXPECT_TRUE(held.isLegal || held.nearest);
        }
    });
}

/// One board of 96 x 8 in, one bar, a loose knot at 40 in.
Document barAndKnot(Length size = in(1)) {
    Document job = small_job::oneBar();
    Board board = small_job::board(job, "1", Quarter{4}, in(1));
    Defect knot = small_job::defect(job, DefectKind::LooseKnot, {in(40), in(4)}, size);
    knot.mark = "K3";
    board.defects = {knot};
    job.boards = {board};
    job.plan = Plan{};
    job.plan->unplaced = {{{job.parts[0].id, 1, 0, 0}, "It waits."}};
    return job;
}

TEST(Drag, SaysWhatIsInTheWayAndWhereToGo) {
    const Document job = barAndKnot();
    Result<Drag> drag = Drag::fromTray(job, {job.parts[0].id, 1, 0, 0});
    ASSERT_TRUE(drag.ok()) << describe(drag.error());
    EXPECT_EQ(drag.value().length(), in(24));
    const Drag::Held clear = drag.value().at(job.boards[0].id, {in(4), in(3)}, {}, Length());
    EXPECT_TRUE(clear.isLegal) << clear.words;
    const Drag::Held over = drag.value().at(job.boards[0].id, {in(20), in(3)}, {}, Length());
    EXPECT_FALSE(over.isLegal);
    EXPECT_NE(over.words.find("Loose knot K3"), std::string::npos) << over.words;
    EXPECT_NE(over.words.find("; move "), std::string::npos) << over.words;
    ASSERT_TRUE(over.nearest);
    EXPECT_EQ(over.defects, std::vector<DefectId>{job.boards[0].defects[0].id});
}

TEST(Drag, ABlankLongerThanTheShopHandlesGoesNowhere) {
    Document job = small_job::oneBar();
    job.boards = {small_job::board(job, "1", {4}, in(1)), small_job::board(job, "2", {4}, in(1))};
    job.plan = small_job::planOf(job);
    job.shop.machines.longestBoard = in(23);
    const Result<Drag> drag = Drag::lift(job, blanksOf(*job.plan).at(0));
    ASSERT_TRUE(drag.ok());
    for (const Board& board : job.boards) {
        const Drag::Held held = drag.value().at(board.id, {in(40), in(2)}, {}, in(1, 4));
        EXPECT_FALSE(held.isLegal);
        EXPECT_FALSE(held.nearest);
        EXPECT_EQ(held.words, "X1 on board " + board.mark +
                                  " is 24\" long rough; the longest board handled in the shop is "
                                  "23\"; there is no legal place for it on board " +
                                  board.mark + ".");
    }
}

TEST(Drag, ABlankSlidesAllAlongTheSectionThatItShares) {
    // The far end of the section stands for the second bar alone; without it the section is short.
    Document job = barAndKnot();
    job.boards[0].defects.clear();
    job.parts[0].count = 2;
    Section section;
    section.id = job.takeId<SectionId>();
    section.along = {in(10), in(60)};
    section.frame.origin = {in(10), in(0)};
    for (const Length low : {in(0), in(26)}) {
        const bool isFirst = section.strips.empty();
        Blank bar;
        bar.id = job.takeId<BlankId>();
        bar.purpose = {job.parts[0].id, isFirst ? 1 : 2, 0, 0};
        Strip strip;
        strip.id = job.takeId<StripId>();
        strip.across = isFirst ? Stretch{in(0), in(11, 4)} : Stretch{in(3), in(23, 4)};
        bar.rect = {low, strip.across.from, low + in(24), strip.across.to};
        strip.blanks = {bar};
        section.strips.push_back(strip);
    }
    const BlankId second = section.strips[1].blanks[0].id;
    job.plan->boards = {{job.boards[0].id, {section}, false}};
    job.plan->unplaced.clear();
    Result<Drag> drag = Drag::lift(job, second);
    ASSERT_TRUE(drag.ok());
    for (Length low = in(10); low <= in(36); low += in(1)) {
        const Drag::Held held = drag.value().at(job.boards[0].id, {low, in(3)}, {}, Length());
        EXPECT_TRUE(held.isLegal) << low.toInches() << ": " << held.words;
        EXPECT_EQ(held.laying.bed.section, section.id) << low.toInches();
    }
    // A hair past the end where the section ended before.
    const Drag::Held past = drag.value().at(job.boards[0].id, {in(577, 16), in(3)}, {}, in(1, 4));
    ASSERT_TRUE(past.snap) << past.words;
    EXPECT_EQ(past.snap->name, "section end");
    EXPECT_EQ(past.snap->at, in(60));
    EXPECT_TRUE(past.snap->high);
    EXPECT_EQ(past.laying.along, in(26));
}

TEST(Drag, TheNearestPlaceIsNearest) {
    // Against every sixteenth along the same bed, worked out by the audit alone.
    const Document job = barAndKnot();
    Result<Drag> drag = Drag::fromTray(job, {job.parts[0].id, 1, 0, 0});
    ASSERT_TRUE(drag.ok());
    for (const Length y : {in(0), in(2), in(11, 4), in(4)}) {
        for (Length x = in(2); x < in(70); x += in(3)) {
            const Drag::Held held = drag.value().at(job.boards[0].id, {x, y}, {}, Length());
            ASSERT_TRUE(held.isLegal || held.nearest);
            const Laying& place = held.isLegal ? held.laying : *held.nearest;
            const Point stands =
                toOuter(place.bed.frame, Point{place.along, place.bed.across.from});
            const Length away = abs(stands.x - x) + abs(stands.y - y);
            Laying other = held.laying;
            for (Length by; by < away - in(1, 16); by += in(1, 16)) {
                for (const Length signedBy : {by, -by}) {
                    other.along = held.laying.along + signedBy;
                    EXPECT_FALSE(drag.value().whyNot(other).empty())
                        << "at " << other.along.toInches() << ", offered " << stands.x.toInches();
                }
            }
        }
    }
}

TEST(Drag, SnapsToTheEdgeOfAKnotAndToTheRawEnd) {
    const Document job = barAndKnot(in(6)); // no way past it
    Result<Drag> drag = Drag::fromTray(job, {job.parts[0].id, 1, 0, 0});
    ASSERT_TRUE(drag.ok());
    const Drag::Held free = drag.value().at(job.boards[0].id, {in(20), in(3)}, {}, Length());
    ASSERT_TRUE(free.nearest);
    const Length clear = free.nearest->along;
    const Drag::Held near =
        drag.value().at(job.boards[0].id, {clear - in(1, 8), in(3)}, {}, in(1, 2));
    ASSERT_TRUE(near.snap) << near.words;
    EXPECT_EQ(near.snap->name, "loose knot K3");
    const Drag::Held atEnd = drag.value().at(job.boards[0].id, {in(3, 4), in(3)}, {}, in(1, 2));
    ASSERT_TRUE(atEnd.snap) << atEnd.words;
    EXPECT_EQ(atEnd.snap->name, "raw end");
    EXPECT_TRUE(atEnd.isLegal) << atEnd.words;
}

TEST(Drag, LockedAndCutBlanksStay) {
    Document job = planned(samples::kitchenTable());
    const BlankId id = blanksOf(*job.plan).front();
    const std::optional<TreePlace> place = placeOf(*job.plan, id);
    Blank& blank = job.plan->boards[place->board]
                       .sections[place->section]
                       .strips[place->strip]
                       .blanks[place->blank];
    blank.locked = true;
    const Result<Drag> locked = Drag::lift(job, id);
    ASSERT_FALSE(locked.ok());
    EXPECT_EQ(locked.error().message, labelOf(job, blank.purpose) + " is locked. Unlock it first.");
}

} // namespace
} // namespace stavewright::hand
