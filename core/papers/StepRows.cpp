#include <algorithm>
#include <map>

#include "core/papers/BoardCanvas.h"
#include "core/papers/Cautions.h"
#include "core/papers/Sheets.h"
#include "core/papers/Words.h"

namespace stavewright::papers {

namespace {

constexpr double sawPoints = 14; ///< numbers read at the saw
constexpr double wordPoints = 10;
constexpr TextStyle words{wordPoints, Weight::Regular, Align::Left, Ink::Black, false, 0};
constexpr TextStyle number{sawPoints, Weight::SemiBold, Align::Left, Ink::Black, false, 0};
constexpr Length afterTick = 5_mm;
constexpr Length fractionRoom = 6_mm; ///< behind the whole number of a reading

Span wordSpan(std::string text, Length gap = 1.5_mm) {
    return {std::move(text), wordPoints, Weight::Regular, Ink::Black, gap};
}
Span numberSpan(std::string text, Length gap = 3.5_mm) {
    return {std::move(text), sawPoints, Weight::SemiBold, Ink::Black, gap};
}
Span plainNumberSpan(std::string text, Length gap = 3.5_mm) {
    return {std::move(text), sawPoints, Weight::Regular, Ink::Black, gap};
}
Span nameSpan(std::string text, Length gap = 3_mm) {
    return {std::move(text), wordPoints, Weight::SemiBold, Ink::Black, gap};
}

std::string nameOr(const Saw& saw, const std::string& otherwise) {
    return saw.name.empty() ? otherwise : saw.name;
}

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

class StepWriter {
  public:
    StepWriter(const Document& document, const BoardCuts& cuts, Length width,
               const TextMeasure& measure)
        : m_document(document)
        , m_cuts(cuts)
        , m_width(width)
        , m_measure(measure) {}

    FlowRows write() {
        addLookFirst();
        addCrosscuts();
        addRips(FirstFacing::RoughRippedFirst);
        addFacing();
        addRips(FirstFacing::Whole);
        addStripCrosscuts();
        addTrims();
        addPieces();
        addCautions();
        return std::move(m_rows);
    }

  private:
    std::string text(Length length) const { return lengthText(m_document.info, length); }
    const Machines& machines() const { return m_document.shop.machines; }

    void heading(const std::string& title) {
        addHeading(m_rows, std::to_string(++m_step) + "  " + title);
    }
    void paragraph(const std::string& paragraphText) {
        addParagraph(m_rows, paragraphText, words, m_width, m_measure);
    }
    /// Stays with the rows that it explains.
    void instruction(const std::string& instructionText) {
        const std::size_t before = m_rows.size();
        paragraph(instructionText);
        for (std::size_t i = before; i < m_rows.size(); ++i) {
            m_rows[i].keepWithNext = true;
        }
    }

