#include "tests/knots/OtherPictures.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "tests/boards/Noise.h"

namespace stavewright::knots {

namespace {

using boards::Chance;
using boards::grit;
using boards::noise;
using Colour = std::array<double, 3>;

constexpr double pi = std::numbers::pi;

Colour mix(const Colour& a, const Colour& b, double t) {
    const double s = std::clamp(t, 0.0, 1.0);
    return {a[0] + (b[0] - a[0]) * s, a[1] + (b[1] - a[1]) * s, a[2] + (b[2] - a[2]) * s};
}

Colour lit(Colour a, double by) {
    for (double& part : a) {
        part *= by;
    }
    return a;
}

enum class Look { Plain, Ringed, PaleRinged, Black, Rings, Spike, Bark };

struct Knot {
    Look look = Look::Plain;
    double x = 0, y = 0; ///< inches from the upper left corner of the board
    double rx = 0.5, ry = 0.5;
    double turn = 0;
    double depth = 0.5; ///< how much darker than the wood
    std::uint32_t seed = 0;

    [[nodiscard]] Box box() const {
        const double c = std::cos(turn);
        const double s = std::sin(turn);
        const double w = std::hypot(rx * c, ry * s);
        const double h = std::hypot(rx * s, ry * c);
        return {x - w, y - h, x + w, y + h};
    }
};

/// Long thin things that are no knots.
struct Streak {
    enum class What { Check, Resin, Pencil, Chalk };
    What what = What::Check;
    double x = 0, y = 0; ///< its middle, inches
    double half = 1;     ///< of its length
    double thick = 0.04;
    double turn = 0;

