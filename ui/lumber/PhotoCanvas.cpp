#include "ui/lumber/PhotoCanvas.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

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
constexpr double grip = 9; // px

QString cornerName(Corner corner) {
    switch (corner) {
    case Corner::DatumNear:
        return PhotoCanvas::tr("Datum end, near edge");
    case Corner::DatumFar:
        return PhotoCanvas::tr("Datum end, far edge");
    case Corner::EndNear:
        return PhotoCanvas::tr("Far end, near edge");
    case Corner::EndFar:
        return PhotoCanvas::tr("Far end, far edge");
    }
    return {};
}

} // namespace

std::vector<PhotoMark> marksOf(const PhotoControls& controls) {
    std::vector<PhotoMark> marks;
    for (std::size_t i = 0; i < controls.corners.size(); ++i) {
        marks.push_back({Of::Corner, i});
    }
    for (std::size_t i = 0; i < controls.tape.size(); ++i) {
        marks.push_back({Of::Tape, i});
    }
    for (std::size_t i = 0; i < controls.edges.size(); ++i) {
        marks.push_back({Of::Edge, i});
    }
    return marks;
}

PhotoPoint placeOf(const PhotoControls& controls, PhotoMark mark) {
    switch (mark.of) {
    case Of::Corner:
        return controls.corners[mark.index].at;
    case Of::Tape:
        return controls.tape[mark.index].at;
    case Of::Edge:
        break;
    }
    return controls.edges[mark.index].at;
}

void setPlaceOf(PhotoControls& controls, PhotoMark mark, PhotoPoint at) {
    switch (mark.of) {
    case Of::Corner:
        controls.corners[mark.index].at = at;
        return;
    case Of::Tape:
        controls.tape[mark.index].at = at;
        return;
    case Of::Edge:
        controls.edges[mark.index].at = at;
        return;
    }
}

QString nameOf(const PhotoControls& controls, PhotoMark mark) {
    switch (mark.of) {
    case Of::Corner:
        return cornerName(controls.corners[mark.index].corner);
    case Of::Tape:
        return PhotoCanvas::tr("Tape");
    case Of::Edge:
        break;
    }
    return controls.edges[mark.index].edge == LongEdge::Near ? PhotoCanvas::tr("Near edge")
                                                             : PhotoCanvas::tr("Far edge");
}

PhotoCanvas::PhotoCanvas(QWidget* parent)
    : QWidget(parent) {
    setObjectName("photoCanvas");
    setAccessibleName(tr("The photograph with its marks"));
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
    setMinimumSize(260, 160);
}

void PhotoCanvas::setPicture(const QImage& picture, const QString& words) {
    m_words = words;
    m_levels.clear();
    constexpr int smallest = 600; // px
    if (!picture.isNull()) {
        m_levels.push_back(picture);
        while (m_levels.back().width() > smallest) {
            const QImage& last = m_levels.back();
            m_levels.push_back(last.scaled(std::max(1, last.width() / 2),
                                           std::max(1, last.height() / 2), Qt::IgnoreAspectRatio,
                                           Qt::SmoothTransformation));
        }
    }
    fit();
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
    const auto at = static_cast<std::ptrdiff_t>(m_picked->index);
    switch (m_picked->of) {
    case Of::Corner:
        next.corners.erase(next.corners.begin() + at);
        break;
    case Of::Tape:
        next.tape.erase(next.tape.begin() + at);
        break;
    case Of::Edge:
        next.edges.erase(next.edges.begin() + at);
        break;
    }
    m_picked.reset();
    emit pickedChanged();
    emit changed(tr("Remove a mark from a photograph"), next, false);
}

// ---- pointer and keys --------------------------------------------------------------------------

