#include <algorithm>
#include <array>

#include "core/papers/BoardDrawing.h"
#include "core/papers/Sheets.h"
#include "core/papers/Words.h"

namespace stavewright::papers {

namespace {

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
    if (key.strips) {
        text += " · boxed: section and strip";
    }
    if (key.offcuts) {
        text += " · Keep: offcut worth keeping";
    }
    if (key.fills) {
        text += " · ring and drop: fill";
    }
    for (const DefectKind kind : key.kinds) {
        text += " · " + std::string(1, letterOf(kind)) + " " + std::string(nameOf(kind));
    }
    if (key.dashedFaceB) {
        text += " · dashed: on face B";
    }
    if (key.notLookedAt) {
        text += " · dotted: not looked at";
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

std::string heartWords(HeartSide heart, BoardFace up) {
    if (heart == HeartSide::Unknown) {
        return {};
    }
    return (heart == HeartSide::FaceA) == (up == BoardFace::A) ? "heart side up" : "bark side up";
}

/// A line of words, and with a known heart side the board's end as it then looks.
void drawFaceLine(Pen& pen, Point at, Length right, const std::string& words, HeartSide heart,
                  BoardFace up) {
    const std::string side = heartWords(heart, up);
    const Length room =
        side.empty() ? Length() : endRingsWidth + 8_mm + pen.widthOf(side + ":", wordStyle);
    const std::string shown = elided(words, right - at.x - room, wordStyle, pen.measure());
    pen.text(at, shown, wordStyle);
    if (!side.empty()) {
        const Length x = at.x + pen.widthOf(shown, wordStyle) + 5_mm;
        const std::string text = side + ":";
        pen.text({x, at.y}, text, wordStyle);
        drawEndRings(pen, {x + pen.widthOf(text, wordStyle) + 2_mm, at.y - 3.6_mm}, heart, up);
    }
}

/// One way of dividing the sheet.
struct Division {
    Turn turn = Turn::Landscape;
    std::size_t columns = 2;
    int smallerSteps = 0; ///< the drawing's scale, against the largest that fits
    int faceBSmaller = 0; ///< the same for face B alone
    bool tight = false;   ///< rows as close as fractions under one another allow
};
/// As roomy as possible first. Upright the drawing is smaller and leaves more room for steps. Where
/// none holds them all, the steps go on to a second sheet.
constexpr std::array<Division, 7> divisions = {{{Turn::Landscape, 2, 0, 0, false},
                                                {Turn::Landscape, 3, 0, 0, false},
                                                {Turn::Landscape, 3, 0, 1, true},
                                                {Turn::Upright, 2, 0, 0, false},
                                                {Turn::Upright, 2, 0, 0, true},
                                                {Turn::Upright, 2, 0, 1, true},
                                                {Turn::Upright, 2, 1, 1, true}}};
constexpr Division twoSheets{Turn::Landscape, 3, 0, 0, false};

class BoardSheetWriter {
  public:
    BoardSheetWriter(PageBook& book, const SheetInput& input, const BoardCuts& cuts)
        : m_book(book)
        , m_input(input)
        , m_cuts(cuts)
        , m_area(book.contentArea(Turn::Landscape))
        , m_title("Board " + cuts.board->mark) {}

    void write() {
        // The head is drawn on a scratch page until a division holds all rows.
        for (const Division& division : divisions) {
            const Sheet sheet = divided(division);
            if (spotsIn(sheet.rows, 0, sheet.columns).size() == sheet.rows.size()) {
                Pen pen = m_book.add(m_title, division.turn);
                place(pen.page(), sheet.head, {});
                flow(sheet.rows, {pen, balanced(sheet.rows, 0, sheet.columns)}, {});
                return;
            }
        }
        putOnTwo(divided(twoSheets));
    }

  private:
    struct Sheet {
        std::vector<Mark> head;
        std::vector<Rect> columns;
        FlowRows rows;
    };

    Sheet divided(const Division& division) {
        m_area = m_book.contentArea(division.turn);
        Page scratch;
        Pen pen(scratch, m_book.measure());
        Sheet sheet;
        const Length top = drawHead(pen, division);
        sheet.head = std::move(scratch.marks);
        sheet.columns = columnsFrom(top, division.columns);
        const auto limits = std::find_if(
            m_input.limits.begin(), m_input.limits.end(),
            [&](const hand::BoardLimits& each) { return each.board == m_cuts.board->id; });
        sheet.rows =
            stepRows(m_input.document, m_cuts, m_input.report.fills, sheet.columns.front().length(),
                     m_book.measure(), limits == m_input.limits.end() ? nullptr : &*limits);
        if (division.tight) {
            // Of rowHeight(), 1.36 em: a fraction takes 1.27 em, a decimal much less.
            const bool fractions = m_input.document.info.units == UnitSystem::Inches;
            const double closest = fractions ? 0.96 : 0.9;
            for (FlowRow& row : sheet.rows) {
                row.height = scaled(row.height, closest);
            }
        }
        return sheet;
    }

    std::vector<Rect> columnsFrom(Length top, std::size_t count) const {
        const auto n = static_cast<std::int64_t>(count);
        const Length gap = count == 2 ? 8_mm : 6_mm;
        const Length width = (m_area.length() - gap * (n - 1)) / n;
        std::vector<Rect> columns;
        for (std::int64_t i = 0; i < n; ++i) {
            const Length left = m_area.x0 + (width + gap) * i;
            columns.push_back({left, top, left + width, m_area.y1});
        }
        return columns;
    }

    /// Title, how the board lies, the drawings and their key; returns where the steps may begin.
    Length drawHead(Pen& pen, const Division& division) const {
        const Document& document = m_input.document;
        const Board& board = *m_cuts.board;
        const std::vector<Fill>& fills = m_input.report.fills;
        const TextStyle title{20, Weight::SemiBold, Align::Left, Ink::Black, false, 0};
        const Length baseline = m_area.y0 + baselineIn(20);
        const std::string name = elided(m_title, m_area.length() / 3, title, pen.measure());
        pen.text({m_area.x0, baseline}, name, title);
        const Length left = m_area.x0 + pen.widthOf(name, title) + 6_mm;
        pen.text({left, baseline - 4.6_mm},
                 elided(factsOf(document, board), m_area.x1 - left, wordStyle, pen.measure()),
                 wordStyle);
        drawFaceLine(pen, {left, baseline}, m_area.x1,
                     "Face A up, datum end at your left, near edge towards you.", board.heart,
                     BoardFace::A);

        const int scale = scaleFor(document, board, m_area.length(), division.smallerSteps);
        const BoardDrawing faceA = drawBoard(document, m_cuts, fills, scale, pen.measure());
        Length y = baseline + 2_mm;
        place(pen.page(), faceA.marks, {m_area.x0, y});
        y += faceA.height;
        DrawingKey key = faceA.key;
        if (needsFaceB(board, fills)) {
            y = drawOtherFace(pen, y, division, key);
        }

        y += 3.4_mm;
        const Length scaleWidth = drawScale(pen, {m_area.x1, y}, faceA, document.info);
        for (const std::string& line :
             wrapped(keyText(key), m_area.length() - scaleWidth - 6_mm, keyStyle, pen.measure())) {
            pen.text({m_area.x0, y}, line, keyStyle);
            y += 3.9_mm;
        }
        return y - 1.6_mm;
    }

    Length drawOtherFace(Pen& pen, Length y, const Division& division, DrawingKey& key) const {
        const Document& document = m_input.document;
        const int scale = scaleFor(document, *m_cuts.board, m_area.length(),
                                   std::max(division.smallerSteps, division.faceBSmaller));
        const BoardDrawing faceB =
            drawFaceB(document, m_cuts, m_input.report.fills, scale, pen.measure());
        const TextStyle bold{10, Weight::SemiBold, Align::Left, Ink::Black, false, 0};
        const std::string name = "Face B";
        y += 3.6_mm;
        pen.text({m_area.x0, y}, name, bold);
        const int scaleOfA =
            scaleFor(document, *m_cuts.board, m_area.length(), division.smallerSteps);
        drawFaceLine(
            pen, {m_area.x0 + pen.widthOf(name, bold) + 2.5_mm, y}, m_area.x1,
            "rolled over: datum end still at the left, near edge away from you." +
                (scale == scaleOfA ? std::string() : " Scale 1 : " + std::to_string(scale) + "."),
            m_cuts.board->heart, BoardFace::B);
        y += 2_mm;
        place(pen.page(), faceB.marks, {m_area.x0, y});
        key.kinds.insert(faceB.key.kinds.begin(), faceB.key.kinds.end());
        key.fills = key.fills || faceB.key.fills;
        key.notLookedAt = key.notLookedAt || faceB.key.notLookedAt;
        return y + faceB.height;
    }

    void putOnTwo(const Sheet& sheet) {
        Pen pen = m_book.add(m_title, twoSheets.turn);
        place(pen.page(), sheet.head, {});
        const auto turn = static_cast<std::ptrdiff_t>(
            rowsForFirstPage(sheet.rows, sheet.columns, continuedColumns(sheet.columns.size())));
        const FlowRows here(sheet.rows.begin(), sheet.rows.begin() + turn);
        const FlowRows over(sheet.rows.begin() + turn, sheet.rows.end());
        flow(here, {pen, balanced(here, 0, sheet.columns)}, {});
        sayGoesOn(pen);
        const std::size_t columns = sheet.columns.size();
        FlowPage next = continued(columns);
        next.columns = balanced(over, 0, next.columns);
        flow(over, next, [&] { return continued(columns); });
    }

    void sayGoesOn(Pen& pen) const {
        pen.text({m_area.x1, m_area.y1 + 1_mm}, "More steps on the next sheet",
                 {10, Weight::SemiBold, Align::Right});
    }

    FlowPage continued(std::size_t columns) {
        Pen next = m_book.add(m_title + ", continued", twoSheets.turn);
        const TextStyle style{14, Weight::SemiBold, Align::Left, Ink::Black, false, 0};
        next.text({m_area.x0, m_area.y0 + baselineIn(14)},
                  elided(m_title + ", continued", m_area.length(), style, m_book.measure()), style);
        return {next, continuedColumns(columns)};
    }

    std::vector<Rect> continuedColumns(std::size_t columns) const {
        return columnsFrom(m_area.y0 + rowHeight(14) + 1_mm, columns);
    }

    PageBook& m_book;
    const SheetInput& m_input;
    const BoardCuts& m_cuts;
    Rect m_area;
    std::string m_title;
};

} // namespace

void addBoardSheet(PageBook& book, const SheetInput& input, const BoardCuts& cuts) {
    BoardSheetWriter(book, input, cuts).write();
}

} // namespace stavewright::papers
