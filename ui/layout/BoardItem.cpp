#include "ui/layout/BoardItem.h"

#include <QApplication>
#include <QPainter>
#include <QWidget>

#include <algorithm>

#include "ui/layout/BlankPainter.h"
#include "ui/layout/RackArrangement.h"
#include "ui/layout/RackScene.h"
#include "ui/session/DocumentSession.h"

namespace stavewright::ui {

namespace {

constexpr double headerLinePixels = 22;
constexpr double readingsPixels = 19;
constexpr double footPixels = 14;
constexpr double overPixels = 6;  // beyond a board in one row: ticks of cuts, and letters of marks
constexpr double wordsApart = 3;  // px between the lines above the wood and the wood
constexpr double strokeRoom = 16; // px that ticks, rims and letters reach over what they belong to

} // namespace

BoardItem::BoardItem(BoardPicture picture)
    : m_picture(std::move(picture)) {}

void BoardItem::setPicture(BoardPicture picture) {
    if (picture == m_picture) {
        return;
    }
    prepareGeometryChange();
    if (!(picture.board == m_picture.board)) {
        m_cache.clear();
    }
    const PictureChange change = changeOf(m_picture, picture);
    m_picture = std::move(picture);
    paintAnew(change);
}

void BoardItem::paintAnew(const PictureChange& change) {
    auto* rack = dynamic_cast<RackScene*>(scene());
    if (change.isWhole || rack == nullptr) {
        paintAnew();
        return;
    }
    update();
    if (change.words) {
        emit rack->looksChanged(mapRectToScene(wordsBox()));
    }
    // From edge to edge: the hatching runs on as if it had been painted at once.
    const double room = strokeRoom / m_scale;
    const double beyond = m_compact ? overPixels / m_scale : room;
    std::vector<Reach> reaches = change.onWood;
    for (Reach& each : reaches) {
        each = {each.from - room, each.to + room};
    }
    for (const Reach& each : together(std::move(reaches))) {
        const QRectF wood(QPointF(each.from, m_picture.lowest),
                          QPointF(each.to, m_picture.highest));
        emit rack->looksChanged(
            mapRectToScene(boardToItem().mapRect(wood).adjusted(0, -beyond, 0, beyond)));
    }
}

void BoardItem::paintAnew() {
    update();
    if (auto* rack = dynamic_cast<RackScene*>(scene())) {
        emit rack->looksChanged(sceneBoundingRect());
    }
}

void BoardItem::setFace(BoardFace face) {
    m_face = face;
    paintAnew();
}

void BoardItem::setSelection(const Selection& selection) {
    const bool isOnIt = selection.board == m_picture.board.id;
    const auto defect = isOnIt ? selection.defect : std::nullopt;
    const bool isSelected = isOnIt && !selection.blank;
    const bool holdsBlank =
        std::any_of(m_picture.blanks.begin(), m_picture.blanks.end(),
                    [&](const BlankPicture& blank) { return blank.id == selection.blank; });
    const auto blank = holdsBlank ? selection.blank : std::nullopt;
    if (blank == m_blank && defect == m_defect && isSelected == m_boardSelected) {
        return;
    }
    PictureChange change;
    change.isWhole = defect != m_defect || isSelected != m_boardSelected;
    for (const BlankPicture& each : m_picture.blanks) {
        if (each.id == blank || each.id == m_blank) {
            const QRectF box = each.outline.boundingRect();
            change.onWood.push_back({box.left(), box.right()});
        }
    }
    m_blank = blank;
    m_defect = defect;
    m_boardSelected = isSelected;
    paintAnew(change);
}

void BoardItem::setScaleAndReach(double pixelsPerMm, double reachMm) {
    prepareGeometryChange();
    m_scale = pixelsPerMm;
    m_reach = reachMm;
}

void BoardItem::setCompact(bool compact) {
    prepareGeometryChange();
    m_compact = compact;
}

double BoardItem::linesAbove() const {
    return headerLinePixels + (m_picture.readings.empty() ? 0 : readingsPixels);
}

double BoardItem::headerPixels() const { return m_compact ? 0 : linesAbove(); }

double BoardItem::heightInRow(double pixelsPerMm) const {
    return m_picture.highest - m_picture.lowest + (linesAbove() + footPixels) / pixelsPerMm;
}

double BoardItem::height() const {
    return m_compact ? m_picture.highest - m_picture.lowest : heightInRow(m_scale);
}

QTransform BoardItem::boardToItem() const {
    const double top = headerPixels() / m_scale;
    // Seen from face A the near edge hangs below; seen from face B the board is turned over its
    // long axis.
    return m_face == BoardFace::A ? QTransform(1, 0, 0, -1, 0, top + m_picture.highest)
                                  : QTransform(1, 0, 0, 1, 0, top - m_picture.lowest);
}

QRectF BoardItem::boardBox() const {
    return boardToItem().mapRect(m_picture.outline.boundingRect());
}

QRectF BoardItem::boundingRect() const {
    if (m_compact) {
        const double over = overPixels / m_scale;
        return {-markRoom / m_scale, -over, m_reach + markRoom / m_scale, height() + 2 * over};
    }
    return {-20 / m_scale, 0, m_reach + 40 / m_scale, height()};
}

QRectF BoardItem::wordsBox() const {
    QRectF box = boundingRect();
    if (m_compact) {
        box.setLeft(boardBox().right() + wordsApart / m_scale);
    } else {
        box.setBottom((headerPixels() - wordsApart) / m_scale);
    }
    return box;
}

RackHit BoardItem::hitAt(QPointF itemPoint) const {
    const QPointF at = boardToItem().inverted().map(itemPoint);
    RackHit hit;
    const bool onWood = m_picture.outline.containsPoint(at, Qt::OddEvenFill);
    // A compact row has its words at both sides of the board.
    const bool onHeader = m_compact ? itemPoint.x() < 0 || itemPoint.x() > boardBox().right()
                                    : itemPoint.y() < headerPixels() / m_scale;
    if (!onWood && !onHeader) {
        return hit;
    }
    hit.board = m_picture.board.id;
    if (onHeader) {
        return hit;
    }
    for (const BlankPicture& blank : m_picture.blanks) {
        if (blank.outline.containsPoint(at, Qt::OddEvenFill)) {
            hit.blank = blank.id;
            return hit;
        }
    }
    const double near = 3 / m_scale; // a mark is hit from a few pixels off
    for (const DefectPicture& defect : m_picture.defects) {
        const Polygon& outline = m_face == BoardFace::A ? defect.onA : defect.onB;
        const QRectF box = inMillimetres(outline).boundingRect();
        if (!outline.empty() && box.adjusted(-near, -near, near, near).contains(at)) {
            hit.defect = defect.id;
            return hit;
        }
    }
    return hit;
}

void BoardItem::paint(QPainter* painter, const QStyleOptionGraphicsItem* /*option*/,
                      QWidget* widget) {
    const QTransform toDevice = painter->worldTransform();
    BoardLook look;
    look.colours = coloursOf(widget != nullptr ? widget->palette() : QApplication::palette());
    look.font = QApplication::font();
    look.face = m_face;
    look.selectedBlank = m_blank;
    look.selectedDefect = m_defect;
    look.boardSelected = m_boardSelected;
    look.readings = !m_compact;
    look.photo = m_photos ? m_photos(m_picture.board, m_face) : nullptr;
    painter->save();
    painter->resetTransform();
    const QStringList unnamed =
        paintBoard(*painter, m_picture, m_cache, boardToItem() * toDevice, look);
    // The header stays in sight when the board is panned to the left.
    const QPointF origin = toDevice.map(QPointF(0, 0));
    if (m_compact) {
        const QRectF wood = toDevice.mapRect(boardBox());
        paintBoardRow(*painter, m_picture, unnamed, wood, markRoom,
                      toDevice.map(QPointF(m_reach, 0)).x(), look);
        painter->restore();
        return;
    }
    const double left = std::max(origin.x(), 8.0);
    const double right = std::max(left + 60, static_cast<double>(painter->window().width()) - 8);
    const QRectF header(left, origin.y(), right - left, headerLinePixels);
    if (!painter->hasClipping() || painter->clipBoundingRect().intersects(header)) {
        paintBoardHeader(*painter, m_picture, header, look);
    }
    painter->restore();
}

void BoardItem::paintRelated(QPainter& painter, PartId part, const QTransform& toDevice,
                             const Colours& colours) const {
    const QTransform toPixels = boardToItem() * toDevice;
    const QRectF seen = painter.hasClipping() ? painter.clipBoundingRect() : painter.window();
    for (const BlankPicture& blank : m_picture.blanks) {
        const QRectF box = toPixels.mapRect(blank.outline.boundingRect());
        if (blank.part == part && blank.id != m_blank &&
            box.adjusted(-2, -2, 2, 2).intersects(seen)) {
            ui::paintRelated(painter, blank, toPixels, colours);
        }
    }
}

} // namespace stavewright::ui
