#include "core/papers/BoardDrawing.h"
#include "core/papers/Sheets.h"
#include "core/papers/Words.h"

namespace stavewright::papers {

namespace {

constexpr Length columnGap = 8_mm;
constexpr TextStyle wordStyle{10, Weight::Regular, Align::Left, Ink::Black, false, 0};
constexpr TextStyle keyStyle{8, Weight::Regular, Align::Left, Ink::Black, false, 0};

std::string factsOf(const Document& document, const Board& board) {
    const JobInfo& info = document.info;
    return speciesName(board.species) + " · " + quarterText(board.quarter) + " · " +
           sizeText(info, lengthOf(board), widthOf(board)) + ", thinnest " +
           lengthText(info, board.thinnest);
}

std::string keyText(const DrawingKey& key) {
    std::string text = "Hatched: waste";
    if (key.offcuts) {
        text += " · Keep: offcut worth keeping";
    }
    for (const DefectKind kind : key.kinds) {
        text += " · " + std::string(1, letterOf(kind)) + " " + std::string(nameOf(kind));
    }
    if (key.dashedFaceB) {
        text += " · dashed: shows on face B";
    }
    if (key.notLookedAt) {
        text += " · dotted: face A not looked at";
    }
    return text;
}

/// The scale in words and as a bar; returns the width used, measured from the right.
Length drawScale(Pen& pen, Point right, const BoardDrawing& drawing, const JobInfo& info) {
    const bool inches = info.units == UnitSystem::Inches;
    const Length bar = inches ? Length::inches(12) : 250_mm;
    const Length barOnPaper = scaled(bar, 1.0 / drawing.scale);
    const std::string text = "Scale 1 : " + std::to_string(drawing.scale) +
                             (inches ? ", bar = 12 in" : ", bar = 250 mm");
    const Length width = pen.widthOf(text, keyStyle) + 3_mm + barOnPaper;
    const Point at{right.x - width, right.y};
    pen.text(at, text, keyStyle);
    const Length y = at.y - 1_mm;
    const Length x = right.x - barOnPaper;
    pen.line({x, y}, {right.x, y}, {0.3_mm});
    pen.line({x, y - 1_mm}, {x, y + 1_mm}, {0.3_mm});
    pen.line({right.x, y - 1_mm}, {right.x, y + 1_mm}, {0.3_mm});
    return width;
}

/// Title, how the board lies, the drawing and its key; returns where the steps may begin.
Length drawHead(Pen& pen, const Rect& area, const Document& document, const BoardCuts& cuts) {
    const Board& board = *cuts.board;
    const TextStyle title{20, Weight::SemiBold, Align::Left, Ink::Black, false, 0};
    const Length baseline = area.y0 + baselineIn(20);
    const std::string name = elided("Board " + board.mark, area.length() / 3, title, pen.measure());
    pen.text({area.x0, baseline}, name, title);
    const Length factsLeft = area.x0 + pen.widthOf(name, title) + 6_mm;
    const std::string facts = factsOf(document, board);
    pen.text({factsLeft, baseline - 4.6_mm},
             elided(facts, area.x1 - factsLeft, wordStyle, pen.measure()), wordStyle);
    pen.text({factsLeft, baseline},
             "Lay it face A up, the datum end at your left, the near edge "
             "towards you.",
             wordStyle);

    const BoardDrawing drawing = drawBoard(document, cuts, area.length(), pen.measure());
    const Length top = baseline + 2_mm;
    place(pen.page(), drawing.marks, {area.x0, top});

    Length y = top + drawing.height + 3.4_mm;
    const Length scaleWidth = drawScale(pen, {area.x1, y}, drawing, document.info);
    for (const std::string& line : wrapped(keyText(drawing.key), area.length() - scaleWidth - 6_mm,
                                           keyStyle, pen.measure())) {
        pen.text({area.x0, y}, line, keyStyle);
        y += 3.9_mm;
    }
    return y - 1_mm;
}

std::vector<Rect> twoColumns(const Rect& area, Length top) {
    const Length width = (area.length() - columnGap) / 2;
    return {{area.x0, top, area.x0 + width, area.y1}, {area.x1 - width, top, area.x1, area.y1}};
}

} // namespace

void addBoardSheet(PageBook& book, const SheetInput& input, const BoardCuts& cuts) {
    const std::string title = "Board " + cuts.board->mark;
    const Rect area = book.contentArea(Turn::Landscape);
    Pen pen = book.add(title, Turn::Landscape);
    const Length stepsTop = drawHead(pen, area, input.document, cuts);
    const std::vector<Rect> columns = twoColumns(area, stepsTop);
    const FlowRows rows = stepRows(input.document, cuts, columns.front().length(), book.measure());
    flow(rows, {pen, columns}, [&] {
        Pen next = book.add(title + ", continued", Turn::Landscape);
        const TextStyle style{14, Weight::SemiBold, Align::Left, Ink::Black, false, 0};
        next.text({area.x0, area.y0 + baselineIn(14)},
                  elided(title + ", continued", area.length(), style, book.measure()), style);
        return FlowPage{next, twoColumns(area, area.y0 + rowHeight(14) + 1_mm)};
    });
}

} // namespace stavewright::papers
