// Other plans of one job. The small jobs are worked out by hand; common practice, no source.

#include "core/choices/Alternatives.h"

#include <algorithm>

#include "core/audit/Audit.h"
#include "tests/tools/samples/Samples.h"
#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright::choices {
namespace {

using namespace small_job;

AlternativesWish quick(int threads = 2) {
    return {.each = {.seed = 3, .seconds = 0, .work = 20'000, .threads = threads}};
}

Alternatives found(const Document& job, const AlternativesWish& wish = quick()) {
    Result<Alternatives> result = findAlternatives(job, wish);
    EXPECT_TRUE(result.ok()) << (result.ok() ? "" : describe(result.error()));
    return result.ok() ? std::move(result.value()) : Alternatives{};
}

const Alternative* bestAt(const Alternatives& all, Aim aim) {
    for (const Alternative& alternative : all.plans) {
        if (std::count(alternative.bestAt.begin(), alternative.bestAt.end(), aim) > 0) {
            return &alternative;
        }
    }
    return nullptr;
}

/// A board with a pin knot, allowed on show, every 4 in along its middle and near both edges.
Board knotty(Document& job, const std::string& mark) {
    Board made = board(job, mark, {4}, in(1));
    for (int x = 2; x < 96; x += 4) {
        for (const int y : {1, 3, 5, 7}) {
            made.defects.push_back(defect(job, DefectKind::SoundKnot, {in(x), in(y)}, in(1, 8)));
        }
    }
    return made;
}

TEST(Alternatives, FewestKnotsTakesTheDearerBoardThatHasNone) {
    Document job = oneBar();
    job.boards = {knotty(job, "1"), board(job, "2", {4}, in(1))};
    job.boards[1].pricePerBoardFoot = Money::whole(20);
    const Alternatives all = found(job);
    const Alternative* cheapest = bestAt(all, Aim::Cheapest);
    const Alternative* clear = bestAt(all, Aim::FewestKnots);
    ASSERT_TRUE(cheapest && clear);
    EXPECT_EQ(cheapest->plan.boards[0].board, job.boards[0].id);
    EXPECT_GT(cheapest->figures.knotsOnShow, 0);
    EXPECT_EQ(clear->plan.boards[0].board, job.boards[1].id);
    EXPECT_EQ(clear->figures.knotsOnShow, 0);
    EXPECT_NE(clear->against.find("fewer on show"), std::string::npos) << clear->against;
    EXPECT_EQ(clear->against.rfind("costs $", 0), 0U) << clear->against;
}

TEST(Alternatives, LeastLumberTakesTheShortBoardThoughItIsDear) {
    Document job = oneBar();
    job.boards = {board(job, "1", {4}, in(1)), board(job, "2", {4}, in(1))};
    job.boards[1].outline = {{in(0), in(0)}, {in(40), in(0)}, {in(40), in(8)}, {in(0), in(8)}};
    job.boards[1].lookedAt = {{BoardFace::A, {in(0), in(40)}}, {BoardFace::B, {in(0), in(40)}}};
    job.boards[1].pricePerBoardFoot = Money::whole(40);
    const Alternatives all = found(job);
    const Alternative* least = bestAt(all, Aim::LeastLumber);
    ASSERT_TRUE(least);
    EXPECT_EQ(all.plans.front().plan.boards[0].board, job.boards[0].id);
    EXPECT_EQ(least->plan.boards[0].board, job.boards[1].id);
    EXPECT_LT(least->figures.lumber, all.plans.front().figures.lumber);
    EXPECT_GT(least->figures.cost, all.plans.front().figures.cost);
}

TEST(Alternatives, FewestSetUpsGivesAPanelStavesOfOneWidth) {
    Document job = oneBar();
    Part& panel = job.parts[0];
    panel.width.base = in(15);
    panel.makeUp.panel = PanelMakeUp{in(2), in(5), 3, 8};
    for (int i = 0; i < 4; ++i) {
        job.boards.push_back(board(job, std::to_string(i + 1), {4}, in(1)));
        // Widths that no equal staves fill.
        const Length width = in(5 + i) + in(1, 2);
        job.boards.back().outline = {
            {in(0), in(0)}, {in(30), in(0)}, {in(30), width}, {in(0), width}};
        job.boards.back().lookedAt = {{BoardFace::A, {in(0), in(30)}},
                                      {BoardFace::B, {in(0), in(30)}}};
    }
    const Alternatives all = found(job);
    const Alternative* few = bestAt(all, Aim::FewestSetUps);
    ASSERT_TRUE(few);
    EXPECT_TRUE(few->plan.unplaced.empty());
    EXPECT_EQ(few->figures.setUps.ripWidths, 1);
    EXPECT_LE(few->figures.setUps.total(), all.plans.front().figures.setUps.total());
}

TEST(Alternatives, WhereOnePlanIsBestAtEverythingItStandsAlone) {
    Document job = oneBar();
    job.boards = {board(job, "1", {4}, in(1))};
    const Alternatives all = found(job);
    ASSERT_EQ(all.plans.size(), 1U);
    EXPECT_EQ(all.plans[0].bestAt.size(), allAims.size());
    EXPECT_TRUE(all.plans[0].against.empty());
    EXPECT_EQ(titleOf(all.plans[0]),
              "Cheapest, least lumber, fewest knots on show and fewest set-ups");
}

TEST(Alternatives, OfWholeJobsAreAuditedDistinctAndNoneIsWorseInEverything) {
    for (const Document& job : {samples::hallShelf(), samples::kitchenTable()}) {
        const Alternatives all = found(job);
        ASSERT_FALSE(all.plans.empty());
        EXPECT_EQ(all.plans.front().bestAt.front(), Aim::Cheapest);
        for (const Alternative& a : all.plans) {
            const AuditReport report = audit(job, a.plan);
            EXPECT_TRUE(report.passed());
            EXPECT_EQ(report.totals, a.plan.totals);
            EXPECT_EQ(a.figures, figuresOf(job, a.plan));
            EXPECT_GE(a.figures.counted, all.plans.front().figures.counted);
            for (const Alternative& b : all.plans) {
                const PlanFigures& x = a.figures;
                const PlanFigures& y = b.figures;
                EXPECT_TRUE(&a == &b || x.cost < y.cost || x.lumber < y.lumber ||
                            x.knotsOnShow < y.knotsOnShow || x.setUps.total() < y.setUps.total() ||
                            x.missing < y.missing || x.boardsTooMany < y.boardsTooMany)
                    << titleOf(a) << " is no better than " << titleOf(b);
            }
        }
    }
}

TEST(Alternatives, AreTheSameWhateverTheNumberOfThreads) {
    const Document job = samples::kitchenTable();
    const Alternatives one = found(job, quick(1));
    const Alternatives two = found(job, quick(2));
    ASSERT_EQ(one.plans.size(), two.plans.size());
    for (std::size_t i = 0; i < one.plans.size(); ++i) {
        EXPECT_EQ(one.plans[i].plan, two.plans[i].plan);
        EXPECT_EQ(one.plans[i].bestAt, two.plans[i].bestAt);
        EXPECT_EQ(one.plans[i].against, two.plans[i].against);
    }
}

TEST(Alternatives, StoppedHandOutWhatTheyHave) {
    const Document job = samples::kitchenTable();
    std::stop_source stop;
    stop.request_stop();
    Progress progress;
    progress.stop = stop.get_token();
    AlternativesWish wish = quick();
    const Result<Alternatives> none = findAlternatives(job, wish, progress);
    ASSERT_TRUE(none.ok());
    EXPECT_TRUE(none.value().stoppedEarly);
    EXPECT_TRUE(none.value().plans.empty());
    wish.cheapest = planOf(job);
    const Result<Alternatives> all = findAlternatives(job, wish, progress);
    ASSERT_TRUE(all.ok());
    EXPECT_TRUE(all.value().stoppedEarly);
    EXPECT_EQ(all.value().plans.size(), 1U);
}

TEST(Alternatives, TakeTheCheapestPlanAsGiven) {
    const Document job = samples::hallShelf();
    AlternativesWish wish = quick();
    wish.cheapest = planOf(job);
    const Alternatives all = found(job, wish);
    ASSERT_FALSE(all.plans.empty());
    EXPECT_LE(all.plans.front().figures.counted, countedFor(job, *wish.cheapest));
}

} // namespace
} // namespace stavewright::choices
