// The painting of the rack: the boards are kept as they were painted, and only what looks
// different is painted anew.

#include <QPainter>

#include <algorithm>

#include "ui/layout/RackView.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Theme.h"

namespace stavewright::ui {

void RackView::forgetStill() {
    m_still = QPixmap();
    m_stale.clear();
    // The view's own account of what is to be painted is kept by a painting that is not used here.
    viewport()->update();
}

void RackView::forgetInStill(const QRectF& scenePart) {
    viewport()->update(); // as above
    if (std::none_of(m_stale.begin(), m_stale.end(),
                     [&](const QRectF& known) { return known.contains(scenePart); })) {
        m_stale.push_back(scenePart);
    }
}

/// Scrolled up or down the still holds, but for what came into sight; sideways the words beside the
/// boards stay where they are, so that all is painted anew.
bool RackView::scrollStill() {
    const QTransform now = viewportTransform();
    const double by = (now.dy() - m_stillAt.dy()) * m_still.devicePixelRatio();
    const QTransform moved = m_stillAt * QTransform::fromTranslate(0, now.dy() - m_stillAt.dy());
    const int pixels = qRound(by);
    if (moved != now || by != pixels || std::abs(pixels) >= m_still.height()) {
        return false;
    }
    if (pixels != 0) {
        m_still.scroll(0, pixels, m_still.rect());
        m_stillAt = now;
        m_marked = QPixmap();
    }
    return true;
}

void RackView::freshenStill() {
    const QSize size = viewport()->size() * viewport()->devicePixelRatioF();
    std::vector<QRect> stale;
    const QTransform before = m_stillAt;
    if (m_still.size() != size || !scrollStill()) {
        m_marked = QPixmap(); // which shares it
        m_still = QPixmap(size);
        m_still.setDevicePixelRatio(viewport()->devicePixelRatioF());
        m_stillAt = viewportTransform();
        stale = {viewport()->rect()};
    } else {
        const int by = qRound(m_stillAt.dy() - before.dy());
        QRect fresh = viewport()->rect();
        by > 0 ? fresh.setBottom(by) : fresh.setTop(fresh.bottom() + by);
        if (by != 0) {
            stale.push_back(fresh);
        }
        for (const QRectF& part : m_stale) {
            stale.push_back(
                m_stillAt.mapRect(part).toAlignedRect().intersected(viewport()->rect()));
        }
    }
    m_stale.clear();
    for (const QRect& part : stale) {
        if (!part.isEmpty()) {
            QPainter painter(&m_still);
            painter.setRenderHints(renderHints());
            painter.setClipRect(part);
            render(&painter, QRectF(part), part);
            m_unmarked.push_back(part);
        }
    }
}

void RackView::freshenMarked() {
    const bool isMarked = m_session.selection().part.has_value();
    if (m_marked.isNull() || !isMarked || m_marked.size() != m_still.size()) {
        m_marked = m_still; // shared until something is painted over it
        m_unmarked.clear();
        if (isMarked) {
            m_unmarked.push_back(viewport()->rect());
        }
    }
    for (const QRect& part : m_unmarked) {
        QPainter painter(&m_marked);
        painter.setClipRect(part);
        painter.setCompositionMode(QPainter::CompositionMode_Source);
        painter.drawPixmap(0, 0, m_still);
        painter.setCompositionMode(QPainter::CompositionMode_SourceOver);
        m_scene.paintRelated(painter, viewportTransform(), coloursOf(palette()));
    }
    m_unmarked.clear();
}

void RackView::paintEvent(QPaintEvent* /*event*/) {
    freshenStill();
    freshenMarked();
    QPainter painter(viewport());
    painter.setRenderHints(renderHints());
    painter.drawPixmap(0, 0, m_marked);
    painter.setWorldTransform(viewportTransform());
    m_hand.paint(painter, coloursOf(palette()));
    m_cuts.paint(painter, coloursOf(palette()));
}

void RackView::drawBackground(QPainter* painter, const QRectF& rect) {
    painter->fillRect(rect, coloursOf(palette()).ground);
}

} // namespace stavewright::ui
