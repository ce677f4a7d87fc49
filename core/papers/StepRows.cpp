#include <algorithm>
#include <map>

#include "core/layout/PieceState.h"
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
    StepWriter(const Document& document, const BoardCuts& cuts, const std::vector<Fill>& fills,
               Length width, const TextMeasure& measure, const hand::BoardLimits* limits)
        : m_document(document)
        , m_cuts(cuts)
        , m_fills(fills)
        , m_cautions(boardCautions(document, cuts))
        , m_measure(measure)
        , m_limits(limits)
        , m_lines(document.info, width, measure) {}

    FlowRows write() {
        addLookFirst();
        addFills();
        addCrosscuts();
        addRips(FirstFacing::RoughRippedFirst);
        addFacing();
        addRips(FirstFacing::Whole);
        addStripCrosscuts();
        addTrims();
        addPieces();
        if (m_limits != nullptr) {
            addLimitRows(m_lines, m_document, m_cuts, *m_limits);
        }
        return m_lines.take();
    }

  private:
    std::string text(Length length) const { return lengthText(m_document.info, length); }
    std::string exact(Length length) const { return exactText(m_document.info, length); }
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
        addCautions(Step::Crosscut);
        if (m_cuts.crosscuts.empty()) {
            m_lines.paragraph("No crosscut: the board goes on whole.");
            return;
        }
        const std::string hold =
            m_cuts.freshEnd
                ? "The datum end is cut off; readings still count from where it was. Hold the "
                  "tape so that the fresh end reads " +
                      onTape(*m_cuts.freshEnd) + ". Mark every line, then cut"
                : "Tape on the datum end; mark every line, then cut";
        m_lines.instruction(
            hold + " on the triangle's side of it. A check that shows in a fresh end: stop, "
                   "mark it, plan again.");
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
        addCautions(Step::Facing);
        for (const SectionCuts& section : m_cuts.sections) {
            const bool whole = section.section->facing == FirstFacing::Whole;
            if (whole && section.hasBlanks() && section.edge.deepest >= worthALine) {
                addStruckLine(section);
            }
        }
        for (const FirstFacing facing : {FirstFacing::Whole, FirstFacing::RoughRippedFirst}) {
            addFaced(facing);
        }
        for (const SectionCuts& section : m_cuts.sections) {
            addThinnerBlanks(section);
        }
    }

    /// One row for all sections that are faced alike and planed to the same thickness.
    void addFaced(FirstFacing facing) {
        std::map<std::pair<Length, bool>, std::string> names;
        for (const SectionCuts& section : m_cuts.sections) {
            if (section.hasBlanks() && section.section->facing == facing) {
                std::string& row = names[{section.planeTo, isMilled(section)}];
                row += (row.empty() ? "" : ", ") + section.name;
            }
        }
        for (auto row = names.rbegin(); row != names.rend(); ++row) {
            const bool whole = facing == FirstFacing::Whole;
            const StepLines::Tick tick =
                madeOrNot({nameSpan(row->second),
                           wordSpan(whole ? "whole: one face flat," : "each strip: one face flat,"),
                           wordSpan(whole ? "near edge straight," : "one edge straight,"),
                           wordSpan("plane to"), numberSpan(exact(row->first.first))},
                          row->first.second);
            m_lines.tickRow(tick.spans, RowSign::None, tick.done);
        }
    }

    static bool isMilled(const SectionCuts& section) {
        const auto isPast = [&section](const BlankLine& line) {
            return stateOf(*section.section, *line.blank) >= CutState::Milled;
        };
        return std::all_of(section.strips.begin(), section.strips.end(),
                           [&isPast](const StripCuts& strip) {
                               return std::all_of(strip.blanks.begin(), strip.blanks.end(), isPast);
                           });
    }

    /// Where the line stands when the board is tapered or crooked.
    void addStruckLine(const SectionCuts& section) {
        const std::string left = onTape(section.edge.atDatumSide);
        const std::string right = onTape(section.edge.atFarSide);
        if (left != right) {
            m_lines.tickRow({nameSpan(section.name), wordSpan("strike a line,"),
                             plainNumberSpan(left, 1.5_mm), wordSpan("in from the near edge"),
                             wordSpan("at the left end,"), plainNumberSpan(right, 1.5_mm),
                             wordSpan("at the right")});
        } else if (left == onTape({})) {
            m_lines.tickRow({nameSpan(section.name), wordSpan("strike a line"),
                             wordSpan("from corner to corner"), wordSpan("of the near edge")});
        } else {
            m_lines.tickRow({nameSpan(section.name), wordSpan("strike a line,"),
                             plainNumberSpan(left, 1.5_mm), wordSpan("in from the near edge"),
                             wordSpan("at both ends")});
        }
    }

    /// Where a line is struck or a knot ringed, not what a blank is sized to.
    std::string onTape(Length length) const { return tapeText(m_document.info, length); }

    /// A blank of several parts stays one piece: its parts are too short for the planer.
    static bool isMultiple(const BlankLine& line) {
        return line.part != nullptr && line.part->perBlank > 1;
    }

    /// One row for all blanks that go on to the same thickness, but for each blank of several parts
    /// a row of its own: "R1, R2" would read like two pieces.
    void addThinnerBlanks(const SectionCuts& section) {
        std::map<Length, std::string> thinner;
        for (const StripCuts& strip : section.strips) {
            for (const BlankLine& line : strip.blanks) {
                if (line.thickness >= section.planeTo ||
                    exact(line.thickness) == exact(section.planeTo)) {
                    continue;
                }
                if (isMultiple(line)) {
                    m_lines.tickRow({nameSpan(line.label), wordSpan("once cut off from the rest,"),
                                     wordSpan("in one piece still,"), wordSpan("plane on to"),
                                     numberSpan(exact(line.thickness))});
                    continue;
                }
                std::string& labels = thinner[line.thickness];
                labels += (labels.empty() ? "" : ", ") + line.label;
            }
        }
        for (const auto& [thickness, labels] : thinner) {
            m_lines.tickRow({nameSpan(labels), wordSpan("once cut off from the rest,"),
                             wordSpan("plane on to"), numberSpan(exact(thickness))});
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
        addCautions(rough ? Step::RoughRip : Step::Rip);
        m_lines.instruction(
            std::string(rough ? "Straighten the near edge, by the struck line if one is given; "
                                "widths from it, then each fresh edge, in this order."
                              : "Straight edge to the fence, then each fresh edge. Widths in this "
                                "order.") +
            (anyOver(facing) ? " Where a width is a little over its blank's, that stays on for the "
                               "jointer."
                             : ""));
        for (const SectionCuts& section : m_cuts.sections) {
            if (!section.hasBlanks() || section.section->facing != facing) {
                continue;
            }
            if (rough && section.edge.deepest >= worthALine) {
                addStruckLine(section);
            }
            std::vector<StepLines::Tick> passes;
            for (const RipPass& pass : section.rips) {
                passes.push_back(madeOrNot(ripSpans(section, pass), pass.isMade));
            }
            m_lines.tickPairs(passes);
        }
    }

    /// Some strip is ripped visibly wider than its blanks are.
    bool anyOver(FirstFacing facing) const {
        for (const SectionCuts& section : m_cuts.sections) {
            for (const RipPass& pass : section.rips) {
                if (section.hasBlanks() && section.section->facing == facing &&
                    settingText(m_document.info, pass.width) !=
                        settingText(m_document.info, pass.width - pass.over)) {
                    return true;
                }
            }
        }
        return false;
    }

    /// A cut that is made is ticked, and says so.
    static StepLines::Tick madeOrNot(std::vector<Span> spans, bool isMade) {
        if (isMade) {
            spans.push_back(wordSpan("(made)"));
        }
        return {std::move(spans), isMade ? Done::Yes : Done::No};
    }

    static std::string labelsOn(const StripCuts& strip) {
        std::string labels;
        for (const BlankLine& line : strip.blanks) {
            labels += (labels.empty() ? "" : ", ") + line.label;
        }
        return labels;
    }

    std::vector<Span> ripSpans(const SectionCuts& section, const RipPass& pass) const {
        const StripCuts& strip = section.strips[pass.strip];
        const Span width = numberSpan(settingText(m_document.info, pass.width));
        switch (pass.kind) {
        case RipPass::Kind::Strip:
            return {nameSpan(strip.name), width, wordSpan("for " + labelsOn(strip))};
        case RipPass::Kind::Waste:
            return {nameSpan(section.name), width, wordSpan("waste, off")};
        case RipPass::Kind::Kept:
            return {nameSpan(section.name), width, wordSpan("for " + pass.keeps)};
        case RipPass::Kind::WithSliver:
            return {nameSpan(strip.name), width, wordSpan("with its waste edge")};
        case RipPass::Kind::OffSliver:
            return {nameSpan(strip.name),
                    wordSpan("down to"),
                    width,
                    wordSpan("for " + labelsOn(strip) + ":"),
                    wordSpan("the edge just cut to the fence,"),
                    wordSpan("the sliver falls free")};
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
        m_lines.numberedHeading("Second crosscuts: " + nameOr(saw, "crosscut saw") + ", kerf " +
                                text(saw.kerf));
        addCautions(Step::StripCrosscut);
        m_lines.instruction("Tape on the strip's datum-side end. Mark all, then cut.");
        if (anyEndToSquare()) {
            m_lines.squareInstruction("Square that end first, taking least.");
        }
        for (const SectionCuts& section : m_cuts.sections) {
            for (const StripCuts& strip : section.strips) {
                std::vector<std::string> names;
                for (const BlankLine& line : strip.blanks) {
                    names.push_back(line.label);
                }
                // The tape hooks on the squared end: that is where the first blank starts.
                bool square = strip.isSquared;
                for (std::size_t i = square ? 1 : 0; i < strip.crosscuts.size(); ++i) {
                    CrosscutMark mark = strip.crosscuts[i];
                    mark.reading -= strip.hook;
                    mark.startReading -= strip.hook;
                    m_lines.readingRow(column, strip.name, mark, names, square);
                    square = false;
                }
            }
        }
    }

    bool anyEndToSquare() const {
        for (const SectionCuts& section : m_cuts.sections) {
            for (const StripCuts& strip : section.strips) {
                if (strip.isSquared) {
                    return true;
                }
            }
        }
        return false;
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
                    const StepLines::Tick tick =
                        madeOrNot({nameSpan(trim.label), wordSpan("down to"),
                                   numberSpan(settingText(m_document.info, trim.width))},
                                  trim.isMade);
                    m_lines.tickRow(tick.spans, RowSign::None, tick.done);
                }
            }
        }
    }

    const Defect* defectOf(const Fill& fill) const {
        for (const Defect& defect : m_cuts.board->defects) {
            if (defect.id == fill.defect) {
                return &defect;
            }
        }
        return nullptr;
    }

    std::string labelWith(BlankId blank) const {
        for (const SectionCuts& section : m_cuts.sections) {
            for (const StripCuts& strip : section.strips) {
                for (const BlankLine& line : strip.blanks) {
                    if (line.blank->id == blank) {
                        return line.label;
                    }
                }
            }
        }
        return {};
    }

    void addFills() {
        bool begun = false;
        for (const Fill& fill : m_fills) {
            const Defect* defect = defectOf(fill);
            if (fill.board != m_cuts.board->id || defect == nullptr) {
                continue;
            }
            if (!begun) {
                m_lines.heading("Knots to fill (ring and drop in the drawing)");
                m_lines.instruction("Ring them with chalk before the first cut; fill once planed.");
                m_lines.caution("Thin layers, as the resin's label says; gloves; let it cure.");
                begun = true;
            }
            m_lines.tickRow(fillSpans(fill, *defect), RowSign::Fill);
        }
    }

    /// "Fill K3: sound knot, 1 across, face A, at 42 1/4 and 3 from near edge, in L1b"
    std::vector<Span> fillSpans(const Fill& fill, const Defect& defect) const {
        const std::string faces = fill.onFaceA && fill.onFaceB ? "both faces,"
                                  : fill.onFaceA               ? "face A,"
                                                               : "face B,";
        std::vector<Span> spans;
        spans.push_back(nameSpan(fillName(defect) + ":", 2_mm));
        spans.push_back(wordSpan(std::string(nameOf(defect.kind)) + ","));
        spans.push_back(plainNumberSpan(onTape(fill.size), 1.5_mm));
        spans.push_back(wordSpan("across,"));
        spans.push_back(wordSpan(faces));
        spans.push_back(wordSpan("at"));
        spans.push_back(numberSpan(onTape(fill.at.x), 1.5_mm));
        spans.push_back(wordSpan("and"));
        spans.push_back(numberSpan(onTape(fill.fromNearEdge), 1.5_mm));
        spans.push_back(wordSpan("from near edge,"));
        spans.push_back(wordSpan("in"));
        spans.push_back(nameSpan(labelWith(fill.blank)));
        if (fill.marginOnly) {
            spans.push_back(wordSpan("if it opens there"));
        }
        return spans;
    }

    /// What lies on the bench afterwards: check each piece against this.
    void addPieces() {
        m_lines.heading("Measure each: length × width × planed to");
        m_lines.beginStepHere();
        for (const SectionCuts& section : m_cuts.sections) {
            for (const StripCuts& strip : section.strips) {
                for (const BlankLine& line : strip.blanks) {
                    addPiece(line);
                }
                for (const KeptLine& kept : strip.kept) {
                    addOffcut(kept);
                }
            }
            for (const KeptLine& kept : section.kept) {
                addOffcut(kept);
            }
        }
    }

    void addPiece(const BlankLine& line) {
        std::vector<Span> spans{
            {line.label, sawPoints, Weight::SemiBold, Ink::Black, 3_mm},
            plainNumberSpan(sizeText(m_document.info, line.length, line.width, line.thickness),
                            2.5_mm)};
        spans.push_back(wordSpan(poseWords(line.blank->pose)));
        if (isMultiple(line)) {
            spans.push_back(wordSpan("· one piece still"));
        }
        if (line.part != nullptr) {
            std::vector<Span> named = spans;
            named.push_back(wordSpan("· " + line.part->name));
            if (widthOf(named, m_measure) <= m_lines.width() - 6_mm) {
                spans = std::move(named);
            }
        }
        m_lines.tickRow(spans);
    }

    void addOffcut(const KeptLine& kept) {
        const Rect& rect = kept.offcut->rect;
        m_lines.tickRow(
            {{kept.name, sawPoints, Weight::SemiBold, Ink::Black, 3_mm},
             plainNumberSpan(sizeText(m_document.info, rect.length(), rect.width()), 2.5_mm),
             wordSpan("rough offcut")});
    }

    void addCautions(Step step) {
        for (const Caution& caution : m_cautions) {
            if (caution.at == step) {
                m_lines.caution(caution.text);
            }
        }
    }

    const Document& m_document;
    const BoardCuts& m_cuts;
    const std::vector<Fill>& m_fills;
    std::vector<Caution> m_cautions;
    const TextMeasure& m_measure;
    const hand::BoardLimits* m_limits; ///< null where they are not known
    StepLines m_lines;
};

} // namespace

FlowRows stepRows(const Document& document, const BoardCuts& cuts, const std::vector<Fill>& fills,
                  Length width, const TextMeasure& measure, const hand::BoardLimits* limits) {
    return StepWriter(document, cuts, fills, width, measure, limits).write();
}

} // namespace stavewright::papers
