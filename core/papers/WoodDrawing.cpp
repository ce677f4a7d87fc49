// The wood itself on a board drawing, of either face.

#include <algorithm>

#include "core/papers/BoardCanvas.h"
#include "core/papers/DefectMarks.h"
#include "core/papers/Hatch.h"
#include "core/papers/StepLines.h"
#include "core/papers/Words.h"

namespace stavewright::papers {

namespace {

constexpr LineLook crosscutLook{0.5_mm, LineStyle::Solid, Ink::Black};
constexpr LineLook ripLook{0.35_mm, LineStyle::LongDash, Ink::Black};
constexpr LineLook trimLook{0.25_mm, LineStyle::ShortDash, Ink::Black};
constexpr LineLook wasteLook{0.18_mm, LineStyle::Solid, Ink::Grey};

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

class WoodDrawer {
  public:
    WoodDrawer(BoardCanvas& canvas, DrawingKey& key)
        : m_canvas(canvas)
        , m_key(key) {}

    void draw() {
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

  private:
    Pen& pen() { return m_canvas.pen; }
    const Board& board() { return *m_canvas.cuts.board; }

    void hatchWaste() {
        std::vector<Polygon> used;
        for (const SectionCuts& section : m_canvas.cuts.sections) {
            for (const StripCuts& strip : section.strips) {
                for (const BlankLine& line : strip.blanks) {
                    used.push_back(
                        m_canvas.onPaper(toOuter(section.section->frame, woodOf(*line.blank))));
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
        for (const Stretch& unseen : notLookedAt(board(), m_canvas.face, whole)) {
            m_key.notLookedAt = true;
            const std::optional<Stretch> across = clearAcross(board().outline, unseen);
            if (!across) {
                continue;
            }
            const Length oneEdge = m_canvas.onPaper(Point{unseen.from, across->to}).y;
            const Length otherEdge = m_canvas.onPaper(Point{unseen.from, across->from}).y;
            const Length top = smaller(oneEdge, otherEdge);
            const Length low = larger(oneEdge, otherEdge);
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
            const FaceMark* here = markOn(defect, m_canvas.face);
            if (m_canvas.face == BoardFace::A && defect.onB && here != &*defect.onB) {
                m_key.dashedFaceB = true;
                drawStrokes(pen(), drawing::symbolOf(defect.kind, defect.onB->outline, spacing),
                            true, toPaper);
            }
            if (here != nullptr) {
                drawStrokes(pen(), drawing::symbolOf(defect.kind, here->outline, spacing), false,
                            toPaper);
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
                drawBlankEnds(section, across, woodOf(*line.blank));
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

/// The mark that this view shows: of its own face, else dashed from face B, else where a fill
/// reaches through.
const FaceMark& shownMark(const Defect& defect, BoardFace face) {
    if (const FaceMark* here = markOn(defect, face)) {
        return *here;
    }
    return defect.onA ? *defect.onA : *defect.onB;
}

/// Section ends, rips and blank ends on paper.
std::vector<Rect> cutLines(const BoardCanvas& canvas) {
    std::vector<Rect> lines;
    for (const SectionCuts& cuts : canvas.cuts.sections) {
        const Section& section = *cuts.section;
        const auto add = [&](Point from, Point to) {
            lines.push_back(outerBox({canvas.onPaper(toOuter(section.frame, from)),
                                      canvas.onPaper(toOuter(section.frame, to))}));
        };
        for (const Length end : {section.along.from, section.along.to}) {
            const Length x = canvas.atReading(end);
            lines.push_back({x, canvas.top(), x, canvas.bottom});
        }
        const Length from = toLocal(section.frame, {section.along.from, section.frame.origin.y}).x;
        const Length to = toLocal(section.frame, {section.along.to, section.frame.origin.y}).x;
        for (const StripCuts& strip : cuts.strips) {
            const Stretch across = strip.strip->across;
            add({from, across.from}, {to, across.from});
            add({from, across.to}, {to, across.to});
            for (const BlankLine& line : strip.blanks) {
                const Rect& rect = woodOf(*line.blank);
                add({rect.x0, rect.y0}, {rect.x0, rect.y1});
                add({rect.x1, rect.y0}, {rect.x1, rect.y1});
            }
        }
    }
    return lines;
}

Rect markOnPaper(const BoardCanvas& canvas, const Defect& defect) {
    return outerBox(canvas.onPaper(shownMark(defect, canvas.face).outline));
}

} // namespace

const FaceMark* markOn(const Defect& defect, BoardFace face) {
    const std::optional<FaceMark>& own = face == BoardFace::A ? defect.onA : defect.onB;
    const std::optional<FaceMark>& opposite = face == BoardFace::A ? defect.onB : defect.onA;
    if (own) {
        return &*own;
    }
    return defect.through && opposite ? &*opposite : nullptr;
}

void drawWood(BoardCanvas& canvas, DrawingKey& key) { WoodDrawer(canvas, key).draw(); }

std::set<DefectId> drawFills(BoardCanvas& canvas, const std::vector<Fill>& fills, DrawingKey& key) {
    const Board& board = *canvas.cuts.board;
    std::set<DefectId> named;
    std::vector<Rect> spared = canvas.defects;
    const std::vector<Rect> lines = cutLines(canvas);
    spared.insert(spared.end(), lines.begin(), lines.end());
    for (const Defect& defect : board.defects) {
        const bool filled = std::any_of(fills.begin(), fills.end(), [&](const Fill& fill) {
            return fill.board == board.id && fill.defect == defect.id &&
                   (canvas.face == BoardFace::A ? fill.onFaceA : fill.onFaceB);
        });
        if (!filled) {
            continue;
        }
        // The step list says of what kind it is.
        placeFill(canvas.pen, canvas.placer, markOnPaper(canvas, defect), fillName(defect), spared);
        named.insert(defect.id);
        key.fills = true;
        key.kinds.insert(defect.kind);
    }
    return named;
}

void drawDefectLetters(BoardCanvas& canvas, const std::set<DefectId>& named, DrawingKey& key) {
    for (const Defect& defect : canvas.cuts.board->defects) {
        const bool shown = canvas.face == BoardFace::A || markOn(defect, BoardFace::B) != nullptr;
        if (shown && !named.contains(defect.id)) {
            placeLetter(canvas.pen, canvas.placer, markOnPaper(canvas, defect),
                        letterOf(defect.kind));
            key.kinds.insert(defect.kind);
        }
    }
}

} // namespace stavewright::papers
