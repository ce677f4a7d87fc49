#include "ui/widgets/FractionLabel.h"

#include <QFontMetricsF>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include <cmath>

#include "ui/widgets/FractionText.h"

namespace stavewright::ui {

FractionLabel::FractionLabel(const QString& text, QWidget* parent)
    : QWidget(parent) {
    setText(text);
}

void FractionLabel::setText(const QString& text) {
    m_text = text;
    setAccessibleName(text);
    updateGeometry();
    update();
}

void FractionLabel::setSign(Sign sign) {
    m_sign = sign;
    updateGeometry();
    update();
}

void FractionLabel::setQuiet(bool quiet) {
    m_quiet = quiet;
    update();
}

void FractionLabel::setAlignment(Qt::Alignment alignment) {
    m_alignment = alignment;
    update();
}

void FractionLabel::setWrapped(bool wrapped) {
    m_wrapped = wrapped;
    QSizePolicy policy(wrapped ? QSizePolicy::Preferred : QSizePolicy::Preferred,
                       QSizePolicy::Preferred);
    policy.setHeightForWidth(wrapped);
    setSizePolicy(policy);
    updateGeometry();
}

void FractionLabel::setLink(bool link) {
    m_link = link;
    setFocusPolicy(link ? Qt::StrongFocus : Qt::NoFocus);
    setCursor(link ? Qt::PointingHandCursor : Qt::ArrowCursor);
    update();
}

int FractionLabel::indent() const {
    return m_sign == Sign::None ? 0 : static_cast<int>(QFontMetricsF(font()).height() + 4);
}

QSize FractionLabel::sizeHint() const {
    const QFontMetricsF metrics(font());
    const double wide = fractionTextWidth(m_text, font());
    if (m_wrapped) {
        const int width = static_cast<int>(std::min(wide + 1, 220.0)) + indent();
        return {width, heightForWidth(width)};
    }
    return {static_cast<int>(std::ceil(wide)) + indent() + 2,
            static_cast<int>(std::ceil(metrics.height())) + 2};
}

QSize FractionLabel::minimumSizeHint() const {
    if (!m_wrapped) {
        return {std::min(sizeHint().width(), 40), sizeHint().height()};
    }
    return {60, static_cast<int>(QFontMetricsF(font()).height()) + 2};
}

int FractionLabel::heightForWidth(int width) const {
    return static_cast<int>(std::ceil(
               wrappedFractionTextHeight(m_text, font(), std::max(20, width - indent())))) +
           2;
}

void FractionLabel::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    const Colours& colours = coloursOf(palette());
    const QFontMetricsF metrics(font());
    painter.setFont(font());
    if (m_sign != Sign::None) {
        const double side = metrics.ascent();
        drawSign(painter, QRectF(1, 1 + (metrics.height() - side) / 2, side, side), m_sign,
                 colours);
    }
    QColor colour = m_quiet ? colours.quietInk : colours.ink;
    if (m_link) {
        colour = colours.accent;
    }
    if (!isEnabled()) {
        colour.setAlpha(140);
    }
    painter.setPen(colour);
    const QRectF room = QRectF(rect()).adjusted(indent(), 0, 0, 0);
    if (m_wrapped) {
        drawWrappedFractionText(painter, room.adjusted(0, 1, 0, 0), m_text);
    } else {
        drawFractionText(painter, room, m_alignment | Qt::AlignVCenter, m_text);
    }
    if (m_link && hasFocus()) {
        painter.setPen(QPen(colours.accent, 1, Qt::DotLine));
        painter.drawRect(rect().adjusted(0, 0, -1, -1));
    }
}

void FractionLabel::mouseReleaseEvent(QMouseEvent* event) {
    if (m_link && rect().contains(event->position().toPoint())) {
        emit clicked();
    }
}

void FractionLabel::keyPressEvent(QKeyEvent* event) {
    if (m_link && (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter ||
                   event->key() == Qt::Key_Space)) {
        emit clicked();
        return;
    }
    QWidget::keyPressEvent(event);
}

} // namespace stavewright::ui
