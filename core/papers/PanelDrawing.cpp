#include "core/papers/PanelDrawing.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "core/drawing/GrainFigure.h"
#include "core/geometry/PolygonOps.h"
#include "core/glueup/LaidPlace.h"
#include "core/panels/Fills.h"
#include "core/papers/PanelLabels.h"
#include "core/papers/Words.h"

namespace stavewright::papers {

namespace {

using panels::Panel;
using panels::PanelStave;

/// From the panel's frame (near edge below) onto paper, at a whole scale.
class PanelScale {
  public:
    PanelScale(const Panel& panel, const Rect& room)
        : m_room(room) {
        const double along = panel.length.toMillimetres() / room.length().toMillimetres();
        const double across = panel.width.toMillimetres() / room.width().toMillimetres();
        m_scale = std::max(1, static_cast<int>(std::ceil(std::max(along, across))));
        m_length = panel.length / m_scale;
        m_width = panel.width / m_scale;
    }

    [[nodiscard]] int scale() const { return m_scale; }
    [[nodiscard]] Rect area() const {
        return {m_room.x0, m_room.y0, m_room.x0 + m_length, m_room.y0 + m_width};
    }
    /// Panel frame to paper.
    [[nodiscard]] Point at(Point inPanel) const {
        return {m_room.x0 + inPanel.x / m_scale, m_room.y0 + m_width - inPanel.y / m_scale};
    }

  private:
    Rect m_room;
    int m_scale = 1;
    Length m_length;
    Length m_width;
};

/// A point of the board in the panel, where the stave's near edge stands at `near`.
Point inPanel(const PanelStave& stave, Pose pose, Length near, Point onBoard) {
    const Point local = toLocal(stave.frame, onBoard);
    Length x = local.x - stave.net.x0;
    Length y = local.y - stave.net.y0;
    if (pose.endForEnd) {
        x = stave.net.length() - x;
    }
    if (glueup::runsBackAcross(pose)) {
        y = stave.net.width() - y;
    }
    return {x, y + near};
}

/// The same way back: a point of the stave as it lies (its own near edge at y = 0) on its board.
Point onBoard(const PanelStave& stave, Pose pose, Point lies) {
    const Length x = pose.endForEnd ? stave.net.length() - lies.x : lies.x;
    const Length y = glueup::runsBackAcross(pose) ? stave.net.width() - lies.y : lies.y;
    return toOuter(stave.frame, Point{stave.net.x0 + x, stave.net.y0 + y});
}

BoardFace faceUp(Pose pose) { return pose.faceOver ? BoardFace::B : BoardFace::A; }

bool isPhotographed(const Board& board, BoardFace face) {
    return std::any_of(board.photos.begin(), board.photos.end(),
                       [face](const BoardPhoto& photo) { return photo.face == face; });
}

bool isIn(const Point& point, const Rect& rect) {
    return rect.x0 <= point.x && point.x <= rect.x1 && rect.y0 <= point.y && point.y <= rect.y1;
}

class PanelDrawing {
  public:
    PanelDrawing(const Document& document, const Panel& panel, Pen& pen, const Rect& area)
        : m_document(document)
        , m_panel(panel)
        , m_pen(pen)
        , m_area(area) {}

