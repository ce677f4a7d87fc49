#include "core/papers/SumBlock.h"

#include <algorithm>
#include <array>
#include <utility>

#include "core/papers/Words.h"

namespace stavewright::papers {

namespace {

constexpr TextStyle amountStyle{10, Weight::Medium, Align::Right, Ink::Black, false, 0};
constexpr TextStyle totalStyle{10, Weight::SemiBold, Align::Right, Ink::Black, false, 0};
constexpr TextStyle wordStyle{9, Weight::Regular, Align::Left, Ink::Black, false, 0};
constexpr TextStyle titleStyle{8, Weight::Medium, Align::Left, Ink::Grey, false, 0};
constexpr Length indent = 4_mm;
constexpr Length columnGap = 5_mm;
constexpr Length wordGap = 1.6_mm;

struct SumEntry {
    std::string amount; ///< with its sign
    std::vector<std::string> words;
};
struct SumColumn {
    std::string title;
    std::vector<SumEntry> entries;
    std::string total;
    Length amountWidth;
    Length height;
};

/// Fractions under one another do not touch.
Length entryHeight(const SumEntry& entry) {
    const auto lines = static_cast<std::int64_t>(std::max<std::size_t>(1, entry.words.size()));
    return rowHeight(amountStyle.points) + 0.6_mm + rowHeight(wordStyle.points) * (lines - 1);
}

std::string plainAmount(const JobInfo& info, const SumLine& line, bool first) {
    const char* sign = first ? "" : line.amount < Length() ? "− " : "+ ";
    return sign + exactText(info, abs(line.amount));
}

SumColumn columnOf(const JobInfo& info, const std::vector<SumLine>& sums, Dimension dimension,
                   std::string title, Length width, const TextMeasure& measure) {
    SumColumn column;
    column.title = std::move(title);
    Length after;
    std::vector<std::string> texts;
    for (const SumLine& line : sums) {
        const bool first = column.entries.empty();
        if (line.dimension != dimension || (line.amount == Length() && !first)) {
            continue;
        }
        column.entries.push_back({plainAmount(info, line, first), {}});
        texts.push_back(line.text);
        after = line.after;
        column.amountWidth =
            larger(column.amountWidth, measure.widthOf(column.entries.back().amount,
                                                       amountStyle.points, amountStyle.weight));
    }
    column.total = "= " + exactText(info, after);
    column.amountWidth = larger(
        column.amountWidth, measure.widthOf(column.total, totalStyle.points, totalStyle.weight));
    column.height = rowHeight(titleStyle.points) + rowHeight(amountStyle.points) + 1_mm;
    for (std::size_t i = 0; i < column.entries.size(); ++i) {
        SumEntry& entry = column.entries[i];
        entry.words = wrapped(texts[i], width - column.amountWidth - wordGap, wordStyle, measure);
        column.height += entryHeight(entry);
    }
    return column;
}

void drawColumn(Pen& pen, Point at, const SumColumn& column) {
    const Length right = at.x + column.amountWidth;
    pen.text({at.x, at.y + baselineIn(titleStyle.points)}, column.title, titleStyle);
    Length y = at.y + rowHeight(titleStyle.points);
    for (const SumEntry& entry : column.entries) {
        Length baseline = y + baselineIn(amountStyle.points);
        pen.text({right, baseline}, entry.amount, amountStyle);
        for (const std::string& line : entry.words) {
            pen.text({right + wordGap, baseline}, line, wordStyle);
            baseline += rowHeight(wordStyle.points);
        }
        y += entryHeight(entry);
    }
    pen.line({at.x, y + 0.3_mm}, {right, y + 0.3_mm}, {0.2_mm});
    pen.text({right, y + 0.6_mm + baselineIn(totalStyle.points)}, column.total, totalStyle);
}

} // namespace

FlowRow sumRow(const JobInfo& info, const std::vector<SumLine>& sums, Length width,
               const TextMeasure& measure) {
    constexpr std::array<std::pair<Dimension, const char*>, 3> dimensions = {
        {{Dimension::Length, "Length"},
         {Dimension::Width, "Width"},
         {Dimension::Thickness, "Thickness"}}};
    // The sums across have the longest words.
    constexpr std::array<std::int64_t, 3> shares = {31, 39, 30};
    const Length room = width - indent - columnGap * 2;
    std::vector<SumColumn> columns;
    std::vector<Length> lefts;
    Length left = indent;
    Length height;
    for (std::size_t i = 0; i < dimensions.size(); ++i) {
        const auto& [dimension, title] = dimensions[i];
        const Length columnWidth = room * shares[i] / 100;
        columns.push_back(columnOf(info, sums, dimension, title, columnWidth, measure));
        lefts.push_back(left);
        left += columnWidth + columnGap;
        height = larger(height, columns.back().height);
    }
    return {height + 1_mm, false, [columns, lefts](Pen& pen, Point at, Length) {
                for (std::size_t i = 0; i < columns.size(); ++i) {
                    drawColumn(pen, {at.x + lefts[i], at.y}, columns[i]);
                }
            }};
}

} // namespace stavewright::papers