void PhotoCanvas::mousePressEvent(QMouseEvent* event) {
    setFocus(Qt::MouseFocusReason);
    m_pressed = event->position();
    m_offsetAtPress = m_offset;
    m_moved = false;
    if (event->button() != Qt::LeftButton || m_levels.empty()) {
        return;
    }
    if (m_tool != Tool::Pick) {
        putDown(m_tool, toPhoto(event->position()));
        return;
    }
    const std::optional<PhotoMark> mark = markAt(event->position());
    setPicked(mark);
    if (mark) {
        m_beforeDrag = m_controls;
    }
}

void PhotoCanvas::mouseMoveEvent(QMouseEvent* event) {
    m_pointer = event->position();
    if (event->buttons() == Qt::NoButton) {
        return;
    }
    const QPointF moved = event->position() - m_pressed;
    if (!m_moved && moved.manhattanLength() < 3) {
        return;
    }
    m_moved = true;
    if (m_beforeDrag && m_picked) { // follows the hand; becomes a step when it is let go
        const photo::Pixels from = placeOf(*m_beforeDrag, *m_picked).pixels();
        setPlaceOf(m_controls, *m_picked, inside(QPointF(from.x, from.y) + moved / scale()));
        const Result<photo::Straightening> fitted = photo::straighten(m_controls, m_board);
        m_fit = fitted ? std::optional(fitted.value()) : std::nullopt;
        update();
    } else if (m_tool == Tool::Pick || event->buttons() != Qt::LeftButton) {
        m_offset = m_offsetAtPress + moved;
        keepInSight();
    }
}

void PhotoCanvas::mouseReleaseEvent(QMouseEvent* /*event*/) {
    if (m_beforeDrag && m_moved) {
        const PhotoControls next = m_controls;
        m_controls = *m_beforeDrag;
        m_beforeDrag.reset();
        emit changed(tr("Move a mark in a photograph"), next, false);
    }
    m_beforeDrag.reset();
    m_moved = false;
}

bool PhotoCanvas::event(QEvent* event) {
    if (event->type() == QEvent::KeyPress) { // Tab goes from mark to mark, F6 to the next pane
        auto* key = static_cast<QKeyEvent*>(event);
        const bool tab = key->key() == Qt::Key_Tab || key->key() == Qt::Key_Backtab;
        if (tab && !marksOf(m_controls).empty()) {
            pickNext(key->key() == Qt::Key_Tab ? 1 : -1);
            return true;
        }
    }
    if (event->type() == QEvent::ShortcutOverride) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if (key->key() == Qt::Key_Delete && key->modifiers() == Qt::NoModifier && m_picked) {
            event->accept();
            return true;
        }
    }
    return QWidget::event(event);
}

void PhotoCanvas::keyPressEvent(QKeyEvent* event) {
    double step = 1;
    if (event->modifiers().testFlag(Qt::ShiftModifier)) {
        step = 10;
    } else if (event->modifiers().testFlag(Qt::ControlModifier)) {
        step = 0.25;
    }
    const bool plain = (event->modifiers() & ~(Qt::ShiftModifier | Qt::KeypadModifier)) == 0;
    switch (event->key()) {
    case Qt::Key_Left:
    case Qt::Key_Right:
    case Qt::Key_Up:
    case Qt::Key_Down: {
        const double x =
            event->key() == Qt::Key_Left ? -1 : (event->key() == Qt::Key_Right ? 1 : 0);
        const double y = event->key() == Qt::Key_Up ? -1 : (event->key() == Qt::Key_Down ? 1 : 0);
        if (m_picked) {
            nudge(QPointF(x, y) * step);
        } else {
            m_offset -= QPointF(x, y) * 40;
            keepInSight();
        }
        return;
    }
    case Qt::Key_Plus:
    case Qt::Key_Equal:
    case Qt::Key_Minus:
        zoom(event->key() == Qt::Key_Minus ? 0.8 : 1.25,
             m_picked ? pixelOf(placeOf(m_controls, *m_picked))
                      : QPointF(width() / 2.0, height() / 2.0));
        showPicked();
        return;
    case Qt::Key_Home:
        fit();
        return;
    case Qt::Key_Delete:
        removePicked();
        return;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (m_picked && m_picked->of == Of::Tape) {
            emit readingWanted();
        }
        return;
    case Qt::Key_Escape:
        if (m_beforeDrag) {
            m_controls = *m_beforeDrag;
            m_beforeDrag.reset();
            update();
        } else if (m_tool != Tool::Pick) {
            setTool(Tool::Pick);
        } else if (m_picked) {
            setPicked(std::nullopt);
        } else {
            emit leaveWanted();
        }
        return;
    default:
        break;
    }
    if (!plain || m_levels.empty()) {
        QWidget::keyPressEvent(event);
        return;
    }
    switch (event->key()) { // numbered as one walks round the board from the datum
    case Qt::Key_1:
        pickCorner(Corner::DatumNear);
        return;
    case Qt::Key_2:
        pickCorner(Corner::EndNear);
        return;
    case Qt::Key_3:
        pickCorner(Corner::EndFar);
        return;
    case Qt::Key_4:
        pickCorner(Corner::DatumFar);
        return;
    case Qt::Key_T:
        putDown(Tool::Tape, pointed());
        return;
    case Qt::Key_N:
        putDown(Tool::NearEdge, pointed());
        return;
    case Qt::Key_F:
        putDown(Tool::FarEdge, pointed());
        return;
    default:
        QWidget::keyPressEvent(event);
    }
}

