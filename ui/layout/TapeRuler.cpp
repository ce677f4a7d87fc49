#include "ui/layout/TapeRuler.h"

#include <QFontMetricsF>
#include <QPainter>

#include <array>
#include <cmath>
#include <vector>

#include "ui/widgets/FractionText.h"
#include "ui/widgets/LengthWords.h"
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
                Length::inches(48),    Length::inches(96),   Length::inches(240),
                Length::inches(960)};
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

void TapeRuler::setScaleAndOrigins(double pixelsPerMm, std::vector<double> originPixels,
                                   double columnPixels) {
    m_scale = pixelsPerMm;
    m_origins = std::move(originPixels);
    m_columnPixels = columnPixels;
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
    constexpr double nextMark = 60; // px at the end of a column, where the next one begins
    for (const double origin : m_origins) {
        paintTape(painter, origin,
                  m_origins.size() > 1 ? origin + m_columnPixels - nextMark : width());
    }
    if (m_bracket) {
        const double from = m_origins.front() + m_bracket->first * m_scale;
        const double to = m_origins.front() + m_bracket->second * m_scale;
        painter.setPen(QPen(c.accent, 3));
        painter.drawLine(QPointF(from, height() - 3), QPointF(to, height() - 3));
        painter.drawLine(QPointF(from, height() - 13), QPointF(from, height() - 2));
        painter.drawLine(QPointF(to, height() - 13), QPointF(to, height() - 2));
    }
    if (m_pointer) {
        const double x = m_origins.front() + *m_pointer * m_scale;
        painter.setPen(QPen(c.accent, 1));
        painter.drawLine(QPointF(x, 0), QPointF(x, height()));
    }
}

void TapeRuler::paintTape(QPainter& painter, double origin, double end) const {
    const Colours& c = coloursOf(palette());
    const std::vector<Length> all = steps(m_style.units);
    const Length tick = firstWithAtLeast(all, leastTick, m_scale);
    const Length label = firstWithAtLeast(all, leastLabel, m_scale);
    const double tickPixels = tick.toMillimetres() * m_scale;
    const auto first = static_cast<std::int64_t>(std::max(0.0, std::floor(-origin / tickPixels)));
    const auto last = static_cast<std::int64_t>(std::floor((end - origin) / tickPixels));
    for (std::int64_t k = first; k <= last; ++k) {
        const Length at = tick * k;
        const double x = origin + at.toMillimetres() * m_scale;
        const bool major = at % label == Length();
        painter.setPen(QPen(major ? c.ink : c.quietInk, 1));
        painter.drawLine(QPointF(x, height() - 1), QPointF(x, height() - (major ? 11 : 6)));
        if (major) {
            QString text = tapeText(at, m_style);
            if (k == 0) {
                text += m_style.units == UnitSystem::Inches ? tr(" in") : tr(" mm");
            }
            const double wide = fractionTextWidth(text, painter.font()) + 1;
            if (x - wide / 2 < 0 || x + wide / 2 > std::min(end, width() - 4.0)) {
                continue; // half a figure could be read as another
            }
            painter.setPen(c.ink);
            drawFractionText(painter, QRectF(x - wide / 2, 2, wide, height() - 13),
                             Qt::AlignLeft | Qt::AlignVCenter, text);
        }
    }
}

} // namespace stavewright::ui
