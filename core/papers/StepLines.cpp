#include "core/papers/StepLines.h"

#include "core/papers/BoardCanvas.h"
#include "core/papers/Words.h"

namespace stavewright::papers {

namespace {

constexpr Length afterTick = 5_mm;
constexpr Length fractionRoom = 6_mm; ///< behind the whole number of a reading
constexpr Length bladeRoom = 8_mm;

/// The whole number of a reading: what numbers in a column are aligned on.
std::string wholeOf(const std::string& text) {
    const std::size_t space = text.find(' ');
    if (space != std::string::npos) {
        return text.substr(0, space);
    }
    if (text.find('/') != std::string::npos) {
        return {};
    }
    return text.substr(0, text.find('.'));
}

} // namespace

Span wordSpan(std::string text, Length gap) {
    return {std::move(text), wordPoints, Weight::Regular, Ink::Black, gap};
}
Span nameSpan(std::string text, Length gap) {
    return {std::move(text), wordPoints, Weight::SemiBold, Ink::Black, gap};
}
Span numberSpan(std::string text, Length gap) {
    return {std::move(text), sawPoints, Weight::SemiBold, Ink::Black, gap};
}
Span plainNumberSpan(std::string text, Length gap) {
    return {std::move(text), sawPoints, Weight::Regular, Ink::Black, gap};
}

void StepLines::numberedHeading(const std::string& title) {
    heading(std::to_string(++m_step) + "  " + title);
}

void StepLines::heading(const std::string& title) { addHeading(m_rows, title); }

void StepLines::paragraph(const std::string& text, double size, Weight weight) {
    addParagraph(m_rows, text, {size, weight}, m_width, m_measure);
}

void StepLines::instruction(const std::string& text) {
    const std::size_t before = m_rows.size();
    paragraph(text);
    for (std::size_t i = before; i < m_rows.size(); ++i) {
        m_rows[i].keepWithNext = true;
    }
}

void StepLines::gap(Length height) { m_rows.push_back(space(height)); }

void StepLines::tickRow(const std::vector<Span>& spans) {
    const Length room = m_width - afterTick;
    std::vector<std::vector<Span>> lines(1);
    for (Span span : spans) {
        span.utf8 = elided(span.utf8, room, {span.points, span.weight}, m_measure);
        std::vector<Span> longer = lines.back();
        longer.push_back(span);
        if (!lines.back().empty() && widthOf(longer, m_measure) > room) {
            lines.push_back({span});
        } else {
            lines.back() = std::move(longer);
        }
    }
    for (std::size_t i = 0; i < lines.size(); ++i) {
        FlowRow row = spanRow(std::move(lines[i]), afterTick, sawPoints);
        row.keepWithNext = i + 1 < lines.size();
        if (i == 0) {
            row.draw = [inner = std::move(row.draw)](Pen& pen, Point at, Length width) {
                drawTickBox(pen, {at.x, at.y + baselineIn(sawPoints)});
                inner(pen, at, width);
            };
        }
        m_rows.push_back(std::move(row));
    }
}

void StepLines::tickPairs(const std::vector<std::vector<Span>>& entries) {
    const Length half = m_width / 2;
    const auto fitsHalf = [&](std::size_t i) {
        return i < entries.size() && widthOf(entries[i], m_measure) <= half - afterTick - 2_mm;
    };
    for (std::size_t i = 0; i < entries.size(); ++i) {
        if (!fitsHalf(i) || !fitsHalf(i + 1)) {
            tickRow(entries[i]);
            continue;
        }
        m_rows.push_back(
            {rowHeight(sawPoints), false,
             [half, left = entries[i], right = entries[i + 1]](Pen& pen, Point at, Length) {
                 const Length y = at.y + baselineIn(sawPoints);
                 drawTickBox(pen, {at.x, y});
                 pen.spans({at.x + afterTick, y}, left);
                 drawTickBox(pen, {at.x + half, y});
                 pen.spans({at.x + half + afterTick, y}, right);
             }});
        ++i;
    }
}

/// "7a starts", "7a ends", "7a ends, 7b starts at 31 7/8"
std::vector<Span> StepLines::crosscutWords(const CrosscutMark& mark,
                                           const std::vector<std::string>& names,
                                           Length room) const {
    const TextStyle style{wordPoints};
    const auto name = [&](std::size_t index) {
        return elided(names[index], room / 4, style, m_measure);
    };
    std::vector<Span> spans{
        wordSpan(mark.blade == Blade::AwayFromDatum ? "blade right:" : "blade left:")};
    if (mark.ends && mark.starts) {
        spans.push_back(wordSpan(name(*mark.ends) + " ends,"));
        spans.push_back(wordSpan(name(*mark.starts) + " starts at"));
        spans.push_back(plainNumberSpan(lengthText(m_info, mark.startReading)));
    } else {
        spans.push_back(
            wordSpan(mark.ends ? name(*mark.ends) + " ends" : name(*mark.starts) + " starts"));
    }
    return spans;
}

void StepLines::widen(ReadingColumn& column, const std::string& name,
                      const std::vector<CrosscutMark>& marks) const {
    if (!name.empty() && !marks.empty()) {
        const Length wide = m_measure.widthOf(name, wordPoints, Weight::SemiBold) + 3_mm;
        column.nameWidth = larger(column.nameWidth, wide);
    }
    for (const CrosscutMark& mark : marks) {
        const std::string whole = wholeOf(lengthText(m_info, mark.reading));
        column.wholeWidth =
            larger(column.wholeWidth, m_measure.widthOf(whole, sawPoints, Weight::SemiBold));
    }
}

void StepLines::readingRow(const ReadingColumn& column, const std::string& name,
                           const CrosscutMark& mark, const std::vector<std::string>& names) {
    const std::string reading = lengthText(m_info, mark.reading);
    const Length wholeRight = afterTick + column.nameWidth + column.wholeWidth;
    const Length numberLeft =
        wholeRight - m_measure.widthOf(wholeOf(reading), sawPoints, Weight::SemiBold);
    const Length wordsLeft = wholeRight + fractionRoom + bladeRoom;
    const std::vector<Span> tail = crosscutWords(mark, names, m_width - wordsLeft);
    m_rows.push_back({rowHeight(sawPoints), false,
                      [reading, name, tail, wholeRight, numberLeft, wordsLeft,
                       blade = mark.blade](Pen& pen, Point at, Length) {
                          const Length y = at.y + baselineIn(sawPoints);
                          drawTickBox(pen, {at.x, y});
                          pen.text({at.x + afterTick, y}, name, {wordPoints, Weight::SemiBold});
                          const Rect box = pen.text({at.x + numberLeft, y}, reading,
                                                    {sawPoints, Weight::SemiBold});
                          const Length bladeX = larger(box.x1, at.x + wholeRight) +
                                                (blade == Blade::AwayFromDatum ? 2.5_mm : 4.7_mm);
                          drawBlade(pen, {bladeX, y - 1.7_mm}, blade);
                          pen.spans({at.x + wordsLeft, y}, tail);
                      }});
}

} // namespace stavewright::papers
