#pragma once
// One way to break the good plan, and exactly what the audit must say about it.

#include <functional>
#include <ostream>
#include <string>
#include <vector>

#include "AuditSample.h"
#include "core/audit/Audit.h"

namespace stavewright::audit_sample {

struct Expected {
    FindingKind kind;
    std::string sentence;
    friend bool operator==(const Expected&, const Expected&) = default;
};
std::ostream& operator<<(std::ostream& out, const Expected& expected);

struct BrokenPlan {
    std::string name; ///< letters only, it names the test
    std::function<void(Document&)> breakIt;
    std::vector<Expected> expected; ///< all failures, in order
};
std::ostream& operator<<(std::ostream& out, const BrokenPlan& broken);

/// The failures of the job's plan, in the report's order.
[[nodiscard]] std::vector<Expected> failuresOf(const AuditReport& report);

/// Lets the plan claim what the audit counts, so that only the breakage itself is found.
void claimWhatIsCounted(Document& job);

/// Breaks the good plan, corrects its totals, and expects these failures and no others.
void expectFindings(const BrokenPlan& broken);

} // namespace stavewright::audit_sample
