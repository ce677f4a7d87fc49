#include "core/papers/Table.h"

#include <algorithm>

namespace stavewright::papers {

namespace {

FlowRow row(const std::vector<Column>& columns, std::vector<Cell> cells, Ink ink) {
    double largest = 8;
    for (const Cell& cell : cells) {
        largest = std::max(largest, cell.points);
    }
    // A little more than a line of words needs, so that fractions do not touch those above.
    return {rowHeight(largest) + 0.3_mm, false,
            [columns, cells = std::move(cells), ink, largest](Pen& pen, Point at, Length) {
                for (std::size_t i = 0; i < std::min(columns.size(), cells.size()); ++i) {
                    const Column& column = columns[i];
                    const TextStyle style{cells[i].points, cells[i].weight, column.align, ink};
                    const Length x = column.align == Align::Left ? column.from
                                     : column.align == Align::Right
                                         ? column.from + column.width
                                         : column.from + column.width / 2;
                    pen.text({at.x + x, at.y + baselineIn(largest)},
                             elided(cells[i].text, column.width, style, pen.measure()), style);
                }
            }};
}

} // namespace

FlowRow tableRow(const std::vector<Column>& columns, std::vector<Cell> cells) {
    return row(columns, std::move(cells), Ink::Black);
}

FlowRow tableHead(const std::vector<Column>& columns, const std::vector<std::string>& titles) {
    std::vector<Cell> cells;
    for (const std::string& title : titles) {
        cells.push_back({title, 8, Weight::Medium});
    }
    FlowRow head = row(columns, std::move(cells), Ink::Grey);
    head.keepWithNext = true;
    return head;
}

} // namespace stavewright::papers
