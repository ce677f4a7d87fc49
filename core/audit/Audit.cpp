#include "core/audit/Audit.h"

#include <algorithm>
#include <utility>

#include "core/audit/Checks.h"

namespace stavewright {

std::size_t AuditReport::failures() const {
    return static_cast<std::size_t>(
        std::count_if(findings.begin(), findings.end(), [](const Finding& finding) {
            return finding.severity == Severity::Failure;
        }));
}

bool AuditReport::passed() const { return failures() == 0; }

AuditReport audit(const Document& document) {
    return document.plan ? audit(document, *document.plan) : AuditReport{};
}

AuditReport audit(const Document& document, const Plan& plan) {
    using namespace audit_detail;
    Report report(document);
    const Case opened = openCase(document, plan, report);
    checkSections(opened, report);
    checkStrips(opened, report);
    checkBlanks(opened, report);
    checkOutlines(opened, report);
    std::vector<Fill> fills = checkZones(opened, report);
    checkFacing(opened, report);
    checkPlaning(opened, report);
    checkRules(opened, report);
    checkSizes(opened, report);
    checkDemand(opened, report);
    checkOffcuts(opened, report);
    checkStates(opened, report);
    checkIds(opened, report);
    checkSeen(opened, report);
    checkGroups(opened, report);

    AuditReport result;
    result.totals = countTotals(opened, static_cast<int>(fills.size()));
    result.fills = std::move(fills);
    checkTotals(opened, result.totals, report);
    result.findings = report.sorted(document);
    return result;
}

} // namespace stavewright
