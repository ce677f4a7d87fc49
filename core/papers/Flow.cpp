#include "core/papers/Flow.h"

#include <algorithm>

namespace stavewright::papers {

void flow(const FlowRows& rows, FlowPage first, const std::function<FlowPage()>& nextPage) {
    FlowPage page = std::move(first);
    std::size_t column = 0;
    Length y = page.columns.front().y0;
    const auto advance = [&] {
        if (++column == page.columns.size()) {
            page = nextPage();
            column = 0;
        }
        y = page.columns[column].y0;
    };
    for (std::size_t i = 0; i < rows.size();) {
        // Rows that hold on to the next one move as a block.
        std::size_t end = i;
        Length block = rows[end].height;
        while (rows[end].keepWithNext && end + 1 < rows.size()) {
            block += rows[++end].height;
        }
        const Rect* place = &page.columns[column];
        if (y + block > place->y1 && y > place->y0) {
            advance();
            place = &page.columns[column];
        }
        for (; i <= end; ++i) {
            // A block taller than a column breaks where it must.
            if (y + rows[i].height > place->y1 && y > place->y0) {
                advance();
                place = &page.columns[column];
            }
            if (rows[i].draw) {
                rows[i].draw(page.pen, {place->x0, y}, place->length());
            }
            y += rows[i].height;
        }
    }
}

Length rowHeight(double size) { return points(size * 1.36); }
Length baselineIn(double size) { return points(size * 1.02); }

FlowRow space(Length height) { return {height, false, {}}; }

void addParagraph(FlowRows& rows, const std::string& text, const TextStyle& style, Length width,
                  const TextMeasure& measure, Length indent) {
    for (const std::string& line : wrapped(text, width - indent, style, measure)) {
        rows.push_back(
            {rowHeight(style.points), false, [line, style, indent](Pen& pen, Point at, Length) {
                 pen.text({at.x + indent, at.y + baselineIn(style.points)}, line, style);
             }});
    }
}

void addHeading(FlowRows& rows, const std::string& text, double size) {
    rows.push_back({rowHeight(size) + 3.2_mm, true, [text, size](Pen& pen, Point at, Length width) {
                        pen.line({at.x, at.y + 1.4_mm}, {at.x + width, at.y + 1.4_mm},
                                 {0.35_mm, LineStyle::Solid, Ink::Black});
                        pen.text({at.x, at.y + 2_mm + baselineIn(size)},
                                 elided(text, width, {size, Weight::SemiBold}, pen.measure()),
                                 {size, Weight::SemiBold});
                    }});
}

FlowRow spanRow(std::vector<Span> line, Length indent, double leastPoints) {
    double largest = leastPoints;
    for (const Span& span : line) {
        largest = std::max(largest, span.points);
    }
    return {rowHeight(largest), false,
            [line = std::move(line), indent, largest](Pen& pen, Point at, Length) {
                pen.spans({at.x + indent, at.y + baselineIn(largest)}, line);
            }};
}

void drawTickBox(Pen& pen, Point baseline) {
    pen.rect({baseline.x, baseline.y - 3.2_mm, baseline.x + 3.2_mm, baseline.y},
             {0.25_mm, LineStyle::Solid, Ink::Black});
}

} // namespace stavewright::papers
