#include "ui/layout/RackScene.h"

#include <algorithm>

#include "ui/layout/BoardItem.h"
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
            addItem(item);
            items.push_back(item);
        }
    }
    for (BoardItem* old : m_items) {
        if (std::find(items.begin(), items.end(), old) == items.end()) {
            removeItem(old);
            delete old;
        }
    }
    m_items = std::move(items);
    layOut();
}

void RackScene::setSelection(const Selection& selection) {
    for (BoardItem* item : m_items) {
        item->setSelection(selection);
    }
}

void RackScene::setFace(BoardFace face) {
    m_face = face;
    for (BoardItem* item : m_items) {
        item->setFace(face);
    }
}

void RackScene::setScale(double pixelsPerMm) {
    m_scale = pixelsPerMm;
    layOut();
}

double RackScene::scaleForWidth(double width) const {
    double longest = 0;
    for (const BoardItem* item : m_items) {
        longest = std::max(longest, item->picture().length);
    }
    return longest > 0 ? std::max(0.01, (width - 2 * marginPixels - 2) / longest) : 0.2;
}

double RackScene::scaleForAll(QSizeF room) const {
    double wood = 0;
    double pixels = 0;
    for (const BoardItem* item : m_items) {
        const double own = item->picture().highest - item->picture().lowest;
        wood += own;
        pixels += (item->height() - own) * m_scale;
    }
    const double forWidth = scaleForWidth(room.width());
    if (wood <= 0) {
        return forWidth;
    }
    // Below a twentieth of the width's scale a board is a hair: then the rack rather scrolls.
    return std::clamp((room.height() - pixels - 8) / wood, forWidth / 20, forWidth);
}

void RackScene::layOut() {
    double reach = 0;
    for (const BoardItem* item : m_items) {
        reach = std::max(reach, item->picture().length);
    }
    reach += 200 / m_scale;
    double y = 0;
    for (BoardItem* item : m_items) {
        item->setScaleAndReach(m_scale, reach);
        item->setPos(0, y);
        y += item->height();
    }
    setSceneRect(-marginPixels / m_scale, 0, reach + (2 * marginPixels - 200) / m_scale, y);
    update();
}

RackHit RackScene::hitAt(QPointF scenePoint) const {
    for (const BoardItem* item : m_items) {
        const double top = item->pos().y();
        if (scenePoint.y() >= top && scenePoint.y() < top + item->height()) {
            return item->hitAt(item->mapFromScene(scenePoint));
        }
    }
    return {};
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