    /// The drawing; returns where it ends.
    Length draw(Length top, const std::function<bool(Length end)>& fits) {
        constexpr Length mostHigh = 92_mm;
        constexpr Length leastHigh = 64_mm; // of a wide top's staves each can still be named
        constexpr Length step = 2_mm;
        Length high = mostHigh;
        while (high > leastHigh && !fits(endOf(scaleIn(top, high)))) {
            high -= step;
        }
        if (!fits(endOf(scaleIn(top, high)))) {
            high = mostHigh; // two pages are needed anyway
        }
        const PanelScale scale = scaleIn(top, high);
        Length near;
        for (std::size_t place = 0; place < m_panel.order.size(); ++place) {
            drawStave(scale, place, near);
            near += m_panel.staveAt(place).net.width();
        }
        drawTriangle(scale);
        near = {};
        std::vector<StaveLabel> labels;
        for (std::size_t place = 0; place < m_panel.order.size(); ++place) {
            labels.push_back(labelOf(scale, place, near));
            near += m_panel.staveAt(place).net.width();
        }
        drawTrim(scale);
        PanelLabels(m_pen).write(labels, m_knots);
        const Rect panel = scale.area();
        const TextStyle small{8, Weight::Regular, Align::Left, Ink::Grey, false, 0};
        m_pen.text({m_area.x0, panel.y1 + 4.2_mm},
                   "Near edge below, show face up, scale 1 : " + std::to_string(scale.scale()) +
                       ". One triangle across all, its point at the far edge.",
                   small);
        m_pen.text({m_area.x0, panel.y1 + 8_mm},
                   "At the left the end of each stave with its rings, the show face at its left.",
                   small);
        if (const std::string said = picturesSaid(); !said.empty()) {
            m_pen.text({m_area.x0, panel.y1 + 11.8_mm}, said, small);
        }
        return endOf(scale);
    }

  private:
    [[nodiscard]] PanelScale scaleIn(Length top, Length high) const {
        constexpr Length endView = 11_mm;
        return {m_panel, {m_area.x0 + endView, top, m_area.x1, top + high}};
    }

    /// With the lines of small type below.
    [[nodiscard]] Length endOf(const PanelScale& scale) const {
        return scale.area().y1 + (picturesSaid().empty() ? 11_mm : 15_mm);
    }

    [[nodiscard]] Pose poseAt(std::size_t place) const {
        return glueup::poseOf(m_panel.order[place].pose);
    }

    [[nodiscard]] const glueup::Stave& woodAt(std::size_t place) const {
        return m_panel.problem.staves[static_cast<std::size_t>(m_panel.order[place].stave)];
    }

    void drawStave(const PanelScale& scale, std::size_t place, Length near) {
        const PanelStave& stave = m_panel.staveAt(place);
        const Pose pose = poseAt(place);
        const Rect box{{}, near, stave.net.length(), near + stave.net.width()};
        if (const Board* board = findBoard(m_document, stave.board)) {
            drawWood(scale, *board, stave, pose, box);
            drawDefects(scale, *board, stave, pose, box);
        }
        const Point low = scale.at({box.x0, box.y0});
        const Point high = scale.at({box.x1, box.y1});
        m_pen.rect({low.x, high.y, high.x, low.y}, {0.35_mm});
        drawRings(low, high, place);
    }

    /// Where some staves are shown as they were laid out, which are not; empty where none is.
    [[nodiscard]] std::string picturesSaid() const {
        std::string others;
        std::size_t laid = 0;
        for (std::size_t place = 0; place < m_panel.order.size(); ++place) {
            const PanelStave& stave = m_panel.staveAt(place);
            const BoardFace face = faceUp(poseAt(place));
            if (glueup::laidPlaceOf(m_document.glueUp.laidOut, stave.board, face, stave.frame,
                                    stave.net)) {
                ++laid;
                continue;
            }
            const Board* board = findBoard(m_document, stave.board);
            others += (others.empty() ? "" : ", ") + stave.label +
                      (board && isPhotographed(*board, face) ? " (its board)" : " (drawn)");
        }
        if (laid == 0) {
            return {};
        }
        return others.empty() ? "Photographed as the staves were laid out."
                              : "Photographed as the staves were laid out, but for " + others + ".";
    }

