#include "BrokenPlan.h"

#include <gmock/gmock.h>

namespace stavewright::audit_sample {

std::ostream& operator<<(std::ostream& out, const Expected& expected) {
    return out << "kind " << static_cast<int>(expected.kind) << ": " << expected.sentence;
}

std::ostream& operator<<(std::ostream& out, const BrokenPlan& broken) { return out << broken.name; }

std::vector<Expected> failuresOf(const AuditReport& report) {
    std::vector<Expected> failures;
    for (const Finding& finding : report.findings) {
        if (finding.severity == Severity::Failure) {
            failures.push_back({finding.kind, finding.sentence});
        }
    }
    return failures;
}

void claimWhatIsCounted(Document& job) { job.plan->totals = audit(job).totals; }

void expectFindings(const BrokenPlan& broken) {
    Document job = goodJob();
    broken.breakIt(job);
    claimWhatIsCounted(job);
    const AuditReport report = audit(job);
    EXPECT_THAT(failuresOf(report), testing::ElementsAreArray(broken.expected));
    EXPECT_FALSE(report.passed());
    EXPECT_EQ(report.failures(), broken.expected.size());
}

} // namespace stavewright::audit_sample
