#pragma once
// Rows that run down a column, on into the next column and on to further pages. Each row knows its
// height before it is drawn.

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/papers/Pen.h"

namespace stavewright::papers {

struct FlowRow {
    Length height;
    bool keepWithNext = false; ///< a heading does not stay behind alone
    /// Draws at the row's top left; `width` is the column's.
    std::function<void(Pen& pen, Point topLeft, Length width)> draw;
    bool beginsStep = false; ///< a good place to turn the sheet
    /// Drawn again over this row where it comes to the top of a column: a table's head.
    std::shared_ptr<const FlowRow> runningHead{};
};
using FlowRows = std::vector<FlowRow>;

/// Where rows may go on one page.
struct FlowPage {
    Pen pen;
    std::vector<Rect> columns;
};

/// Where a row stands on its page.
struct FlowSpot {
    std::size_t column = 0;
    Length y;              ///< of its top
    bool withHead = false; ///< its running head stands over it
};

/// Spots of the rows from `first` on that these columns hold, at least one; fewer than are left
/// when the columns are full.
[[nodiscard]] std::vector<FlowSpot> spotsIn(const FlowRows& rows, std::size_t first,
                                            const std::vector<Rect>& columns);

/// The same columns, no longer than they have to be to hold the rows from `first` on, so that the
/// rows divide evenly; as they are when the rows do not fit.
[[nodiscard]] std::vector<Rect> balanced(const FlowRows& rows, std::size_t first,
                                         const std::vector<Rect>& columns);

/// Places all rows, beginning on `first`; asks for further pages as they are needed. The last page
/// of several is balanced.
void flow(const FlowRows& rows, FlowPage first, const std::function<FlowPage()>& nextPage);

/// How many of the rows go on the first page when two are needed: up to a step's beginning near the
/// middle, so that no page carries only a line or two; as many as it holds where the rest would not
/// fit the second page.
[[nodiscard]] std::size_t rowsForFirstPage(const FlowRows& rows, const std::vector<Rect>& columns,
                                           const std::vector<Rect>& secondPage);

[[nodiscard]] FlowRow space(Length height);
/// One row per line, so that a long paragraph may break over columns.
void addParagraph(FlowRows& rows, const std::string& text, const TextStyle& style, Length width,
                  const TextMeasure& measure, Length indent = {});
/// A heading with a rule above it.
void addHeading(FlowRows& rows, const std::string& text, Length width, const TextMeasure& measure);
/// A line of spans; the row is as tall as its largest type, or as type of `leastPoints`.
[[nodiscard]] FlowRow spanRow(std::vector<Span> spans, Length indent = {}, double leastPoints = 0);
/// What a row asks for is done before it is printed.
enum class Done { No, Yes };
/// A small square to tick, for a row whose type has this size; ticked where that is done.
void drawTickBox(Pen& pen, Point baseline, Done done = Done::No);

/// Height of a row of this type size.
[[nodiscard]] Length rowHeight(double points);
/// Baseline below the top of such a row.
[[nodiscard]] Length baselineIn(double points);

} // namespace stavewright::papers
