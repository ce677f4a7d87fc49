#include "core/papers/BoardDrawing.h"

#include <algorithm>
#include <array>

#include "core/papers/BoardCanvas.h"
#include "core/papers/DefectMarks.h"
#include "core/papers/Hatch.h"
#include "core/papers/Words.h"

namespace stavewright::papers {

namespace {

constexpr Length gutter = 13_mm; ///< left of the datum end, for its name
constexpr Length tallestBoard = 52_mm;
constexpr LineLook crosscutLook{0.5_mm, LineStyle::Solid, Ink::Black};
constexpr LineLook ripLook{0.35_mm, LineStyle::LongDash, Ink::Black};
constexpr LineLook trimLook{0.25_mm, LineStyle::ShortDash, Ink::Black};
constexpr LineLook wasteLook{0.15_mm, LineStyle::Solid, Ink::LightGrey};

int scaleFor(const Rect& box, UnitSystem units, Length width) {
    static constexpr std::array<int, 15> inchScales = {2,  3,  4,  5,  6,  8,  10, 12,
                                                       16, 20, 24, 32, 40, 48, 96};
    static constexpr std::array<int, 15> metricScales = {2,  3,  4,  5,  6,  8,  10, 12,
                                                         15, 20, 25, 30, 40, 50, 100};
    for (const int scale : units == UnitSystem::Inches ? inchScales : metricScales) {
        if (box.length() / scale <= width && box.width() / scale <= tallestBoard) {
            return scale;
        }
    }
    return 100;
}

/// Offcuts that stand in the section itself come after those of its strips.
std::vector<Polygon> keptPolygons(const SectionCuts& section) {
    std::vector<Polygon> kept;
    for (const StripCuts& strip : section.strips) {
        for (const Offcut& offcut : strip.strip->offcuts) {
            kept.push_back(toOuter(section.section->frame, offcut.rect));
        }
    }
    for (const Offcut& offcut : section.section->offcuts) {
        kept.push_back(toOuter(section.section->frame, offcut.rect));
    }
    return kept;
}

class Drawer {
  public:
    Drawer(BoardCanvas& canvas, DrawingKey& key)
        : m_canvas(canvas)
        , m_key(key) {}

    void drawWood() {
        hatchWaste();
        for (const SectionCuts& section : m_canvas.cuts.sections) {
            for (const Polygon& kept : keptPolygons(section)) {
                m_key.offcuts = true;
                pen().polygon(m_canvas.onPaper(kept), {0.25_mm, LineStyle::Solid, Ink::Grey});
            }
        }
        dotNotLookedAt();
        drawDefectStrokes();
        pen().polygon(m_canvas.onPaper(board().outline), {0.35_mm, LineStyle::Solid, Ink::Black});
        for (const SectionCuts& section : m_canvas.cuts.sections) {
            drawCuts(section);
        }
        for (const CrosscutMark& mark : m_canvas.cuts.crosscuts) {
            drawCrosscut(mark.reading);
            // A shared cut has a second side, one kerf on; at most scales it falls on the same
            // line.
            if (mark.startReading != mark.reading) {
                drawCrosscut(mark.startReading);
            }
        }
    }

    void drawDefectLetters() {
        for (const Defect& defect : board().defects) {
            const FaceMark& mark = defect.onA ? *defect.onA : *defect.onB;
            const Rect box = outerBox(m_canvas.onPaper(mark.outline));
            placeLetter(pen(), m_canvas.placer, box, letterOf(defect.kind));
            m_key.kinds.insert(defect.kind);
        }
    }

    void nameDatumEnd() {
        const Length middle = (m_canvas.top() + m_canvas.bottom) / 2;
        pen().text({m_canvas.left - 7.2_mm, middle}, "DATUM END",
                   {10, Weight::SemiBold, Align::Centre, Ink::Black, false, 90});
        pen().text({m_canvas.left - 2.8_mm, middle}, "hook the tape here",
                   {8, Weight::Regular, Align::Centre, Ink::Black, false, 90});
    }

    /// Brackets under the board with each section's name and length; returns the height used.
    Length nameSections(Length top) {
        const TextStyle name{14, Weight::SemiBold, Align::Centre, Ink::Black, false, 0};
        const Length bracket = top + 1.5_mm;
        for (const SectionCuts& section : m_canvas.cuts.sections) {
            const Stretch along = section.section->along;
            const Length from = m_canvas.atReading(along.from) + 0.6_mm;
            const Length to = m_canvas.atReading(along.to) - 0.6_mm;
            const LineLook look{0.3_mm, LineStyle::Solid, Ink::Black};
            pen().line({from, bracket}, {to, bracket}, look);
            pen().line({from, bracket}, {from, bracket - 1.5_mm}, look);
            pen().line({to, bracket}, {to, bracket - 1.5_mm}, look);
            const std::string longText =
                section.name + ":  " + lengthText(m_canvas.document.info, along.length());
            const bool fits = pen().widthOf(longText, name) <= to - from;
            m_canvas.placer.take(pen().text({(from + to) / 2, bracket + 6_mm},
                                            fits ? longText : section.name, name));
        }
        return 9.5_mm;
    }

  private:
    Pen& pen() { return m_canvas.pen; }
    const Board& board() { return *m_canvas.cuts.board; }

