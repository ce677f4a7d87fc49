#include "core/papers/BoardDrawing.h"

#include <algorithm>
#include <array>

#include "core/papers/Words.h"

namespace stavewright::papers {

namespace {

constexpr Length gutter = 15_mm; ///< left of the datum end, for its name
constexpr Length tallestBoard = 52_mm;

BoardCanvas canvasFor(const Document& document, const BoardCuts& cuts, Page& scratch, int scale,
                      BoardFace face, const TextMeasure& measure) {
    BoardCanvas canvas{document, cuts, Pen(scratch, measure)};
    canvas.face = face;
    canvas.box = boundingBox(cuts.board->outline);
    canvas.scale = scale;
    canvas.left = gutter;
    return canvas;
}

/// Boxes of the marks that this view shows; to be called once the canvas has its place.
void findDefects(BoardCanvas& canvas) {
    for (const Defect& defect : canvas.cuts.board->defects) {
        const bool faceA = canvas.face == BoardFace::A;
        for (const FaceMark* mark :
             {markOn(defect, canvas.face),
              faceA && defect.onB ? &*defect.onB : static_cast<const FaceMark*>(nullptr)}) {
            if (mark != nullptr) {
                canvas.defects.push_back(outerBox(canvas.onPaper(mark->outline)));
            }
        }
    }
}

/// Datum end and near edge, named beside the board.
void nameSides(BoardCanvas& canvas) {
    const Length right = canvas.left - 2.6_mm;
    const Length middle = (canvas.top() + canvas.bottom) / 2;
    const TextStyle name{9, Weight::SemiBold, Align::Right, Ink::Black, false, 0};
    const TextStyle edge{8, Weight::Regular, Align::Right, Ink::Black, false, 0};
    const bool faceA = canvas.face == BoardFace::A;
    // The three lines are set as one block, so that they never run into one another.
    const Length lift = faceA ? -1.2_mm : 2_mm;
    canvas.pen.text({right, middle + lift - 0.8_mm}, "DATUM", name);
    canvas.pen.text({right, middle + lift + 2.9_mm}, "END", name);
    const Length nearEdge = faceA ? larger(canvas.bottom + 0.8_mm, middle + lift + 6.4_mm)
                                  : smaller(canvas.top() + 1.6_mm, middle + lift - 4.8_mm);
    canvas.pen.text({right, nearEdge}, "near edge", edge);
}

/// Brackets under the board with each section's name and length; returns the height used.
Length nameSections(BoardCanvas& canvas, Length top) {
    const TextStyle name{14, Weight::SemiBold, Align::Centre, Ink::Black, false, 0};
    const Length bracket = top + 1.5_mm;
    Pen& pen = canvas.pen;
    for (const SectionCuts& section : canvas.cuts.sections) {
        if (section.isWaste) {
            continue; // the hatch says so
        }
        const Stretch along = section.section->along;
        const Length from = canvas.atReading(along.from) + 0.6_mm;
        const Length to = canvas.atReading(along.to) - 0.6_mm;
        const LineLook look{0.3_mm, LineStyle::Solid, Ink::Black};
        pen.line({from, bracket}, {to, bracket}, look);
        pen.line({from, bracket}, {from, bracket - 1.5_mm}, look);
        pen.line({to, bracket}, {to, bracket - 1.5_mm}, look);
        const std::string longText =
            section.name + ":  " + tapeText(canvas.document.info, along.length());
        const bool fits = pen.widthOf(longText, name) <= to - from;
        canvas.placer.take(
            pen.text({(from + to) / 2, bracket + 6_mm}, fits ? longText : section.name, name));
    }
    return 9_mm;
}

/// Letters stay off the tape, the section names and the datum end's name.
void keepLettersOnTheBoard(BoardCanvas& canvas) {
    constexpr Length far = 1000_mm;
    canvas.placer.take({-far, -far, far, canvas.top() - 0.5_mm});
    canvas.placer.take({-far, canvas.bottom + 0.5_mm, far, far});
    canvas.placer.take({-far, -far, canvas.left + 0.2_mm, far});
    canvas.placer.take({canvas.right(), -far, far, far});
}

} // namespace

Rect outerBox(const std::vector<Point>& corners) {
    Rect box{corners.front().x, corners.front().y, corners.front().x, corners.front().y};
    for (const Point& corner : corners) {
        box = {smaller(box.x0, corner.x), smaller(box.y0, corner.y), larger(box.x1, corner.x),
               larger(box.y1, corner.y)};
    }
    return box;
}

Rect innerBox(const std::vector<Point>& corners) {
    // Four corners: the second and third values in order bound the inside.
    std::vector<Length> xs;
    std::vector<Length> ys;
    for (const Point& corner : corners) {
        xs.push_back(corner.x);
        ys.push_back(corner.y);
    }
    std::sort(xs.begin(), xs.end());
    std::sort(ys.begin(), ys.end());
    return {xs[1], ys[1], xs[2], ys[2]};
}

int scaleFor(const Document& document, const Board& board, Length width, int smallerSteps) {
    static constexpr std::array<int, 15> inchScales = {2,  3,  4,  5,  6,  8,  10, 12,
                                                       16, 20, 24, 32, 40, 48, 96};
    static constexpr std::array<int, 15> metricScales = {2,  3,  4,  5,  6,  8,  10, 12,
                                                         15, 20, 25, 30, 40, 50, 100};
    const Rect box = boundingBox(board.outline);
    const Length room = width - gutter - 2_mm;
    for (const int scale : document.info.units == UnitSystem::Inches ? inchScales : metricScales) {
        if (box.length() / scale <= room && box.width() / scale <= tallestBoard &&
            smallerSteps-- == 0) {
            return scale;
        }
    }
    return 100;
}

BoardDrawing drawBoard(const Document& document, const BoardCuts& cuts,
                       const std::vector<Fill>& fills, int scale, const TextMeasure& measure) {
    BoardDrawing drawing;
    Page scratch;
    BoardCanvas canvas = canvasFor(document, cuts, scratch, scale, BoardFace::A, measure);
    canvas.bottom = tapeHeight(canvas) + canvas.onPaper(canvas.box.width());
    findDefects(canvas);
    drawWood(canvas, drawing.key);
    drawTape(canvas);
    nameSides(canvas);
    keepLettersOnTheBoard(canvas);
    drawing.key.strips = drawStripNumbers(canvas);
    const std::set<DefectId> filled = drawFills(canvas, fills, drawing.key);
    const Length below = drawBlankLabels(canvas);
    const Length sections = nameSections(canvas, canvas.bottom + larger(below, 2_mm));
    drawDefectLetters(canvas, filled, drawing.key);
    drawGrainArrows(canvas);

    drawing.height = canvas.bottom + larger(below, 2_mm) + sections;
    drawing.scale = canvas.scale;
    drawing.marks = std::move(scratch.marks);
    return drawing;
}

bool needsFaceB(const Board& board, const std::vector<Fill>& fills) {
    return std::any_of(
               board.defects.begin(), board.defects.end(),
               [](const Defect& defect) { return markOn(defect, BoardFace::B) != nullptr; }) ||
           std::any_of(fills.begin(), fills.end(),
                       [&](const Fill& fill) { return fill.board == board.id && fill.onFaceB; });
}

BoardDrawing drawFaceB(const Document& document, const BoardCuts& cuts,
                       const std::vector<Fill>& fills, int scale, const TextMeasure& measure) {
    BoardDrawing drawing;
    Page scratch;
    BoardCanvas canvas = canvasFor(document, cuts, scratch, scale, BoardFace::B, measure);
    constexpr Length over = 1.5_mm; // the crosscuts' ends
    canvas.bottom = over + canvas.onPaper(canvas.box.width());
    findDefects(canvas);
    drawWood(canvas, drawing.key);
    canvas.pen.line({canvas.left, Length()}, {canvas.left, canvas.bottom + over}, {0.8_mm});
    nameSides(canvas);
    keepLettersOnTheBoard(canvas);
    const std::set<DefectId> filled = drawFills(canvas, fills, drawing.key);
    drawSmallBlankLabels(canvas);
    drawDefectLetters(canvas, filled, drawing.key);
    drawing.height = canvas.bottom + over;
    drawing.scale = canvas.scale;
    drawing.marks = std::move(scratch.marks);
    return drawing;
}

void drawEndRings(Pen& pen, Point topLeft, HeartSide heart, BoardFace up) {
    const Rect end{topLeft.x, topLeft.y, topLeft.x + endRingsWidth, topLeft.y + endRingsHeight};
    pen.rect(end, {0.25_mm, LineStyle::Solid, Ink::Black});
    const bool heartUp = (heart == HeartSide::FaceA) == (up == BoardFace::A);
    // Three rings round a heart that lies beyond the face it is nearer to.
    const Length middle = (end.x0 + end.x1) / 2;
    for (const Length rise : {1_mm, 2.2_mm, 3.4_mm}) {
        std::vector<Point> arc;
        constexpr int steps = 12;
        for (int i = 0; i <= steps; ++i) {
            const double t = (2.0 * i / steps) - 1; // -1 to 1 across the end
            const Length sag = scaled(rise, 1 - t * t);
            const Length x = middle + scaled(scaled(endRingsWidth, 0.12) + rise * 3 / 2, t);
            arc.push_back({x, heartUp ? end.y0 + sag : end.y1 - sag});
        }
        for (std::size_t i = 0; i + 1 < arc.size(); ++i) {
            pen.line(arc[i], arc[i + 1], {0.25_mm, LineStyle::Solid, Ink::Black});
        }
    }
}

void place(Page& page, const std::vector<Mark>& marks, Point offset) {
    const auto moved = [&](Point point) { return Point{point.x + offset.x, point.y + offset.y}; };
    for (Mark mark : marks) {
        if (auto* text = std::get_if<Text>(&mark)) {
            text->at = moved(text->at);
        } else if (auto* line = std::get_if<Line>(&mark)) {
            line->from = moved(line->from);
            line->to = moved(line->to);
        } else if (auto* shape = std::get_if<Shape>(&mark)) {
            for (Point& corner : shape->corners) {
                corner = moved(corner);
            }
        }
        page.marks.push_back(std::move(mark));
    }
}

} // namespace stavewright::papers
