#include <algorithm>
#include <map>

#include "core/papers/Cautions.h"
#include "core/papers/Sheets.h"
#include "core/papers/StepLines.h"
#include "core/papers/Words.h"

namespace stavewright::papers {

namespace {

std::string nameOr(const Saw& saw, const std::string& otherwise) {
    return saw.name.empty() ? otherwise : saw.name;
}

constexpr Length worthALine = Length::inches(3, 16); ///< less goes at the jointer

class StepWriter {
  public:
    StepWriter(const Document& document, const BoardCuts& cuts, Length width,
               const TextMeasure& measure)
        : m_document(document)
        , m_cuts(cuts)
        , m_measure(measure)
        , m_lines(document.info, width, measure) {}

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
        return m_lines.take();
    }

  private:
    std::string text(Length length) const { return lengthText(m_document.info, length); }
    const Machines& machines() const { return m_document.shop.machines; }

    void addLookFirst() {
        const std::vector<std::string> orders = lookFirst(m_document, m_cuts);
        if (orders.empty()) {
            return;
        }
        m_lines.heading("Look first");
        for (const std::string& order : orders) {
            m_lines.paragraph(order, sawPoints, Weight::Medium);
        }
        m_lines.gap(1.5_mm);
    }

    void addCrosscuts() {
        const Saw& saw = machines().crosscut;
        m_lines.numberedHeading("Crosscut to sections: " + nameOr(saw, "crosscut saw") + ", kerf " +
                                text(saw.kerf));
        if (m_cuts.crosscuts.empty()) {
            m_lines.paragraph("No crosscut: the board goes on whole.");
            return;
        }
        m_lines.instruction(
            "Hook the tape on the datum end and mark every line before the first cut. The "
            "triangle points to the side the blade takes. Look at each fresh end: where a "
            "check shows, stop, mark it and plan again.");
        std::vector<std::string> names;
        for (const SectionCuts& section : m_cuts.sections) {
            names.push_back(section.name);
        }
        ReadingColumn column;
        m_lines.widen(column, "", m_cuts.crosscuts);
        for (const CrosscutMark& mark : m_cuts.crosscuts) {
            m_lines.readingRow(column, "", mark, names);
        }
    }

    bool anyFacing(FirstFacing facing) const {
        return std::any_of(
            m_cuts.sections.begin(), m_cuts.sections.end(),
            [&](const SectionCuts& s) { return s.hasBlanks() && s.section->facing == facing; });
    }

    void addFacing() {
        m_lines.numberedHeading("Joint and plane");
        for (const SectionCuts& section : m_cuts.sections) {
            if (!section.hasBlanks()) {
                continue;
            }
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
            m_lines.tickRow(spans);
        }
        for (const SectionCuts& section : m_cuts.sections) {
            addThinnerBlanks(section);
        }
    }

    /// Which edge is straightened, and where the line stands when the board is tapered or crooked.
    void addEdgeSpans(std::vector<Span>& spans, const SectionCuts& section) const {
        if (section.edge.deepest < worthALine) {
            spans.push_back(wordSpan("near edge straight,"));
            return;
        }
        spans.push_back(wordSpan("near edge straight along a line:"));
        spans.push_back(plainNumberSpan(text(toFraction(section.edge.atDatumSide)), 1.5_mm));
        spans.push_back(wordSpan("from the edge at the left end,"));
        spans.push_back(plainNumberSpan(text(toFraction(section.edge.atFarSide)), 1.5_mm));
        spans.push_back(wordSpan("at the right end,"));
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
            m_lines.tickRow({nameSpan(labels), wordSpan("once parted, plane on to"),
                             numberSpan(text(thickness))});
        }
    }

