#pragma once
// The three kinds of sheets. Each adds its pages to the book.

#include "core/audit/Audit.h"
#include "core/hand/BoardLimits.h"
#include "core/papers/CutSteps.h"
#include "core/papers/Flow.h"
#include "core/papers/PageBook.h"

namespace stavewright::papers {

/// Everything the sheets read, worked out once.
struct SheetInput {
    const Document& document;
    const Plan& plan;
    const AuditReport& report;
    const std::vector<BlankSpec>& specs;
    const std::vector<BoardCuts>& boards;
    const std::vector<hand::BoardLimits>& limits; ///< of the boards where they are known
};

/// The job, its verdict and yield, what was not placed, how to read the sheets.
void addFirstSheet(PageBook& book, const SheetInput& input);
/// One board: drawing, then the steps saw by saw.
void addBoardSheet(PageBook& book, const SheetInput& input, const BoardCuts& cuts);
/// Every part: finished size, where its blanks come from, the sum that says why they are this size.
void addPartSheets(PageBook& book, const SheetInput& input);

/// All pages in order, from what audit and milling said; document.plan must be set.
[[nodiscard]] std::vector<Page> pagesOf(const Document& document, const AuditReport& report,
                                        const std::vector<BlankSpec>& specs,
                                        const PaperOptions& options, const TextMeasure& measure,
                                        const std::vector<hand::BoardLimits>& limits = {});

/// The steps of one board as rows for a column of `width`; `limits` may be null.
[[nodiscard]] FlowRows stepRows(const Document& document, const BoardCuts& cuts,
                                const std::vector<Fill>& fills, Length width,
                                const TextMeasure& measure,
                                const hand::BoardLimits* limits = nullptr);

class StepLines;
/// How far the board's cuts may land off, and the standbys.
void addLimitRows(StepLines& lines, const Document& document, const BoardCuts& cuts,
                  const hand::BoardLimits& limits);

/// How to read the drawings, as rows: the symbols and what they mean.
[[nodiscard]] FlowRows legendRows(const Document& document, Length width,
                                  const TextMeasure& measure);

} // namespace stavewright::papers
