#include "core/glueup/Movement.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace stavewright::glueup {

namespace {

double radians(std::int32_t angleTenths) {
    return static_cast<double>(angleTenths) / 1800.0 * std::numbers::pi;
}

Length rounded(double nanometres) { return Length::nanometres(std::llround(nanometres)); }

/// Strain for one per unit coefficient difference.
double strain(std::int32_t coefficientMillionths, std::int32_t changeTenths) {
    return static_cast<double>(coefficientMillionths) * 1e-6 * static_cast<double>(changeTenths) /
           10.0;
}

double strainAt(double angle, const Movement& movement) {
    const double along = strain(movement.tangentialMillionths, movement.changeTenths);
    const double across = strain(movement.radialMillionths, movement.changeTenths);
    return along * std::cos(angle) * std::cos(angle) + across * std::sin(angle) * std::sin(angle);
}

} // namespace

std::int32_t angleTenthsOf(Sawn sawn) {
    switch (sawn) {
    case Sawn::Plain:
        return 150;
    case Sawn::Rift:
        return 450;
    case Sawn::Quartered:
        return 800;
    }
    return 150;
}

Length changeOf(Length size, std::int32_t coefficientMillionths, std::int32_t changeTenths) {
    const Int128 product = static_cast<Int128>(size.inNanometres()) * coefficientMillionths *
                           static_cast<Int128>(changeTenths);
    return Length::nanometres(static_cast<std::int64_t>(product / 10'000'000));
}

Length widthChange(Length width, const RingData& rings, const Movement& movement) {
    return rounded(static_cast<double>(width.inNanometres()) *
                   strainAt(radians(rings.angleTenths), movement));
}

Length thicknessChange(Length thickness, const RingData& rings, const Movement& movement) {
    return rounded(static_cast<double>(thickness.inNanometres()) *
                   strainAt(std::numbers::pi / 2 - radians(rings.angleTenths), movement));
}

Length forecastCup(Length width, const RingData& rings, const Movement& movement) {
    if (rings.heart == HeartSide::Unknown || rings.radius <= Length() || width <= Length()) {
        return {};
    }
    const double turn = strain(movement.tangentialMillionths, movement.changeTenths) -
                        strain(movement.radialMillionths, movement.changeTenths);
    const double angle = radians(rings.angleTenths);
    const double radius = static_cast<double>(rings.radius.inNanometres());
    const double height = radius * std::cos(angle);
    const double middle = radius * std::sin(angle);
    const double half = static_cast<double>(width.inNanometres()) / 2;
    // How far the line moves away from the pith, but for what is common to all of it.
    const auto lift = [&](double x) { return -turn * x * std::atan2(x, height); };
    const double edgesAway = (lift(middle - half) + lift(middle + half)) / 2 - lift(middle);
    return rounded(rings.heart == HeartSide::FaceB ? edgesAway : -edgesAway);
}

CupForecast panelCup(const std::vector<CupPart>& staves) {
    struct Arc {
        double from = 0;
        double height = 0;
        double slope = 0;
    };
    const auto curvatureOf = [](const CupPart& stave, double width) {
        return width > 0 ? 8.0 * static_cast<double>(stave.cup.inNanometres()) / (width * width)
                         : 0;
    };
    const auto behind = [](const Arc& arc, double width, double curvature) {
        return Arc{arc.from + width, arc.height + arc.slope * width + curvature * width * width / 2,
                   arc.slope + curvature * width};
    };
    Arc end;
    for (const CupPart& stave : staves) {
        const auto width = static_cast<double>(stave.width.inNanometres());
        end = behind(end, width, curvatureOf(stave, width));
    }
    const double chord = end.from > 0 ? end.height / end.from : 0;
    double worst = 0; // below the chord: hollow
    const auto look = [&](double place, double height) {
        const double below = chord * place - height;
        if (std::abs(below) > std::abs(worst)) {
            worst = below;
        }
    };
    Arc arc;
    for (const CupPart& stave : staves) {
        const auto width = static_cast<double>(stave.width.inNanometres());
        const double curvature = curvatureOf(stave, width);
        look(arc.from, arc.height);
        if (curvature != 0) { // where the arc runs along the chord
            const double at = (chord - arc.slope) / curvature;
            if (at > 0 && at < width) {
                look(arc.from + at, arc.height + arc.slope * at + curvature * at * at / 2);
            }
        }
        arc = behind(arc, width, curvature);
    }
    return {rounded(std::abs(worst)), rounded(worst)};
}

} // namespace stavewright::glueup
