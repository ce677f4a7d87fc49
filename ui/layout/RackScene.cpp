#include "ui/layout/RackScene.h"

#include <QPainter>

#include <algorithm>

#include "ui/layout/BoardItem.h"
#include "ui/layout/RackArrangement.h"
#include "ui/session/DocumentSession.h"

namespace stavewright::ui {

namespace {
constexpr double marginPixels = 24;
}

RackScene::RackScene(QObject* parent)
    : QGraphicsScene(parent) {}

void RackScene::setPictures(std::vector<BoardPicture> pictures) {
    std::vector<BoardItem*> items;
    for (BoardPicture& picture : pictures) {
        if (BoardItem* old = itemOf(picture.board.id)) {
            old->setPicture(std::move(picture));
            items.push_back(old);
        } else {
            auto* item = new BoardItem(std::move(picture));
            item->setFace(m_face);
            item->setPhotos(m_photos);
            addItem(item);
            items.push_back(item);
            m_hung.clear();
        }
    }
    for (BoardItem* old : m_items) {
        if (std::find(items.begin(), items.end(), old) == items.end()) {
            removeItem(old);
            delete old;
            m_hung.clear();
        }
    }
    m_items = std::move(items);
    layOut();
}

void RackScene::setSelection(const Selection& selection) {
    m_part = selection.part;
    for (BoardItem* item : m_items) {
        item->setSelection(selection);
    }
}

void RackScene::paintRelated(QPainter& painter, const QTransform& toDevice,
                             const Colours& colours) const {
    if (!m_part) {
        return;
    }
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const QRectF seen(painter.window());
    for (const BoardItem* item : m_items) {
        const QTransform itemToDevice = item->sceneTransform() * toDevice;
        if (itemToDevice.mapRect(item->boundingRect()).intersects(seen)) {
            item->paintRelated(painter, *m_part, itemToDevice, colours);
        }
    }
    painter.restore();
}

void RackScene::setFace(BoardFace face) {
    m_face = face;
    for (BoardItem* item : m_items) {
        item->setFace(face);
    }
}

void RackScene::setScale(double pixelsPerMm) {
    m_compact = false;
    m_scale = pixelsPerMm;
    layOut();
}

void RackScene::setRoom(QSizeF pixels) {
    m_compact = true;
    m_room = pixels;
    layOut();
}

double RackScene::longest() const {
    double longest = 0;
    for (const BoardItem* item : m_items) {
        longest = std::max(longest, item->picture().length);
    }
    return longest;
}

double RackScene::scaleForWidth(double width) const {
    const double wood = longest();
    return wood > 0 ? std::max(0.01, (width - 2 * marginPixels - 2) / wood) : 0.2;
}

std::vector<double> RackScene::heights() const {
    std::vector<double> heights;
    for (const BoardItem* item : m_items) {
        heights.push_back(item->picture().highest - item->picture().lowest);
    }
    return heights;
}

double RackScene::scaleOfAll(QSizeF pixels) const {
    RackRoom room;
    room.pixels = pixels;
    return arrangeAll(heights(), longest(), room).scale;
}

double RackScene::heightInRows(double scale) const {
    double height = 0;
    for (const BoardItem* item : m_items) {
        height += item->heightInRow(scale);
    }
    return height;
}

std::vector<RackScene::Hung> RackScene::hung() const {
    std::vector<Hung> hung;
    for (const BoardItem* item : m_items) {
        hung.push_back({item, item->sceneBoundingRect(),
                        item->mapToScene(item->boardToItem().map(QPointF()))});
    }
    return hung;
}

void RackScene::layOut() {
    hang();
    if (std::vector<Hung> now = hung(); now != m_hung || m_scale != m_hungScale) {
        m_hung = std::move(now);
        m_hungScale = m_scale;
        emit hungAnew();
    }
}

void RackScene::hang() {
    m_datumLines = {0};
    m_columnWidth = 0;
    if (m_compact) {
        const std::vector<double> heights = this->heights();
        RackRoom room;
        room.pixels = m_room;
        const RackArrangement all = arrangeAll(heights, longest(), room);
        m_scale = all.scale;
        m_columnWidth = all.columnWidth;
        m_datumLines.clear();
        for (int column = 0; column < all.columns; ++column) {
            m_datumLines.push_back((column * all.columnWidth + room.left) / m_scale);
        }
        for (std::size_t i = 0; i < m_items.size(); ++i) {
            BoardItem* item = m_items[i];
            const double row = std::max(heights[i] * m_scale, room.leastRow);
            item->setCompact(true);
            item->setScaleAndReach(m_scale, (all.columnWidth - room.left) / m_scale);
            item->setPos(all.datumAndTop[i].x() / m_scale,
                         (all.datumAndTop[i].y() + (row - heights[i] * m_scale) / 2) / m_scale);
        }
        setSceneRect(0, 0, (m_room.width() - 1) / m_scale,
                     std::max(m_room.height() - 1, all.rowsEnd + room.margin) / m_scale);
        update();
        return;
    }
    const double reach = longest() + 200 / m_scale;
    double y = 0;
    for (BoardItem* item : m_items) {
        item->setCompact(false);
        item->setScaleAndReach(m_scale, reach);
        item->setPos(0, y);
        y += item->height();
    }
    setSceneRect(-marginPixels / m_scale, 0, reach + (2 * marginPixels - 200) / m_scale, y);
    update();
}

RackHit RackScene::hitAt(QPointF scenePoint) const {
    for (const BoardItem* item : m_items) {
        const QPointF at = item->mapFromScene(scenePoint);
        const bool inRow = at.y() >= 0 && at.y() < item->height();
        if (inRow && item->boundingRect().contains(at)) {
            return item->hitAt(at);
        }
    }
    return {};
}

BoardItem* RackScene::itemNear(QPointF scenePoint) const {
    BoardItem* near = nullptr;
    for (BoardItem* item : m_items) {
        const QRectF box = item->sceneBoundingRect();
        const bool inColumn =
            !m_compact || (scenePoint.x() >= box.left() && scenePoint.x() < box.right());
        if (near == nullptr || (inColumn && item->pos().y() <= scenePoint.y())) {
            near = item;
        }
    }
    return near;
}

BoardItem* RackScene::itemOf(BoardId id) const {
    for (BoardItem* item : m_items) {
        if (item->picture().board.id == id) {
            return item;
        }
    }
    return nullptr;
}

BoardItem* RackScene::itemOf(BlankId id) const {
    for (BoardItem* item : m_items) {
        for (const BlankPicture& blank : item->picture().blanks) {
            if (blank.id == id) {
                return item;
            }
        }
    }
    return nullptr;
}

QRectF RackScene::boxOf(BlankId id) const {
    const BoardItem* item = itemOf(id);
    if (item == nullptr) {
        return {};
    }
    for (const BlankPicture& blank : item->picture().blanks) {
        if (blank.id == id) {
            return item->mapRectToScene(item->boardToItem().mapRect(blank.outline.boundingRect()));
        }
    }
    return {};
}

QRectF RackScene::boxOf(BoardId id) const {
    const BoardItem* item = itemOf(id);
    return item != nullptr ? item->mapRectToScene(item->boardBox()) : QRectF();
}

QRectF RackScene::boxOf(BoardId board, DefectId defect) const {
    const BoardItem* item = itemOf(board);
    if (item == nullptr) {
        return {};
    }
    for (const DefectPicture& picture : item->picture().defects) {
        if (picture.id == defect) {
            const Polygon& outline = picture.onA.empty() ? picture.onB : picture.onA;
            return item->mapRectToScene(
                item->boardToItem().mapRect(inMillimetres(outline).boundingRect()));
        }
    }
    return {};
}

} // namespace stavewright::ui
