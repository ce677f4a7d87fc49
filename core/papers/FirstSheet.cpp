#include "core/papers/Cautions.h"
#include "core/papers/Sheets.h"
#include "core/papers/Table.h"
#include "core/papers/Words.h"
#include "core/units/QuantityText.h"

namespace stavewright::papers {

namespace {

constexpr TextStyle words{10, Weight::Regular, Align::Left, Ink::Black, false, 0};

class FirstSheetWriter {
  public:
    FirstSheetWriter(const SheetInput& input, Length width, const TextMeasure& measure)
        : m_input(input)
        , m_width(width)
        , m_measure(measure) {}

    FlowRows write() {
        addVerdict();
        addFigures();
        addNotPlaced();
        addThicknesses();
        addBoards();
        addRemarks();
        m_rows.push_back(space(2_mm));
        for (FlowRow& row : legendRows(m_input.document, m_width, m_measure)) {
            m_rows.push_back(std::move(row));
        }
        addCautions();
        return std::move(m_rows);
    }

  private:
    const Document& document() const { return m_input.document; }
    const PlanTotals& totals() const { return m_input.report.totals; }

    void paragraph(const std::string& text) {
        addParagraph(m_rows, text, words, m_width, m_measure);
    }

    void addVerdict() {
        const PlanTotals& sums = totals();
        const std::size_t remarks = m_input.report.findings.size() - m_input.report.failures();
        std::string verdict = "Audit clean";
        if (remarks > 0) {
            verdict += ", " + counted(static_cast<std::int64_t>(remarks), "remark", "remarks");
        }
        verdict += sums.placed == sums.demanded
                       ? ". All " + std::to_string(sums.placed) + " blanks are placed."
                       : ". " + std::to_string(sums.placed) + " of " +
                             std::to_string(sums.demanded) + " blanks are placed.";
        m_rows.push_back({rowHeight(14) + 2_mm, false, [verdict](Pen& pen, Point at, Length width) {
                              // A drawn tick, so that no font has to have one.
                              const Length y = at.y + baselineIn(14);
                              const LineLook look{0.7_mm, LineStyle::Solid, Ink::Black};
                              pen.line({at.x, y - 1.8_mm}, {at.x + 1.6_mm, y}, look);
                              pen.line({at.x + 1.6_mm, y}, {at.x + 4.6_mm, y - 4.2_mm}, look);
                              const TextStyle style{14, Weight::SemiBold};
                              pen.text({at.x + 7_mm, y},
                                       elided(verdict, width - 7_mm, style, pen.measure()), style);
                          }});
    }

    void figure(const std::string& name, const std::string& value, const std::string& note) {
        const std::vector<Column> columns = {{{}, 42_mm, Align::Left},
                                             {44_mm, 38_mm, Align::Right},
                                             {86_mm, m_width - 86_mm, Align::Left}};
        m_rows.push_back(tableRow(columns, {{name}, {value, 14, Weight::SemiBold}, {note}}));
    }

    void addFigures() {
        const PlanTotals& sums = totals();
        const std::string boards =
            std::to_string(sums.boardsUsed) + " of " +
            counted(static_cast<std::int64_t>(document().boards.size()), "board", "boards");
        figure("Lumber used", formatBoardFeet(sums.lumberUsed) + " bd ft",
               boards + ", counted whole");
        figure("Rough blanks", formatBoardFeet(sums.blanks) + " bd ft",
               formatShare(sums.blanks, sums.lumberUsed) + " of the lumber used");
        figure("Finished parts", formatBoardFeet(sums.parts) + " bd ft",
               formatShare(sums.parts, sums.lumberUsed) + " of the lumber used");
        figure("Offcuts kept", formatBoardFeet(sums.offcutsKept) + " bd ft",
               "counted apart, in neither share");
        figure("Knots to fill", std::to_string(sums.fills), "");
        figure("Cost", formatMoney(sums.cost, document().info.currency),
               "lumber, less the worth of offcuts, plus fills and cuts");
    }

    void addNotPlaced() {
        if (m_input.plan.unplaced.empty()) {
            return;
        }
        m_rows.push_back(space(1_mm));
        addHeading(m_rows, "Not placed, and why");
        for (const Unplaced& item : m_input.plan.unplaced) {
            paragraph(labelOf(document(), item.purpose) + ": " + item.nearestMiss);
        }
    }

    void addThicknesses() {
        bool begun = false;
        for (const ThicknessChoice& choice : m_input.plan.thicknesses) {
            const Part* part = findPart(document(), choice.part);
            if (part == nullptr) {
                continue;
            }
            const Result<Length> wanted = resolvedSize(document(), *part, Dimension::Thickness);
            if (!wanted || wanted.value() == choice.finished) {
                continue;
            }
            if (!begun) {
                m_rows.push_back(space(1_mm));
                addHeading(m_rows, "Thickness chosen");
                begun = true;
            }
            paragraph(part->mark + " " + part->name + ": made " +
                      lengthText(document().info, choice.finished) + " thick; " +
                      lengthText(document().info, wanted.value()) +
                      " was wanted and cannot be reached from these boards.");
        }
    }