    /// 0 to 1.
    [[nodiscard]] double at(double px, double py) const {
        const double c = std::cos(turn);
        const double s = std::sin(turn);
        const double u = (c * (px - x) + s * (py - y)) / half;
        if (std::abs(u) >= 1) {
            return 0;
        }
        const double bend = 0.04 * std::sin(5 * u);
        const double v = std::abs(-s * (px - x) + c * (py - y) - bend);
        const double room = 0.5 * thick * (what == What::Check ? std::sqrt(1 - u * u) : 1);
        return std::clamp(1.5 - v / std::max(room, 1e-3), 0.0, 1.0);
    }
};

enum class Grain { Straight, Cathedral, Fleck, Porous, Plain };

struct Drawing {
    double length = 48, width = 8; ///< inches
    double perInch = 40;
    double marginX = 0, marginY = 0; ///< inches of background
    Colour backing{};
    Colour light{}, dark{}; ///< of the wood
    Grain grain = Grain::Straight;
    double pitch = 0.2;    ///< inches between lines
    double contrast = 0.3; ///< of the lines
    double fibre = 0.03;
    double warp = 0.2;
    double peak = 0; ///< where the arches of cathedral figure stand, inches
    std::vector<Knot> knots;
    std::vector<Streak> streaks;
    std::uint32_t seed = 0;
};

void addStreaks(Drawing& d, Chance& chance) {
    for (int i = chance.whole(0, 3); i > 0; --i) {
        Streak streak;
        streak.what = static_cast<Streak::What>(chance.whole(0, 3));
        const bool isDrawn =
            streak.what == Streak::What::Pencil || streak.what == Streak::What::Chalk;
        streak.half = isDrawn ? chance.between(0.4, 2) : chance.between(1, 4);
        streak.thick = streak.what == Streak::What::Resin   ? chance.between(0.08, 0.25)
                       : streak.what == Streak::What::Chalk ? chance.between(0.15, 0.35)
                                                            : chance.between(0.03, 0.07);
        streak.turn = isDrawn ? chance.between(0, pi) : chance.between(-0.04, 0.04);
        streak.x = chance.between(streak.half, d.length - streak.half);
        streak.y = chance.between(0.4, d.width - 0.4);
        d.streaks.push_back(streak);
    }
}

void drawStreak(const Streak& streak, Colour& colour, double x, double y) {
    const double on = streak.at(x, y);
    switch (streak.what) {
    case Streak::What::Check:
        colour = mix(colour, {40, 30, 22}, 0.9 * on);
        break;
    case Streak::What::Resin:
        colour = mix(colour, {150, 92, 36}, 0.6 * on);
        break;
    case Streak::What::Pencil:
        colour = mix(colour, {84, 84, 88}, 0.6 * on);
        break;
    case Streak::What::Chalk:
        colour = mix(colour, {240, 240, 236}, 0.8 * on);
        break;
    }
}

Drawing planned(Chance& chance) {
    constexpr std::array<std::array<Colour, 2>, 8> woods = {{{{{235, 208, 160}, {190, 140, 84}}},
                                                             {{{198, 140, 96}, {150, 86, 52}}},
                                                             {{{112, 82, 60}, {66, 44, 32}}},
                                                             {{{206, 176, 130}, {150, 112, 70}}},
                                                             {{{238, 222, 194}, {206, 178, 140}}},
                                                             {{{158, 150, 140}, {112, 104, 96}}},
                                                             {{{222, 186, 150}, {176, 112, 74}}},
                                                             {{{244, 226, 176}, {214, 164, 92}}}}};
    Drawing d;
    d.seed = chance.bits();
    d.length = chance.between(18, 96);
    d.width = chance.between(4, 13);
    const double pixels =
        chance.happens(0.2) ? chance.between(2500, 4000) : chance.between(900, 2200);
    d.perInch = std::max(pixels / d.length, 11.0);
    if (chance.happens(0.6)) {
        d.marginY = chance.between(0.08, 0.6) * d.width;
        d.marginX = chance.happens(0.6) ? chance.between(0.02, 0.1) * d.length : 0;
    }
    constexpr std::array<Colour, 6> backings = {
        {{6, 6, 8}, {0, 0, 0}, {60, 62, 66}, {120, 122, 126}, {236, 236, 234}, {52, 70, 92}}};
    d.backing = backings[static_cast<std::size_t>(chance.whole(0, 5))];
    const auto& wood = woods[static_cast<std::size_t>(chance.whole(0, 7))];
    d.light = wood[0];
    d.dark = wood[1];
    d.grain = static_cast<Grain>(chance.whole(0, 4));
    d.pitch = chance.between(0.06, 0.4);
    d.contrast = chance.between(0.15, 0.8);
    d.fibre = chance.between(0.005, 0.05);
    d.warp = chance.between(0.05, 0.5);
    d.peak = chance.between(-0.2, 1.2) * d.length;
    const double largest = std::min(3.2, 0.4 * d.width);
    // Wood that is dark already holds knots that are hardly darker.
    for (int i = chance.whole(0, 9); i > 0; --i) {
        Knot k;
        const double size = 0.3 + (largest - 0.3) * std::pow(chance.between(0, 1), 1.5);
        k.look = static_cast<Look>(chance.whole(0, 6));
        k.rx = size / 2;
        k.ry = k.rx * chance.between(0.6, 1.0);
        k.turn = chance.between(0, pi);
        if (k.look == Look::Spike) {
            k.rx = std::min(1.6 * k.rx, 0.2 * d.length);
            k.ry = 0.35 * k.rx;
            k.turn = pi / 2 + chance.between(-0.5, 0.5);
            k.rx = std::min(k.rx, 0.4 * d.width);
        }
        k.depth = chance.between(0.3, 0.7);
        k.seed = chance.bits();
        k.x = chance.between(1.2 * size, d.length - 1.2 * size);
        const double room = std::min(0.45 * d.width, k.box().y1 - k.y + 0.1);
        k.y = chance.between(room, d.width - room);
        const bool clear = std::all_of(d.knots.begin(), d.knots.end(), [&](const Knot& o) {
            return std::hypot(k.x - o.x, k.y - o.y) > 1.3 * (k.rx + o.rx) + 0.4;
        });
        if (clear) {
            d.knots.push_back(k);
        }
    }
    addStreaks(d, chance);
    return d;
}

Colour woodAt(const Drawing& d, double x, double y) {
    double yy = y;
    for (const Knot& k : d.knots) {
        const double dx = (x - k.x) / (2.6 * k.rx);
        const double dy = (y - k.y) / (2.2 * k.ry);
        const double pull = std::exp(-dx * dx - dy * dy);
        yy -= 0.75 * (y - k.y) * pull;
    }
    const double wander = d.warp * noise(d.seed, x / 9, yy / 4);
    double line = 0;
    switch (d.grain) {
    case Grain::Straight:
    case Grain::Plain:
        line = (yy + wander) / d.pitch;
        break;
    case Grain::Cathedral: {
        const double off = yy - 0.5 * d.width;
        line = ((x - d.peak) * 0.06 + 0.5 * off * off / (0.3 * d.width) + wander) / d.pitch;
        break;
    }
    case Grain::Fleck:
    case Grain::Porous:
        line = (yy + 0.04 * x + wander) / (1.5 * d.pitch);
        break;
    }
    double share = 0.5 + 0.5 * std::sin(2 * pi * line + 0.8 * noise(d.seed + 1, x / 3, line));
    share = d.grain == Grain::Plain ? 0.3 * share : share * share;
    Colour colour = mix(d.light, d.dark, d.contrast * share);
    double by = 1 + d.fibre * noise(d.seed + 2, x * 2, y * 40) +
                d.fibre * noise(d.seed + 3, x * 6, y * 110) +
                0.06 * noise(d.seed + 4, x / 6, y / 2);
    if (d.grain == Grain::Fleck && noise(d.seed + 5, x * 1.2 + y, y * 9) > 0.55) {
        by *= 1.07;
    }
    if (d.grain == Grain::Porous && noise(d.seed + 6, x * 3, y * 60) > 0.4) {
        by *= 1 - 0.3 * share;
    }
    return lit(colour, by);
}

void drawKnot(const Knot& k, Colour& colour, const Drawing& d, double x, double y) {
    const double c = std::cos(k.turn);
    const double s = std::sin(k.turn);
    const double u = (c * (x - k.x) + s * (y - k.y)) / k.rx;
    const double v = (-s * (x - k.x) + c * (y - k.y)) / k.ry;
    const double way = std::atan2(v, u);
    const double r = std::hypot(u, v) * (1 + 0.06 * std::sin(3 * way + (k.seed & 7U)) +
                                         0.04 * std::sin(5 * way + (k.seed >> 4 & 7U)));
    if (r > 1.8) {
        return;
    }
    const double in = 1 / (1 + std::exp((r - 1) * 22));
    const double wave = std::sin(r * 14 + 2 * noise(k.seed, 2 * u, 2 * v));
    Colour own = lit(mix(d.dark, {96, 56, 30}, 0.5), 1 - 0.6 * k.depth);
    switch (k.look) {
    case Look::Plain:
        own = lit(own, 1.05 + 0.05 * noise(k.seed + 1, 4 * u, 4 * v));
        break;
    case Look::Ringed:
        own = lit(own, r > 0.8 ? 0.6 : 1.1 + 0.06 * wave);
        break;
    case Look::PaleRinged:
        own = lit(mix(d.light, d.dark, 0.5), 0.98 + 0.04 * wave);
        own = lit(own, 1 - 0.5 * std::exp(-std::pow((r - 0.92) / 0.1, 2)));
        break;
    case Look::Black:
        own = {24, 18, 14};
        break;
    case Look::Rings:
        own = lit(own, 1 + 0.22 * wave);
        break;
    case Look::Spike:
        own = lit(own, 0.95 + 0.12 * std::sin(9 * v));
        break;
    case Look::Bark:
        own = r > 0.78 ? Colour{40, 28, 20} : lit(own, 0.9 + 0.08 * wave);
        break;
    }
    colour = lit(colour, 1 - 0.15 * std::exp(-std::pow((r - 1) / 0.35, 2)) * (1 - in));
    colour = mix(colour, own, in);
}

/// A running mean over `reach` pixels to each side, both ways.
void blur(std::vector<float>& values, int width, int height, int reach) {
    std::vector<float> next(values.size());
    for (const bool down : {false, true}) {
        for (int y = 0; y < height; ++y) {
            for (int x = 0; x < width; ++x) {
                for (int c = 0; c < 3; ++c) {
                    float sum = 0;
                    for (int k = -reach; k <= reach; ++k) {
                        const int xx = down ? x : std::clamp(x + k, 0, width - 1);
                        const int yy = down ? std::clamp(y + k, 0, height - 1) : y;
                        sum += values[static_cast<std::size_t>((yy * width + xx) * 3 + c)];
                    }
                    next[static_cast<std::size_t>((y * width + x) * 3 + c)] =
                        sum / static_cast<float>(2 * reach + 1);
                }
            }
        }
        values.swap(next);
    }
}

} // namespace

KnotPicture otherPicture(std::uint64_t seed) {
    Chance chance(seed * 977 + 5);
    for (int i = 0; i < 3; ++i) {
        static_cast<void>(chance.bits());
    }
    const Drawing d = planned(chance);
    const int width = static_cast<int>((d.length + 2 * d.marginX) * d.perInch);
    const int height = static_cast<int>((d.width + 2 * d.marginY) * d.perInch);
    const double gamma = chance.between(0.75, 1.3);
    const double exposure = chance.between(0.6, 1.1);
    const double lean = chance.between(-0.5, 0.5);
    const double leanDown = chance.between(-0.25, 0.25);
    const double cast = chance.between(0.85, 1.12);
    const double specks = chance.between(0, 9);
    const bool grey = chance.happens(0.08);
    const int soft = chance.happens(0.4) ? chance.whole(1, 2) : 0;
    const double lamp = chance.happens(0.3) ? chance.between(0.2, 0.8) : -1;
    std::vector<float> values(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) *
                              3);
    for (int row = 0; row < height; ++row) {
        for (int column = 0; column < width; ++column) {
            const double x = (column + 0.5) / d.perInch - d.marginX;
            const double y = (row + 0.5) / d.perInch - d.marginY;
            const double wobble = d.marginY > 0 ? 0.05 * noise(d.seed + 8, x / 5, 0) : 0;
            Colour colour = d.backing;
            if (x >= 0 && x <= d.length && y >= wobble && y <= d.width + wobble) {
                colour = woodAt(d, x, y);
                for (const Knot& k : d.knots) {
                    drawKnot(k, colour, d, x, y);
                }
                for (const Streak& streak : d.streaks) {
                    drawStreak(streak, colour, x, y);
                }
            } else {
                colour = lit(colour, 1 + 0.05 * noise(d.seed + 9, x, y));
            }
            const double u = static_cast<double>(column) / width - 0.5;
            const double v = static_cast<double>(row) / height - 0.5;
            double light = exposure * (1 + lean * u + leanDown * v);
            if (lamp >= 0) {
                light *= 0.75 + 0.45 * std::exp(-std::pow((u + 0.5 - lamp) / 0.25, 2) - v * v);
            }
            colour = lit(colour, light);
            colour[0] *= 2 - cast;
            colour[2] *= cast;
            if (grey) {
                colour.fill(0.3 * colour[0] + 0.59 * colour[1] + 0.11 * colour[2]);
            }
            for (std::size_t c = 0; c < 3; ++c) {
                values[static_cast<std::size_t>(row * width + column) * 3 + c] =
                    static_cast<float>(255 * std::pow(std::max(0.0, colour[c]) / 255, gamma));
            }
        }
    }
    if (soft > 0) {
        blur(values, width, height, soft);
    }
    KnotPicture picture;
    picture.name = "other " + std::to_string(seed);
    picture.board = picture.name;
    picture.kind = "other";
    picture.image = photo::Image(width, height);
    for (int row = 0; row < height; ++row) {
        for (int column = 0; column < width; ++column) {
            for (std::size_t c = 0; c < 3; ++c) {
                const double speck =
                    specks * grit(d.seed + static_cast<std::uint32_t>(c), column, row);
                const auto i = static_cast<std::size_t>(row * width + column) * 3 + c;
                picture.image.at(column, row)[c] = static_cast<std::uint8_t>(
                    std::clamp(static_cast<double>(values[i]) + speck + 0.5, 0.0, 255.0));
            }
        }
    }
    for (const Knot& k : d.knots) {
        const Box b = k.box();
        const double px = d.perInch;
        TrueMark mark;
        mark.box = {(b.x0 + d.marginX) * px, (b.y0 + d.marginY) * px, (b.x1 + d.marginX) * px,
                    (b.y1 + d.marginY) * px};
        mark.counts = b.longer() >= 0.5 ? TrueMark::Counts::Knot : TrueMark::Counts::Neither;
        mark.kind = k.look == Look::Black                            ? DefectKind::KnotHole
                    : k.look == Look::Bark || k.look == Look::Ringed ? DefectKind::LooseKnot
                                                                     : DefectKind::SoundKnot;
        picture.marks.push_back(mark);
    }
    for (const Streak& s : d.streaks) {
        if (s.what == Streak::What::Check) {
            const double rise = std::abs(s.half * std::sin(s.turn)) + 0.5 * s.thick;
            const double px = d.perInch;
            picture.marks.push_back(
                {{(s.x - s.half + d.marginX) * px, (s.y - rise + d.marginY) * px,
                  (s.x + s.half + d.marginX) * px, (s.y + rise + d.marginY) * px},
                 TrueMark::Counts::NoKnot,
                 DefectKind::Check});
        }
    }
    return picture;
}

} // namespace stavewright::knots
