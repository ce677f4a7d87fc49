#include <array>
#include <map>
#include <utility>

#include "core/papers/Sheets.h"
#include "core/papers/Table.h"
#include "core/papers/Words.h"

namespace stavewright::papers {

namespace {

constexpr TextStyle words{10, Weight::Regular, Align::Left, Ink::Black, false, 0};
constexpr TextStyle sumStyle{10, Weight::Regular, Align::Left, Ink::Grey, false, 0};

/// A placed blank and where it stands.
struct Place {
    const BoardCuts* board = nullptr;
    const SectionCuts* section = nullptr;
    const StripCuts* strip = nullptr;
    const BlankLine* line = nullptr;
};

class PartWriter {
  public:
    PartWriter(const SheetInput& input, Length width, const TextMeasure& measure)
        : m_input(input)
        , m_width(width)
        , m_measure(measure) {
        for (const BoardCuts& board : input.boards) {
            for (const SectionCuts& section : board.sections) {
                for (const StripCuts& strip : section.strips) {
                    for (const BlankLine& line : strip.blanks) {
                        m_places[line.blank->purpose] = {&board, &section, &strip, &line};
                    }
                }
            }
        }
    }

    FlowRows write() {
        for (const Part& part : document().parts) {
            addPart(part);
        }
        return std::move(m_rows);
    }

  private:
    const Document& document() const { return m_input.document; }
    std::string text(Length length) const { return lengthText(document().info, length); }

    /// Allowances are finer than what is read at a saw, and a sum has to add up.
    std::string exact(Length length) const {
        constexpr int finest = 64;
        return formatLength(length, {document().info.units, finest, false});
    }

    std::string finishedSize(const Part& part) const {
        const Result<Length> length = resolvedSize(document(), part, Dimension::Length);
        const Result<Length> width = resolvedSize(document(), part, Dimension::Width);
        const Result<Length> thickness = resolvedSize(document(), part, Dimension::Thickness);
        if (!length || !width || !thickness) {
            return {};
        }
        Length made = thickness.value();
        for (const ThicknessChoice& choice : m_input.plan.thicknesses) {
            made = choice.part == part.id ? choice.finished : made;
        }
        return sizeText(document().info, length.value(), width.value(), made);
    }

    static std::string makeUpWords(const Part& part) {
        const bool panel = part.makeUp.panel.has_value();
        if (part.makeUp.lamination) {
            const std::string plies = std::to_string(part.makeUp.lamination->plies) + " plies";
            return panel ? "glued up from " + plies + ", each a panel of staves"
                         : "glued up from " + plies;
        }
        return panel ? "panel, edge-glued from staves" : "one board";
    }

    void addPart(const Part& part) {
        // Mark, name and finished size stand together with the first lines under them.
        m_rows.push_back(
            {3_mm, true, [](Pen& pen, Point at, Length width) {
                 pen.line({at.x, at.y + 1.6_mm}, {at.x + width, at.y + 1.6_mm}, {0.35_mm});
             }});
        const Span mark{part.mark, 14, Weight::SemiBold, Ink::Black, 4_mm};
        const Span size{finishedSize(part), 14, Weight::Regular, Ink::Black, 4_mm};
        const Length nameRoom = m_width - widthOf({mark, size}, m_measure) - 50_mm;
        FlowRow head = spanRow(
            {mark,
             {elided(part.name, larger(nameRoom, 20_mm), {10, Weight::SemiBold}, m_measure), 10,
              Weight::SemiBold, Ink::Black, 4_mm},
             {counted(part.count, "piece,", "pieces,"), 10, Weight::Regular, Ink::Black, 1.5_mm},
             {"finished", 10, Weight::Regular, Ink::Black, 2_mm},
             size});
        head.keepWithNext = true;
        m_rows.push_back(std::move(head));
        FlowRows about;
        std::string line = makeUpWords(part);
        if (part.perBlank > 1) {
            line += ", " + std::to_string(part.perBlank) + " milled as one blank and parted last";
        }
        if (!part.notes.empty()) {
            line += ". " + part.notes;
        }
        addParagraph(about, line, words, m_width, m_measure);
        for (FlowRow& row : about) {
            row.keepWithNext = true;
            m_rows.push_back(std::move(row));
        }
        for (const BlankSpec& spec : m_input.specs) {
            if (spec.part == part.id) {
                addSpec(part, spec);
            }
        }
    }

    void addSpec(const Part& part, const BlankSpec& spec) {
        const std::string which = spec.ply > 0 ? "Ply " + std::to_string(spec.ply) + ", rough: "
                                               : std::string("Rough blank: ");
        const std::string width = spec.staves ? text(spec.staves->leastRough) + " to " +
                                                    text(spec.staves->widestRough) + " wide"
                                              : text(spec.width);
        FlowRows lines;
        addParagraph(lines,
                     which + text(spec.length) + (spec.staves ? " long, " : " × ") + width +
                         ", planed to " + text(thicknessToPlane(document(), spec)),
                     {10, Weight::Medium}, m_width, m_measure);
        addWhy(lines, spec);
        for (FlowRow& row : lines) {
            m_rows.push_back(std::move(row));
        }
        if (spec.staves) {
            addStaves(part, spec);
        } else {
            addBlanks(part, spec);
        }
    }

