// Random changes by hand, each done, undone and done again; locks that no planning moves.

#include "core/hand/HandEdits.h"

#include <algorithm>
#include <random>

#include "core/geometry/PolygonOps.h"
#include "core/hand/Drag.h"
#include "tests/unit/core/hand/HandSample.h"
#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright::hand {
namespace {

using namespace hand_sample;
using small_job::in;

class Maker {
  public:
    Maker(Document job, std::uint64_t seed)
        : m_job(std::move(job))
        , m_random(seed) {}

    /// One change; false where there was nothing to do it to, or it was refused.
    bool doSomething() {
        const std::vector<BlankId> blanks = blanksOf(*m_job.plan);
        if (blanks.empty()) {
            return layFromTray();
        }
        const BlankId blank = any(blanks);
        switch (m_random() % 9) {
        case 0:
            return drag(blank);
        case 1:
            return did(backToTray(m_job, blank));
        case 2:
            return layFromTray();
        case 3:
            return did(turn(m_job, blank, {oneIn(2), oneIn(2)}));
        case 4:
            return did(swap(m_job, blank, any(blanks)));
        case 5: {
            const Section& section = anySection();
            const End end = oneIn(2) ? End::Low : End::High;
            const Length now = end == End::Low ? section.along.from : section.along.to;
            return did(moveCrosscut(m_job, section.id, end, now + sixteenths(40)));
        }
        case 6: {
            const Section& section = anySection();
            if (section.strips.empty()) {
                return false;
            }
            const Strip& strip = section.strips[m_random() % section.strips.size()];
            return did(moveRip(m_job, strip.id, End::High, strip.across.to + sixteenths(20)));
        }
        case 7:
            return did(setLocked(m_job, blank, oneIn(2)));
        default:
            return did(setLocked(m_job, anySection().id, oneIn(3)));
        }
    }

    [[nodiscard]] const Document& job() const { return m_job; }

  private:
    bool oneIn(std::uint64_t n) { return m_random() % n == 0; }
    Length sixteenths(int most) {
        return in(static_cast<std::int64_t>(m_random() % static_cast<std::uint64_t>(2 * most + 1)) -
                      most,
                  16);
    }
    template <class Thing>
    const Thing& any(const std::vector<Thing>& things) {
        return things[m_random() % things.size()];
    }
    const Section& anySection() {
        const BoardLayout* layout = nullptr;
        do {
            layout = &any(m_job.plan->boards);
        } while (layout->sections.empty());
        return any(layout->sections);
    }
    bool did(const Result<Edit>& edit) {
        if (!edit) {
            EXPECT_FALSE(edit.error().message.empty());
            return false;
        }
        doUndoRedo(m_job, edit.value());
        EXPECT_TRUE(validate(m_job).ok());
        // Whatever was done, nothing the job wants is forgotten and the sums are true.
        for (const Finding& finding : audit(m_job).findings) {
            EXPECT_NE(finding.kind, FindingKind::DemandShort) << finding.sentence;
            EXPECT_NE(finding.kind, FindingKind::BadUnplaced) << finding.sentence;
            EXPECT_NE(finding.kind, FindingKind::DuplicateId) << finding.sentence;
            EXPECT_NE(finding.kind, FindingKind::DuplicatePurpose) << finding.sentence;
        }
        return true;
    }
    bool drag(BlankId blank) {
        const Result<Drag> drag = Drag::lift(m_job, blank);
        return drag && laid(drag.value());
    }
    bool layFromTray() {
        if (m_job.plan->unplaced.empty()) {
            return false;
        }
        const Result<Drag> drag = Drag::fromTray(m_job, any(m_job.plan->unplaced).purpose);
        return drag && laid(drag.value());
    }
    bool laid(const Drag& drag) {
        const Board& board = any(m_job.boards);
        const Rect box = boundingBox(board.outline);
        const Point corner{
            box.x0 + box.length() * static_cast<std::int64_t>(m_random() % 100) / 100,
            box.y0 + box.width() * static_cast<std::int64_t>(m_random() % 100) / 100};
        const Drag::Held held = drag.at(board.id, corner, {oneIn(2), oneIn(2)}, in(1, 2));
        return did(drag.drop(held.nearest ? *held.nearest : held.laying));
    }