    BoardFeet blanksOf(const BoardCuts& cuts) const {
        Volume volume;
        for (const SectionCuts& section : cuts.sections) {
            for (const StripCuts& strip : section.strips) {
                for (const BlankLine& line : strip.blanks) {
                    volume += line.blank->rect.area() * cuts.board->quarter.nominal();
                }
            }
        }
        return BoardFeet::ofVolume(volume);
    }
    BoardFeet offcutsOf(const BoardCuts& cuts) const {
        Volume volume;
        const auto add = [&](const std::vector<Offcut>& offcuts) {
            for (const Offcut& offcut : offcuts) {
                volume += offcut.rect.area() * cuts.board->quarter.nominal();
            }
        };
        for (const Section& section : cuts.layout->sections) {
            add(section.offcuts);
            for (const Strip& strip : section.strips) {
                add(strip.offcuts);
            }
        }
        return BoardFeet::ofVolume(volume);
    }
    std::string labelsOn(const BoardCuts& cuts) const {
        std::string labels;
        for (const SectionCuts& section : cuts.sections) {
            for (const StripCuts& strip : section.strips) {
                for (const BlankLine& line : strip.blanks) {
                    labels += (labels.empty() ? "" : ", ") + line.label;
                }
            }
        }
        return labels;
    }

    void addBoards() {
        m_rows.push_back(space(1_mm));
        addHeading(m_rows, "Boards used");
        const std::vector<Column> columns = {{{}, 14_mm, Align::Left},
                                             {15_mm, 38_mm, Align::Left},
                                             {54_mm, 34_mm, Align::Left},
                                             {88_mm, 15_mm, Align::Right},
                                             {104_mm, 15_mm, Align::Right},
                                             {120_mm, 15_mm, Align::Right},
                                             {138_mm, m_width - 138_mm, Align::Left}};
        m_rows.push_back(
            tableHead(columns, {"Board", "Stock", "Size", "bd ft", "Blanks", "Kept", "Gives"}));
        for (const BoardCuts& cuts : m_input.boards) {
            const Board& board = *cuts.board;
            const BoardFeet whole = boardFeetOf(board);
            m_rows.push_back(
                tableRow(columns, {{board.mark, 10, Weight::SemiBold},
                                   {speciesName(board.species) + " " + quarterText(board.quarter)},
                                   {sizeText(document().info, lengthOf(board), widthOf(board))},
                                   {formatBoardFeet(whole)},
                                   {formatShare(blanksOf(cuts), whole)},
                                   {formatBoardFeet(offcutsOf(cuts))},
                                   {labelsOn(cuts)}}));
        }
    }

    void addRemarks() {
        bool begun = false;
        for (const Finding& finding : m_input.report.findings) {
            if (finding.severity != Severity::Remark) {
                continue;
            }
            if (!begun) {
                m_rows.push_back(space(1_mm));
                addHeading(m_rows, "Remarks of the audit");
                begun = true;
            }
            paragraph(finding.sentence);
        }
    }

    void addCautions() {
        m_rows.push_back(space(2_mm));
        addHeading(m_rows, "Beware");
        for (const std::string& caution : jobCautions(document())) {
            paragraph(caution);
            m_rows.push_back(space(0.6_mm));
        }
    }

    const SheetInput& m_input;
    Length m_width;
    const TextMeasure& m_measure;
    FlowRows m_rows;
};

/// Title, client and date; returns where the rest begins.
Length drawTitle(Pen& pen, const Rect& area, const JobInfo& info, const std::string& date) {
    const TextStyle title{20, Weight::SemiBold, Align::Left, Ink::Black, false, 0};
    Length y = area.y0;
    std::vector<std::string> lines = wrapped(info.title, area.length(), title, pen.measure());
    constexpr std::size_t mostTitleLines = 3;
    if (lines.size() > mostTitleLines) {
        lines.resize(mostTitleLines);
        lines.back() = elided(lines.back() + " …", area.length(), title, pen.measure());
    }
    for (const std::string& line : lines) {
        pen.text({area.x0, y + baselineIn(20)}, line, title);
        y += rowHeight(20);
    }
    std::string under;
    for (const std::string& item :
         {info.client.empty() ? std::string() : "For " + info.client, date}) {
        if (!item.empty()) {
            under += (under.empty() ? "" : " · ") + item;
        }
    }
    pen.text({area.x0, y + baselineIn(10)}, elided(under, area.length(), words, pen.measure()),
             words);
    return y + rowHeight(10) + 3_mm;
}

} // namespace

void addFirstSheet(PageBook& book, const SheetInput& input) {
    const Rect area = book.contentArea(Turn::Upright);
    Pen pen = book.add("The job", Turn::Upright);
    const Length top = drawTitle(pen, area, input.document.info, book.date());
    const FlowRows rows = FirstSheetWriter(input, area.length(), book.measure()).write();
    flow(rows, {pen, {{area.x0, top, area.x1, area.y1}}}, [&] {
        return FlowPage{book.add("The job, continued", Turn::Upright), {area}};
    });
}

} // namespace stavewright::papers
