#include "ui/papers/PageScroll.h"

#include <QResizeEvent>
#include <QScrollBar>
#include <QWheelEvent>

#include <cmath>

#include "ui/papers/PageColumn.h"

namespace stavewright::ui {

PageScroll::PageScroll(QWidget* parent)
    : QScrollArea(parent)
    , m_column(new PageColumn) {
    setWidget(m_column);
    setAlignment(Qt::AlignHCenter | Qt::AlignTop);
    setFrameShape(QFrame::NoFrame);
    connect(verticalScrollBar(), &QScrollBar::valueChanged, this,
            [this] { emit pageInViewChanged(static_cast<int>(pageInView())); });
}

void PageScroll::fitWidth() {
    m_fitsWidth = true;
    // The width without a scroll bar coming and going: it is nearly always there.
    const int bar = verticalScrollBar()->sizeHint().width();
    const std::size_t page = pageInView();
    m_column->setZoom(m_column->zoomToFit(width() - bar));
    showPage(page);
    emit zoomChanged(m_column->zoom());
}

void PageScroll::pagesChanged() {
    if (m_fitsWidth) {
        fitWidth();
    }
}

void PageScroll::zoomBy(double factor) {
    zoomAbout(m_column->zoom() * factor, viewport()->rect().center());
}

void PageScroll::zoomAbout(double zoom, const QPoint& inView) {
    m_fitsWidth = false;
    const QPointF before = m_column->mapFrom(viewport(), inView);
    const double old = m_column->zoom();
    m_column->setZoom(zoom);
    const double factor = m_column->zoom() / old;
    horizontalScrollBar()->setValue(
        static_cast<int>(std::lround(before.x() * factor - inView.x())));
    verticalScrollBar()->setValue(static_cast<int>(std::lround(before.y() * factor - inView.y())));
    emit zoomChanged(m_column->zoom());
}

void PageScroll::showPage(std::size_t page) {
    const QRect rect = m_column->pageRect(page);
    if (rect.isValid()) {
        verticalScrollBar()->setValue(rect.top() - 8);
    }
}

std::size_t PageScroll::pageInView() const {
    const QRect visible(QPoint(horizontalScrollBar()->value(), verticalScrollBar()->value()),
                        viewport()->size());
    return m_column->pageAt(visible);
}

void PageScroll::resizeEvent(QResizeEvent* event) {
    QScrollArea::resizeEvent(event);
    pagesChanged();
}

void PageScroll::wheelEvent(QWheelEvent* event) {
    if ((event->modifiers() & Qt::ControlModifier) == 0) {
        QScrollArea::wheelEvent(event);
        return;
    }
    constexpr double perStep = 1.15;
    const double steps = event->angleDelta().y() / 120.0;
    zoomAbout(m_column->zoom() * std::pow(perStep, steps), event->position().toPoint());
    event->accept();
}

} // namespace stavewright::ui
