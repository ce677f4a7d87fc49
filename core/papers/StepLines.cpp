#include "core/papers/StepLines.h"

#include "core/papers/BoardCanvas.h"
#include "core/papers/Words.h"

namespace stavewright::papers {

namespace {

constexpr Length afterTick = 5_mm;
constexpr Length fractionRoom = 6.4_mm; ///< behind the whole number of a reading
constexpr Length squareRoom = 4.5_mm;   ///< behind a strip's name, for the sign of a square end
constexpr Length bladeRoom = 6.5_mm;

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

void drawFillSign(Pen& pen, Point at) {
    const Length r = fillSignWidth / 2;
    const Length middle = at.y + fillSignHeight - r;
    pen.area({at,
              {at.x + scaled(r, 0.87), middle - scaled(r, 0.5)},
              {at.x + r, middle},
              {at.x + scaled(r, 0.71), middle + scaled(r, 0.71)},
              {at.x, middle + r},
              {at.x - scaled(r, 0.71), middle + scaled(r, 0.71)},
              {at.x - r, middle},
              {at.x - scaled(r, 0.87), middle - scaled(r, 0.5)}},
             Ink::Black, {0.3_mm, LineStyle::Solid, Ink::White});
}

void drawSquareSign(Pen& pen, Point baseline) {
    const LineLook look{0.5_mm, LineStyle::Solid, Ink::Black};
    pen.line({baseline.x, baseline.y - 3.2_mm}, {baseline.x, baseline.y}, look);
    pen.line({baseline.x - 0.25_mm, baseline.y}, {baseline.x + 2.8_mm, baseline.y}, look);
    pen.rect({baseline.x, baseline.y - 1.2_mm, baseline.x + 1.2_mm, baseline.y}, {0.2_mm});
}

void drawCautionSign(Pen& pen, Point baseline) {
    const Point top{baseline.x + 1.9_mm, baseline.y - 3.1_mm};
    pen.polygon(
        {{baseline.x, baseline.y + 0.1_mm}, {baseline.x + 3.8_mm, baseline.y + 0.1_mm}, top},
        {0.35_mm, LineStyle::Solid, Ink::Black});
    pen.line({top.x, top.y + 1_mm}, {top.x, top.y + 2.2_mm},
             {0.4_mm, LineStyle::Solid, Ink::Black});
    pen.disc({top.x, top.y + 2.7_mm}, 0.25_mm, Ink::Black);
}

void StepLines::numberedHeading(const std::string& title) {
    heading(std::to_string(++m_step) + "  " + title);
    beginStepHere();
}

void StepLines::caution(const std::string& text) {
    const std::size_t before = m_rows.size();
    addParagraph(m_rows, text, {wordPoints, Weight::Medium}, m_width, m_measure, afterTick);
    for (std::size_t i = before; i < m_rows.size(); ++i) {
        m_rows[i].keepWithNext = true;
    }
    FlowRow& first = m_rows[before];
    first.draw = [inner = std::move(first.draw)](Pen& pen, Point at, Length width) {
        drawCautionSign(pen, {at.x, at.y + baselineIn(wordPoints)});
        inner(pen, at, width);
    };
}

void StepLines::heading(const std::string& title) {
    m_lastHeading = m_rows.size();
    addHeading(m_rows, title, m_width, m_measure);
}

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

void StepLines::squareInstruction(const std::string& text) {
    const std::size_t before = m_rows.size();
    addParagraph(m_rows, text, {wordPoints}, m_width, m_measure, afterTick);
    for (std::size_t i = before; i < m_rows.size(); ++i) {
        m_rows[i].keepWithNext = true;
    }
    m_rows[before].draw = [inner = std::move(m_rows[before].draw)](Pen& pen, Point at, Length w) {
        drawSquareSign(pen, {at.x + 0.3_mm, at.y + baselineIn(wordPoints)});
        inner(pen, at, w);
    };
}

void StepLines::gap(Length height) { m_rows.push_back(space(height)); }

void StepLines::tickRow(const std::vector<Span>& spans, RowSign sign, Done done) {
    const Length indent = afterTick + (sign == RowSign::Fill ? fillSignWidth + 1.5_mm : Length());
    const Length room = m_width - indent;
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
        // A line that goes on with words only is no taller than they are.
        FlowRow row = spanRow(std::move(lines[i]), indent, i == 0 ? sawPoints : wordPoints);
        row.keepWithNext = i + 1 < lines.size();
        if (i == 0) {
            row.draw = [sign, done, inner = std::move(row.draw)](Pen& pen, Point at, Length width) {
                const Length baseline = at.y + baselineIn(sawPoints);
                drawTickBox(pen, {at.x, baseline}, done);
                if (sign == RowSign::Fill) {
                    drawFillSign(pen,
                                 {at.x + afterTick + fillSignWidth / 2, baseline - fillSignHeight});
                }
                inner(pen, at, width);
            };
        }
        m_rows.push_back(std::move(row));
    }
}

void StepLines::plainRow(std::vector<Span> spans) {
    std::vector<Span> line;
    for (Span& span : spans) {
        span.utf8 = elided(span.utf8, m_width, {span.points, span.weight}, m_measure);
        std::vector<Span> longer = line;
        longer.push_back(span);
        if (!line.empty() && widthOf(longer, m_measure) > m_width) {
            FlowRow row = spanRow(std::move(line), {}, wordPoints);
            row.keepWithNext = true;
            m_rows.push_back(std::move(row));
            longer = {span};
        }
        line = std::move(longer);
    }
    m_rows.push_back(spanRow(std::move(line), {}, wordPoints));
}

void StepLines::tickPairs(const std::vector<Tick>& entries) {
    const Length half = m_width / 2;
    const auto fitsHalf = [&](std::size_t i) {
        return i < entries.size() &&
               widthOf(entries[i].spans, m_measure) <= half - afterTick - 2_mm;
    };
    for (std::size_t i = 0; i < entries.size(); ++i) {
        if (!fitsHalf(i) || !fitsHalf(i + 1)) {
            tickRow(entries[i].spans, RowSign::None, entries[i].done);
            continue;
        }
        m_rows.push_back(
            {rowHeight(sawPoints), false,
             [half, left = entries[i], right = entries[i + 1]](Pen& pen, Point at, Length) {
                 const Length y = at.y + baselineIn(sawPoints);
                 drawTickBox(pen, {at.x, y}, left.done);
                 pen.spans({at.x + afterTick, y}, left.spans);
                 drawTickBox(pen, {at.x + half, y}, right.done);
                 pen.spans({at.x + half + afterTick, y}, right.spans);
             }});
        ++i;
    }
}

/// "7a starts", "7a ends", "7a ends, 7b starts at 31 7/8"
std::vector<Span> StepLines::crosscutWords(const CrosscutMark& mark,
                                           const std::vector<std::string>& names,
                                           Length room) const {
    const auto name = [&](std::size_t index) {
        return elided(names[index], room / 3, {wordPoints, Weight::SemiBold}, m_measure);
    };
    // "B1, B2" of one blank.
    const auto isSeveral = [&](std::size_t index) {
        return names[index].find(", ") != std::string::npos;
    };
    std::vector<Span> spans;
    if (mark.ends) {
        spans.push_back(nameSpan(name(*mark.ends), 1.2_mm));
        spans.push_back(wordSpan(std::string(isSeveral(*mark.ends) ? "end" : "ends") +
                                 (mark.starts ? "," : "")));
    }
    if (mark.starts) {
        spans.push_back(nameSpan(name(*mark.starts), 1.2_mm));
        spans.push_back(wordSpan(std::string(isSeveral(*mark.starts) ? "start" : "starts") +
                                 (mark.ends ? " at" : "")));
    }
    if (mark.ends && mark.starts) {
        spans.push_back(plainNumberSpan(tapeText(m_info, mark.startReading), 1.5_mm));
    }
    if (mark.isMade) {
        spans.push_back(wordSpan("(made)"));
    }
    return spans;
}

void StepLines::widen(ReadingColumn& column, const std::string& name,
                      const std::vector<CrosscutMark>& marks) const {
    if (!name.empty() && !marks.empty()) {
        const Length wide =
            m_measure.widthOf(name, wordPoints, Weight::SemiBold) + 1.5_mm + squareRoom;
        column.nameWidth = larger(column.nameWidth, wide);
    }
    for (const CrosscutMark& mark : marks) {
        const std::string whole = wholeOf(tapeText(m_info, mark.reading));
        column.wholeWidth =
            larger(column.wholeWidth, m_measure.widthOf(whole, sawPoints, Weight::SemiBold));
    }
}

void StepLines::readingRow(const ReadingColumn& column, const std::string& name,
                           const CrosscutMark& mark, const std::vector<std::string>& names,
                           bool square) {
    const std::string reading = tapeText(m_info, mark.reading);
    const Length wholeRight = afterTick + column.nameWidth + column.wholeWidth;
    const Length numberLeft =
        wholeRight - m_measure.widthOf(wholeOf(reading), sawPoints, Weight::SemiBold);
    const Length wordsLeft = wholeRight + fractionRoom + bladeRoom;
    const Length room = m_width - wordsLeft;
    std::vector<Span> tail = crosscutWords(mark, names, room);
    std::vector<Span> below;
    if (mark.ends && mark.starts && widthOf(tail, m_measure) > room) {
        below.assign(tail.begin() + 2, tail.end());
        tail.resize(2);
    }
    m_rows.push_back({rowHeight(sawPoints), !below.empty(),
                      [reading, name, tail, wholeRight, numberLeft, wordsLeft, square,
                       done = mark.isMade ? Done::Yes : Done::No,
                       signX = afterTick + column.nameWidth - squareRoom,
                       blade = mark.blade](Pen& pen, Point at, Length) {
                          const Length y = at.y + baselineIn(sawPoints);
                          drawTickBox(pen, {at.x, y}, done);
                          pen.text({at.x + afterTick, y}, name, {wordPoints, Weight::SemiBold});
                          if (square) {
                              drawSquareSign(pen, {at.x + signX, y});
                          }
                          const Rect box = pen.text({at.x + numberLeft, y}, reading,
                                                    {sawPoints, Weight::SemiBold});
                          const Length bladeX = larger(box.x1, at.x + wholeRight) +
                                                (blade == Blade::AwayFromDatum ? 2.5_mm : 4.7_mm);
                          drawBlade(pen, {bladeX, y - 1.7_mm}, blade);
                          pen.spans({at.x + wordsLeft, y}, tail);
                      }});
    if (!below.empty()) {
        m_rows.push_back(spanRow(std::move(below), wordsLeft, sawPoints));
    }
}

} // namespace stavewright::papers
