#include "tests/boards/MadeBoard.h"

#include <algorithm>
#include <cmath>

#include "core/geometry/PolygonOps.h"
#include "tests/boards/Noise.h"

namespace stavewright::boards {

namespace {

constexpr double pi = 3.14159265358979;

Length inchesOf(double n) { return Length::micrometres(std::llround(n * 25400)); }

Point pointAt(double x, double y) { return {inchesOf(x), inchesOf(y)}; }

/// Straight datum end, edges with crook and taper, a bite of wane now and then.
Polygon outlineOf(const BoardWish& wish, std::uint32_t seed, Chance& chance) {
    const double crook = chance.between(-0.15, 0.15);
    const double taper = chance.between(-0.4, 0.1);
    const double waneAt = chance.between(0.2, 0.8) * wish.inchesLong;
    const double wane = chance.happens(0.3) ? chance.between(0.1, 0.4) : 0;
    const auto bend = [&](double x) {
        const double t = x / wish.inchesLong;
        return 4 * crook * t * (1 - t);
    };
    Polygon ring;
    const int steps = std::max(8, static_cast<int>(wish.inchesLong / 3));
    for (int i = 0; i <= steps; ++i) {
        const double x = wish.inchesLong * i / steps;
        ring.push_back(pointAt(x, 0.2 + bend(x) + 0.03 * noise(seed, x / 5, 0)));
    }
    for (int i = steps; i >= 0; --i) {
        const double x = wish.inchesLong * i / steps;
        const double bite = wane * std::exp(-std::pow((x - waneAt) / 6, 2));
        ring.push_back(pointAt(x, wish.inchesWide - 0.2 + bend(x) + taper * x / wish.inchesLong -
                                      bite + 0.03 * noise(seed + 1, x / 5, 0)));
    }
    return ring;
}

FaceMark markOf(const MadeKnot& knot, bool onB) {
    const double size = onB ? knot.sizeOnB : 1;
    Ellipse ellipse;
    ellipse.centre = pointAt(knot.x + (onB ? knot.skewX : 0), knot.y + (onB ? knot.skewY : 0));
    ellipse.along = inchesOf(knot.along * size);
    ellipse.across = inchesOf(knot.across * size);
    ellipse.turnMicroradians = std::llround(knot.turn * 1e6);
    return {ellipsePolygon(ellipse.centre, ellipse.along, ellipse.across, ellipse.turnMicroradians),
            ellipse};
}

MadeKnot anyKnot(const BoardWish& wish, const MadeBoard& made, double size, Chance& chance) {
    MadeKnot knot;
    const double look = chance.between(0, 1);
    knot.look = look < 0.45   ? MadeKnot::Look::Sound
                : look < 0.65 ? MadeKnot::Look::Ringed
                : look < 0.9  ? MadeKnot::Look::Loose
                              : MadeKnot::Look::Hole;
    knot.x = chance.between(size, wish.inchesLong - size);
    knot.y = chance.between(0.3 + size / 2, wish.inchesWide - 0.7 - size / 2);
    knot.along = size;
    knot.across = size * chance.between(0.6, 1);
    knot.turn = chance.between(0, pi);
    knot.skewX = chance.between(-0.4, 0.4);
    // A branch runs out from the pith.
    knot.skewY = (knot.y - made.pithY) * chance.between(-0.25, -0.05);
    knot.sizeOnB = chance.happens(0.7) ? chance.between(0.6, 1) : 0;
    knot.seed = chance.bits();
    const bool isDark = knot.look == MadeKnot::Look::Loose || knot.look == MadeKnot::Look::Hole;
    if (wish.varied && !isDark) {
        knot.standsOut = chance.between(0.4, 1.1);
    }
    return knot;
}

bool clearOf(const MadeKnot& knot, const std::vector<MadeKnot>& others) {
    return std::all_of(others.begin(), others.end(), [&](const MadeKnot& other) {
        return std::hypot(knot.x - other.x, knot.y - other.y) >
               1.2 * (knot.along + other.along) / 2 + 0.5;
    });
}

void addKnots(MadeBoard& made, const BoardWish& wish, Chance& chance) {
    const double largest = std::min(3.0, 0.35 * wish.inchesWide);
    for (int i = 0; i < wish.knots; ++i) {
        for (int attempt = 0; attempt < 30; ++attempt) {
            // More small ones than large ones.
            const double t = std::pow(chance.between(0, 1), 1.8);
            const double size = wish.leastKnot * 1.08 + t * (largest - wish.leastKnot * 1.08);
            const MadeKnot knot = anyKnot(wish, made, size, chance);
            if (clearOf(knot, made.knots)) {
                made.knots.push_back(knot);
                break;
            }
        }
    }
}

DefectKind kindOf(MadeKnot::Look look) {
    switch (look) {
    case MadeKnot::Look::Sound:
    case MadeKnot::Look::Ringed:
        return DefectKind::SoundKnot;
    case MadeKnot::Look::Loose:
        return DefectKind::LooseKnot;
    case MadeKnot::Look::Hole:
        return DefectKind::KnotHole;
    }
    return DefectKind::Other;
}

void addTraps(MadeBoard& made, const BoardWish& wish, Chance& chance) {
    const auto add = [&](MadeTrap::What what, double length, double rise, double width) {
        const double x = chance.between(0.5, std::max(0.6, wish.inchesLong - 0.5 - length));
        const double y = chance.between(0.8, wish.inchesWide - 0.8);
        made.traps.push_back({what, x, y, x + length, y + rise, width, chance.bits()});
    };
    for (int i = chance.whole(0, 3); i > 0; --i) {
        add(MadeTrap::What::Resin, chance.between(0.8, 5), chance.between(-0.1, 0.1),
            chance.between(0.06, 0.25));
    }
    if (chance.happens(0.4)) {
        add(MadeTrap::What::Pith, chance.between(0.3, 0.9) * wish.inchesLong,
            chance.between(-0.3, 0.3), chance.between(0.1, 0.3));
    }
    for (int i = chance.whole(0, 3); i > 0; --i) {
        add(MadeTrap::What::Pencil, chance.between(-0.4, 0.4), chance.between(-4, 4), 0.035);
    }
    for (int i = chance.whole(0, 2); i > 0; --i) {
        add(MadeTrap::What::Chalk, chance.between(-2, 3), chance.between(-2, 2),
            chance.between(0.15, 0.35));
    }
    for (int i = chance.whole(0, 2); i > 0; --i) {
        add(MadeTrap::What::Check, chance.between(1.5, 6), chance.between(-0.2, 0.2),
            chance.between(0.02, 0.06));
    }
}

Polygon stripOf(const MadeTrap& trap) {
    const double half = std::max(trap.width / 2, 0.02);
    return normalised({pointAt(trap.x0, trap.y0 - half), pointAt(trap.x1, trap.y1 - half),
                       pointAt(trap.x1, trap.y1 + half), pointAt(trap.x0, trap.y0 + half)});
}

} // namespace

MadeBoard makeBoard(std::uint64_t seed, const BoardWish& wish) {
    Chance chance(seed);
    for (int i = 0; i < 4; ++i) {
        static_cast<void>(chance.bits()); // neighbouring seeds part
    }
    MadeBoard made;
    made.seed = chance.bits();
    made.dark = wish.dark;
    made.pithY = chance.between(-0.3, 1.3) * wish.inchesWide;
    made.pithDepth = chance.between(0.4, 5);
    made.ring = chance.between(0.08, 0.25);
    made.sapwood = wish.traps && chance.happens(0.4) ? chance.between(0.5, 2) : 0;
    made.board.mark = std::to_string(seed);
    made.board.outline = outlineOf(wish, made.seed, chance);
    made.board.thinnest = Length::inches(1);
    addKnots(made, wish, chance);
    if (wish.traps) {
        addTraps(made, wish, chance);
    }
    for (std::size_t i = 0; i < made.knots.size(); ++i) {
        const MadeKnot& knot = made.knots[i];
        Defect defect;
        defect.mark = "K" + std::to_string(i + 1);
        defect.kind = kindOf(knot.look);
        defect.onA = markOf(knot, false);
        if (knot.sizeOnB > 0) {
            defect.onB = markOf(knot, true);
            defect.through = true;
        }
        made.board.defects.push_back(defect);
    }
    for (const MadeTrap& trap : made.traps) {
        if (trap.what == MadeTrap::What::Check || trap.what == MadeTrap::What::Pith) {
            Defect defect;
            defect.mark = "C" + std::to_string(made.board.defects.size() + 1);
            defect.kind = trap.what == MadeTrap::What::Check ? DefectKind::Check : DefectKind::Pith;
            defect.onA = FaceMark{stripOf(trap), {}};
            made.board.defects.push_back(defect);
        }
    }
    return made;
}

} // namespace stavewright::boards
