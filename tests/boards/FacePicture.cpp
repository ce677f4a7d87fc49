// What a face of a made board looks like: growth rings cut by the face, grain that parts round the
// knots, and everything that may be taken for a knot.
#include <algorithm>
#include <array>
#include <cmath>

#include "core/geometry/PolygonOps.h"
#include "tests/boards/MadeBoard.h"
#include "tests/boards/Noise.h"

namespace stavewright::boards {

namespace {

struct Colour {
    double r = 0;
    double g = 0;
    double b = 0;
    Colour& operator*=(double f) {
        r *= f;
        g *= f;
        b *= f;
        return *this;
    }
};

Colour mixed(Colour a, const Colour& b, double share) {
    a.r += (b.r - a.r) * share;
    a.g += (b.g - a.g) * share;
    a.b += (b.b - a.b) * share;
    return a;
}

double step(double from, double to, double x) {
    const double t = std::clamp((x - from) / (to - from), 0.0, 1.0);
    return t * t * (3 - 2 * t);
}

class Face {
  public:
    Face(const MadeBoard& made, BoardFace face)
        : m_made(made)
        , m_onB(face == BoardFace::B)
        , m_seed(made.seed + (m_onB ? 77U : 0U)) {
        for (MadeKnot knot : made.knots) {
            if (m_onB) {
                if (knot.sizeOnB <= 0) {
                    continue;
                }
                knot.x += knot.skewX;
                knot.y += knot.skewY;
                knot.along *= knot.sizeOnB;
                knot.across *= knot.sizeOnB;
            }
            m_knots.push_back(knot);
        }
        m_early = made.dark ? Colour{158, 110, 72} : Colour{226, 196, 148};
        m_late = made.dark ? Colour{104, 66, 40} : Colour{186, 140, 88};
        // Every tree has its own tint.
        Chance chance(made.seed);
        for (Colour* colour : {&m_early, &m_late}) {
            colour->r *= chance.between(0.95, 1.05);
            colour->g *= chance.between(0.94, 1.06);
            colour->b *= chance.between(0.85, 1.05);
        }
    }

    [[nodiscard]] Colour at(double x, double y) const {
        Colour colour = wood(x, y);
        traps(colour, x, y, false);
        for (const MadeKnot& knot : m_knots) {
            draw(knot, colour, x, y);
        }
        traps(colour, x, y, true);
        return colour;
    }

  private:
    /// Distance from the heart of the log, pushed aside by every knot as water by a post.
    [[nodiscard]] double ringAt(double x, double y) const {
        double aside = y;
        for (const MadeKnot& knot : m_knots) {
            const double dx = (x - knot.x) / 1.7;
            const double dy = y - knot.y;
            const double r = 0.55 * std::max(knot.across, 0.6 * knot.along);
            const double d2 = dx * dx + dy * dy;
            aside -= dy * r * r / std::max(d2, r * r) * std::exp(-d2 / (14 * r * r));
        }
        const double wander = 0.5 * noise(m_made.seed + 5, x / 16, 0);
        const double depth = std::max(0.05, m_made.pithDepth + (m_onB ? 1.0 : 0.0) + 0.02 * x +
                                                0.8 * noise(m_made.seed + 6, x / 22, 0));
        return std::hypot(aside - m_made.pithY - wander, depth) +
               0.12 * noise(m_made.seed + 7, x / 6, y / 1.5);
    }

