#include "ui/lumber/PickTool.h"

#include <QCoreApplication>
#include <QKeyEvent>
#include <QPainter>

#include <algorithm>

#include "core/geometry/PolygonOps.h"
#include "core/lumber/MarkPlace.h"
#include "core/lumber/Marking.h"
#include "ui/layout/BoardPicture.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("PickTool", text); }

constexpr double gripPixels = 6;
constexpr double movesFrom = 4; // px; a click is no move

QRectF pixelBox(const QTransform& map, const Rect& box) {
    return map.mapRect(inMillimetres(polygonOf(box)).boundingRect());
}

} // namespace

const FaceMark* PickTool::shownMark(BoardFace face) const {
    const auto selected = host().selected();
    const Defect* defect = selected ? findDefect(host().board(), *selected) : nullptr;
    if (defect == nullptr) {
        return nullptr;
    }
    const std::optional<FaceMark>& mark = face == BoardFace::A ? defect->onA : defect->onB;
    return mark ? &*mark : nullptr;
}

std::optional<PickTool::Grip> PickTool::gripAt(const SheetPoint& point) const {
    const FaceMark* mark = shownMark(point.face);
    if (mark == nullptr) {
        return std::nullopt;
    }
    const QTransform map = host().toPixels(point.face);
    const QRectF box = pixelBox(map, boxOf(*mark));
    const QPointF at = map.map(inMillimetres({point.at}).front());
    // Small marks are moved; zoomed in, they are large enough to be taken by a corner.
    if (box.width() < 4 * gripPixels || box.height() < 3 * gripPixels ||
        !box.adjusted(-gripPixels, -gripPixels, gripPixels, gripPixels).contains(at)) {
        return std::nullopt;
    }
    Grip grip;
    grip.along =
        at.x() < box.left() + gripPixels ? -1 : (at.x() > box.right() - gripPixels ? 1 : 0);
    const int down =
        at.y() < box.top() + gripPixels ? -1 : (at.y() > box.bottom() - gripPixels ? 1 : 0);
    grip.across = map.m22() < 0 ? -down : down; // on face A the far edge is above
    return grip.along != 0 || grip.across != 0 ? std::optional(grip) : std::nullopt;
}

bool PickTool::wants(const SheetPoint& point) const {
    return gripAt(point).has_value() || host().markAt(point).has_value();
}

void PickTool::press(const SheetPoint& point) {
    m_grip = gripAt(point);
    if (!m_grip) {
        host().select(host().markAt(point));
    }
    m_pressed = true;
    m_moving = false;
    m_face = point.face;
    m_from = m_to = point.at;
}

void PickTool::move(const SheetPoint& point) {
    if (!m_pressed) {
        return;
    }
    m_to = point.at;
    const QTransform map = host().toPixels(m_face);
    const QPointF off =
        map.map(inMillimetres({m_to}).front()) - map.map(inMillimetres({m_from}).front());
    m_moving = m_moving || off.manhattanLength() >= movesFrom;
    host().repaint();
}

Rect PickTool::changedBox() const {
    const FaceMark* mark = shownMark(m_face);
    if (mark == nullptr) {
        return {};
    }
    Rect box = boxOf(*mark);
    const Length step = host().tapeStep();
    const Point by = onStep({m_to.x - m_from.x, m_to.y - m_from.y}, step);
    if (!m_grip) {
        return {box.x0 + by.x, box.y0 + by.y, box.x1 + by.x, box.y1 + by.y};
    }
    if (m_grip->along < 0) {
        box.x0 = std::min(box.x0 + by.x, box.x1 - step);
    } else if (m_grip->along > 0) {
        box.x1 = std::max(box.x1 + by.x, box.x0 + step);
    }
    if (m_grip->across < 0) {
        box.y0 = std::min(box.y0 + by.y, box.y1 - step);
    } else if (m_grip->across > 0) {
        box.y1 = std::max(box.y1 + by.y, box.y0 + step);
    }
    return box;
}

void PickTool::release(const SheetPoint& point) {
    m_to = point.at;
    const FaceMark* mark = shownMark(m_face);
    if (m_pressed && m_moving && mark != nullptr) {
        const FaceMark changed = stretchedTo(*mark, changedBox());
        const bool stretches = m_grip.has_value();
        cancel();
        put(stretches ? tr("Stretch") : tr("Move"), m_face, changed);
        return;
    }
    cancel();
}

