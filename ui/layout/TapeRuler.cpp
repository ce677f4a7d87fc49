#include "ui/layout/TapeRuler.h"

#include <QFontMetricsF>
#include <QPainter>

#include <array>
#include <cmath>
#include <vector>

#include "ui/widgets/FractionText.h"
#include "ui/widgets/Theme.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

constexpr double leastTick = 5;   // px between ticks
constexpr double leastLabel = 52; // px between numbers

std::vector<Length> steps(UnitSystem units) {
    if (units == UnitSystem::Inches) {
        return {Length::inches(1, 16), Length::inches(1, 8), Length::inches(1, 4),
                Length::inches(1, 2),  Length::inches(1),    Length::inches(3),
                Length::inches(6),     Length::inches(12),   Length::inches(24),
                Length::inches(48),    Length::inches(96)};
    }
    return {Length::millimetres(1),    Length::millimetres(5),   Length::millimetres(10),
            Length::millimetres(50),   Length::millimetres(100), Length::millimetres(500),
            Length::millimetres(1000), Length::millimetres(5000)};
}

Length firstWithAtLeast(const std::vector<Length>& all, double pixels, double scale) {
    for (const Length step : all) {
        if (step.toMillimetres() * scale >= pixels) {
            return step;
        }
    }
    return all.back();
}

} // namespace

TapeRuler::TapeRuler(QWidget* parent)
    : QWidget(parent) {
    setFixedHeight(tapeHeight);
    setAccessibleName(tr("Tape from the datum end"));
}

void TapeRuler::setScaleAndOrigin(double pixelsPerMm, double originPixels) {
    m_scale = pixelsPerMm;
    m_origin = originPixels;
    update();
}

void TapeRuler::setUnits(const LengthStyle& style) {
    m_style = style;
    update();
}

void TapeRuler::setBracket(std::optional<std::pair<double, double>> millimetres) {
    m_bracket = millimetres;
    update();
}

void TapeRuler::setPointer(std::optional<double> millimetres) {
    m_pointer = millimetres;
    update();
}

void TapeRuler::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    const Colours& c = coloursOf(palette());
    painter.fillRect(rect(), c.panel);
    painter.setPen(c.hairline);
    painter.drawLine(0, height() - 1, width(), height() - 1);
    painter.setFont(sized(font(), TextSize::Caption));

    const std::vector<Length> all = steps(m_style.units);
    const Length tick = firstWithAtLeast(all, leastTick, m_scale);
    const Length label = firstWithAtLeast(all, leastLabel, m_scale);
    const double tickPixels = tick.toMillimetres() * m_scale;
    const auto first = static_cast<std::int64_t>(std::max(0.0, std::floor(-m_origin / tickPixels)));
    const auto last = static_cast<std::int64_t>(std::ceil((width() - m_origin) / tickPixels));
    for (std::int64_t k = first; k <= last; ++k) {
        const Length at = tick * k;
        const double x = m_origin + at.toMillimetres() * m_scale;
        const bool major = at % label == Length();
        painter.setPen(QPen(major ? c.ink : c.quietInk, 1));
        painter.drawLine(QPointF(x, height() - 1), QPointF(x, height() - (major ? 11 : 6)));
        if (major) {
            QString text = words(formatLength(at, m_style));
            if (k == 0) {
                text += m_style.units == UnitSystem::Inches ? tr(" in") : tr(" mm");
            }
            const double wide = fractionTextWidth(text, painter.font()) + 1;
            painter.setPen(c.ink);
            drawFractionText(painter, QRectF(x - wide / 2, 2, wide, height() - 13),
                             Qt::AlignLeft | Qt::AlignVCenter, text);
        }
    }
    if (m_bracket) {
        const double from = m_origin + m_bracket->first * m_scale;
        const double to = m_origin + m_bracket->second * m_scale;
        painter.setPen(QPen(c.accent, 3));
        painter.drawLine(QPointF(from, height() - 3), QPointF(to, height() - 3));
        painter.drawLine(QPointF(from, height() - 13), QPointF(from, height() - 2));
        painter.drawLine(QPointF(to, height() - 13), QPointF(to, height() - 2));
    }
    if (m_pointer) {
        const double x = m_origin + *m_pointer * m_scale;
        painter.setPen(QPen(c.accent, 1));
        painter.drawLine(QPointF(x, 0), QPointF(x, height()));
    }
}

} // namespace stavewright::ui
