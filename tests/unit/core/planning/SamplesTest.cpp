// Every sample job is planned whole within a little counted work, and the audit passes the plan.

#include <gtest/gtest.h>

#include <filesystem>

#include "core/audit/Audit.h"
#include "core/job/JobFile.h"
#include "tests/SourceFolder.h"
#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright {
namespace {

std::vector<std::string> samples() {
    std::vector<std::string> names;
    const std::filesystem::path folder = sourceFolder() + "/samples";
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        if (entry.path().extension() == ".stavejob") {
            names.push_back(entry.path().stem());
        }
    }
    std::sort(names.begin(), names.end());
    return names;
}

class SamplePlan : public testing::TestWithParam<std::tuple<std::string, std::uint64_t>> {};

TEST_P(SamplePlan, PlacesEverythingAndPassesTheAudit) {
    const auto& [name, seed] = GetParam();
    const Result<Document> job = readJob(sourceFolder() + "/samples/" + name + ".stavejob");
    ASSERT_TRUE(job.ok()) << describe(job.error());
    const Plan plan = small_job::planOf(job.value(), seed, 60'000);
    EXPECT_EQ(small_job::reasons(plan), "");
    const AuditReport report = audit(job.value(), plan);
    for (const Finding& finding : report.findings) {
        EXPECT_NE(finding.severity, Severity::Failure) << finding.sentence;
    }
    EXPECT_EQ(report.totals, plan.totals);
    EXPECT_EQ(plan.totals.placed, plan.totals.demanded);
}

INSTANTIATE_TEST_SUITE_P(Samples, SamplePlan,
                         testing::Combine(testing::ValuesIn(samples()),
                                          testing::Values(1U, 2U, 3U)));

TEST(SampleFolder, HoldsTheFourJobs) { EXPECT_EQ(samples().size(), 4U); }

} // namespace
} // namespace stavewright
