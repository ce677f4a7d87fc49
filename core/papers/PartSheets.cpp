#include <algorithm>
#include <map>
#include <utility>

#include "core/papers/Cautions.h"
#include "core/papers/Sheets.h"
#include "core/papers/SumBlock.h"
#include "core/papers/Table.h"
#include "core/papers/Words.h"

namespace stavewright::papers {

namespace {

constexpr TextStyle words{10, Weight::Regular, Align::Left, Ink::Black, false, 0};

std::string capitalised(std::string sentence) {
    if (!sentence.empty() && sentence.front() >= 'a' && sentence.front() <= 'z') {
        sentence.front() = static_cast<char>(sentence.front() - 'a' + 'A');
    }
    return sentence;
}

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

    std::string exact(Length length) const { return exactText(document().info, length); }

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

    /// When and how the parts of one blank are sawn apart. Common practice, no source.
    std::string apart(const Part& part) const {
        std::string how = "It stays in one piece to its final thickness and width; saw the parts "
                          "from it last, with a stop block";
        const Result<Length> length = resolvedSize(document(), part, Dimension::Length);
        if (length && isShortAtTheCrosscut(length.value())) {
            how += "; " + howToHoldShortPieces();
        }
        return how;
    }

    void addPart(const Part& part) {
        // Mark, name and finished size stand together with the first lines under them.
        m_rows.push_back(
            {3_mm, true, [](Pen& pen, Point at, Length width) {
                 pen.line({at.x, at.y + 1.6_mm}, {at.x + width, at.y + 1.6_mm}, {0.35_mm});
             }});
        const Span mark{part.mark, 14, Weight::SemiBold, Ink::Black, 4_mm};
        const Span size{finishedSize(part), 14, Weight::Regular, Ink::Black, 4_mm};
        const Length nameRoom = m_width - widthOf({mark, size}, m_measure) - 92_mm;
        FlowRow head = spanRow(
            {mark,
             {elided(part.name, larger(nameRoom, 20_mm), {10, Weight::SemiBold}, m_measure), 10,
              Weight::SemiBold, Ink::Black, 4_mm},
             {counted(part.count, "piece,", "pieces,"), 10, Weight::Regular, Ink::Black, 1.5_mm},
             {"finished length × width × thickness", 10, Weight::Regular, Ink::Black, 2_mm},
             size});
        head.keepWithNext = true;
        m_rows.push_back(std::move(head));
        std::string about = capitalised(makeUpWords(part));
        if (part.perBlank > 1) {
            about += ", " + std::to_string(part.perBlank) + " milled as one blank. " + apart(part);
        }
        if (!part.notes.empty()) {
            about += ". " + part.notes;
        }
        about += about.back() == '.' ? "" : ".";
        for (const SpecGroup& group : groupsOf(part)) {
            addSpecs(part, group, about);
            about.clear();
        }
    }

    /// Plies that are cut to the same size for the same reasons are told once.
    using SpecGroup = std::vector<const BlankSpec*>;
    std::vector<SpecGroup> groupsOf(const Part& part) const {
        std::vector<SpecGroup> groups;
        for (const BlankSpec& spec : m_input.specs) {
            if (spec.part != part.id) {
                continue;
            }
            const BlankSpec* before = groups.empty() ? nullptr : groups.back().front();
            if (before != nullptr && before->sums == spec.sums && before->length == spec.length &&
                before->width == spec.width && before->staves == spec.staves &&
                !spec.staves.has_value()) {
                groups.back().push_back(&spec);
            } else {
                groups.push_back({&spec});
            }
        }
        return groups;
    }

    static std::string nameOfGroup(const SpecGroup& group) {
        if (group.front()->ply == 0) {
            return group.front()->staves ? "Rough stave: " : "Rough blank: ";
        }
        if (group.size() == 1) {
            return "Ply " + std::to_string(group.front()->ply) + ", rough: ";
        }
        return "Plies " + std::to_string(group.front()->ply) + " to " +
               std::to_string(group.back()->ply) + ", each rough: ";
    }

    void addSpecs(const Part& part, const SpecGroup& group, const std::string& about) {
        const BlankSpec& spec = *group.front();
        // Exact, so that it is what the sums below come to.
        const std::string width = spec.staves ? exact(spec.staves->leastRough) + " to " +
                                                    exact(spec.staves->widestRough) + " wide"
                                              : exact(spec.width);
        FlowRows lines;
        addParagraph(lines,
                     (about.empty() ? "" : about + " ") + nameOfGroup(group) + exact(spec.length) +
                         (spec.staves ? " long, " : " × ") + width + ", planed to " +
                         exact(thicknessToPlane(document(), spec)),
                     {10, Weight::Medium}, m_width, m_measure);
        lines.push_back(sumRow(document().info, spec.sums, m_width, m_measure));
        if (const Length planed = thicknessToPlane(document(), spec);
            planed != spec.thicknessWanted) {
            addParagraph(lines,
                         "The sum is for the wanted thickness. From these boards it comes out " +
                             exact(spec.thicknessWanted - planed) + " thinner: " + exact(planed) +
                             ".",
                         words, m_width, m_measure, 4_mm);
        }
        for (FlowRow& row : lines) {
            row.keepWithNext = true;
            m_rows.push_back(std::move(row));
        }
        if (spec.staves) {
            addStaves(part, spec);
        } else {
            addBlanks(placesOf(part, group));
        }
        addNotPlaced(group);
    }