    void hatchWaste() {
        std::vector<Polygon> used;
        for (const SectionCuts& section : m_canvas.cuts.sections) {
            for (const StripCuts& strip : section.strips) {
                for (const BlankLine& line : strip.blanks) {
                    used.push_back(
                        m_canvas.onPaper(toOuter(section.section->frame, line.blank->rect)));
                }
            }
            for (const Polygon& kept : keptPolygons(section)) {
                used.push_back(m_canvas.onPaper(kept));
            }
        }
        for (const auto& [from, to] : hatchLines(m_canvas.onPaper(board().outline), used, 1.8_mm)) {
            pen().line(from, to, wasteLook);
        }
    }

    void dotNotLookedAt() {
        const Stretch whole{m_canvas.box.x0, m_canvas.box.x1};
        for (const Stretch& unseen : notLookedAt(board(), BoardFace::A, whole)) {
            m_key.notLookedAt = true;
            const std::optional<Stretch> across = clearAcross(board().outline, unseen);
            if (!across) {
                continue;
            }
            const Length top = m_canvas.onPaper(Point{unseen.from, across->to}).y;
            const Length low = m_canvas.onPaper(Point{unseen.from, across->from}).y;
            for (Length y = top + 1_mm; y < low; y += 2_mm) {
                pen().line({m_canvas.atReading(unseen.from - m_canvas.box.x0), y},
                           {m_canvas.atReading(unseen.to - m_canvas.box.x0), y},
                           {0.3_mm, LineStyle::Dotted, Ink::Grey});
            }
        }
    }

    void drawDefectStrokes() {
        const Length spacing = m_canvas.scale * 0.9_mm;
        const auto toPaper = [&](const Point& point) { return m_canvas.onPaper(point); };
        for (const Defect& defect : board().defects) {
            if (defect.onB) {
                m_key.dashedFaceB = true;
                drawStrokes(pen(), drawing::symbolOf(defect.kind, defect.onB->outline, spacing),
                            true, toPaper);
            }
            if (defect.onA) {
                drawStrokes(pen(), drawing::symbolOf(defect.kind, defect.onA->outline, spacing),
                            false, toPaper);
            }
        }
    }

    /// A line in a section's frame.
    void lineIn(const Section& section, Point from, Point to, const LineLook& look) {
        pen().line(m_canvas.onPaper(toOuter(section.frame, from)),
                   m_canvas.onPaper(toOuter(section.frame, to)), look);
    }

    void drawCuts(const SectionCuts& cuts) {
        const Section& section = *cuts.section;
        const Length from = toLocal(section.frame, {section.along.from, section.frame.origin.y}).x;
        const Length to = toLocal(section.frame, {section.along.to, section.frame.origin.y}).x;
        for (const StripCuts& strip : cuts.strips) {
            const Stretch across = strip.strip->across;
            lineIn(section, {from, across.from}, {to, across.from}, ripLook);
            lineIn(section, {from, across.to}, {to, across.to}, ripLook);
            for (const BlankLine& line : strip.blanks) {
                drawBlankEnds(section, across, line.blank->rect);
            }
        }
    }

    void drawBlankEnds(const Section& section, Stretch strip, const Rect& rect) {
        lineIn(section, {rect.x0, rect.y0}, {rect.x0, rect.y1}, {0.35_mm});
        lineIn(section, {rect.x1, rect.y0}, {rect.x1, rect.y1}, {0.35_mm});
        if (rect.y0 != strip.from) {
            lineIn(section, {rect.x0, rect.y0}, {rect.x1, rect.y0}, trimLook);
        }
        if (rect.y1 != strip.to) {
            lineIn(section, {rect.x0, rect.y1}, {rect.x1, rect.y1}, trimLook);
        }
    }

    void drawCrosscut(Length reading) {
        const Length x = m_canvas.atReading(reading);
        pen().line({x, m_canvas.top() - 1.5_mm}, {x, m_canvas.bottom + 1.5_mm}, crosscutLook);
    }

    BoardCanvas& m_canvas;
    DrawingKey& m_key;
};

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

BoardDrawing drawBoard(const Document& document, const BoardCuts& cuts, Length width,
                       const TextMeasure& measure) {
    BoardDrawing drawing;
    Page scratch;
    BoardCanvas canvas{document, cuts, Pen(scratch, measure)};
    canvas.box = boundingBox(cuts.board->outline);
    canvas.scale = scaleFor(canvas.box, document.info.units, width - gutter - 2_mm);
    canvas.left = gutter;
    canvas.bottom = Length();
    canvas.bottom = tapeHeight(canvas) - canvas.top();

    for (const Defect& defect : cuts.board->defects) {
        for (const std::optional<FaceMark>& mark : {defect.onA, defect.onB}) {
            if (mark) {
                canvas.defects.push_back(outerBox(canvas.onPaper(mark->outline)));
            }
        }
    }

    Drawer drawer(canvas, drawing.key);
    drawer.drawWood();
    drawTape(canvas);
    drawer.nameDatumEnd();
    const Length below = drawBlankLabels(canvas);
    const Length sections = drawer.nameSections(canvas.bottom + larger(below, 2.5_mm));
    keepLettersOnTheBoard(canvas);
    drawer.drawDefectLetters();

    drawing.height = canvas.bottom + larger(below, 2.5_mm) + sections;
    drawing.scale = canvas.scale;
    drawing.marks = std::move(scratch.marks);
    return drawing;
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
