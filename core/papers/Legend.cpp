#include <algorithm>
#include <array>
#include <functional>

#include "core/papers/BoardCanvas.h"
#include "core/papers/DefectMarks.h"
#include "core/papers/Hatch.h"
#include "core/papers/Sheets.h"
#include "core/papers/Words.h"

namespace stavewright::papers {

namespace {

constexpr TextStyle words{10, Weight::Regular, Align::Left, Ink::Black, false, 0};
constexpr Length sampleWidth = 15_mm;
constexpr Length columnGap = 6_mm;
constexpr Length leastHeight = 7_mm;

/// A small drawing, given its box, and what it means.
struct Entry {
    std::function<void(Pen&, const Rect&)> draw;
    std::string text;
};

Length middleOf(const Rect& box) { return (box.y0 + box.y1) / 2; }

Entry lineEntry(LineLook look, std::string text) {
    return {[look](Pen& pen, const Rect& box) {
                pen.line({box.x0, middleOf(box)}, {box.x1, middleOf(box)}, look);
            },
            std::move(text)};
}

void drawSymbol(Pen& pen, const Rect& box, DefectKind kind, bool onFaceB) {
    // The symbol is made in a frame whose y runs upwards, as on a board.
    const Point middle{(box.x0 + box.x1) / 2, middleOf(box)};
    const drawing::DefectSymbol symbol =
        drawing::symbolOf(kind, ellipsePolygon({}, 9_mm, 4.6_mm), 0.9_mm);
    drawStrokes(pen, symbol, onFaceB, [&](const Point& point) {
        return Point{middle.x + point.x, middle.y - point.y};
    });
}

Entry defectEntry(DefectKind kind) {
    return {[kind](Pen& pen, const Rect& box) { drawSymbol(pen, box, kind, false); },
            std::string(1, letterOf(kind)) + "  " + std::string(nameOf(kind))};
}

std::vector<Entry> lineEntries(const Document& document) {
    std::vector<Entry> entries;
    entries.push_back(
        {[](Pen& pen, const Rect& box) {
             const Length x = (box.x0 + box.x1) / 2;
             pen.line({x, box.y0}, {x, box.y1}, {0.5_mm});
             drawBlade(pen, {x, middleOf(box)}, Blade::AwayFromDatum);
         },
         "Crosscut. The triangle points to the side of the line that the blade takes; "
         "the piece to keep lies on the other side. The number at the line is read on "
         "the tape from the datum end, kerfs counted."});
    entries.push_back(
        {[](Pen& pen, const Rect& box) {
             const Length x = (box.x0 + box.x1) / 2;
             pen.line({x, box.y0}, {x, box.y1}, {0.8_mm});
             pen.area({{x - 2_mm, box.y0}, {x, box.y0}, {x, box.y0 + 3_mm}}, Ink::Black);
         },
         "Datum end: all readings of the board count from here. It lies at the left "
         "when face A is up and the near edge is towards you."});
    entries.push_back(lineEntry({0.35_mm, LineStyle::LongDash, Ink::Black}, "Rip"));
    entries.push_back(lineEntry({0.25_mm, LineStyle::ShortDash, Ink::Black}, "Trimming rip"));
    entries.push_back({[](Pen& pen, const Rect& box) {
                           pen.rect(box, {0.25_mm});
                           for (const auto& [from, to] : hatchLines(cornersOf(box), {}, 1.8_mm)) {
                               pen.line(from, to, {0.15_mm, LineStyle::Solid, Ink::LightGrey});
                           }
                       },
                       "Hatched: waste. \"Keep\": an offcut worth keeping."});
    entries.push_back(
        {[](Pen& pen, const Rect& box) {
             const Length y = middleOf(box);
             pen.line({box.x0 + 2_mm, y}, {box.x1 - 2_mm, y}, {0.35_mm});
             pen.line({box.x1 - 2_mm, y}, {box.x1 - 4_mm, y - 1.3_mm}, {0.35_mm});
         },
         "Grain. The barb shows the way to feed the planer; without a barb try both."});
    const std::string board = document.boards.empty() ? "7" : document.boards.front().mark;
    entries.push_back(
        {[board](Pen& pen, const Rect& box) {
             pen.text({box.x0, middleOf(box) + 1.7_mm}, board + "a-1", {10, Weight::SemiBold});
         },
         "Chalk mark of a section and its strip: board " + board +
             ", section a from the datum end, strip 1 from the near edge."});
    return entries;
}

bool notAllLookedAt(const Document& document) {
    return std::any_of(document.boards.begin(), document.boards.end(), [](const Board& board) {
        const Rect box = boundingBox(board.outline);
        return !notLookedAt(board, BoardFace::A, {box.x0, box.x1}).empty();
    });
}

std::vector<Entry> defectEntries(const Document& document) {
    std::array<bool, allDefectKinds.size()> present{};
    bool onB = false;
    for (const Board& board : document.boards) {
        for (const Defect& defect : board.defects) {
            present[static_cast<std::size_t>(defect.kind)] = true;
            onB = onB || defect.onB.has_value();
        }
    }
    std::vector<Entry> entries;
    for (const DefectKind kind : allDefectKinds) {
        if (present[static_cast<std::size_t>(kind)]) {
            entries.push_back(defectEntry(kind));
        }
    }
    if (notAllLookedAt(document)) {
        entries.push_back(
            {[](Pen& pen, const Rect& box) {
                 for (Length y = box.y0 + 1_mm; y < box.y1; y += 2_mm) {
                     pen.line({box.x0, y}, {box.x1, y}, {0.3_mm, LineStyle::Dotted, Ink::Grey});
                 }
             },
             "Dotted: face A not looked at there"});
    }
    if (onB) {
        entries.push_back(
            {[](Pen& pen, const Rect& box) { drawSymbol(pen, box, DefectKind::SoundKnot, true); },
             "Dashed: shows on face B, drawn as if seen through the board"});
    }
    return entries;
}

/// Entries side by side in two columns, each row as tall as its longer text.
void addGrid(FlowRows& rows, const std::vector<Entry>& entries, Length width,
             const TextMeasure& measure) {
    const Length half = (width - columnGap) / 2;
    const Length textWidth = half - sampleWidth - 3_mm;
    for (std::size_t i = 0; i < entries.size(); i += 2) {
        std::vector<Entry> pair(entries.begin() + static_cast<std::ptrdiff_t>(i),
                                entries.begin() +
                                    static_cast<std::ptrdiff_t>(std::min(i + 2, entries.size())));
        std::vector<std::vector<std::string>> texts;
        Length height = leastHeight;
        for (const Entry& entry : pair) {
            texts.push_back(wrapped(entry.text, textWidth, words, measure));
            height = larger(
                height,
                rowHeight(words.points) * static_cast<std::int64_t>(texts.back().size()) + 1_mm);
        }
        rows.push_back({height, false, [=](Pen& pen, Point at, Length) {
                            for (std::size_t j = 0; j < pair.size(); ++j) {
                                const Length x =
                                    at.x + static_cast<std::int64_t>(j) * (half + columnGap);
                                pair[j].draw(pen, {x, at.y + 0.8_mm, x + sampleWidth,
                                                   at.y + leastHeight - 0.8_mm});
                                Length y = at.y + 0.6_mm + baselineIn(words.points);
                                for (const std::string& line : texts[j]) {
                                    pen.text({x + sampleWidth + 3_mm, y}, line, words);
                                    y += rowHeight(words.points);
                                }
                            }
                        }});
    }
}

} // namespace

FlowRows legendRows(const Document& document, Length width, const TextMeasure& measure) {
    FlowRows rows;
    addHeading(rows, "How to read the board sheets");
    addGrid(rows, lineEntries(document), width, measure);
    addGrid(rows, defectEntries(document), width, measure);
    addParagraph(rows,
                 "How a blank lies. As it lies: its show face on face A, its left end towards the "
                 "datum end. End for end: turned in the plane of the board, its left end away from "
                 "the datum end. Face over: rolled over its length, its show face on face B.",
                 words, width, measure);
    return rows;
}

} // namespace stavewright::papers