// ---- painting ----------------------------------------------------------------------------------

void PhotoCanvas::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    const Colours& colours = coloursOf(palette());
    painter.fillRect(rect(), colours.ground);
    if (m_levels.empty()) {
        painter.setPen(colours.quietInk);
        painter.drawText(QRectF(rect()).adjusted(24, 0, -24, 0),
                         static_cast<int>(Qt::AlignCenter) | Qt::TextWordWrap, m_words);
        return;
    }
    paintPicture(painter);
    painter.setRenderHint(QPainter::Antialiasing);
    paintBoard(painter, colours);
    paintMarks(painter, colours);
    paintLoupe(painter, colours);
}

void PhotoCanvas::paintPicture(QPainter& painter) const {
    const QImage* level = &m_levels.front();
    for (const QImage& smaller : m_levels) { // the smallest that is fine enough
        if (smaller.width() >= m_controls.width * scale()) {
            level = &smaller;
        }
    }
    const QRectF shown = QRectF(toPhoto({0, 0}), toPhoto(QPointF(width(), height())))
                             .intersected(QRectF(0, 0, m_controls.width, m_controls.height));
    const double toLevel = static_cast<double>(level->width()) / m_controls.width;
    painter.setRenderHint(QPainter::SmoothPixmapTransform, scale() < 4);
    painter.drawImage(QRectF(toScreen(shown.topLeft()), toScreen(shown.bottomRight())), *level,
                      QRectF(shown.topLeft() * toLevel, shown.bottomRight() * toLevel));
}

/// The measured board as the marks put it into the photograph, with every foot or 25 cm.
void PhotoCanvas::paintBoard(QPainter& painter, const Colours& colours) const {
    if (!m_fit) {
        return;
    }
    QPolygonF ring;
    const auto add = [&](Length x, Length y) {
        if (const auto at = m_fit->map.toPhoto({x, y})) {
            ring << toScreen({at->x, at->y});
        }
    };
    constexpr int steps = 24; // the bend of the lens shows
    for (int i = 0; i <= steps; ++i) {
        add((m_board.length * i) / steps, Length());
    }
    for (int i = steps; i >= 0; --i) {
        const Length x = (m_board.length * i) / steps;
        add(x, photo::widthAt(m_board, x));
    }
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(QColor(0, 0, 0, 150), 3));
    painter.drawPolygon(ring);
    painter.setPen(QPen(QColor(255, 255, 255, 230), 1.2, Qt::DashLine));
    painter.drawPolygon(ring);
    (void)colours;
}

