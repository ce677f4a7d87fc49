#include <cassert>

#include "core/audit/Audit.h"
#include "core/milling/BlankSpec.h"
#include "core/papers/BlockSheet.h"
#include "core/papers/GlueUpSheet.h"
#include "core/papers/LimitSheets.h"
#include "core/papers/Sheets.h"

namespace stavewright::papers {

std::vector<Page> pagesOf(const Document& document, const AuditReport& report,
                          const std::vector<BlankSpec>& specs, const PaperOptions& options,
                          const TextMeasure& measure,
                          const std::vector<hand::BoardLimits>& limits) {
    assert(document.plan && "pages are made of a plan");
    std::vector<BoardCuts> boards;
    for (const BoardLayout& layout : document.plan->boards) {
        if (!layout.sections.empty()) {
            boards.push_back(cutsOf(document, specs, layout));
        }
    }
    const SheetInput input{document, *document.plan, report, specs, boards, limits};
    PageBook book(document, options, measure);
    addFirstSheet(book, input);
    for (const BoardCuts& cuts : boards) {
        addBoardSheet(book, input, cuts);
    }
    addPartSheets(book, input);
    addGlueUpSheets(book, document, report.fills);
    addBlockSheets(book, document, report.fills);
    return book.finish();
}

Result<std::vector<Page>> makePapers(const Document& document, const PaperOptions& options,
                                     const TextMeasure& measure) {
    return makePapers(document, options, measure, {});
}

Result<std::vector<Page>> makePapers(const Document& document, const PaperOptions& options,
                                     const TextMeasure& measure,
                                     const std::vector<hand::BoardLimits>& limits) {
    if (!document.plan) {
        return Error{ErrorCode::BadInput, "There is no plan to print yet; plan the job first.", ""};
    }
    const AuditReport report = audit(document);
    if (!report.passed()) {
        std::string message = "Nothing is printed, because the plan fails the audit";
        for (const Finding& finding : report.findings) {
            if (finding.severity == Severity::Failure) {
                message += ": " + finding.sentence;
                break;
            }
        }
        return Error{ErrorCode::BadInput, message, ""};
    }
    const Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    if (!specs) {
        return specs.error();
    }
    return pagesOf(document, report, specs.value(), options, measure, limits);
}

} // namespace stavewright::papers
