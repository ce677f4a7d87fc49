#include "ui/lumber/DrawTool.h"

#include <QCoreApplication>
#include <QKeyEvent>
#include <QPainter>

#include <algorithm>

#include "core/geometry/PolygonOps.h"
#include "core/lumber/Marking.h"
#include "ui/layout/BoardPicture.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("DrawTool", text); }

/// A drawn check has no width that one could drag; as wide as a pencil line on the tape.
constexpr int stepsOfACheck = 2;

} // namespace

DrawTool::DrawTool(SheetHost& host, ToolId tool)
    : SheetTool(host)
    , m_tool(tool) {}

bool DrawTool::byTwoPoints() const {
    return m_tool == ToolId::Ellipse || m_tool == ToolId::Bad || m_tool == ToolId::Look;
}

void DrawTool::press(const SheetPoint& point) {
    if (m_tool == ToolId::Corners && m_drawing) {
        if (point.face != m_face) {
            return;
        }
        // A click where the ring began closes it.
        const Length reach = host().handTolerance() * 2;
        const Point& first = m_points.front();
        if (m_points.size() > 2 && abs(point.at.x - first.x) <= reach &&
            abs(point.at.y - first.y) <= reach) {
            finish();
            return;
        }
        m_points.push_back(point.at);
    } else {
        m_drawing = true;
        m_face = point.face;
        m_points = {point.at};
    }
    m_last = point.at;
    host().repaint();
}

void DrawTool::move(const SheetPoint& point) {
    if (!m_drawing) {
        return;
    }
    m_last = point.at;
    if (m_tool == ToolId::Freehand || m_tool == ToolId::Stroke) {
        m_points.push_back(point.at);
    }
    host().repaint();
}

void DrawTool::hover(const SheetPoint& point) {
    if (m_drawing && point.face == m_face) {
        m_last = point.at;
        host().repaint();
    }
}

void DrawTool::release(const SheetPoint& point) {
    if (!m_drawing || m_tool == ToolId::Corners) {
        return;
    }
    m_last = point.at;
    m_points.push_back(point.at);
    finish();
}

bool DrawTool::key(QKeyEvent* event) {
    if (m_tool != ToolId::Corners || !m_drawing) {
        return false;
    }
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        finish();
        return true;
    }
    if (event->key() == Qt::Key_Backspace) {
        m_points.pop_back();
        m_drawing = !m_points.empty();
        host().repaint();
        return true;
    }
    return false;
}

bool DrawTool::cancel() {
    const bool begun = m_drawing;
    m_drawing = false;
    m_points.clear();
    host().repaint();
    return begun;
}

Stretch DrawTool::stretch() const {
    return {std::min(m_points.front().x, m_last.x), std::max(m_points.front().x, m_last.x)};
}

Result<FaceMark> DrawTool::mark() const {
    const Length step = host().tapeStep();
    const Length tolerance = host().handTolerance() / 2;
    switch (m_tool) {
    case ToolId::Ellipse:
        return ellipseBetween(onStep(m_points.front(), step), onStep(m_last, step));
    case ToolId::Stroke:
        return host().kind() == DefectKind::Wane
                   ? waneMark(host().board().outline, m_points, tolerance)
                   : strokeMark(m_points, step * stepsOfACheck, tolerance);
    case ToolId::Bad:
        return stretchMark(host().board().outline, {onStep({stretch().from, {}}, step).x,
                                                    onStep({stretch().to, {}}, step).x});
    case ToolId::Corners: {
        Polygon corners;
        for (const Point& point : m_points) {
            corners.push_back(onStep(point, step));
        }
        return ringMark(corners, Length::nanometres(1));
    }
    default:
        return ringMark(m_points, tolerance);
    }
}