    Document m_job;
    std::mt19937_64 m_random;
};

TEST(HandEdits, AnythingDoneIsUndoneAndDoneAgain) {
    for (const Document& sample : {samples::hallShelf(), samples::kitchenTable()}) {
        for (std::uint64_t seed = 1; seed <= rounds(1); ++seed) {
            SCOPED_TRACE(sample.info.title + ", seed " + std::to_string(seed));
            Maker maker(planned(sample), seed);
            int done = 0;
            for (int i = 0; i < 30; ++i) {
                done += maker.doSomething() ? 1 : 0;
            }
            EXPECT_GT(done, 10);
        }
    }
}

TEST(HandEdits, NoPlanningMovesALock) {
    for (const Document& sample : {samples::hallShelf(), samples::kitchenTable()}) {
        for (std::uint64_t seed = 1; seed <= rounds(1); ++seed) {
            SCOPED_TRACE(sample.info.title + ", seed " + std::to_string(seed));
            Document job = planned(sample);
            std::mt19937_64 random(seed);
            const std::vector<BlankId> blanks = blanksOf(*job.plan);
            std::vector<Blank> locked;
            for (int i = 0; i < 4; ++i) {
                const BlankId id = blanks[random() % blanks.size()];
                const Result<Edit> edit = setLocked(job, id, true);
                ASSERT_TRUE(edit.ok());
                ASSERT_TRUE(apply(job, edit.value()).ok());
            }
            for (const BlankId id : blanks) {
                const Blank& blank = blankAt(*job.plan, *placeOf(*job.plan, id));
                if (blank.locked) {
                    locked.push_back(blank);
                }
            }
            for (const Weights& weights :
                 {Weights{}, Weights{.lumberAlone = true}, Weights{.cutsTimes = 20}}) {
                const Result<PlanOutcome> again = planJob(
                    job,
                    {.seed = seed, .seconds = 0, .work = 500, .threads = 1, .weights = weights});
                ASSERT_TRUE(again.ok());
                const Plan& plan = again.value().plan;
                for (const Blank& blank : locked) {
                    const std::optional<TreePlace> now = placeOf(plan, blank.id);
                    const TreePlace before = *placeOf(*job.plan, blank.id);
                    ASSERT_TRUE(now);
                    EXPECT_EQ(blankAt(plan, *now), blank);
                    EXPECT_EQ(sectionAt(plan, *now).frame, sectionAt(*job.plan, before).frame);
                    EXPECT_EQ(sectionAt(plan, *now).along, sectionAt(*job.plan, before).along);
                }
            }
        }
    }
}

TEST(HandEdits, BlanksOfOneSizeChangeWhatTheyBecome) {
    Document job = planned(samples::kitchenTable());
    const std::vector<BlankId> blanks = blanksOf(*job.plan);
    for (const BlankId a : blanks) {
        for (const BlankId b : blanks) {
            const TreePlace placeA = *placeOf(*job.plan, a);
            const TreePlace placeB = *placeOf(*job.plan, b);
            const Blank& first = blankAt(*job.plan, placeA);
            const Blank& second = blankAt(*job.plan, placeB);
            if (!(a < b) || first.rect.length() != second.rect.length() ||
                first.rect.width() != second.rect.width()) {
                continue;
            }
            const Rect wasA = first.rect;
            const Rect wasB = second.rect;
            const Result<Edit> edit = swap(job, a, b);
            ASSERT_TRUE(edit.ok());
            Document swapped = job;
            doUndoRedo(swapped, edit.value());
            EXPECT_EQ(blankAt(*swapped.plan, *placeOf(*swapped.plan, a)).rect, wasB);
            EXPECT_EQ(blankAt(*swapped.plan, *placeOf(*swapped.plan, b)).rect, wasA);
            return;
        }
    }
    FAIL() << "the sample has no two blanks of one size";
}

} // namespace
} // namespace stavewright::hand
