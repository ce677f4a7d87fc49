#include "core/papers/BlockSheet.h"

#include <set>
#include <utility>

#include "core/panels/BenchWords.h"
#include "core/papers/Flow.h"
#include "core/papers/Words.h"

namespace stavewright::papers {

namespace {

using panels::Block;
using panels::BlockPly;

constexpr Length plyHigh = 8_mm;
constexpr Length plyWide = 34_mm;
constexpr TextStyle words{10, Weight::Regular, Align::Left, Ink::Black, false, 0};

/// Three rings at the end of a ply, hollow towards the heart: upwards where the heart lies towards
/// face A. Dotted where nobody noted it.
void drawRings(Pen& pen, const Rect& end, int heartUp) {
    const Length middle = (end.x0 + end.x1) / 2;
    const Length half = end.length() / 2 - 1_mm;
    for (int ring = 1; ring <= 3; ++ring) {
        const Length y = end.y0 + end.width() * ring / 4;
        const Length sag = heartUp == 0 ? Length() : (heartUp > 0 ? 1.2_mm : -(1.2_mm));
        constexpr int pieces = 8;
        std::optional<Point> last;
        for (int i = -pieces; i <= pieces; ++i) {
            const double share = static_cast<double>(i) / pieces;
            // Upwards on paper is smaller y: the ends of the arcs bend towards the heart.
            const Point here{middle + scaled(half, share),
                             y + sag / 2 - scaled(sag, share * share)};
            if (last) {
                pen.line(*last, here,
                         {0.18_mm, heartUp == 0 ? LineStyle::Dotted : LineStyle::Solid});
            }
            last = here;
        }
    }
}

std::string sideOf(const BlockPly& ply) {
    return ply.heartUp == 0  ? "heart side not noted"
           : ply.heartUp > 0 ? "heart side towards face A"
                             : "heart side towards face B";
}

/// The block from its end, face A above, each ply named beside it.
FlowRow blockRow(const Block& block) {
    FlowRow row;
    row.height = plyHigh * static_cast<std::int64_t>(block.plies.size()) + 5_mm;
    row.keepWithNext = true;
    row.beginsStep = true;
    row.draw = [block](Pen& pen, Point at, Length) {
        pen.text({at.x, at.y + 5_mm}, block.label,
                 {14, Weight::SemiBold, Align::Left, Ink::Black, false, 0});
        Rect end{at.x + 24_mm, at.y + 2_mm, at.x + 24_mm + plyWide, at.y + 2_mm + plyHigh};
        const TextStyle small{8, Weight::Regular, Align::Right, Ink::Grey, false, 0};
        pen.text({end.x0 - 2_mm, end.y0 + 2.5_mm}, "face A", small);
        for (const BlockPly& ply : block.plies) {
            pen.rect(end, {0.35_mm});
            drawRings(pen, end, ply.heartUp);
            const Length baseline = (end.y0 + end.y1) / 2 + 1.4_mm;
            pen.text({end.x1 + 4_mm, baseline}, ply.label,
                     {10, Weight::SemiBold, Align::Left, Ink::Black, false, 0});
            pen.text({end.x1 + 22_mm, baseline}, "board " + ply.boardMark + ", " + sideOf(ply),
                     words);
            end = {end.x0, end.y1, end.x1, end.y1 + plyHigh};
        }
        pen.text({end.x0 - 2_mm, end.y0 - 0.5_mm}, "face B", small);
    };
    return row;
}

} // namespace

void addBlockSheets(PageBook& book, const Document& document, const std::vector<Fill>& fills) {
    const std::vector<Block> blocks = panels::blocksOf(document, fills);
    if (blocks.empty()) {
        return;
    }
    const Rect area = book.contentArea(Turn::Upright);
    FlowRows rows;
    std::set<std::string> said; // what holds of every block is said once
    for (const Block& block : blocks) {
        rows.push_back(blockRow(block));
        std::vector<std::string> lines = block.advice;
        for (std::string& line : panels::benchLines(document, block)) {
            lines.push_back(std::move(line));
        }
        for (const std::string& line : lines) {
            if (said.insert(line).second) {
                addParagraph(rows, line, words, area.length(), book.measure());
            }
        }
        rows.push_back(space(3_mm));
    }
    const std::string title = "Glue-up of laminated blocks";
    const Length top = area.y0 + rowHeight(20) + 2_mm;
    flow(rows, {book.addTitled(title, Turn::Upright), {{area.x0, top, area.x1, area.y1}}}, [&] {
        return FlowPage{book.addTitled(title + ", continued", Turn::Upright),
                        {{area.x0, top, area.x1, area.y1}}};
    });
}

} // namespace stavewright::papers