    [[nodiscard]] Colour wood(double x, double y) const {
        const double ring = ringAt(x, y) / m_made.ring;
        const double uneven = ring + 0.35 * noise(m_made.seed + 8, ring, 0.5);
        const double t = uneven - std::floor(uneven);
        // Early wood slowly darkens, late wood ends at once.
        double late = std::pow(t, 2.5) * (1 - step(0.93, 1, t));
        late *= 0.75 + 0.25 * noise(m_made.seed + 9, std::floor(uneven), 0.5);
        Colour colour = mixed(m_early, m_late, std::clamp(late, 0.0, 1.0));
        const double fibre = 0.035 * noise(m_seed + 10, x * 1.5, y * 45) +
                             0.03 * noise(m_seed + 11, x * 4, y * 90) +
                             0.05 * roughNoise(m_seed + 12, x / 9, y / 2);
        // Marks of the saw stand across.
        const double saw = 0.02 * noise(m_seed + 13, x * 7 + y * 0.4, y / 6);
        colour *= 1 + fibre + saw;
        if (m_made.sapwood > 0) {
            const double edge = sapwoodEdge(x);
            const double sap = step(-0.08, 0.08, y - edge);
            colour = mixed(
                colour, {std::min(255.0, colour.r * 1.12), colour.g * 1.14, colour.b * 1.2}, sap);
            colour *= 1 - 0.12 * (1 - sap);
        }
        return colour;
    }

    [[nodiscard]] double sapwoodEdge(double x) const {
        const Rect box = boundingBox(m_made.board.outline);
        return box.y1.toInches() - m_made.sapwood + 0.4 * noise(m_made.seed + 14, x / 10, 0);
    }

    void draw(const MadeKnot& knot, Colour& colour, double x, double y) const {
        const double c = std::cos(knot.turn);
        const double s = std::sin(knot.turn);
        const double u = (c * (x - knot.x) + s * (y - knot.y)) / (knot.along / 2);
        const double v = (-s * (x - knot.x) + c * (y - knot.y)) / (knot.across / 2);
        const double round = std::hypot(u, v);
        if (round > 2.2) {
            return;
        }
        const double angle = std::atan2(v, u);
        const double rho =
            round * (1 + 0.07 * noise(knot.seed, 2 * std::cos(angle), 2 * std::sin(angle)));
        const double size = std::sqrt(knot.along * knot.across);
        const double soft = std::min(0.25, 0.04 / size);
        const double in = 1 - step(1 - soft, 1 + soft, rho);
        // The wood round it is a little darker.
        colour *= 1 - 0.14 * std::exp(-std::pow(std::max(0.0, rho - 1) / 0.3, 2)) * (1 - in);
        const double rings = 0.5 + 0.5 * std::sin(rho * size * 32 + 3 * noise(knot.seed + 1, u, v));
        const double mottled = roughNoise(knot.seed + 2, 3 * u, 3 * v);
        Colour own = mixed(m_late, {120, 74, 42}, 0.55);
        switch (knot.look) {
        case MadeKnot::Look::Sound:
            own *= 0.78 - 0.12 * rings + 0.1 * mottled;
            break;
        case MadeKnot::Look::Ringed:
            own = mixed(mixed(m_early, m_late, 0.35), own, 0.25);
            own *= 0.97 - 0.07 * rings + 0.06 * mottled;
            own *= 1 - 0.55 * std::exp(-std::pow((rho - 0.9) / 0.11, 2));
            break;
        case MadeKnot::Look::Loose:
            own *= 0.55 - 0.12 * rings + 0.12 * mottled;
            own *= 1 - 0.7 * std::exp(-std::pow((rho - 0.93) / 0.1, 2));
            break;
        case MadeKnot::Look::Hole:
            own = {26, 20, 16};
            own *= 1 + 0.5 * mottled + (v > 0 ? 0.8 * std::max(0.0, rho - 0.6) : 0);
            break;
        }
        if (knot.look != MadeKnot::Look::Hole && (knot.seed & 3U) == 0) {
            // Drying opens a star in it.
            for (int i = 0; i < 3; ++i) {
                const double way = i * 2.1 + (knot.seed >> 8) % 7;
                const double off = std::abs(u * std::sin(way) - v * std::cos(way));
                if (u * std::cos(way) + v * std::sin(way) > 0 && rho < 0.85) {
                    own *= 1 - 0.7 * (1 - step(0.02, 0.07, off));
                }
            }
        }
        colour = mixed(colour, own, in * knot.standsOut);
    }

