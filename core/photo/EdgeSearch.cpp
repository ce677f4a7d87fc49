#include "core/photo/EdgeSearch.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "core/photo/LeastSquares.h"
#include "core/photo/Straighten.h"

namespace stavewright::photo {

namespace {

// Along the board; the very ends are left out, they may be split or sawn askew.
constexpr int stations = 96;
constexpr double endsLeftOut = 0.02;
/// How far from where the corners say an edge is looked for: crook, wane and the lens.
constexpr double reachInches = 1.25;
/// Board and background are compared over this much on either side.
constexpr double windowInches = 0.3;
/// Averaged along the board, so that neither grain nor noise decides.
constexpr double stripInches = 0.3;
/// Less of a step, in the logarithm of the light, is no edge.
constexpr double leastStep = 0.08;

/// Brightness, and how much warmer than grey, in logarithms so that light does not matter.
using Tone = std::array<double, 2>;

std::optional<Tone> toneAt(const ImageView& picture, Pixels at) {
    const double x = at.x - 0.5;
    const double y = at.y - 0.5;
    if (!(x >= 0 && y >= 0 && x < picture.width - 1 && y < picture.height - 1)) {
        return std::nullopt;
    }
    const int column = static_cast<int>(x);
    const int row = static_cast<int>(y);
    const double u = x - column;
    const double v = y - row;
    std::array<double, 3> logs{};
    for (std::size_t c = 0; c < 3; ++c) {
        const double above =
            picture.at(column, row)[c] * (1 - u) + picture.at(column + 1, row)[c] * u;
        const double below =
            picture.at(column, row + 1)[c] * (1 - u) + picture.at(column + 1, row + 1)[c] * u;
        logs[c] = std::log(10 + above * (1 - v) + below * v);
    }
    return Tone{(logs[0] + logs[1] + logs[2]) / 3, logs[0] - logs[2]};
}

/// Across one edge at one station, from outside the board to inside.
struct Profile {
    double x = 0;            ///< in board lengths
    std::vector<Tone> tones; ///< empty where the picture does not reach
};

struct Across {
    const ImageView& picture;
    const PhotoMap& map;
    double perInch = 1; ///< board lengths
    double step = 1;    ///< between tones, in board lengths
    int reach = 1;      ///< tones on either side of the expected edge
    int window = 1;     ///< tones

    /// `y` of the expected edge and `inwards`, +1 or -1, in the board frame.
    [[nodiscard]] Profile at(double x, double y, double inwards) const {
        Profile profile{x, {}};
        constexpr int strip = 4;
        for (int i = -reach; i <= reach; ++i) {
            Tone sum{};
            for (int k = -strip; k <= strip; ++k) {
                const auto seen = map.toPhotoPlain(
                    {x + perInch * stripInches * k / strip, y + inwards * step * i});
                const auto tone = seen ? toneAt(picture, *seen) : std::nullopt;
                if (!tone) {
                    return {x, {}};
                }
                sum[0] += (*tone)[0] / (2 * strip + 1);
                sum[1] += (*tone)[1] / (2 * strip + 1);
            }
            profile.tones.push_back(sum);
        }
        return profile;
    }

    struct Step {
        int at = 0;
        double height = 0; ///< inside less outside
    };
    /// The highest step of that channel and sign.
    [[nodiscard]] Step stepOf(const Profile& profile, std::size_t channel, double sign) const {
        Step best;
        const int count = static_cast<int>(profile.tones.size());
        std::vector<double> sums = {0};
        for (const Tone& tone : profile.tones) {
            sums.push_back(sums.back() + sign * tone[channel]);
        }
        for (int i = window; i + window <= count; ++i) {
            const auto k = static_cast<std::size_t>(i);
            const auto w = static_cast<std::size_t>(window);
            const double height = (sums[k + w] - 2 * sums[k] + sums[k - w]) / window;
            if (height > best.height) {
                best = {i, height};
            }
        }
        return best;
    }

