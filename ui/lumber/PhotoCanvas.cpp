#include "ui/lumber/PhotoCanvas.h"

#include <QWheelEvent>

#include <algorithm>
#include <cmath>

namespace stavewright::ui {

using photo::Corner;
using photo::LongEdge;
using photo::PhotoControls;
using photo::PhotoPoint;
using Of = photo::MarkResidual::Of;

namespace {

constexpr double mostZoom = 64;

} // namespace

PhotoCanvas::PhotoCanvas(QWidget* parent)
    : QWidget(parent) {
    setObjectName("photoCanvas");
    setAccessibleName(tr("The photograph with its marks"));
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
    setMinimumSize(260, 160);
}

void PhotoCanvas::setPicture(std::vector<QImage> levels, const QString& words) {
    m_words = words;
    m_levels = std::move(levels);
    fit();
}

void PhotoCanvas::setSpots(int next, std::vector<SpotHint> hints) {
    m_nextSpot = next;
    m_hints = std::move(hints);
    update();
}

void PhotoCanvas::setMarks(const PhotoControls& controls, const photo::BoardSize& board,
                           const std::optional<photo::Straightening>& fitted) {
    m_controls = controls;
    m_board = board;
    m_fit = fitted;
    m_beforeDrag.reset();
    const std::vector<PhotoMark> marks = marksOf(controls);
    if (m_picked && std::find(marks.begin(), marks.end(), *m_picked) == marks.end()) {
        m_picked.reset();
        emit pickedChanged();
    }
    update();
}

void PhotoCanvas::setPicked(std::optional<PhotoMark> mark) {
    if (mark == m_picked) {
        return;
    }
    m_picked = mark;
    showPicked();
    update();
    emit pickedChanged();
}

void PhotoCanvas::setTool(Tool tool) {
    m_tool = tool;
    setCursor(tool == Tool::Pick ? Qt::ArrowCursor : Qt::CrossCursor);
    update();
    emit toolChanged();
}

// ---- view --------------------------------------------------------------------------------------

double PhotoCanvas::scale() const {
    if (m_controls.width <= 0 || m_controls.height <= 0) {
        return 1;
    }
    return m_zoom *
           std::min((width() - 16.0) / m_controls.width, (height() - 16.0) / m_controls.height);
}

QPointF PhotoCanvas::toScreen(QPointF at) const {
    const QPointF middle(m_controls.width / 2.0, m_controls.height / 2.0);
    return QPointF(width() / 2.0, height() / 2.0) + m_offset + (at - middle) * scale();
}

QPointF PhotoCanvas::toPhoto(QPointF screen) const {
    const QPointF middle(m_controls.width / 2.0, m_controls.height / 2.0);
    return middle + (screen - m_offset - QPointF(width() / 2.0, height() / 2.0)) / scale();
}

QPointF PhotoCanvas::pixelOf(PhotoPoint at) const {
    return toScreen({at.pixels().x, at.pixels().y});
}

PhotoPoint PhotoCanvas::inside(QPointF at) const {
    return PhotoPoint::at({std::clamp(at.x(), 0.0, static_cast<double>(m_controls.width)),
                           std::clamp(at.y(), 0.0, static_cast<double>(m_controls.height))});
}

void PhotoCanvas::fit() {
    m_zoom = 1;
    m_offset = {};
    update();
}

void PhotoCanvas::zoom(double factor, QPointF about) {
    const double before = scale();
    m_zoom = std::clamp(m_zoom * factor, 1.0, mostZoom);
    const double ratio = scale() / before;
    const QPointF middle(width() / 2.0, height() / 2.0);
    m_offset = about - middle - (about - middle - m_offset) * ratio;
    keepInSight();
}

void PhotoCanvas::keepInSight() {
    const double roomX = std::max(0.0, (m_controls.width * scale() - width()) / 2 + 16);
    const double roomY = std::max(0.0, (m_controls.height * scale() - height()) / 2 + 16);
    m_offset.setX(std::clamp(m_offset.x(), m_zoom > 1 ? -roomX : 0, m_zoom > 1 ? roomX : 0));
    m_offset.setY(std::clamp(m_offset.y(), m_zoom > 1 ? -roomY : 0, m_zoom > 1 ? roomY : 0));
    update();
}

void PhotoCanvas::showPicked() {
    if (!m_picked) {
        return;
    }
    const QPointF at = pixelOf(placeOf(m_controls, *m_picked));
    if (!QRectF(rect()).adjusted(20, 20, -20, -20).contains(at)) {
        m_offset += QPointF(width() / 2.0, height() / 2.0) - at;
        keepInSight();
    }
}

void PhotoCanvas::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    keepInSight();
    showPicked();
}

