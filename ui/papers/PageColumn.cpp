#include "ui/papers/PageColumn.h"

#include <QPaintEvent>
#include <QPainter>

#include <algorithm>
#include <cmath>

#include "ui/widgets/Theme.h"

namespace stavewright::ui {

namespace {

constexpr double screenDotsPerMillimetre = 96 / 25.4;
constexpr int gap = 16; ///< round and between the pages
constexpr double leastZoom = 0.15;
constexpr double mostZoom = 4;
constexpr std::size_t mostPictures = 6;

} // namespace

PageColumn::PageColumn(QWidget* parent)
    : QWidget(parent) {
    setAccessibleName(tr("Pages as they will print"));
}

void PageColumn::setPages(std::vector<papers::Page> pages) {
    m_pages = std::move(pages);
    m_pictures.clear();
    layOut();
}

void PageColumn::setPhotos(PhotoOnPage photos) {
    m_photos = std::move(photos);
    m_pictures.clear();
    update();
}

void PageColumn::setZoom(double zoom) {
    const double bounded = std::clamp(zoom, leastZoom, mostZoom);
    if (std::abs(bounded - m_zoom) < 1e-6) {
        return;
    }
    m_zoom = bounded;
    m_pictures.clear();
    layOut();
}

double PageColumn::zoomToFit(int width) const {
    double widest = 1;
    for (const papers::Page& page : m_pages) {
        widest = std::max(widest, page.width.toMillimetres() * screenDotsPerMillimetre);
    }
    return std::clamp((width - 2 * gap) / widest, leastZoom, mostZoom);
}

void PageColumn::layOut() {
    m_rects.clear();
    int widest = 0;
    int y = gap;
    for (const papers::Page& page : m_pages) {
        const double scale = screenDotsPerMillimetre * m_zoom;
        const QSize size(static_cast<int>(std::lround(page.width.toMillimetres() * scale)),
                         static_cast<int>(std::lround(page.height.toMillimetres() * scale)));
        m_rects.emplace_back(QPoint(gap, y), size);
        widest = std::max(widest, size.width());
        y += size.height() + gap;
    }
    for (QRect& rect : m_rects) {
        rect.moveLeft(gap + (widest - rect.width()) / 2);
    }
    setFixedSize(widest + 2 * gap, y);
    update();
}

QSize PageColumn::sizeHint() const { return size(); }

QRect PageColumn::pageRect(std::size_t page) const {
    return page < m_rects.size() ? m_rects[page] : QRect();
}

std::size_t PageColumn::pageAt(const QRect& visible) const {
    std::size_t best = 0;
    int most = -1;
    for (std::size_t i = 0; i < m_rects.size(); ++i) {
        const int shown = m_rects[i].intersected(visible).height();
        if (shown > most) {
            most = shown;
            best = i;
        }
    }
    return best;
}

const QPixmap& PageColumn::picture(std::size_t page) {
    if (const auto found = m_pictures.find(page); found != m_pictures.end()) {
        return found->second;
    }
    if (m_pictures.size() >= mostPictures) {
        m_pictures.clear();
    }
    const double ratio = devicePixelRatioF();
    QPixmap pixmap(m_rects[page].size() * ratio);
    pixmap.fill(Qt::white);
    QPainter painter(&pixmap);
    const double scale = screenDotsPerMillimetre * m_zoom * ratio;
    painter.scale(scale, scale);
    paintPage(painter, m_pages[page], m_photos);
    painter.end();
    pixmap.setDevicePixelRatio(ratio);
    return m_pictures.emplace(page, std::move(pixmap)).first->second;
}

void PageColumn::paintEvent(QPaintEvent* event) {
    QPainter painter(this);
    const Colours& colours = coloursOf(palette());
    painter.fillRect(event->rect(), colours.ground);
    for (std::size_t i = 0; i < m_rects.size(); ++i) {
        if (!m_rects[i].adjusted(-2, -2, 2, 2).intersects(event->rect())) {
            continue;
        }
        painter.drawPixmap(m_rects[i].topLeft(), picture(i));
        painter.setPen(colours.hairline);
        painter.drawRect(m_rects[i].adjusted(-1, -1, 0, 0));
    }
}

} // namespace stavewright::ui