    /// A row to tick: spans that wrap between spans where the column is too narrow.
    void tickRow(const std::vector<Span>& spans) {
        std::vector<std::vector<Span>> lines(1);
        for (Span span : spans) {
            span.utf8 =
                elided(span.utf8, m_width - afterTick, {span.points, span.weight}, m_measure);
            std::vector<Span> longer = lines.back();
            longer.push_back(span);
            if (!lines.back().empty() && widthOf(longer, m_measure) > m_width - afterTick) {
                lines.push_back({span});
            } else {
                lines.back() = std::move(longer);
            }
        }
        for (std::size_t i = 0; i < lines.size(); ++i) {
            FlowRow row = spanRow(std::move(lines[i]), afterTick);
            row.height = rowHeight(sawPoints);
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

    /// Rows to tick two abreast where both fit; read from left to right.
    void tickPairs(const std::vector<std::vector<Span>>& entries) {
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

    void addLookFirst() {
        const std::vector<std::string> orders = lookFirst(m_document, m_cuts);
        if (orders.empty()) {
            return;
        }
        addHeading(m_rows, "Look first");
        for (const std::string& order : orders) {
            addParagraph(m_rows, order, {sawPoints, Weight::Medium}, m_width, m_measure);
        }
        m_rows.push_back(space(1.5_mm));
    }

    /// "7a starts", "7a ends", "7a ends, 7b starts at 31 7/8"
    std::vector<Span> crosscutWords(const CrosscutMark& mark,
                                    const std::vector<std::string>& names) const {
        const std::string side =
            mark.blade == Blade::AwayFromDatum ? "blade right:" : "blade left:";
        std::vector<Span> spans{wordSpan(side)};
        if (mark.ends && mark.starts) {
            spans.push_back(wordSpan(names[*mark.ends] + " ends,"));
            spans.push_back(wordSpan(names[*mark.starts] + " starts at"));
            spans.push_back(plainNumberSpan(text(mark.startReading)));
        } else {
            spans.push_back(mark.ends ? wordSpan(names[*mark.ends] + " ends")
                                      : wordSpan(names[*mark.starts] + " starts"));
        }
        return spans;
    }

    /// A reading aligned on its whole number, the blade's side, and what the cut makes.
    void readingRow(const std::string& before, const CrosscutMark& mark,
                    const std::vector<std::string>& names, Length beforeWidth, Length wholeWidth) {
        const std::string reading = text(mark.reading);
        const Length whole = m_measure.widthOf(wholeOf(reading), sawPoints, Weight::SemiBold);
        const std::vector<Span> tail = crosscutWords(mark, names);
        const Blade blade = mark.blade;
        m_rows.push_back(
            {rowHeight(sawPoints), false, [=](Pen& pen, Point at, Length) {
                 const Length baseline = at.y + baselineIn(sawPoints);
                 drawTickBox(pen, {at.x, baseline});
                 pen.text({at.x + afterTick, baseline}, before, {wordPoints, Weight::SemiBold});
                 const Length numberX = at.x + afterTick + beforeWidth + wholeWidth - whole;
                 const Rect box = pen.text({numberX, baseline}, reading, number);
                 const Length bladeX = larger(box.x1, at.x + afterTick + beforeWidth + wholeWidth) +
                                       (blade == Blade::AwayFromDatum ? 2.5_mm : 4.7_mm);
                 drawBlade(pen, {bladeX, baseline - 1.7_mm}, blade);
                 const Length wordsX =
                     at.x + afterTick + beforeWidth + wholeWidth + fractionRoom + 8_mm;
                 pen.spans({wordsX, baseline}, tail);
             }});
    }

    Length wholeWidthOf(const std::vector<CrosscutMark>& marks) const {
        Length width;
        for (const CrosscutMark& mark : marks) {
            width = larger(
                width, m_measure.widthOf(wholeOf(text(mark.reading)), sawPoints, Weight::SemiBold));
        }
        return width;
    }

    void addCrosscuts() {
        const Saw& saw = machines().crosscut;
        heading("Crosscut to sections: " + nameOr(saw, "crosscut saw") + ", kerf " +
                text(saw.kerf));
        if (m_cuts.crosscuts.empty()) {
            paragraph("No crosscut: the board goes on whole.");
            return;
        }
        instruction("Hook the tape on the datum end and mark every line before the first cut. The "
                    "triangle points to the side the blade takes. Look at each fresh end: where a "
                    "check shows, stop, mark it and plan again.");
        std::vector<std::string> names;
        for (const SectionCuts& section : m_cuts.sections) {
            names.push_back(section.name);
        }
        const Length whole = wholeWidthOf(m_cuts.crosscuts);
        for (const CrosscutMark& mark : m_cuts.crosscuts) {
            readingRow("", mark, names, Length(), whole);
        }
    }

    bool anyFacing(FirstFacing facing) const {
        return std::any_of(m_cuts.sections.begin(), m_cuts.sections.end(),
                           [&](const SectionCuts& s) { return s.section->facing == facing; });
    }

    void addFacing() {
        heading("Joint and plane");
        for (const SectionCuts& section : m_cuts.sections) {
            const bool whole = section.section->facing == FirstFacing::Whole;
            std::vector<Span> spans{nameSpan(section.name)};
            spans.push_back(
                wordSpan(whole ? "whole: one face flat," : "each strip: one face flat,"));
            if (whole) {
                addEdgeSpans(spans, section);
            } else {
                spans.push_back(wordSpan("one edge straight,"));
            }
            spans.push_back(wordSpan("plane to"));
            spans.push_back(numberSpan(text(section.planeTo)));
            tickRow(spans);
        }
        for (const SectionCuts& section : m_cuts.sections) {
            addThinnerBlanks(section);
        }
    }

    /// Which edge is straightened, and where the line stands when the board is tapered or crooked.
    void addEdgeSpans(std::vector<Span>& spans, const SectionCuts& section) const {
        constexpr Length worthALine = Length::inches(3, 16); // less goes at the jointer
        if (section.edge.deepest < worthALine) {
            spans.push_back(wordSpan("near edge straight,"));
            return;
        }
        spans.push_back(wordSpan("near edge straight along a line:"));
        spans.push_back(plainNumberSpan(text(toFraction(section.edge.atDatumSide)), 1.5_mm));
        spans.push_back(wordSpan("from the edge at the left end,"));
        spans.push_back(plainNumberSpan(text(toFraction(section.edge.atFarSide)), 1.5_mm));
        spans.push_back(wordSpan("at the right end;"));
    }

    /// Rounded to what a rule shows; where a line is struck, not where a blank is sized.
    Length toFraction(Length length) const {
        const Length step = m_document.info.units == UnitSystem::Inches
                                ? Length::inches(1, m_document.info.inchDenominator)
                                : 1_mm / 2;
        return (length + step / 2) / step * step;
    }

    void addThinnerBlanks(const SectionCuts& section) {
        std::map<Length, std::string> thinner;
        for (const StripCuts& strip : section.strips) {
            for (const BlankLine& line : strip.blanks) {
                if (line.thickness < section.planeTo) {
                    std::string& labels = thinner[line.thickness];
                    labels += (labels.empty() ? "" : ", ") + line.label;
                }
            }
        }
        for (const auto& [thickness, labels] : thinner) {
            tickRow({nameSpan(labels), wordSpan("once parted, plane on to"),
                     numberSpan(text(thickness))});
        }
    }

    void addRips(FirstFacing facing) {
        if (!anyFacing(facing)) {
            return;
        }
        const bool rough = facing == FirstFacing::RoughRippedFirst;
        const Saw& saw = rough ? machines().roughRip : machines().rip;
        heading((rough ? "Rough-rip: " : "Rip to strips: ") +
                nameOr(saw, rough ? "band saw" : "table saw") + ", kerf " + text(saw.kerf));
        instruction(rough
                        ? "Straighten the near edge first, by a struck line. Widths from that edge "
                          "inwards, in this order."
                        : "The straightened edge against the fence. Fence settings in this order; "
                          "the fresh edge goes against the fence each time.");
        for (const SectionCuts& section : m_cuts.sections) {
            if (section.section->facing != facing) {
                continue;
            }
            if (rough) {
                addRoughEdge(section);
            }
            std::vector<std::vector<Span>> passes;
            for (const RipPass& pass : section.rips) {
                passes.push_back(ripSpans(section, pass));
            }
            tickPairs(passes);
        }
    }

    void addRoughEdge(const SectionCuts& section) {
        std::vector<Span> spans{nameSpan(section.name)};
        addEdgeSpans(spans, section);
        tickRow(spans);
    }

    std::vector<Span> ripSpans(const SectionCuts& section, const RipPass& pass) const {
        switch (pass.kind) {
        case RipPass::Kind::Strip: {
            const StripCuts& strip = section.strips[pass.strip];
            std::string labels;
            for (const BlankLine& line : strip.blanks) {
                labels += (labels.empty() ? "" : ", ") + line.label;
            }
            return {nameSpan(strip.name), numberSpan(text(pass.width)), wordSpan("for " + labels)};
        }
        case RipPass::Kind::Waste:
            return {nameSpan(section.name), numberSpan(text(pass.width)), wordSpan("waste, off")};
        case RipPass::Kind::EdgeTrim:
            return {nameSpan(section.name), wordSpan("waste, off the edge:"),
                    numberSpan(text(pass.width))};
        }
        return {};
    }

    void addStripCrosscuts() {
        bool any = false;
        for (const SectionCuts& section : m_cuts.sections) {
            for (const StripCuts& strip : section.strips) {
                any = any || !strip.crosscuts.empty();
            }
        }
        if (!any) {
            return;
        }
        const Saw& saw = machines().stripCrosscut;
        heading("Crosscut the strips: " + nameOr(saw, "crosscut saw") + ", kerf " + text(saw.kerf));
        instruction(
            "The tape on the strip's end that lay towards the datum end. Mark all, then cut.");
        Length whole;
        Length before;
        for (const SectionCuts& section : m_cuts.sections) {
            for (const StripCuts& strip : section.strips) {
                whole = larger(whole, wholeWidthOf(strip.crosscuts));
                before = larger(before,
                                m_measure.widthOf(strip.name, wordPoints, Weight::SemiBold) + 3_mm);
            }
        }
        for (const SectionCuts& section : m_cuts.sections) {
            for (const StripCuts& strip : section.strips) {
                std::vector<std::string> names;
                for (const BlankLine& line : strip.blanks) {
                    names.push_back(line.label);
                }
                for (CrosscutMark mark : strip.crosscuts) {
                    if (!section.section->frame.isParallel()) {
                        // The end is out of square, so a finer figure would promise too much.
                        mark.reading = toFraction(mark.reading);
                        mark.startReading = toFraction(mark.startReading);
                    }
                    readingRow(strip.name, mark, names, before, whole);
                }
            }
        }
    }

    void addTrims() {
        bool begun = false;
        for (const SectionCuts& section : m_cuts.sections) {
            for (const StripCuts& strip : section.strips) {
                for (const TrimPass& trim : strip.trims) {
                    if (!begun) {
                        heading("Trim to width: " + nameOr(machines().rip, "table saw") +
                                ", kerf " + text(machines().rip.kerf));
                        begun = true;
                    }
                    tickRow(
                        {nameSpan(trim.label), wordSpan("down to"), numberSpan(text(trim.width))});
                }
            }
        }
    }

    /// What lies on the bench afterwards: check each piece against this.
    void addPieces() {
        addHeading(m_rows, "Pieces: rough length × width × planed thickness");
        for (const SectionCuts& section : m_cuts.sections) {
            for (const StripCuts& strip : section.strips) {
                for (const BlankLine& line : strip.blanks) {
                    const Part* part = line.part;
                    tickRow({{line.label, sawPoints, Weight::SemiBold, Ink::Black, 3.5_mm},
                             plainNumberSpan(sizeText(m_document.info, line.length, line.width,
                                                      line.thickness)),
                             wordSpan(poseWords(line.blank->pose)),
                             wordSpan(part != nullptr ? "· " + elidedName(part->name) : "")});
                }
            }
        }
    }

    std::string elidedName(const std::string& name) const {
        return elided(name, m_width / 3, words, m_measure);
    }

    void addCautions() {
        const std::vector<std::string> cautions = boardCautions(m_document, m_cuts);
        if (cautions.empty()) {
            return;
        }
        addHeading(m_rows, "Beware");
        for (const std::string& caution : cautions) {
            paragraph(caution);
            m_rows.push_back(space(0.8_mm));
        }
        paragraph("The machine's manual comes before this sheet.");
    }

    const Document& m_document;
    const BoardCuts& m_cuts;
    Length m_width;
    const TextMeasure& m_measure;
    FlowRows m_rows;
    int m_step = 0;
};

} // namespace

FlowRows stepRows(const Document& document, const BoardCuts& cuts, Length width,
                  const TextMeasure& measure) {
    return StepWriter(document, cuts, width, measure).write();
}

} // namespace stavewright::papers
