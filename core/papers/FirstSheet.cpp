#include "core/papers/Cautions.h"
#include "core/papers/Sheets.h"
#include "core/papers/StepLines.h"
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
        addNotPlaced();
        addFigures();
        addThicknesses();
        addBoards();
        addRemarks();
        addHowToRead();
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
        const bool whole = sums.placed == sums.demanded;
        m_rows.push_back(
            {rowHeight(14) + 1_mm, false, [verdict, whole](Pen& pen, Point at, Length width) {
                 // Drawn signs, so that no font has to have them.
                 const Length y = at.y + baselineIn(14);
                 const LineLook look{0.7_mm, LineStyle::Solid, Ink::Black};
                 if (whole) {
                     pen.line({at.x, y - 1.8_mm}, {at.x + 1.6_mm, y}, look);
                     pen.line({at.x + 1.6_mm, y}, {at.x + 4.6_mm, y - 4.2_mm}, look);
                 } else {
                     drawCautionSign(pen, {at.x, y});
                 }
                 const TextStyle style{14, Weight::SemiBold};
                 pen.text({at.x + 7_mm, y}, elided(verdict, width - 7_mm, style, pen.measure()),
                          style);
             }});
    }

    void figure(const std::string& name, const std::string& value, const std::string& share,
                const std::string& note, bool part = false) {
        const Length in = part ? 4_mm : Length();
        const std::vector<Column> columns = {{in, 38_mm - in, Align::Left},
                                             {38_mm, 34_mm, Align::Right},
                                             {74_mm, 20_mm, Align::Right},
                                             {98_mm, m_width - 98_mm, Align::Left}};
        const Weight weight = part ? Weight::Regular : Weight::SemiBold;
        m_rows.push_back(
            tableRow(columns, {{name, 10, weight}, {value, 14, weight}, {share}, {note}}));
    }

    UnitSystem units() const { return document().info.units; }
    /// As it is printed, so that what is printed adds up.
    BoardFeet printed(BoardFeet amount) const { return asShown(amount, units()); }

    /// Lumber = blanks + offcuts kept + waste; then what becomes of the blanks.
    void addFigures() {
        const PlanTotals& sums = totals();
        const BoardFeet used = printed(sums.lumberUsed);
        const BoardFeet waste = used - printed(sums.blanks) - printed(sums.offcutsKept);
        const std::string boards =
            std::to_string(sums.boardsUsed) + " of " +
            counted(static_cast<std::int64_t>(document().boards.size()), "board", "boards");
        const auto lumber = [&](BoardFeet amount) { return lumberText(amount, units()); };
        const auto share = [&](BoardFeet amount) { return formatShare(amount, sums.lumberUsed); };
        m_rows.push_back(space(1_mm));
        addHeading(m_rows, "Yield", m_width, m_measure);
        figure("Lumber used", lumber(used), "", boards + ", counted whole, of which");
        figure("rough blanks", lumber(sums.blanks), share(sums.blanks),
               "of the lumber used: what is cut out for parts", true);
        figure("offcuts kept", lumber(sums.offcutsKept), share(sums.offcutsKept),
               "worth keeping; not counted in the yield", true);
        if (waste >= BoardFeet()) {
            figure("waste", lumber(waste), share(waste), "kerfs, edges, ends, bad wood", true);
        }
        figure("Finished parts", lumber(sums.parts), share(sums.parts),
               "of the lumber used, " + formatShare(sums.parts, sums.blanks) +
                   " of the rough blanks");
        figure("Cost", formatMoney(sums.cost, document().info.currency), "",
               "lumber less the offcuts' worth, plus fills and cuts");
        figure("Knots to fill", std::to_string(sums.fills), "",
               sums.fills > 0 ? "each marked and listed on its board's sheet" : "");
    }

    void addNotPlaced() {
        if (m_input.plan.unplaced.empty()) {
            return;
        }
        std::string labels;
        for (const Unplaced& item : m_input.plan.unplaced) {
            labels += (labels.empty() ? "" : ", ") + labelOfAll(document(), item.purpose);
        }
        paragraph("Not placed: " + labels +
                  ". The reasons stand with the parts, on the last pages.");
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
                addHeading(m_rows, "Thickness chosen", m_width, m_measure);
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
        addHeading(m_rows, "Boards used", m_width, m_measure);
        const std::vector<Column> columns = {{{}, 11_mm, Align::Left},
                                             {12_mm, 35_mm, Align::Left},
                                             {48_mm, 11_mm, Align::Left},
                                             {60_mm, 27_mm, Align::Left},
                                             {85_mm, 14_mm, Align::Right},
                                             {100_mm, 14_mm, Align::Right},
                                             {115_mm, 14_mm, Align::Right},
                                             {130_mm, 14_mm, Align::Right},
                                             {147_mm, m_width - 147_mm, Align::Left}};
        const auto head = std::make_shared<const FlowRow>(
            tableHead(columns, {"Board", "Wood", "Rough", "Size", lumberUnit(units()), "Blanks",
                                "Kept", "Yield", "Gives"}));
        m_rows.push_back(*head);
        for (const BoardCuts& cuts : m_input.boards) {
            const Board& board = *cuts.board;
            const BoardFeet whole = boardFeetOf(board);
            const BoardFeet blanks = blanksOf(cuts);
            addBoardRow(columns, cuts,
                        {{board.mark, 10, Weight::SemiBold},
                         {speciesName(board.species)},
                         {quarterText(board.quarter)},
                         {sizeText(document().info, lengthOf(board), widthOf(board))},
                         {formatLumber(whole, units())},
                         {formatLumber(blanks, units())},
                         {formatLumber(offcutsOf(cuts), units())},
                         {formatShare(blanks, whole)}},
                        head);
        }
        const PlanTotals& sums = totals();
        m_rows.push_back(
            tableRow(columns, {{},
                               {"All, in " + lumberUnit(units()), 10, Weight::SemiBold},
                               {},
                               {},
                               {formatLumber(sums.lumberUsed, units()), 10, Weight::SemiBold},
                               {formatLumber(sums.blanks, units()), 10, Weight::SemiBold},
                               {formatLumber(sums.offcutsKept, units()), 10, Weight::SemiBold},
                               {formatShare(sums.blanks, sums.lumberUsed), 10, Weight::SemiBold}}));
    }

    /// The labels go on to lines of their own where they are too many for one.
    void addBoardRow(const std::vector<Column>& columns, const BoardCuts& cuts,
                     std::vector<Cell> cells, const std::shared_ptr<const FlowRow>& head) {
        const std::vector<std::string> labels =
            wrapped(labelsOn(cuts), columns.back().width, words, m_measure);
        for (std::size_t i = 0; i < std::max<std::size_t>(1, labels.size()); ++i) {
            cells.resize(columns.size() - 1);
            cells.push_back({i < labels.size() ? labels[i] : ""});
            m_rows.push_back(tableRow(columns, cells));
            cells.clear(); // only the first line names the board
            m_rows.back().keepWithNext = i + 1 < labels.size();
            m_rows.back().runningHead = i == 0 ? head : nullptr;
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
                addHeading(m_rows, "Remarks of the audit", m_width, m_measure);
                begun = true;
            }
            paragraph(finding.sentence);
        }
    }

    /// The legend and what to beware of belong together and move to a page of their own as one.
    void addHowToRead() {
        FlowRows rows;
        rows.push_back(space(1_mm));
        for (FlowRow& row : legendRows(document(), m_width, m_measure)) {
            rows.push_back(std::move(row));
        }
        rows.push_back(space(1_mm));
        addHeading(rows, "Beware", m_width, m_measure);
        for (const std::string& caution : jobCautions(document())) {
            addParagraph(rows, caution, words, m_width, m_measure);
            rows.push_back(space(0.5_mm));
        }
        for (std::size_t i = 0; i + 1 < rows.size(); ++i) {
            rows[i].keepWithNext = true;
        }
        for (FlowRow& row : rows) {
            m_rows.push_back(std::move(row));
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
    return y + rowHeight(10) + 2_mm;
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
