#include "core/lumber/BoardShape.h"

#include <algorithm>

#include "core/geometry/PolygonOps.h"

namespace stavewright {

namespace {

/// Enough for a bend to look like one and to stay within a hundredth of its depth.
constexpr int stretchesOfABend = 8;

/// 4 whole x (length - x) / length^2, to the nearest nanometre: the bend at x. With boards of at
/// most 12 m the product stays inside 128 bits.
Length bendAt(Length whole, Length x, Length length) {
    const Int128 product =
        (x * (length - x)).inSquareNanometres() * 4 * static_cast<Int128>(whole.inNanometres());
    const Int128 square = (length * length).inSquareNanometres();
    const Int128 half = product < 0 ? -square / 2 : square / 2;
    return Length::nanometres(static_cast<std::int64_t>((product + half) / square));
}

/// Between two ends, to the nearest nanometre towards zero.
Length between(Length from, Length to, Length x, Length length) {
    const Int128 product = ((to - from) * x).inSquareNanometres();
    return from + Length::nanometres(static_cast<std::int64_t>(product / length.inNanometres()));
}

/// The stations, with more of them where a bend needs them.
std::vector<Station> withStationsForABend(const Polygon& outline) {
    const Rect box = boundingBox(outline);
    std::vector<Length> xs;
    for (const Point& corner : outline) {
        xs.push_back(corner.x);
    }
    for (int i = 1; i < stretchesOfABend; ++i) {
        const Length x = box.x0 + box.length() * i / stretchesOfABend;
        const bool isNear = std::any_of(xs.begin(), xs.end(), [&](Length other) {
            return abs(other - x) * (2 * stretchesOfABend) < box.length();
        });
        if (!isNear) {
            xs.push_back(x);
        }
    }
    std::sort(xs.begin(), xs.end());
    xs.erase(std::unique(xs.begin(), xs.end()), xs.end());
    std::vector<Station> stations;
    for (const Length x : xs) {
        if (const auto across = acrossAt(outline, x)) {
            stations.push_back({x, across->from, across->to});
        }
    }
    return stations;
}

} // namespace

Polygon outlineOf(const PlainOutline& plain) {
    const int pieces = plain.crook == Length() ? 1 : stretchesOfABend;
    // A board that bends towards the near edge is moved so that it still lies above y = 0.
    const Length lift = std::max(Length(), -plain.crook);
    std::vector<Station> stations;
    for (int i = 0; i <= pieces; ++i) {
        const Length x = plain.length * i / pieces;
        const Length low = lift + bendAt(plain.crook, x, plain.length);
        const Length wide = between(plain.widthAtDatum, plain.widthAtFar, x, plain.length);
        stations.push_back({x, low, low + wide});
    }
    return outlineOf(stations);
}

std::optional<PlainOutline> plainOutlineOf(const Polygon& outline) {
    if (outline.size() < 4) {
        return std::nullopt;
    }
    const Rect box = boundingBox(outline);
    if (box.x0 != Length() || box.length() <= Length() ||
        box.length() > Length::millimetres(12'000)) {
        return std::nullopt;
    }
    const EndWidths widths = endWidthsOf(outline);
    PlainOutline plain{box.length(), widths.atDatum, widths.atFar, Length()};
    if (outline.size() > 4) {
        plain.crook = crookOf(outline);
    }
    // The same corners, whichever of them the ring begins with.
    const Polygon again = outlineOf(plain);
    if (again.size() != outline.size()) {
        return std::nullopt;
    }
    for (std::size_t shift = 0; shift < again.size(); ++shift) {
        bool same = true;
        for (std::size_t i = 0; i < again.size() && same; ++i) {
            same = again[i] == outline[(i + shift) % outline.size()];
        }
        if (same) {
            return plain;
        }
    }
    return std::nullopt;
}

std::vector<Station> stationsOf(const Polygon& outline) {
    std::vector<Length> xs;
    for (const Point& corner : outline) {
        xs.push_back(corner.x);
    }
    std::sort(xs.begin(), xs.end());
    xs.erase(std::unique(xs.begin(), xs.end()), xs.end());
    std::vector<Station> stations;
    for (const Length x : xs) {
        if (const auto across = acrossAt(outline, x)) {
            stations.push_back({x, across->from, across->to});
        }
    }
    return stations;
}

Polygon outlineOf(const std::vector<Station>& stations) {
    Polygon ring;
    for (const Station& station : stations) {
        ring.push_back({station.x, station.nearEdge});
    }
    for (auto station = stations.rbegin(); station != stations.rend(); ++station) {
        ring.push_back({station->x, station->farEdge});
    }
    return normalised(std::move(ring));
}

Polygon ofLength(const Polygon& outline, Length length) {
    std::vector<Station> stations = stationsOf(outline);
    const auto end = acrossAt(outline, std::min(length, boundingBox(outline).x1));
    if (!end) {
        return outline;
    }
    std::erase_if(stations, [length](const Station& station) { return station.x >= length; });
    stations.push_back({length, end->from, end->to});
    return outlineOf(stations);
}

Length crookOf(const Polygon& outline) {
    const Rect box = boundingBox(outline);
    const auto low = acrossAt(outline, box.x0);
    const auto middle = acrossAt(outline, box.x0 + box.length() / 2);
    const auto high = acrossAt(outline, box.x1);
    if (!low || !middle || !high) {
        return {};
    }
    return middle->from - (low->from + high->from) / 2;
}

Polygon bent(const Polygon& outline, Length crook) {
    if (const auto plain = plainOutlineOf(outline)) {
        PlainOutline other = *plain;
        other.crook = crook;
        return outlineOf(other);
    }
    const Length more = crook - crookOf(outline);
    if (more == Length()) {
        return outline;
    }
    const Rect box = boundingBox(outline);
    std::vector<Station> stations = withStationsForABend(outline);
    for (Station& station : stations) {
        const Length shift = bendAt(more, station.x - box.x0, box.length());
        station.nearEdge += shift;
        station.farEdge += shift;
    }
    return outlineOf(stations);
}

EndWidths endWidthsOf(const Polygon& outline) {
    const Rect box = boundingBox(outline);
    const auto low = acrossAt(outline, box.x0);
    const auto high = acrossAt(outline, box.x1);
    return {low ? low->length() : Length(), high ? high->length() : Length()};
}

Board withOutline(Board board, Polygon outline) {
    const Length before = lengthOf(board);
    board.outline = std::move(outline);
    const Length after = lengthOf(board);
    std::vector<LookedAt> kept;
    for (LookedAt seen : board.lookedAt) {
        if (seen.stretch.to >= before) {
            seen.stretch.to = after;
        }
        seen.stretch.to = std::min(seen.stretch.to, after);
        if (seen.stretch.from < seen.stretch.to) {
            kept.push_back(seen);
        }
    }
    board.lookedAt = std::move(kept);
    const Rect box = boundingBox(board.outline);
    std::vector<SawnRegion> regions;
    for (SawnRegion region : board.sawn) {
        if (region.where.x1 >= before) {
            region.where.x1 = after;
        }
        region.where.x1 = std::min(region.where.x1, after);
        if (!region.where.isEmpty() && region.where.overlaps(box)) {
            regions.push_back(region);
        }
    }
    board.sawn = std::move(regions);
    return board;
}

} // namespace stavewright
