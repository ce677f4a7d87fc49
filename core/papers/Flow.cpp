#include "core/papers/Flow.h"

#include <algorithm>

namespace stavewright::papers {

std::vector<FlowSpot> spotsIn(const FlowRows& rows, std::size_t first,
                              const std::vector<Rect>& columns) {
    std::vector<FlowSpot> spots;
    std::size_t column = 0;
    Length y = columns.front().y0;
    // Moves on to the next column unless this one is still empty: what is taller than a column has
    // to stand somewhere.
    const auto hasRoom = [&](Length height) {
        while (y + height > columns[column].y1 && y > columns[column].y0) {
            if (++column == columns.size()) {
                return false;
            }
            y = columns[column].y0;
        }
        return true;
    };
    for (std::size_t i = first; i < rows.size();) {
        // Rows that hold on to the next one move as a block.
        std::size_t end = i;
        Length block = rows[end].height;
        while (rows[end].keepWithNext && end + 1 < rows.size()) {
            block += rows[++end].height;
        }
        if (!hasRoom(block)) {
            return spots;
        }
        for (; i <= end; ++i) {
            // A block taller than a column breaks where it must.
            if (!hasRoom(rows[i].height)) {
                return spots;
            }
            FlowSpot spot{column, y};
            if (rows[i].runningHead && y == columns[column].y0) {
                spot.withHead = true;
                spot.y += rows[i].runningHead->height;
            }
            spots.push_back(spot);
            y = spot.y + rows[i].height;
        }
    }
    return spots;
}

std::vector<Rect> balanced(const FlowRows& rows, std::size_t first,
                           const std::vector<Rect>& columns) {
    const std::size_t left = rows.size() - first;
    if (spotsIn(rows, first, columns).size() < left) {
        return columns;
    }
    const auto shortened = [&](Length by) {
        std::vector<Rect> shorter = columns;
        for (Rect& column : shorter) {
            column.y1 -= by;
        }
        return shorter;
    };
    // Rows may spill over the foot of a column that is too short for one of them, so every row's
    // end is looked at.
    const auto holds = [&](const std::vector<Rect>& shorter) {
        const std::vector<FlowSpot> spots = spotsIn(rows, first, shorter);
        if (spots.size() < left) {
            return false;
        }
        for (std::size_t i = 0; i < spots.size(); ++i) {
            if (spots[i].y + rows[first + i].height > shorter[spots[i].column].y1) {
                return false;
            }
        }
        return true;
    };
    constexpr Length step = 1_mm;
    Length by;
    while (columns.front().y0 < columns.front().y1 - by - step && holds(shortened(by + step))) {
        by += step;
    }
    return shortened(by);
}

void flow(const FlowRows& rows, FlowPage first, const std::function<FlowPage()>& nextPage) {
    FlowPage page = std::move(first);
    for (std::size_t done = 0; done < rows.size();) {
        if (done > 0) {
            page = nextPage();
            page.columns = balanced(rows, done, page.columns);
        }
        for (const FlowSpot& spot : spotsIn(rows, done, page.columns)) {
            const Rect& column = page.columns[spot.column];
            const FlowRow& row = rows[done];
            if (spot.withHead) {
                const FlowRow& head = *row.runningHead;
                head.draw(page.pen, {column.x0, spot.y - head.height}, column.length());
            }
            if (row.draw) {
                row.draw(page.pen, {column.x0, spot.y}, column.length());
            }
            ++done;
        }
    }
}

std::size_t rowsForFirstPage(const FlowRows& rows, const std::vector<Rect>& columns,
                             const std::vector<Rect>& secondPage) {
    const std::size_t most = spotsIn(rows, 0, columns).size();
    Length whole;
    for (const FlowRow& row : rows) {
        whole += row.height;
    }
    // The step's beginning nearest to the middle of all rows, as far as the first page reaches.
    std::size_t best = most;
    Length bestOff = whole;
    Length before;
    for (std::size_t i = 0; i < rows.size() && i <= most; ++i) {
        if (i > 0 && rows[i].beginsStep && abs(whole - before * 2) < bestOff &&
            spotsIn(rows, i, secondPage).size() == rows.size() - i) {
            best = i;
            bestOff = abs(whole - before * 2);
        }
        before += rows[i].height;
    }
    return best;
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

void addHeading(FlowRows& rows, const std::string& text, Length width, const TextMeasure& measure) {
    const TextStyle style{10, Weight::SemiBold};
    const bool fits = measure.widthOf(text, style.points, style.weight) <= width;
    const std::vector<std::string> lines =
        fits ? std::vector<std::string>{text} : wrapped(text, width, style, measure);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const Length above = i == 0 ? 2_mm : Length();
        const Length below = i + 1 == lines.size() ? 1.2_mm : Length();
        rows.push_back(
            {rowHeight(style.points) + above + below, true,
             [line = lines[i], style, above, first = i == 0](Pen& pen, Point at, Length across) {
                 if (first) {
                     pen.line({at.x, at.y + 1.4_mm}, {at.x + across, at.y + 1.4_mm},
                              {0.35_mm, LineStyle::Solid, Ink::Black});
                 }
                 pen.text({at.x, at.y + above + baselineIn(style.points)}, line, style);
             }});
    }
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

void drawTickBox(Pen& pen, Point baseline, Done done) {
    pen.rect({baseline.x, baseline.y - 3.2_mm, baseline.x + 3.2_mm, baseline.y},
             {0.25_mm, LineStyle::Solid, Ink::Black});
    if (done == Done::Yes) {
        const LineLook look{0.5_mm, LineStyle::Solid, Ink::Black};
        const Point foot{baseline.x + 1.3_mm, baseline.y - 0.6_mm};
        pen.line({baseline.x + 0.5_mm, baseline.y - 1.6_mm}, foot, look);
        pen.line(foot, {baseline.x + 3_mm, baseline.y - 2.9_mm}, look);
    }
}

} // namespace stavewright::papers