void PhotoCanvas::wheelEvent(QWheelEvent* event) {
    zoom(std::pow(1.0015, event->angleDelta().y()), event->position());
    event->accept();
}

QPointF PhotoCanvas::pointed() const {
    const QPointF middle(width() / 2.0, height() / 2.0);
    return toPhoto(m_pointer.value_or(middle));
}

// ---- marks -------------------------------------------------------------------------------------

std::optional<PhotoMark> PhotoCanvas::markAt(QPointF screen) const {
    std::optional<PhotoMark> nearest;
    double best = grip;
    for (const PhotoMark mark : marksOf(m_controls)) {
        const QPointF away = pixelOf(placeOf(m_controls, mark)) - screen;
        const double distance = std::hypot(away.x(), away.y());
        if (distance <= best) {
            best = distance;
            nearest = mark;
        }
    }
    return nearest;
}

/// The spot that another photograph puts nearest, or else a new one.
int PhotoCanvas::spotMeant(QPointF at) const {
    int meant = m_nextSpot;
    double best = 0.1 * std::hypot(m_controls.width, m_controls.height); // farther off is another
    for (const SpotHint& hint : m_hints) {
        const QPointF there(hint.at.pixels().x, hint.at.pixels().y);
        const double away = std::hypot(there.x() - at.x(), there.y() - at.y());
        if (away < best) {
            best = away;
            meant = hint.number;
        }
    }
    return meant;
}

void PhotoCanvas::putDown(Tool tool, QPointF at) {
    PhotoControls next = m_controls;
    PhotoMark mark;
    QString step;
    if (tool == Tool::Tape) {
        // What the other marks say of it is a good guess; the reading itself is typed.
        Length reading;
        if (m_fit) {
            if (const auto place = m_fit->map.toBoard(inside(at).pixels())) {
                const std::int64_t steps =
                    (place->x + m_readingStep / 2).inNanometres() / m_readingStep.inNanometres();
                reading = std::clamp(m_readingStep * steps, Length(), m_board.length);
            }
        }
        mark = {Of::Tape, next.tape.size()};
        next.tape.push_back({inside(at), reading});
        step = tr("Tape reading in a photograph");
    } else if (tool == Tool::Spot) {
        const int number = spotMeant(at);
        if (number == 0) {
            return;
        }
        mark = {Of::Spot, next.spots.size()};
        step = tr("Spot %1 in a photograph").arg(number);
        next.spots.push_back({number, inside(at)});
    } else {
        mark = {Of::Edge, next.edges.size()};
        next.edges.push_back({tool == Tool::NearEdge ? LongEdge::Near : LongEdge::Far, inside(at)});
        step = tr("Place on an edge in a photograph");
    }
    emit changed(step, next, false);
    const std::vector<PhotoMark> marks = marksOf(m_controls);
    if (std::find(marks.begin(), marks.end(), mark) != marks.end()) {
        setPicked(mark);
        if (tool == Tool::Tape) {
            emit readingWanted();
        }
    }
}

void PhotoCanvas::pickNext(int by) {
    const std::vector<PhotoMark> marks = marksOf(m_controls);
    if (marks.empty()) {
        return;
    }
    const auto count = static_cast<std::ptrdiff_t>(marks.size());
    std::ptrdiff_t now = by > 0 ? -1 : 0;
    if (m_picked) {
        now = std::find(marks.begin(), marks.end(), *m_picked) - marks.begin();
    }
    setPicked(marks[static_cast<std::size_t>((now + by + count) % count)]);
}

void PhotoCanvas::pickCorner(Corner corner) {
    for (std::size_t i = 0; i < m_controls.corners.size(); ++i) {
        if (m_controls.corners[i].corner == corner) {
            setPicked(PhotoMark{Of::Corner, i});
            return;
        }
    }
    PhotoControls next = m_controls;
    next.corners.push_back({corner, inside(pointed())});
    emit changed(tr("Corner in a photograph"), next, false);
    if (m_controls.corners.size() == next.corners.size()) {
        setPicked(PhotoMark{Of::Corner, next.corners.size() - 1});
    }
}

void PhotoCanvas::nudge(QPointF by) {
    if (!m_picked) {
        return;
    }
    PhotoControls next = m_controls;
    const photo::Pixels at = placeOf(next, *m_picked).pixels();
    setPlaceOf(next, *m_picked, inside(QPointF(at.x, at.y) + by));
    emit changed(tr("Move a mark in a photograph"), next, true);
    showPicked();
}

void PhotoCanvas::removePicked() {
    if (!m_picked) {
        return;
    }
    PhotoControls next = m_controls;
    remove(next, *m_picked);
    m_picked.reset();
    emit pickedChanged();
    emit changed(tr("Remove a mark from a photograph"), next, false);
}

} // namespace stavewright::ui