    void traps(Colour& colour, double x, double y, bool onTop) const {
        for (const MadeTrap& trap : m_made.traps) {
            const bool drawn =
                trap.what == MadeTrap::What::Pencil || trap.what == MadeTrap::What::Chalk;
            // Drawn marks and checks are on face A only.
            if (drawn != onTop || (m_onB && trap.what != MadeTrap::What::Pith)) {
                continue;
            }
            const double dx = trap.x1 - trap.x0;
            const double dy = trap.y1 - trap.y0;
            const double long2 = dx * dx + dy * dy + 1e-9;
            const double t = ((x - trap.x0) * dx + (y - trap.y0) * dy) / long2;
            if (t < -0.02 || t > 1.02) {
                continue;
            }
            const double off = std::abs((x - trap.x0) * dy - (y - trap.y0) * dx) / std::sqrt(long2);
            const double wave = 0.3 * trap.width * noise(trap.seed, 3 * x, 3 * y);
            double half = trap.width / 2 + wave;
            const bool lens =
                trap.what == MadeTrap::What::Resin || trap.what == MadeTrap::What::Check;
            if (lens) {
                half *= 4 * std::clamp(t, 0.0, 1.0) * (1 - std::clamp(t, 0.0, 1.0));
            }
            const double on = 1 - step(0.6, 1.2, off / std::max(half, 1e-6));
            if (on <= 0) {
                continue;
            }
            switch (trap.what) {
            case MadeTrap::What::Resin:
                colour = mixed(colour, {146, 84, 30}, 0.65 * on);
                break;
            case MadeTrap::What::Pith:
                colour = mixed(colour, {120, 78, 44}, 0.6 * on);
                break;
            case MadeTrap::What::Check:
                colour = mixed(colour, {48, 34, 24}, 0.9 * on);
                break;
            case MadeTrap::What::Pencil:
                colour = mixed(colour, {70, 70, 76}, 0.6 * on);
                break;
            case MadeTrap::What::Chalk:
                colour = mixed(
                    colour, {238, 238, 232},
                    on * std::clamp(0.6 + 0.5 * noise(trap.seed + 1, 25 * x, 25 * y), 0.0, 0.95));
                break;
            }
        }
    }

    const MadeBoard& m_made;
    bool m_onB;
    std::uint32_t m_seed;
    std::vector<MadeKnot> m_knots;
    Colour m_early;
    Colour m_late;
};

std::uint8_t byteOf(double value) {
    return static_cast<std::uint8_t>(std::clamp(value + 0.5, 0.0, 255.0));
}

} // namespace

photo::Image facePicture(const MadeBoard& board, BoardFace face, double pixelsPerInch) {
    const Rect box = boundingBox(board.board.outline);
    const double top = box.y1.toInches();
    const double bottom = box.y0.toInches();
    photo::Image image(
        std::max(1, static_cast<int>(std::lround(box.x1.toInches() * pixelsPerInch))),
        std::max(1, static_cast<int>(std::lround((top - bottom) * pixelsPerInch))));
    const Face look(board, face);
    for (int column = 0; column < image.width(); ++column) {
        const double x = (column + 0.5) / pixelsPerInch;
        const auto across =
            acrossAt(board.board.outline, Length::micrometres(std::llround(x * 25400)));
        if (!across) {
            continue;
        }
        for (int row = 0; row < image.height(); ++row) {
            const double y = face == BoardFace::A ? top - (row + 0.5) / pixelsPerInch
                                                  : bottom + (row + 0.5) / pixelsPerInch;
            if (y < across->from.toInches() || y > across->to.toInches()) {
                continue;
            }
            const Colour colour = look.at(x, y);
            std::uint8_t* pixel = image.at(column, row);
            pixel[0] = byteOf(colour.r);
            pixel[1] = byteOf(colour.g);
            pixel[2] = byteOf(colour.b);
        }
    }
    return image;
}

} // namespace stavewright::boards
