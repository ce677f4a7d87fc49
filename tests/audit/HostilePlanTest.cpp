// A plan may come from a damaged or hostile file: whatever its numbers, the audit answers with
// findings and never falls over. Run under the sanitizers this also proves that no sum leaves its
// integers.

#include <array>
#include <random>

#include <gtest/gtest.h>

#include "BrokenPlan.h"
#include "RandomPlan.h"

namespace stavewright::audit_sample {
namespace {

class Vandal {
  public:
    explicit Vandal(std::uint64_t seed)
        : m_random(seed) {}

    void spoil(Plan& plan) {
        for (BoardLayout& layout : plan.boards) {
            for (Section& section : layout.sections) {
                if (strikes()) {
                    spoil(section);
                }
                for (Strip& strip : section.strips) {
                    spoil(strip);
                }
                for (Offcut& offcut : section.offcuts) {
                    spoil(offcut.rect);
                }
            }
        }
    }

  private:
    bool strikes() { return m_random() % 4 == 0; }

    Length anything() {
        constexpr std::int64_t huge = 9'000'000'000'000'000'000;
        constexpr std::array<std::int64_t, 8> values = {
            0, 1, -1, huge, -huge, 1'000'000'000'000, -1'000'000'000'000, 300'000'000};
        return Length::nanometres(values[m_random() % values.size()]);
    }

    void spoil(Length& length) {
        if (strikes()) {
            length = anything();
        }
    }
    void spoil(Rect& rect) {
        spoil(rect.x0);
        spoil(rect.y0);
        spoil(rect.x1);
        spoil(rect.y1);
    }
    void spoil(Section& section) {
        spoil(section.along.from);
        spoil(section.along.to);
        spoil(section.frame.origin.x);
        spoil(section.frame.origin.y);
        spoil(section.frame.run);
        spoil(section.frame.rise);
    }
    void spoil(Strip& strip) {
        if (strikes()) {
            spoil(strip.across.from);
            spoil(strip.across.to);
        }
        for (Blank& blank : strip.blanks) {
            if (strikes()) {
                spoil(blank.rect);
            }
            if (strikes()) {
                blank.actual = Rect{anything(), anything(), anything(), anything()};
            }
            if (strikes()) {
                blank.purpose.instance = static_cast<int>(m_random() % 5) - 2;
                blank.purpose.ply = static_cast<int>(m_random() % 4) - 1;
                blank.purpose.stave = static_cast<int>(m_random() % 4) - 1;
            }
        }
        for (Offcut& offcut : strip.offcuts) {
            spoil(offcut.rect);
        }
    }

    std::mt19937_64 m_random;
};

TEST(HostilePlan, IsAnsweredWithFindings) {
    for (std::uint64_t seed = 1; seed <= 300; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        Document job = seed % 2 == 0 ? goodJob() : randomJob(seed);
        const Plan before = *job.plan;
        Vandal(seed).spoil(*job.plan);
        claimWhatIsCounted(job);
        if (before.boards != job.plan->boards) {
            const AuditReport report = audit(job);
            for (const Finding& finding : report.findings) {
                EXPECT_FALSE(finding.sentence.empty());
            }
        }
    }
}

TEST(HostilePlan, AnEmptyPlanMissesEverything) {
    Document job = goodJob();
    job.plan = Plan{};
    claimWhatIsCounted(job);
    const std::vector<Expected> failures = failuresOf(audit(job));
    ASSERT_EQ(failures.size(), 7U); // R1 R2 C1 C3 T1 L1a L1b
    for (const Expected& failure : failures) {
        EXPECT_EQ(failure.kind, FindingKind::DemandShort);
    }
}

} // namespace
} // namespace stavewright::audit_sample
