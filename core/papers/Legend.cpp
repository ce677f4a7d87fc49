#include <algorithm>
#include <array>
#include <functional>

#include "core/papers/BoardDrawing.h"
#include "core/papers/DefectMarks.h"
#include "core/papers/Hatch.h"
#include "core/papers/Sheets.h"
#include "core/papers/StepLines.h"
#include "core/papers/Words.h"

namespace stavewright::papers {

namespace {

constexpr TextStyle words{9, Weight::Regular, Align::Left, Ink::Black, false, 0};
constexpr Length sampleWidth = 13_mm;
constexpr Length columnGap = 5_mm;
constexpr std::size_t columns = 3;
constexpr Length leastHeight = 5.6_mm;

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
        drawing::symbolOf(kind, ellipsePolygon({}, 9_mm, 4_mm), 0.9_mm);
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
         "Crosscut, read on the tape from the datum end, kerfs counted. The black triangle is the "
         "blade's side."});
    entries.push_back(
        {[](Pen& pen, const Rect& box) {
             const Length x = (box.x0 + box.x1) / 2;
             pen.line({x, box.y0}, {x, box.y1}, {0.8_mm});
             pen.area({{x - 2_mm, box.y0}, {x, box.y0}, {x, box.y0 + 3_mm}}, Ink::Black);
         },
         "Datum end: the tape hooks here. At your left with face A up."});
    const std::string board = document.boards.empty() ? "7" : document.boards.front().mark;
    entries.push_back(
        {[](Pen& pen, const Rect& box) {
             const Length x = (box.x0 + box.x1) / 2;
             const Length y = middleOf(box);
             pen.rect({x - 3_mm, y - 1.6_mm, x + 3_mm, y + 1.6_mm}, {0.2_mm});
             pen.text({x, y + 1.05_mm}, "a-1", {8, Weight::SemiBold, Align::Centre});
         },
         "Section a from the datum end, strip 1 from the near edge; chalked " + board + "a-1."});
    entries.push_back(lineEntry({0.35_mm, LineStyle::LongDash, Ink::Black}, "Rip"));
    entries.push_back(lineEntry({0.25_mm, LineStyle::ShortDash, Ink::Black}, "Trimming rip"));
    entries.push_back({[](Pen& pen, const Rect& box) {
                           const Length x = (box.x0 + box.x1) / 2;
                           pen.line({x, box.y0 + 0.6_mm}, {x, box.y1 - 0.6_mm}, {0.35_mm});
                       },
                       "Second crosscut"});
    entries.push_back({[](Pen& pen, const Rect& box) {
                           pen.rect(box, {0.25_mm});
                           for (const auto& [from, to] : hatchLines(cornersOf(box), {}, 1.8_mm)) {
                               pen.line(from, to, {0.18_mm, LineStyle::Solid, Ink::Grey});
                           }
                       },
                       "Hatched: waste. \"Keep\": an offcut worth keeping."});
    entries.push_back(
        {[](Pen& pen, const Rect& box) {
             const Length y = middleOf(box);
             pen.line({box.x0 + 1_mm, y}, {box.x1 - 1_mm, y}, {0.35_mm});
             pen.line({box.x1 - 1_mm, y}, {box.x1 - 3_mm, y - 1.3_mm}, {0.35_mm});
         },
         "Grain. The end with the barb goes into the planer first; no barb: try both."});
    entries.push_back({[](Pen& pen, const Rect& box) {
                           const Length x = (box.x0 + box.x1) / 2;
                           drawSquareSign(pen, {x - 1.4_mm, middleOf(box) + 1.6_mm});
                       },
                       "Square this end of the strip before the tape hooks on it."});
    if (std::any_of(document.boards.begin(), document.boards.end(),
                    [](const Board& one) { return one.heart != HeartSide::Unknown; })) {
        entries.push_back(
            {[](Pen& pen, const Rect& box) {
                 drawEndRings(pen, {box.x0, middleOf(box) - endRingsHeight / 2}, HeartSide::FaceA,
                              BoardFace::A);
             },
             "The board's end at the datum: rings bend round the heart, here above."});
    }
    if (document.plan && document.plan->totals.fills > 0) {
        entries.push_back({[](Pen& pen, const Rect& box) {
                               const Length x = (box.x0 + box.x1) / 2;
                               pen.circle({x - 2.4_mm, middleOf(box)}, 1.6_mm, {0.3_mm});
                               drawFillSign(pen, {x + 1.4_mm, middleOf(box) - fillSignHeight / 2});
                           },
                           "Knot to fill; the steps tell it by its name."});
    }
    return entries;
}

bool notAllLookedAt(const Document& document) {
    return std::any_of(document.boards.begin(), document.boards.end(), [](const Board& board) {
        const Rect box = boundingBox(board.outline);
        return !notLookedAt(board, BoardFace::A, {box.x0, box.x1}).empty() ||
               !notLookedAt(board, BoardFace::B, {box.x0, box.x1}).empty();
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
             "Dotted: not looked at there"});
    }
    if (onB) {
        entries.push_back(
            {[](Pen& pen, const Rect& box) { drawSymbol(pen, box, DefectKind::SoundKnot, true); },
             "Dashed on face A: shows on face B"});
    }
    return entries;
}

/// Entries side by side in columns, each row as tall as its longest text.
void addGrid(FlowRows& rows, const std::vector<Entry>& entries, Length width,
             const TextMeasure& measure) {
    const Length step = (width + columnGap) / static_cast<std::int64_t>(columns);
    const Length textWidth = step - columnGap - sampleWidth - 2_mm;
    for (std::size_t i = 0; i < entries.size(); i += columns) {
        const std::vector<Entry> row(
            entries.begin() + static_cast<std::ptrdiff_t>(i),
            entries.begin() + static_cast<std::ptrdiff_t>(std::min(i + columns, entries.size())));
        std::vector<std::vector<std::string>> texts;
        Length height = leastHeight;
        for (const Entry& entry : row) {
            texts.push_back(wrapped(entry.text, textWidth, words, measure));
            height = larger(
                height,
                rowHeight(words.points) * static_cast<std::int64_t>(texts.back().size()) + 1_mm);
        }
        rows.push_back({height, false, [=](Pen& pen, Point at, Length) {
                            for (std::size_t j = 0; j < row.size(); ++j) {
                                const Length x = at.x + step * static_cast<std::int64_t>(j);
                                row[j].draw(pen, {x, at.y + 0.4_mm, x + sampleWidth,
                                                  at.y + leastHeight - 0.6_mm});
                                Length y = at.y + 0.5_mm + baselineIn(words.points);
                                for (const std::string& line : texts[j]) {
                                    pen.text({x + sampleWidth + 2_mm, y}, line, words);
                                    y += rowHeight(words.points);
                                }
                            }
                        }});
    }
}

} // namespace

FlowRows legendRows(const Document& document, Length width, const TextMeasure& measure) {
    FlowRows rows;
    addHeading(rows, "How to read the board sheets", width, measure);
    addGrid(rows, lineEntries(document), width, measure);
    addGrid(rows, defectEntries(document), width, measure);
    addParagraph(rows,
                 "How a blank lies. As it lies: its show face on face A, its left end towards the "
                 "datum end. End for end: turned round in the plane of the board. Face over: "
                 "rolled over, its show face on face B.",
                 words, width, measure);
    return rows;
}

} // namespace stavewright::papers