void PhotoCanvas::paintMarks(QPainter& painter, const Colours& colours) const {
    painter.setFont(sized(font(), TextSize::Caption, QFont::DemiBold));
    for (const PhotoMark mark : marksOf(m_controls)) {
        const QPointF at = pixelOf(placeOf(m_controls, mark));
        const bool isPicked = m_picked == mark;
        QString letter;
        switch (mark.of) {
        case Of::Corner:
            switch (m_controls.corners[mark.index].corner) {
            case Corner::DatumNear:
                letter = "1";
                break;
            case Corner::EndNear:
                letter = "2";
                break;
            case Corner::EndFar:
                letter = "3";
                break;
            case Corner::DatumFar:
                letter = "4";
                break;
            }
            break;
        case Of::Tape:
            letter = "T";
            break;
        case Of::Edge:
            letter = m_controls.edges[mark.index].edge == LongEdge::Near ? "N" : "F";
            break;
        }
        painter.setBrush(Qt::NoBrush);
        for (const bool halo : {true, false}) {
            const QColor ink = isPicked ? colours.accent : QColor(Qt::white);
            painter.setPen(
                QPen(halo ? QColor(0, 0, 0, 200) : ink, halo ? 4 : (isPicked ? 2.2 : 1.6)));
            painter.drawEllipse(at, grip - 2, grip - 2);
            painter.drawLine(at - QPointF(grip + 4, 0), at - QPointF(3, 0));
            painter.drawLine(at + QPointF(3, 0), at + QPointF(grip + 4, 0));
            painter.drawLine(at - QPointF(0, grip + 4), at - QPointF(0, 3));
            painter.drawLine(at + QPointF(0, 3), at + QPointF(0, grip + 4));
        }
        const QRectF label(at + QPointF(grip + 2, -grip - 14), QSizeF(16, 16));
        painter.setPen(Qt::NoPen);
        painter.setBrush(isPicked ? colours.accent : QColor(20, 20, 20, 210));
        painter.drawRoundedRect(label, 3, 3);
        painter.setPen(isPicked ? colours.panel : QColor(Qt::white));
        painter.drawText(label, Qt::AlignCenter, letter);
    }
}

/// What is round the picked mark, large, in the corner farthest from it.
void PhotoCanvas::paintLoupe(QPainter& painter, const Colours& colours) const {
    if (!m_picked) {
        return;
    }
    constexpr double side = 150;
    constexpr double enlarged = 6;
    const double large = std::max(enlarged, scale());
    const photo::Pixels at = placeOf(m_controls, *m_picked).pixels();
    const QPointF screen = toScreen({at.x, at.y});
    const QRectF frame(screen.x() < width() / 2.0 ? width() - side - 10 : 10,
                       screen.y() < height() / 2.0 ? height() - side - 10 : 10, side, side);
    const double reach = side / large / 2;
    painter.save();
    painter.setClipRect(frame);
    painter.fillRect(frame, colours.ground);
    painter.setRenderHint(QPainter::SmoothPixmapTransform, false);
    const QRectF source(at.x - reach, at.y - reach, 2 * reach, 2 * reach);
    const QRectF there = source.intersected(QRectF(m_levels.front().rect()));
    painter.drawImage(QRectF(frame.topLeft() + (there.topLeft() - source.topLeft()) * large,
                             there.size() * large),
                      m_levels.front(), there);
    for (const bool halo : {true, false}) {
        painter.setPen(QPen(halo ? QColor(0, 0, 0, 160) : QColor(Qt::white), halo ? 3 : 1));
        painter.drawLine(QPointF(frame.center().x(), frame.top()),
                         QPointF(frame.center().x(), frame.bottom()));
        painter.drawLine(QPointF(frame.left(), frame.center().y()),
                         QPointF(frame.right(), frame.center().y()));
    }
    painter.setClipping(false);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(colours.accent, 2));
    painter.drawRect(frame);
    painter.restore();
}

} // namespace stavewright::ui