    /// The wood: a stretch of the photograph of the staves laid out, else of its board's, or the
    /// drawn figure where there is neither.
    void drawWood(const PanelScale& scale, const Board& board, const PanelStave& stave, Pose pose,
                  const Rect& box) {
        std::vector<Line> figure = grainOf(scale, board, stave, pose, box);
        const BoardFace face = faceUp(pose);
        const auto laid =
            glueup::laidPlaceOf(m_document.glueUp.laidOut, board.id, face, stave.frame, stave.net);
        if (!laid && !isPhotographed(board, face)) {
            for (Line& line : figure) {
                m_pen.page().marks.emplace_back(std::move(line));
            }
            return;
        }
        Photo photo;
        photo.board = board.id;
        photo.face = face;
        const Point low = scale.at({box.x0, box.y0});
        const Point high = scale.at({box.x1, box.y1});
        photo.at = {low.x, high.y, high.x, low.y};
        photo.corners = {onBoard(stave, pose, {Length(), stave.net.width()}),
                         onBoard(stave, pose, {stave.net.length(), stave.net.width()}),
                         onBoard(stave, pose, {Length(), Length()})};
        if (laid) { // the wood itself, as it lay on the bench
            photo.board = laid->picture();
            photo.face = laid->face();
            for (Point& corner : photo.corners) {
                corner = laid->toLaid(corner);
            }
        }
        photo.figure = std::move(figure);
        m_pen.page().photos.push_back(std::move(photo));
    }

    [[nodiscard]] static std::vector<Line> grainOf(const PanelScale& scale, const Board& board,
                                                   const PanelStave& stave, Pose pose,
                                                   const Rect& box) {
        std::vector<Line> figure;
        for (const auto& line : drawing::grainLines(board, faceUp(pose), 2_mm * scale.scale())) {
            std::optional<Point> last;
            for (const Point& point : line) {
                const Point here = inPanel(stave, pose, box.y0, point);
                if (last) {
                    addInside(scale, *last, here, box, figure);
                }
                last = here;
            }
        }
        return figure;
    }

    /// The part of a line that lies in the stave (clipped end by end, as both are straight).
    static void addInside(const PanelScale& scale, Point a, Point b, const Rect& box,
                          std::vector<Line>& figure) {
        double from = 0;
        double to = 1;
        const auto clip = [&](Length start, Length end, Length low, Length high) {
            const double first = start.toMillimetres();
            const double run = end.toMillimetres() - first;
            const double lowest = low.toMillimetres();
            const double highest = high.toMillimetres();
            if (run == 0) {
                to = first < lowest || first > highest ? -1 : to;
                return;
            }
            const double one = (lowest - first) / run;
            const double other = (highest - first) / run;
            from = std::max(from, std::min(one, other));
            to = std::min(to, std::max(one, other));
        };
        clip(a.x, b.x, box.x0, box.x1);
        clip(a.y, b.y, box.y0, box.y1);
        if (from >= to) {
            return;
        }
        const auto along = [&](double share) {
            return Point{a.x + scaled(b.x - a.x, share), a.y + scaled(b.y - a.y, share)};
        };
        figure.push_back({scale.at(along(from)), scale.at(along(to)), 0.12_mm, LineStyle::Solid,
                          Ink::LightGrey});
    }

    void drawDefects(const PanelScale& scale, const Board& board, const PanelStave& stave,
                     Pose pose, const Rect& box) {
        for (const Defect& defect : board.defects) {
            const auto& here = pose.faceOver ? defect.onB : defect.onA;
            const auto& there = pose.faceOver ? defect.onA : defect.onB;
            const FaceMark* mark = here ? &*here : defect.through && there ? &*there : nullptr;
            if (mark == nullptr) {
                continue;
            }
            std::vector<Point> corners;
            bool inside = false;
            for (const Point& corner : mark->outline) {
                Point at = inPanel(stave, pose, box.y0, corner);
                inside = inside || isIn(at, box);
                at = {std::clamp(at.x, box.x0, box.x1), std::clamp(at.y, box.y0, box.y1)};
                corners.push_back(scale.at(at));
            }
            if (!inside || corners.size() < 3) {
                continue;
            }
            const Rect drawn = boundingBox(corners);
            const bool isSeen = isPhotographed(board, faceUp(pose)) ||
                                glueup::laidPlaceOf(m_document.glueUp.laidOut, board.id,
                                                    faceUp(pose), stave.frame, stave.net);
            if (isSeen) {
                m_pen.polygon(std::move(corners), {0.3_mm});
            } else {
                m_pen.area(std::move(corners), Ink::White, {0.3_mm});
            }
            m_knots.push_back({drawn, panels::opensUp(defect.kind)
                                          ? defect.mark
                                          : std::string(1, letterOf(defect.kind))});
        }
    }

