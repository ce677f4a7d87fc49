#include "core/audit/BoardJudge.h"

#include "core/audit/Checks.h"

namespace stavewright {

using namespace audit_detail;

struct BoardJudge::Known {
    const Document& document;
    std::vector<Need> needs;
    std::vector<ThicknessChoice> thicknesses;
};

namespace {

std::vector<Need> neededBy(const Document& document) {
    Report ignored(document); // what is wrong with sizes and choices shows in the audit
    return needsOf(document, document.plan.value_or(Plan{}), ignored);
}

} // namespace

BoardJudge::BoardJudge(const Document& document)
    : m_known(std::make_unique<const Known>(
          Known{document, neededBy(document),
                document.plan ? document.plan->thicknesses : std::vector<ThicknessChoice>{}})) {}

BoardJudge::~BoardJudge() = default;

std::vector<Finding> BoardJudge::failures(const BoardLayout& layout) const {
    Plan plan;
    plan.boards = {layout};
    plan.thicknesses = m_known->thicknesses;
    Report report(m_known->document);
    Case opened = openCase(m_known->document, plan, m_known->needs, report);
    opened.tellsMoves = false;
    checkSections(opened, report);
    checkStrips(opened, report);
    checkBlanks(opened, report);
    checkOutlines(opened, report);
    [[maybe_unused]] const std::vector<Fill> fills = checkZones(opened, report);
    checkFacing(opened, report);
    checkPlaning(opened, report);
    checkRules(opened, report);
    checkSizes(opened, report);
    checkStates(opened, report);
    std::vector<Finding> failures = report.sorted(m_known->document);
    std::erase_if(failures,
                  [](const Finding& finding) { return finding.severity != Severity::Failure; });
    return failures;
}

BoardJudge::LeastWood BoardJudge::leastWoodFor(const BlankPurpose& purpose) const {
    const Need* need = needFor(m_known->needs, purpose);
    if (!need) {
        return {};
    }
    return {need->leastLength,
            need->staves ? need->staves->leastNet + need->staves->jointing : need->leastWidth};
}

} // namespace stavewright
