#include "ui/layout/HintLine.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

#include "ui/widgets/FractionText.h"
#include "ui/widgets/Theme.h"

namespace stavewright::ui {

namespace {
constexpr int lines = 2;
}

HintLine::HintLine(QWidget* parent)
    : FractionLabel({}, parent) {}

/// The same height whatever it says, so that nothing jumps while the pointer moves; so the words
/// need not be measured, which would take long at every move.
QSize HintLine::sizeHint() const {
    const QFontMetricsF small(sized(font(), TextSize::Caption, QFont::Normal));
    const double high = std::max(lines * small.lineSpacing(), QFontMetricsF(font()).height());
    return {40, static_cast<int>(std::ceil(high)) + 2};
}

QSize HintLine::minimumSizeHint() const { return {40, sizeHint().height()}; }

void HintLine::paintEvent(QPaintEvent* event) {
    if (fractionTextWidth(text(), font()) <= width()) {
        FractionLabel::paintEvent(event);
        return;
    }
    QPainter painter(this);
    const Colours& colours = coloursOf(palette());
    const QFont small = sized(font(), TextSize::Caption, QFont::Normal);
    painter.setFont(small);
    painter.setPen(colours.ink);
    const double high = wrappedFractionTextHeight(text(), small, width());
    const double top = std::max(0.0, (height() - high) / 2);
    drawWrappedFractionText(painter, QRectF(rect()).adjusted(0, top, 0, 0), text());
}

} // namespace stavewright::ui
