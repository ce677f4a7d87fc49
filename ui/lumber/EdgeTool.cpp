#include "ui/lumber/EdgeTool.h"

#include <QCoreApplication>
#include <QKeyEvent>
#include <QLineF>
#include <QPainter>

#include <algorithm>

#include "core/geometry/PolygonOps.h"
#include "core/lumber/BoardShape.h"
#include "ui/layout/BoardPicture.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("EdgeTool", text); }

constexpr double nearPixels = 9;

QPointF pixel(const QTransform& map, const Point& point) {
    return map.map(inMillimetres({point}).front());
}

} // namespace

std::optional<std::size_t> EdgeTool::cornerAt(const SheetPoint& point) const {
    const QTransform map = host().toPixels(point.face);
    const Polygon& outline = host().board().outline;
    const QPointF at = pixel(map, point.at);
    std::optional<std::size_t> nearest;
    double least = nearPixels;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const double off = QLineF(at, pixel(map, outline[i])).length();
        if (off <= least) {
            nearest = i;
            least = off;
        }
    }
    return nearest;
}

std::optional<std::size_t> EdgeTool::edgeAt(const SheetPoint& point) const {
    const QTransform map = host().toPixels(point.face);
    const Polygon& outline = host().board().outline;
    const QPointF at = pixel(map, point.at);
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const Point& from = outline[i];
        const Point& to = outline[(i + 1) % outline.size()];
        const QLineF edge(pixel(map, from), pixel(map, to));
        if (from.x == to.x || edge.length() < 1) {
            continue; // an end of the board has no corners between
        }
        const QPointF along = edge.p2() - edge.p1();
        const double share =
            QPointF::dotProduct(at - edge.p1(), along) / QPointF::dotProduct(along, along);
        if (share > 0 && share < 1 && QLineF(at, edge.pointAt(share)).length() <= nearPixels) {
            return i;
        }
    }
    return std::nullopt;
}

/// A corner at an end stays at it; one between stays between its neighbours.
void EdgeTool::place(Polygon& outline, std::size_t corner, Point at) const {
    const Rect box = boundingBox(outline);
    const Length step = host().tapeStep();
    at = onStep(at, step);
    const Length before = outline[corner].x;
    if (before == box.x0 || before == box.x1) {
        at.x = before;
    } else {
        const Length one = outline[(corner + outline.size() - 1) % outline.size()].x;
        const Length other = outline[(corner + 1) % outline.size()].x;
        const Length low = std::min(one, other) + step;
        const Length high = std::max(one, other) - step;
        at.x = low <= high ? std::clamp(at.x, low, high) : before;
    }
    outline[corner] = at;
}

void EdgeTool::press(const SheetPoint& point) {
    m_outline = host().board().outline;
    m_moved = false;
    if (const auto corner = cornerAt(point)) {
        m_corner = *corner;
        m_dragging = m_picked = true;
    } else if (const auto edge = edgeAt(point)) {
        m_corner = *edge + 1;
        m_outline.insert(m_outline.begin() + static_cast<std::ptrdiff_t>(m_corner), point.at);
        m_dragging = m_picked = true;
        place(m_outline, m_corner, point.at);
    } else {
        m_dragging = m_picked = false;
    }
    host().repaint();
}

void EdgeTool::move(const SheetPoint& point) {
    if (m_dragging) {
        place(m_outline, m_corner, point.at);
        m_moved = true;
        host().repaint();
    }
}

void EdgeTool::release(const SheetPoint& point) {
    if (!m_dragging) {
        return;
    }
    if (m_moved) {
        place(m_outline, m_corner, point.at);
    }
    m_dragging = false;
    if (m_moved || m_outline.size() != host().board().outline.size()) {
        take(m_outline, tr("Draw the outline"));
    }
}

void EdgeTool::take(const Polygon& outline, const QString& step) {
    host().commit(step, withOutline(host().board(), outline), std::nullopt);
    m_picked = m_picked && m_corner < host().board().outline.size();
    host().repaint();
}

bool EdgeTool::key(QKeyEvent* event) {
    const Polygon& now = host().board().outline;
    const int count = static_cast<int>(now.size());
    if (event->key() == Qt::Key_Tab || event->key() == Qt::Key_Backtab) {
        const int on = event->key() == Qt::Key_Tab ? 1 : count - 1;
        m_corner =
            m_picked ? static_cast<std::size_t>((static_cast<int>(m_corner) + on) % count) : 0;
        m_picked = true;
        host().repaint();
        return true;
    }
    if (!m_picked || m_corner >= now.size()) {
        return false;
    }
    if (event->key() == Qt::Key_Delete) {
        if (now.size() > 4) {
            Polygon outline = now;
            outline.erase(outline.begin() + static_cast<std::ptrdiff_t>(m_corner));
            m_picked = false;
            take(outline, tr("Take a corner off the outline"));
        } else {
            host().refuse(tr("An outline needs its four corners."));
        }
        return true;
    }
    const Length step =
        host().tapeStep() * (event->modifiers().testFlag(Qt::ShiftModifier) ? 16 : 1);
    Point at = now[m_corner];
    switch (event->key()) {
    case Qt::Key_Left:
        at.x -= step;
        break;
    case Qt::Key_Right:
        at.x += step;
        break;
    case Qt::Key_Up:
        at.y += step;
        break;
    case Qt::Key_Down:
        at.y -= step;
        break;
    default:
        return false;
    }
    Polygon outline = now;
    place(outline, m_corner, at);
    take(outline, tr("Draw the outline"));
    return true;
}

bool EdgeTool::cancel() {
    const bool begun = m_dragging || m_picked;
    m_dragging = m_picked = false;
    host().repaint();
    return begun;
}

void EdgeTool::paint(QPainter& painter, BoardFace face, const Colours& colours) const {
    const QTransform map = host().toPixels(face);
    const Polygon& outline = m_dragging ? m_outline : host().board().outline;
    if (m_dragging) {
        painter.setPen(QPen(colours.accent, 2));
        painter.setBrush(Qt::NoBrush);
        painter.drawPolygon(map.map(inMillimetres(outline)));
    }
    painter.setPen(QPen(colours.accent, 1.5));
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const QPointF at = pixel(map, outline[i]);
        const bool picked = m_picked && i == m_corner;
        painter.setBrush(picked ? colours.accent : colours.panel);
        painter.drawRect(QRectF(at.x() - 4, at.y() - 4, 8, 8));
    }
}

QString EdgeTool::hint() const {
    return tr("Drag a corner, or an edge to give it one. Tab picks, arrows move, Del takes away.");
}

} // namespace stavewright::ui