void PickTool::put(const QString& step, BoardFace face, const FaceMark& mark) {
    Board changed = host().board();
    Defect* defect = findDefect(changed, *host().selected());
    if (defect == nullptr) {
        return;
    }
    (face == BoardFace::A ? defect->onA : defect->onB) = mark;
    host().commit(tr("%1 defect %2").arg(step, words(defect->mark)), changed, defect->id);
}

bool PickTool::cancel() {
    const bool begun = m_pressed && m_moving;
    m_pressed = m_moving = false;
    m_grip.reset();
    host().repaint();
    return begun;
}

/// By their places along the board, so that the eye follows.
void PickTool::pickNext(int by) {
    std::vector<const Defect*> order;
    for (const Defect& defect : host().board().defects) {
        order.push_back(&defect);
    }
    if (order.empty()) {
        return;
    }
    const auto place = [](const Defect* defect) {
        return boxOf(defect->onA ? *defect->onA : *defect->onB).x0;
    };
    std::stable_sort(order.begin(), order.end(),
                     [&](const Defect* a, const Defect* b) { return place(a) < place(b); });
    const auto selected = host().selected();
    const auto now = std::find_if(order.begin(), order.end(), [&](const Defect* defect) {
        return selected && defect->id == *selected;
    });
    const int count = static_cast<int>(order.size());
    const int at = now == order.end()
                       ? (by > 0 ? 0 : count - 1)
                       : (static_cast<int>(now - order.begin()) + by + count) % count;
    host().select(order[static_cast<std::size_t>(at)]->id);
}

bool PickTool::key(QKeyEvent* event) {
    if (event->key() == Qt::Key_Tab || event->key() == Qt::Key_Backtab) {
        pickNext(event->key() == Qt::Key_Tab ? 1 : -1);
        return !host().board().defects.empty();
    }
    BoardFace face = host().face();
    if (shownMark(face) == nullptr) {
        face = other(face);
    }
    const FaceMark* mark = shownMark(face);
    if (mark == nullptr) {
        return false;
    }
    constexpr int far = 16;
    const Length step =
        host().tapeStep() * (event->modifiers().testFlag(Qt::ShiftModifier) ? far : 1);
    const Length up = step; // on the screen face B stands on its head, its edges do not
    Point by;
    switch (event->key()) {
    case Qt::Key_Left:
        by.x = -step;
        break;
    case Qt::Key_Right:
        by.x = step;
        break;
    case Qt::Key_Up:
        by.y = face == BoardFace::A ? up : -up;
        break;
    case Qt::Key_Down:
        by.y = face == BoardFace::A ? -up : up;
        break;
    default:
        return false;
    }
    Rect box = boxOf(*mark);
    if (event->modifiers().testFlag(Qt::ControlModifier)) { // longer, wider, shorter, narrower
        const bool wider = event->key() == Qt::Key_Up;
        const Length across = event->key() == Qt::Key_Up || event->key() == Qt::Key_Down
                                  ? (wider ? step : -step)
                                  : Length();
        box.x1 = std::max(box.x1 + by.x, box.x0 + host().tapeStep());
        box.y1 = std::max(box.y1 + across, box.y0 + host().tapeStep());
        put(tr("Stretch"), face, stretchedTo(*mark, box));
    } else {
        put(tr("Move"), face, shifted(*mark, by.x, by.y));
    }
    return true;
}

void PickTool::paint(QPainter& painter, BoardFace face, const Colours& colours) const {
    const FaceMark* mark = shownMark(face);
    if (mark == nullptr) {
        return;
    }
    const QTransform map = host().toPixels(face);
    if (m_moving && face == m_face) {
        painter.setPen(QPen(colours.accent, 2));
        painter.setBrush(Qt::NoBrush);
        painter.drawPolygon(map.map(inMillimetres(stretchedTo(*mark, changedBox()).outline)));
        return;
    }
    const QRectF box = pixelBox(map, boxOf(*mark));
    if (box.width() < 4 * gripPixels || box.height() < 3 * gripPixels) {
        return;
    }
    painter.setPen(QPen(colours.accent, 1.5));
    painter.setBrush(colours.panel);
    for (const double x : {box.left(), box.center().x(), box.right()}) {
        for (const double y : {box.top(), box.center().y(), box.bottom()}) {
            if (QPointF(x, y) != box.center()) {
                painter.drawRect(QRectF(x - 3, y - 3, 6, 6));
            }
        }
    }
}

QString PickTool::hint() const {
    return host().selected() ? tr("Arrows move it, Ctrl+arrows stretch it, a letter says what it "
                                  "is, Del removes it.")
                             : tr("A letter begins a mark: S sound knot, L loose, O hole, C "
                                  "check... Tab picks one.");
}

} // namespace stavewright::ui