    /// The end of the stave, standing: show face at the left, three arcs hollow towards the heart.
    void drawRings(Point low, Point high, std::size_t place) {
        const Rect end{m_area.x0 + 1_mm, high.y + 0.4_mm, m_area.x0 + 7_mm, low.y - 0.4_mm};
        if (end.width() < 2_mm) {
            return;
        }
        m_pen.rect(end, {0.2_mm, LineStyle::Solid, Ink::Grey});
        const int heart = glueup::heartInPanel(woodAt(place), poseAt(place));
        const bool upright = woodAt(place).rings.angleTenths > 600;
        const Length middleY = (end.y0 + end.y1) / 2;
        const Length half = end.width() / 2 - 0.4_mm;
        for (int ring = 1; ring <= 3; ++ring) {
            if (upright) {
                const Length y = end.y0 + end.width() * ring / 4;
                m_pen.line({end.x0, y}, {end.x1, y}, {0.18_mm});
                continue;
            }
            const Length x = end.x0 + end.length() * ring / 4;
            const Length sag = heart == 0 ? Length() : (heart > 0 ? 1.2_mm : -(1.2_mm));
            constexpr int pieces = 8;
            std::optional<Point> last;
            for (int i = -pieces; i <= pieces; ++i) {
                const double share = static_cast<double>(i) / pieces;
                // The heart to the left bends the ends of the arcs to the left.
                const Point here{x - scaled(sag, share * share), middleY + scaled(half, share)};
                if (last) {
                    m_pen.line(*last, here,
                               {0.18_mm, heart == 0 ? LineStyle::Dotted : LineStyle::Solid});
                }
                last = here;
            }
        }
    }

    [[nodiscard]] StaveLabel labelOf(const PanelScale& scale, std::size_t place,
                                     Length near) const {
        const PanelStave& stave = m_panel.staveAt(place);
        const Point low = scale.at({{}, near});
        const Point high = scale.at({stave.net.length(), near + stave.net.width()});
        return {{low.x, high.y, high.x, low.y},
                std::to_string(place + 1) + "  " + stave.label,
                "board " + stave.boardMark + ", " + poseWords(poseAt(place)),
                glueup::planingInPanel(woodAt(place), poseAt(place))};
    }

    void drawTriangle(const PanelScale& scale) {
        if (m_panel.order.size() < 2) {
            return;
        }
        const Rect area = scale.area();
        const Length half = smaller(area.width() / 2, area.length() / 6);
        const Length middle = (area.x0 + area.x1) / 2;
        m_pen.polygon({{middle - half, area.y1 - 1_mm},
                       {middle + half, area.y1 - 1_mm},
                       {middle, area.y0 + 1_mm}},
                      {0.5_mm, LineStyle::Solid, Ink::Grey});
    }

    void drawTrim(const PanelScale& scale) {
        if (m_panel.finishedWidth <= Length() || m_panel.finishedWidth >= m_panel.width) {
            return;
        }
        const Length off = (m_panel.width - m_panel.finishedWidth) / 2;
        const Point low = scale.at({{}, off});
        const Point high = scale.at({m_panel.length, m_panel.width - off});
        m_pen.rect({low.x, high.y, high.x, low.y}, {0.2_mm, LineStyle::ShortDash, Ink::Grey});
    }

    const Document& m_document;
    const Panel& m_panel;
    Pen& m_pen;
    Rect m_area;
    std::vector<KnotLabel> m_knots;
};

} // namespace

Length drawPanel(Pen& pen, const Document& document, const Panel& panel, const Rect& area,
                 Length top, const std::function<bool(Length end)>& fits) {
    return PanelDrawing(document, panel, pen, area).draw(top, fits);
}

} // namespace stavewright::papers