    /// What found no place and why; told once for all that fail for the same reason.
    void addNotPlaced(const SpecGroup& group) {
        std::vector<std::pair<std::string, std::string>> reasons; // reason, labels
        for (const Unplaced& item : m_input.plan.unplaced) {
            const BlankSpec* spec = specOf(m_input.specs, item.purpose);
            if (std::find(group.begin(), group.end(), spec) == group.end()) {
                continue;
            }
            const std::string label = labelOfAll(document(), item.purpose);
            const auto same = std::find_if(reasons.begin(), reasons.end(), [&](const auto& known) {
                return known.first == item.nearestMiss;
            });
            if (same == reasons.end()) {
                reasons.emplace_back(item.nearestMiss, label);
            } else {
                same->second += ", " + label;
            }
        }
        for (const auto& [reason, labels] : reasons) {
            addParagraph(m_rows, "Not placed: " + labels + ". " + capitalised(reason),
                         {10, Weight::SemiBold}, m_width, m_measure, 4_mm);
        }
    }

    /// Its head, which the rows carry with them on to the next page.
    std::shared_ptr<const FlowRow> beginTable(const std::vector<Column>& columns,
                                              const std::vector<std::string>& titles) {
        m_rows.push_back(tableHead(columns, titles));
        return std::make_shared<const FlowRow>(m_rows.back());
    }

    /// Where it stands on its board, as tape readings to what a rule shows.
    std::string readingsOf(const Place& place) const {
        const Rect box =
            boundingBox(toOuter(place.section->section->frame, woodOf(*place.line->blank)));
        const JobInfo& info = document().info;
        return tapeText(info, box.x0) + " to " + tapeText(info, box.x1);
    }

    std::vector<const Place*> placesOf(const Part& part, const SpecGroup& group) const {
        std::vector<const Place*> places;
        for (const auto& [purpose, place] : m_places) {
            const BlankSpec* spec = specOf(m_input.specs, purpose);
            if (purpose.part == part.id &&
                std::find(group.begin(), group.end(), spec) != group.end()) {
                places.push_back(&place);
            }
        }
        return places;
    }

    void addBlanks(const std::vector<const Place*>& places) {
        if (places.empty()) {
            addParagraph(m_rows, "None placed.", words, m_width, m_measure, 4_mm);
            return;
        }
        const std::vector<Column> columns = {{4_mm, 24_mm, Align::Left},
                                             {30_mm, 40_mm, Align::Left},
                                             {72_mm, 52_mm, Align::Left},
                                             {126_mm, m_width - 126_mm, Align::Left}};
        const std::shared_ptr<const FlowRow> head =
            beginTable(columns, {"Blank", "From", "At, on the board's tape", "Lies"});
        for (const Place* place : places) {
            m_rows.push_back(tableRow(columns, {{place->line->label, 10, Weight::SemiBold},
                                                {fromWords(*place)},
                                                {readingsOf(*place)},
                                                {poseWords(place->line->blank->pose)}}));
            m_rows.back().runningHead = head;
        }
    }

    std::string fromWords(const Place& place) const {
        return "board " + place.board->board->mark + ", strip " + place.strip->name;
    }

    /// The staves of each panel with the width it has grown to.
    void addStaves(const Part& part, const BlankSpec& spec) {
        const std::vector<const Place*> places = placesOf(part, {&spec});
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
        m_rows.back().keepWithNext = true;
        if (places.empty()) {
            addParagraph(m_rows, "No stave placed.", words, m_width, m_measure, 4_mm);
            return;
        }
        const std::shared_ptr<const FlowRow> head = beginTable(
            columns, {"Stave", "Rough width", "In the panel", "Running width", "From", "Lies"});
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
            m_rows.push_back(
                tableRow(columns, {{place->line->label, 10, Weight::SemiBold},
                                   {settingText(document().info, place->line->width)},
                                   {settingText(document().info, net)},
                                   {settingText(document().info, running), 10, Weight::SemiBold},
                                   {fromWords(*place)},
                                   {poseWords(blank.pose)}}));
            m_rows.back().runningHead = head;
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