    /// Where the tone is half way between both sides of the step, in board lengths from the
    /// expected edge.
    [[nodiscard]] double crossing(const Profile& profile, const Step& found, std::size_t channel,
                                  double sign) const {
        const auto tone = [&](int i) {
            return sign * profile.tones[static_cast<std::size_t>(i)][channel];
        };
        double outside = 0;
        double inside = 0;
        for (int k = window / 3; k < window; ++k) {
            outside += tone(found.at - 1 - k);
            inside += tone(found.at + k);
        }
        const double half = (outside + inside) / 2 / (window - window / 3);
        int nearest = found.at;
        int least = window;
        for (int i = found.at - window / 3; i < found.at + window / 3; ++i) {
            if (tone(i - 1) < half && tone(i) >= half && std::abs(i - found.at) < least) {
                nearest = i;
                least = std::abs(i - found.at);
            }
        }
        const double rise = tone(nearest) - tone(nearest - 1);
        const double part =
            rise > 1e-9 ? std::clamp((half - tone(nearest - 1)) / rise, 0.0, 1.0) : 0.5;
        return (nearest - 1 + part - reach) * step;
    }
};

/// How far each station's edge lies inwards of the expected one; nothing where it is not plain.
std::vector<std::optional<double>> edgeOf(const Across& across,
                                          const std::vector<Profile>& profiles) {
    std::size_t channel = 0;
    double sign = 1;
    double most = -1;
    for (const std::size_t tryChannel : {std::size_t{0}, std::size_t{1}}) {
        for (const double trySign : {1.0, -1.0}) {
            double sum = 0;
            for (const Profile& profile : profiles) {
                sum += across.stepOf(profile, tryChannel, trySign).height;
            }
            if (sum > most) {
                most = sum;
                channel = tryChannel;
                sign = trySign;
            }
        }
    }
    std::vector<std::optional<double>> found;
    for (const Profile& profile : profiles) {
        const auto step = across.stepOf(profile, channel, sign);
        found.push_back(step.height < leastStep
                            ? std::nullopt
                            : std::optional(across.crossing(profile, step, channel, sign)));
    }
    return found;
}

/// Two places that face each other.
struct Facing {
    double x = 0; ///< in board lengths
    double near = 0;
    double far = 0;
    Pixels nearSeen;
    Pixels farSeen;
    double wider = 0;   ///< than measured, in inches
    double perLens = 0; ///< what one unit more of lens adds to that
    double weight = 1;
};

/// wider = offset + slope (2 x - 1) - lens perLens, stations that do not fit having no weight.
struct WidthFit {
    std::array<double, 3> values{}; ///< offset, slope, lens
    double scatter = 0;             ///< inches
    double lensOff = 1;             ///< one standard deviation
    int fitting = 0;                ///< stations
};

double residualOf(const Facing& f, const std::array<double, 3>& v) {
    return f.wider - v[0] - v[1] * (2 * f.x - 1) + v[2] * f.perLens;
}

std::optional<WidthFit> fitOf(std::vector<Facing>& facing) {
    WidthFit fit;
    constexpr double exact = 0.004; // inches; finer than a picture shows
    Normal normal(3);
    for (int round = 0; round < 40; ++round) {
        normal = Normal(3);
        Vector right(3);
        for (const Facing& f : facing) {
            const std::array<double, 3> row = {1, 2 * f.x - 1, -f.perLens};
            for (std::size_t i = 0; i < 3; ++i) {
                for (std::size_t j = 0; j < 3; ++j) {
                    normal.at(i, j) += f.weight * row[i] * row[j];
                }
                right[i] += f.weight * row[i] * f.wider;
            }
        }
        const std::optional<Vector> solved = solve(normal, right);
        if (!solved) {
            return std::nullopt;
        }
        std::copy_n(solved->begin(), 3, fit.values.begin());
        std::vector<double> sizes;
        for (const Facing& f : facing) {
            sizes.push_back(std::abs(residualOf(f, fit.values)));
        }
        std::nth_element(sizes.begin(),
                         sizes.begin() + static_cast<std::ptrdiff_t>(sizes.size() / 2),
                         sizes.end());
        fit.scatter = std::max(exact, 1.48 * sizes[sizes.size() / 2]);
        for (Facing& f : facing) {
            const double size = std::abs(residualOf(f, fit.values));
            if (round < 20) { // least sum of sizes first: it forgives any notch
                f.weight = 1 / std::max(size, exact);
            } else {
                const double share = size / (4 * fit.scatter);
                f.weight = share < 1 ? std::pow(1 - share * share, 2) : 0;
            }
        }
    }
    fit.fitting = static_cast<int>(std::count_if(facing.begin(), facing.end(),
                                                 [](const Facing& f) { return f.weight > 0.3; }));
    const std::optional<Vector> column = solve(normal, {0, 0, 1});
    // An edge wanders slowly: neighbours are off together.
    constexpr double together = 2;
    fit.lensOff = column ? together * fit.scatter * std::sqrt((*column)[2]) : 1;
    return fit;
}

std::vector<Facing> facingOf(const ImageView& picture, const PhotoMap& map,
                             const BoardSize& board) {
    const double inches = board.length.toInches();
    const auto widthOf = [&](double x) {
        return (board.widthAtDatum.toInches() +
                (board.widthAtFar - board.widthAtDatum).toInches() * x) /
               inches;
    };
    const auto left = map.toPhotoPlain({0, widthOf(0) / 2});
    const auto right = map.toPhotoPlain({1, widthOf(1) / 2});
    if (!left || !right) {
        return {};
    }
    const double pixels = std::hypot(right->x - left->x, right->y - left->y);
    const double perInch = 1 / inches;
    Across across{picture, map, perInch, 0.5 / std::max(pixels, 1.0)};
    const double narrow = std::min(widthOf(0), widthOf(1));
    across.reach = static_cast<int>(std::min(reachInches * perInch, narrow / 3) / across.step);
    across.window = static_cast<int>(std::min(windowInches * perInch, narrow / 12) / across.step);
    if (across.window < 6) { // an inch of board is too few pixels
        return {};
    }
    std::vector<Profile> near;
    std::vector<Profile> far;
    for (int i = 0; i < stations; ++i) {
        const double x = endsLeftOut + (1 - 2 * endsLeftOut) * i / (stations - 1);
        near.push_back(across.at(x, 0, 1));
        far.push_back(across.at(x, widthOf(x), -1));
    }
    const auto nearEdge = edgeOf(across, near);
    const auto farEdge = edgeOf(across, far);
    PhotoMap::Values bent = map.values();
    constexpr double little = 0.01;
    bent.lens += little;
    const PhotoMap other(bent);
    std::vector<Facing> facing;
    for (std::size_t i = 0; i < near.size(); ++i) {
        if (!nearEdge[i] || !farEdge[i]) {
            continue;
        }
        Facing f;
        f.x = near[i].x;
        f.near = *nearEdge[i];
        f.far = widthOf(f.x) - *farEdge[i];
        const auto nearSeen = map.toPhotoPlain({f.x, f.near});
        const auto farSeen = map.toPhotoPlain({f.x, f.far});
        const auto nearBent = nearSeen ? other.toBoardPlain(*nearSeen) : std::nullopt;
        const auto farBent = farSeen ? other.toBoardPlain(*farSeen) : std::nullopt;
        if (!nearBent || !farBent) {
            continue;
        }
        f.nearSeen = *nearSeen;
        f.farSeen = *farSeen;
        f.wider = (f.far - f.near - widthOf(f.x)) * inches;
        const double wider =
            (farBent->y - nearBent->y - widthOf((farBent->x + nearBent->x) / 2)) * inches;
        f.perLens = (wider - f.wider) / little;
        facing.push_back(f);
    }
    return facing;
}

/// One pair of marks for a stretch of the board, from the stations in it that fit.
void addMarks(std::vector<EdgeMark>& marks, const std::vector<Facing>& facing, const PhotoMap& map,
              double from, double to) {
    double weight = 0;
    PhotoMap::Plain near;
    PhotoMap::Plain far;
    double x = 0;
    for (const Facing& f : facing) {
        if (f.x >= from && f.x < to) {
            weight += f.weight;
            x += f.weight * f.x;
            near.y += f.weight * f.near;
            far.y += f.weight * f.far;
        }
    }
    if (weight < 1) {
        return;
    }
    const auto nearSeen = map.toPhotoPlain({x / weight, near.y / weight});
    const auto farSeen = map.toPhotoPlain({x / weight, far.y / weight});
    if (nearSeen && farSeen) {
        marks.push_back({LongEdge::Near, PhotoPoint::at(*nearSeen)});
        marks.push_back({LongEdge::Far, PhotoPoint::at(*farSeen)});
    }
}

} // namespace

std::vector<EdgeMark> edgesFound(const ImageView& picture, const PhotoControls& controls,
                                 const BoardSize& board) {
    if (picture.isEmpty() || picture.width != controls.width || picture.height != controls.height ||
        controls.corners.size() != 4) {
        return {};
    }
    const Result<Straightening> start =
        straighten({controls.width, controls.height, controls.corners, {}, {}, {}}, board);
    if (!start) {
        return {};
    }
    const PhotoMap& map = start.value().map;
    std::vector<Facing> facing = facingOf(picture, map, board);
    constexpr int least = stations * 2 / 3;
    if (static_cast<int>(facing.size()) < least) {
        return {};
    }
    const std::optional<WidthFit> fit = fitOf(facing);
    constexpr double sureOfLens = 0.0045;
    constexpr double mostLens = 0.06;
    constexpr double mostOffset = 0.3; // inches; two corners off by a hand's error, no more
    if (!fit || fit->fitting < least || fit->lensOff > sureOfLens ||
        std::abs(map.values().lens + fit->values[2]) > mostLens ||
        std::abs(fit->values[0]) + std::abs(fit->values[1]) > mostOffset) {
        return {};
    }
    constexpr int pairs = 9;
    std::vector<EdgeMark> marks;
    for (int i = 0; i < pairs; ++i) {
        addMarks(marks, facing, map, static_cast<double>(i) / pairs,
                 static_cast<double>(i + 1) / pairs);
    }
    return marks;
}

} // namespace stavewright::photo
