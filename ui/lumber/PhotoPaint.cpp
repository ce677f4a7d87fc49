// A photograph with its marks, painted.

#include "ui/lumber/PhotoCanvas.h"

#include <QPainter>

#include <algorithm>

namespace stavewright::ui {

using photo::Corner;
using photo::LongEdge;
using photo::PhotoControls;
using photo::PhotoPoint;
using Of = photo::MarkResidual::Of;

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
    paintHints(painter);
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
    const QFontMetricsF metrics(painter.font());
    const auto textWidth = [&](const QString& text) { return metrics.horizontalAdvance(text); };
    for (const PhotoMark mark : marksOf(m_controls)) {
        const QPointF at = pixelOf(placeOf(m_controls, mark));
        const bool isPicked = m_picked == mark;
        const QString letter = letterOf(m_controls, mark);
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
        QRectF label(at + QPointF(grip + 2, -grip - 14),
                     QSizeF(std::max(16.0, textWidth(letter) + 6), 16));
        if (label.right() > width()) { // at the rim: on the other side
            label.moveRight(at.x() - grip - 2);
        }
        label.moveTop(std::max(label.top(), 0.0));
        painter.setPen(Qt::NoPen);
        painter.setBrush(isPicked ? colours.accent : QColor(20, 20, 20, 210));
        painter.drawRoundedRect(label, 3, 3);
        painter.setPen(isPicked ? colours.panel : QColor(Qt::white));
        painter.drawText(label, Qt::AlignCenter, letter);
    }
}

/// Where spots of the other photographs should be seen in this one.
void PhotoCanvas::paintHints(QPainter& painter) const {
    painter.setFont(sized(font(), TextSize::Caption));
    painter.setBrush(Qt::NoBrush);
    for (const SpotHint& hint : m_hints) {
        const QPointF at = pixelOf(hint.at);
        painter.setPen(QPen(QColor(0, 0, 0, 170), 3));
        painter.drawEllipse(at, grip + 5, grip + 5);
        painter.setPen(QPen(Qt::white, 1.2, Qt::DotLine));
        painter.drawEllipse(at, grip + 5, grip + 5);
        const QString text = QString("S%1?").arg(hint.number);
        const double wide = QFontMetricsF(painter.font()).horizontalAdvance(text) + 6;
        const QRectF label(at + QPointF(grip + 5, -grip - 14), QSizeF(wide, 16));
        painter.fillRect(label, QColor(20, 20, 20, 180));
        painter.drawText(label, Qt::AlignCenter, text);
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