void DrawTool::finish() {
    m_drawing = false;
    if (m_tool == ToolId::Look) {
        finishLook();
        return;
    }
    const Result<FaceMark> made = mark();
    m_points.clear();
    if (!made) {
        host().refuse(words(made.error().message));
        host().repaint();
        return;
    }
    Board changed = host().board();
    Defect defect;
    defect.id = host().freeId();
    defect.mark = host().freeMark();
    defect.kind = m_tool == ToolId::Bad ? DefectKind::Other : host().kind();
    if (m_tool == ToolId::Stroke && defect.kind != DefectKind::Wane &&
        defect.kind != DefectKind::Split && defect.kind != DefectKind::Shake &&
        defect.kind != DefectKind::Pith) {
        defect.kind = DefectKind::Check; // what a line in wood is
    }
    (m_face == BoardFace::A ? defect.onA : defect.onB) = made.value();
    if (m_tool == ToolId::Bad) { // bad wood is bad all through
        defect.onA = defect.onB = made.value();
        defect.through = true;
        defect.note = "bad wood";
    }
    const QString step =
        tr("Mark %1 %2").arg(words(stavewright::nameOf(defect.kind)), words(defect.mark));
    changed.defects.push_back(defect);
    host().commit(step, changed, defect.id);
}

void DrawTool::finishLook() {
    const Rect box = boundingBox(host().board().outline);
    const Length step = host().tapeStep();
    const Stretch seen{std::clamp(onStep({stretch().from, {}}, step).x, box.x0, box.x1),
                       std::clamp(onStep({stretch().to, {}}, step).x, box.x0, box.x1)};
    m_points.clear();
    if (seen.from >= seen.to) {
        host().repaint();
        return;
    }
    host().commit(tr("Looked at face %1").arg(m_face == BoardFace::A ? "A" : "B"),
                  withLook(host().board(), {m_face, seen, {}}), std::nullopt);
}

void DrawTool::paint(QPainter& painter, BoardFace face, const Colours& colours) const {
    if (!m_drawing || face != m_face || m_points.empty()) {
        return;
    }
    painter.setPen(QPen(colours.accent, 2));
    painter.setBrush(Qt::NoBrush);
    const QTransform map = host().toPixels(face);
    if (m_tool == ToolId::Look || m_tool == ToolId::Bad) {
        if (const Result<FaceMark> made = stretchMark(host().board().outline, stretch())) {
            QColor fill = m_tool == ToolId::Bad ? colours.wrong : colours.good;
            fill.setAlpha(70);
            painter.setBrush(fill);
            painter.drawPolygon(map.map(inMillimetres(made.value().outline)));
        }
        return;
    }
    if (byTwoPoints() || m_tool == ToolId::Stroke) {
        if (const Result<FaceMark> made = mark()) {
            painter.drawPolygon(map.map(inMillimetres(made.value().outline)));
        }
        return;
    }
    Polygon line = m_points;
    line.push_back(m_last);
    painter.drawPolyline(map.map(inMillimetres(line)));
    if (m_tool == ToolId::Corners) {
        for (const Point& corner : m_points) {
            const QPointF at = map.map(inMillimetres({corner}).front());
            painter.fillRect(QRectF(at.x() - 3, at.y() - 3, 6, 6), colours.accent);
        }
    }
}

QString DrawTool::hint() const {
    const QString kind = words(stavewright::nameOf(host().kind()));
    switch (m_tool) {
    case ToolId::Ellipse:
        return tr("Drag from corner to corner: %1. A letter changes the kind.").arg(kind);
    case ToolId::Corners:
        return m_drawing ? tr("Next corner; Enter closes, Backspace takes one back.")
                         : tr("Click the first corner: %1. A letter changes the kind.").arg(kind);
    case ToolId::Freehand:
        return tr("Draw round it: %1. A letter changes the kind.").arg(kind);
    case ToolId::Stroke:
        return host().kind() == DefectKind::Wane
                   ? tr("Draw along the inner line of the wane.")
                   : tr("Draw along the check. W draws wane, T a split, K a shake, P pith.");
    case ToolId::Bad:
        return tr("Drag along the board from where it is bad to where it is good again.");
    default:
        return tr("Drag along the stretch that you have looked at.");
    }
}

} // namespace stavewright::ui
