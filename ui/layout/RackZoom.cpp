// How large the boards hang on the rack, and how it is scrolled.

#include <QScrollBar>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>

#include "ui/layout/BoardItem.h"
#include "ui/layout/RackView.h"
#include "ui/layout/TapeRuler.h"

namespace stavewright::ui {

namespace {
constexpr double leastScale = 0.01; // px a mm
constexpr double mostScale = 40;
} // namespace

void RackView::setScaleAround(double scale, QPoint anchor) {
    scale = std::clamp(scale, leastScale, mostScale);
    // Headers keep their pixels, so the rack is laid out anew: hold the wood under the anchor, not
    // the scene point.
    const QPointF before = mapToScene(anchor);
    const BoardItem* item = m_scene.itemNear(before);
    const QPointF onBoard =
        item != nullptr ? item->boardToItem().inverted().map(item->mapFromScene(before)) : before;
    m_scene.setScale(scale);
    setTransform(QTransform::fromScale(scale, scale));
    if (item != nullptr) {
        const QPointF now = item->mapToScene(item->boardToItem().map(onBoard));
        const QPoint off = mapFromScene(now) - anchor;
        horizontalScrollBar()->setValue(horizontalScrollBar()->value() + off.x());
        verticalScrollBar()->setValue(verticalScrollBar()->value() + off.y());
    }
    updateTape();
}

void RackView::zoomBy(double factor) {
    m_fit = Fit::Free;
    setScaleAround(m_scene.scale() * factor, viewport()->rect().center());
}

void RackView::applyFit() {
    const bool fromTheTop = verticalScrollBar()->value() == verticalScrollBar()->minimum();
    if (m_fit == Fit::Length) {
        setScaleAround(m_scene.scaleForWidth(room().width()), QPoint(0, 0));
    } else if (m_fit == Fit::Best) {
        hangBest();
    } else if (m_fit == Fit::All) {
        hangAll();
    } else {
        setScaleAround(m_scene.scale(), viewport()->rect().center());
    }
    if (fromTheTop) { // wood is held where it is, and the first header would slip out of sight
        verticalScrollBar()->setValue(verticalScrollBar()->minimum());
    }
}

QSizeF RackView::room() const { return viewport()->size() + QSize(0, m_foot); }

void RackView::hangAll() {
    m_scene.setRoom(room());
    setTransform(QTransform::fromScale(m_scene.scale(), m_scene.scale()));
    updateTape();
}

void RackView::fitAll() {
    m_fit = Fit::All;
    applyFit();
    horizontalScrollBar()->setValue(horizontalScrollBar()->minimum());
    verticalScrollBar()->setValue(verticalScrollBar()->minimum());
}

void RackView::fitBest() {
    m_fit = Fit::Best;
    applyFit();
    horizontalScrollBar()->setValue(horizontalScrollBar()->minimum());
    verticalScrollBar()->setValue(verticalScrollBar()->minimum());
}

/// One board after another where they all are in sight so or would be too small all at once.
void RackView::hangBest() {
    constexpr double readable = 0.6; // of the scale at which the longest board fills the width
    const double scale = m_scene.scaleForWidth(room().width());
    const bool isAllInSight = m_scene.heightInRows(scale) * scale <= room().height();
    if (isAllInSight || m_scene.scaleOfAll(room()) < readable * scale) {
        setScaleAround(scale, QPoint(0, 0));
    } else {
        hangAll();
    }
}

void RackView::fitLength() {
    m_fit = Fit::Length;
    applyFit();
    horizontalScrollBar()->setValue(horizontalScrollBar()->minimum());
}

void RackView::updateTape() {
    m_tape->setGeometry(0, 0, viewport()->width(), TapeRuler::tapeHeight);
    std::vector<double> origins;
    for (const double line : m_scene.datumLines()) {
        origins.push_back(mapFromScene(QPointF(line, 0)).x());
    }
    m_tape->setScaleAndOrigins(m_scene.scale(), std::move(origins), m_scene.columnWidth());
}

void RackView::wheelEvent(QWheelEvent* event) {
    if (event->modifiers().testFlag(Qt::ShiftModifier)) {
        horizontalScrollBar()->setValue(horizontalScrollBar()->value() - event->angleDelta().y());
        return;
    }
    m_fit = Fit::Free;
    setScaleAround(m_scene.scale() * std::pow(1.0015, event->angleDelta().y()),
                   event->position().toPoint());
    event->accept();
}

void RackView::resizeEvent(QResizeEvent* event) {
    QGraphicsView::resizeEvent(event);
    if (m_fit == Fit::Free) {
        updateTape();
    } else {
        applyFit();
    }
}

void RackView::scrollContentsBy(int dx, int dy) {
    QGraphicsView::scrollContentsBy(dx, dy);
    updateTape();
}

} // namespace stavewright::ui
