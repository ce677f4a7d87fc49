// Properties over random plans that are valid by construction; the seed is printed with each
// failure.

#include <gtest/gtest.h>

#include "BrokenPlan.h"
#include "RandomPlan.h"

namespace stavewright::audit_sample {
namespace {

constexpr std::uint64_t seeds = 60;

struct Spot {
    std::size_t board = 0;
    std::size_t section = 0;
    std::size_t strip = 0;
    std::size_t blank = 0;
};

std::vector<Spot> spotsOf(const Plan& plan) {
    std::vector<Spot> spots;
    for (std::size_t b = 0; b < plan.boards.size(); ++b) {
        const auto& sections = plan.boards[b].sections;
        for (std::size_t s = 0; s < sections.size(); ++s) {
            for (std::size_t t = 0; t < sections[s].strips.size(); ++t) {
                for (std::size_t i = 0; i < sections[s].strips[t].blanks.size(); ++i) {
                    spots.push_back({b, s, t, i});
                }
            }
        }
    }
    return spots;
}

std::vector<Blank>& blanksAt(Document& job, const Spot& spot) {
    return strip(job, spot.board, spot.section, spot.strip).blanks;
}

/// The kinds of all failures once the totals have been put right.
std::vector<FindingKind> kindsOf(Document job) {
    claimWhatIsCounted(job);
    std::vector<FindingKind> kinds;
    for (const Expected& failure : failuresOf(audit(job))) {
        kinds.push_back(failure.kind);
    }
    return kinds;
}

TEST(RandomPlans, ValidOnesPass) {
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        Document job = randomJob(seed);
        claimWhatIsCounted(job);
        const AuditReport report = audit(job);
        ASSERT_TRUE(report.passed()) << failuresOf(report).front();
        EXPECT_EQ(report.totals.placed, static_cast<int>(spotsOf(*job.plan).size()));
        EXPECT_EQ(report.totals.demanded, static_cast<int>(job.parts.size()));
        EXPECT_EQ(report.totals.fills, 0);
        EXPECT_LT(report.totals.parts, report.totals.blanks);
        EXPECT_LT(report.totals.blanks, report.totals.lumberUsed);
    }
}

TEST(RandomPlans, AnyBlankTakenAwayIsMissed) {
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        Document job = randomJob(seed);
        const std::vector<Spot> spots = spotsOf(*job.plan);
        const Spot& spot = spots[seed * 7919 % spots.size()];
        std::vector<Blank>& blanks = blanksAt(job, spot);
        blanks.erase(blanks.begin() + static_cast<std::ptrdiff_t>(spot.blank));
        EXPECT_EQ(kindsOf(job), std::vector{FindingKind::DemandShort});
    }
}

TEST(RandomPlans, ANeighbourOneNanometreTooNearIsFound) {
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        Document job = randomJob(seed);
        for (const Spot& spot : spotsOf(*job.plan)) {
            if (spot.blank == 0) {
                continue;
            }
            Document broken = job;
            Rect& rect = blanksAt(broken, spot)[spot.blank].rect;
            rect.x0 -= Length::nanometres(1);
            rect.x1 -= Length::nanometres(1);
            EXPECT_EQ(kindsOf(broken), std::vector{FindingKind::KerfMissing});
            break;
        }
    }
}

TEST(RandomPlans, AKnotHoleInsideAPartIsFoundInEveryPose) {
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        Document job = randomJob(seed);
        const std::vector<Spot> spots = spotsOf(*job.plan);
        const Spot& spot = spots[seed * 104729 % spots.size()];
        Blank& blank = blanksAt(job, spot)[spot.blank];
        const Point origin = section(job, spot.board, spot.section).frame.origin;
        const Point centre{origin.x + (blank.rect.x0 + blank.rect.x1) / 2,
                           origin.y + (blank.rect.y0 + blank.rect.y1) / 2};
        boardOf(job, job.plan->boards[spot.board].board)
            .defects.push_back(
                roundDefect(DefectId{900'000}, "K99", DefectKind::KnotHole, centre, in(1, 4)));
        for (const Pose pose : {Pose{}, Pose{true, false}, Pose{false, true}, Pose{true, true}}) {
            blank.pose = pose;
            EXPECT_EQ(kindsOf(job), std::vector{FindingKind::DefectInZone});
        }
    }
}

TEST(RandomPlans, AuditingTwiceSaysTheSame) {
    for (std::uint64_t seed = 1; seed <= 10; ++seed) {
        const Document job = randomJob(seed);
        EXPECT_EQ(audit(job).findings, audit(job).findings);
    }
}

} // namespace
} // namespace stavewright::audit_sample