    void addRips(FirstFacing facing) {
        if (!anyFacing(facing)) {
            return;
        }
        const bool rough = facing == FirstFacing::RoughRippedFirst;
        const Saw& saw = rough ? machines().roughRip : machines().rip;
        m_lines.numberedHeading((rough ? "Rough-rip: " : "Rip to strips: ") +
                                nameOr(saw, rough ? "band saw" : "table saw") + ", kerf " +
                                text(saw.kerf));
        m_lines.instruction(
            rough ? "Straighten the near edge first, by a struck line. Widths from that edge "
                    "inwards, in this order."
                  : "The straightened edge against the fence. Fence settings in this order; "
                    "the fresh edge goes against the fence each time.");
        for (const SectionCuts& section : m_cuts.sections) {
            if (!section.hasBlanks() || section.section->facing != facing) {
                continue;
            }
            if (rough && section.edge.deepest >= worthALine) {
                addRoughEdge(section);
            }
            std::vector<std::vector<Span>> passes;
            for (const RipPass& pass : section.rips) {
                passes.push_back(ripSpans(section, pass));
            }
            m_lines.tickPairs(passes);
        }
    }

    void addRoughEdge(const SectionCuts& section) {
        std::vector<Span> spans{nameSpan(section.name)};
        addEdgeSpans(spans, section);
        spans.back().utf8.back() = '.';
        m_lines.tickRow(spans);
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
        ReadingColumn column;
        for (const SectionCuts& section : m_cuts.sections) {
            for (const StripCuts& strip : section.strips) {
                m_lines.widen(column, strip.name, strip.crosscuts);
            }
        }
        if (column.nameWidth == Length()) {
            return; // no strip is crosscut
        }
        const Saw& saw = machines().stripCrosscut;
        m_lines.numberedHeading("Crosscut the strips: " + nameOr(saw, "crosscut saw") + ", kerf " +
                                text(saw.kerf));
        m_lines.instruction(
            "The tape on the strip's end that lay towards the datum end. Mark all, then cut.");
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
                    if (!mark.ends && mark.reading < machines().stripCrosscut.kerf) {
                        // Less than a kerf of the section's slant: not a length to measure.
                        m_lines.tickRow({nameSpan(strip.name),
                                         wordSpan("square the end for " + names[*mark.starts] +
                                                  ", taking least")});
                        continue;
                    }
                    m_lines.readingRow(column, strip.name, mark, names);
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
                        m_lines.numberedHeading(
                            "Trim to width: " + nameOr(machines().rip, "table saw") + ", kerf " +
                            text(machines().rip.kerf));
                        begun = true;
                    }
                    m_lines.tickRow(
                        {nameSpan(trim.label), wordSpan("down to"), numberSpan(text(trim.width))});
                }
            }
        }
    }

    /// What lies on the bench afterwards: check each piece against this.
    void addPieces() {
        m_lines.heading("Pieces: rough length × width × planed thickness");
        for (const SectionCuts& section : m_cuts.sections) {
            for (const StripCuts& strip : section.strips) {
                for (const BlankLine& line : strip.blanks) {
                    const Part* part = line.part;
                    m_lines.tickRow(
                        {{line.label, sawPoints, Weight::SemiBold, Ink::Black, 3.5_mm},
                         plainNumberSpan(
                             sizeText(m_document.info, line.length, line.width, line.thickness)),
                         wordSpan(poseWords(line.blank->pose)),
                         wordSpan(part != nullptr ? "· " + elidedName(part->name) : "")});
                }
            }
        }
    }

    std::string elidedName(const std::string& name) const {
        return elided(name, m_lines.width() / 3, {wordPoints}, m_measure);
    }

    void addCautions() {
        const std::vector<std::string> cautions = boardCautions(m_document, m_cuts);
        if (cautions.empty()) {
            return;
        }
        m_lines.heading("Beware");
        for (const std::string& caution : cautions) {
            m_lines.paragraph(caution);
            m_lines.gap(0.8_mm);
        }
        m_lines.paragraph("The machine's manual comes before this sheet.");
    }

    const Document& m_document;
    const BoardCuts& m_cuts;
    const TextMeasure& m_measure;
    StepLines m_lines;
};

} // namespace

FlowRows stepRows(const Document& document, const BoardCuts& cuts, Length width,
                  const TextMeasure& measure) {
    return StepWriter(document, cuts, width, measure).write();
}

} // namespace stavewright::papers