    /// "Length: 27 finished, + 1 trim both ends (snipe), = 28"
    void addWhy(FlowRows& rows, const BlankSpec& spec) const {
        constexpr std::array<std::pair<Dimension, const char*>, 3> dimensions = {
            {{Dimension::Length, "Length"},
             {Dimension::Width, "Width"},
             {Dimension::Thickness, "Thickness"}}};
        for (const auto& [dimension, name] : dimensions) {
            std::string sum;
            Length after;
            for (const SumLine& line : spec.sums) {
                if (line.dimension != dimension || (line.amount == Length() && !sum.empty())) {
                    continue;
                }
                const bool less = line.amount < Length();
                sum += sum.empty() ? std::string(name) + ": " : less ? " − " : " + ";
                sum += exact(abs(line.amount)) + " " + line.text;
                after = line.after;
            }
            if (!sum.empty()) {
                addParagraph(rows, sum + " = " + exact(after), sumStyle, m_width, m_measure, 4_mm);
            }
        }
    }

    /// Where it stands on its board, as tape readings to what a rule shows.
    std::string readingsOf(const Place& place) const {
        const Rect box =
            boundingBox(toOuter(place.section->section->frame, place.line->blank->rect));
        const Length step = document().info.units == UnitSystem::Inches
                                ? Length::inches(1, document().info.inchDenominator)
                                : Length::millimetres(1);
        const auto shown = [&](Length length) { return text((length + step / 2) / step * step); };
        return shown(box.x0) + " to " + shown(box.x1);
    }

    std::vector<const Place*> placesOf(const Part& part, const BlankSpec& spec) const {
        std::vector<const Place*> places;
        for (const auto& [purpose, place] : m_places) {
            if (purpose.part == part.id && specOf(m_input.specs, purpose) == &spec) {
                places.push_back(&place);
            }
        }
        return places;
    }

    void addBlanks(const Part& part, const BlankSpec& spec) {
        const std::vector<const Place*> places = placesOf(part, spec);
        if (places.empty()) {
            addParagraph(m_rows, "None placed.", words, m_width, m_measure);
            return;
        }
        const std::vector<Column> columns = {{4_mm, 24_mm, Align::Left},
                                             {30_mm, 40_mm, Align::Left},
                                             {72_mm, 52_mm, Align::Left},
                                             {126_mm, m_width - 126_mm, Align::Left}};
        m_rows.push_back(tableHead(columns, {"Blank", "From", "At, on the board's tape", "Lies"}));
        for (const Place* place : places) {
            m_rows.push_back(tableRow(columns, {{place->line->label, 10, Weight::SemiBold},
                                                {fromWords(*place)},
                                                {readingsOf(*place)},
                                                {poseWords(place->line->blank->pose)}}));
        }
    }

    std::string fromWords(const Place& place) const {
        return "board " + place.board->board->mark + ", strip " + place.strip->name;
    }

    /// The staves of each panel with the width it has grown to.
    void addStaves(const Part& part, const BlankSpec& spec) {
        const std::vector<const Place*> places = placesOf(part, spec);
        const std::vector<Column> columns = {
            {4_mm, 24_mm, Align::Left},  {29_mm, 20_mm, Align::Left},
            {50_mm, 20_mm, Align::Left}, {71_mm, 24_mm, Align::Left},
            {96_mm, 40_mm, Align::Left}, {137_mm, m_width - 137_mm, Align::Left}};
        addParagraph(m_rows,
                     "Glued up " + text(spec.staves->netWanted) +
                         " wide or a little more; each "
                         "stave gives its rough width less " +
                         text(spec.staves->jointAllowance) + " for its joints.",
                     words, m_width, m_measure);
        if (places.empty()) {
            addParagraph(m_rows, "No stave placed.", words, m_width, m_measure);
            return;
        }
        m_rows.push_back(tableHead(
            columns, {"Stave", "Rough width", "In the panel", "Running width", "From", "Lies"}));
        int instance = 0;
        Length running;
        for (const Place* place : places) {
            const Blank& blank = *place->line->blank;
            if (blank.purpose.instance != instance) {
                instance = blank.purpose.instance;
                running = Length();
            }
            const Length net = place->line->width - spec.staves->jointAllowance;
            running += net;
            m_rows.push_back(tableRow(columns, {{place->line->label, 10, Weight::SemiBold},
                                                {text(place->line->width)},
                                                {text(net)},
                                                {text(running), 10, Weight::SemiBold},
                                                {fromWords(*place)},
                                                {poseWords(blank.pose)}}));
        }
    }

    const SheetInput& m_input;
    Length m_width;
    const TextMeasure& m_measure;
    std::map<BlankPurpose, Place> m_places; ///< in the order of part, instance, ply, stave
    FlowRows m_rows;
};

Pen addPartPage(PageBook& book, const std::string& title, const Rect& area) {
    Pen pen = book.add(title, Turn::Upright);
    pen.text({area.x0, area.y0 + baselineIn(20)}, title, {20, Weight::SemiBold});
    return pen;
}

} // namespace

void addPartSheets(PageBook& book, const SheetInput& input) {
    const Rect area = book.contentArea(Turn::Upright);
    const Rect below{area.x0, area.y0 + rowHeight(20), area.x1, area.y1};
    const FlowRows rows = PartWriter(input, area.length(), book.measure()).write();
    flow(rows, {addPartPage(book, "Parts and blanks", area), {below}}, [&] {
        return FlowPage{addPartPage(book, "Parts and blanks, continued", area), {below}};
    });
}

} // namespace stavewright::papers
