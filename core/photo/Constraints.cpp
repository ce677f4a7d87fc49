#include "core/photo/Constraints.h"

#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include "core/photo/Straighten.h"

namespace stavewright::photo {

namespace {

// How exactly a hand places a mark on a screen, and reads a tape: common practice, no source.
constexpr double cornerPixels = 3;
constexpr double tapePixels = 1.5;
constexpr double edgePixels = 2;
constexpr double tapeInches = 1.0 / 32;
constexpr double edgeInches = 1.0 / 16; // a sawn edge is not straighter
/// Four corners say where an edge runs; between them it may be crooked, all its places together.
constexpr double crookInches = 1.0 / 4;
/// A corner's place along the board counts this much less once a tape is read.
constexpr double overruledBy = 30;

Error wrong(std::string sentence) { return {ErrorCode::BadInput, std::move(sentence), {}}; }

std::string nameOf(Corner corner) {
    constexpr std::array<const char*, 4> names = {
        "near corner of the datum end", "far corner of the datum end", "near corner of the far end",
        "far corner of the far end"};
    return names[static_cast<std::size_t>(corner)];
}

std::string placeText(PhotoPoint at) {
    return std::to_string(std::llround(at.pixels().x)) + ", " +
           std::to_string(std::llround(at.pixels().y));
}

/// A mark may stand a little outside: a corner just cut off by the picture.
bool nearPicture(PhotoPoint at, const PhotoControls& controls) {
    const Pixels p = at.pixels();
    const double room = 0.25 * std::hypot(controls.width, controls.height);
    return p.x >= -room && p.y >= -room && p.x <= controls.width + room &&
           p.y <= controls.height + room;
}

double cross(Pixels a, Pixels b, Pixels c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

Status checkCorners(const PhotoControls& controls) {
    std::array<std::optional<Pixels>, 4> at;
    for (const CornerMark& mark : controls.corners) {
        auto& place = at[static_cast<std::size_t>(mark.corner)];
        if (place) {
            return wrong("The " + nameOf(mark.corner) + " is marked twice; mark it once.");
        }
        place = mark.at.pixels();
    }
    if (!at[0] || !at[1] || !at[2] || !at[3]) {
        return Done{};
    }
    // Round the board: near datum, near end, far end, far datum.
    const std::array<Pixels, 4> ring = {*at[0], *at[2], *at[3], *at[1]};
    int left = 0;
    int right = 0;
    for (std::size_t i = 0; i < 4; ++i) {
        const double turn = cross(ring[i], ring[(i + 1) % 4], ring[(i + 2) % 4]);
        left += turn > 1 ? 1 : 0;
        right += turn < -1 ? 1 : 0;
    }
    if (left != 4 && right != 4) {
        return wrong(
            "The four corners do not go round a board: two of them are the same place, lie "
            "in a line, or are exchanged.");
    }
    return Done{};
}

std::optional<Pixels> cornerOf(const PhotoControls& controls, Corner corner) {
    for (const CornerMark& mark : controls.corners) {
        if (mark.corner == corner) {
            return mark.at.pixels();
        }
    }
    return std::nullopt;
}

Status check(const PhotoControls& controls, const BoardSize& board) {
    if (controls.width <= 0 || controls.height <= 0) {
        return wrong("The photograph has no pixels.");
    }
    if (board.length <= Length() || board.widthAtDatum <= Length() ||
        board.widthAtFar <= Length()) {
        return wrong("The board's length and both widths must be more than 0 to straighten a "
                     "photograph of it.");
    }
    for (const CornerMark& mark : controls.corners) {
        if (!nearPicture(mark.at, controls)) {
            return wrong("The " + nameOf(mark.corner) + " is marked at " + placeText(mark.at) +
                         ", far outside the photograph.");
        }
    }
    for (const EdgeMark& mark : controls.edges) {
        if (!nearPicture(mark.at, controls)) {
            return wrong("A place on an edge is marked at " + placeText(mark.at) +
                         ", far outside the photograph.");
        }
    }
    const std::vector<TapeReading>& tape = controls.tape;
    for (std::size_t i = 0; i < tape.size(); ++i) {
        if (!nearPicture(tape[i].at, controls)) {
            return wrong("A tape reading is marked at " + placeText(tape[i].at) +
                         ", far outside the photograph.");
        }
        for (std::size_t j = 0; j < i; ++j) {
            if (tape[i].at == tape[j].at && tape[i].reading != tape[j].reading) {
                return wrong("The tape is read twice at the same place with different readings.");
            }
        }
    }
    return checkCorners(controls);
}

} // namespace

Result<std::vector<Constraint>> constraintsOf(const PhotoControls& controls,
                                              const BoardSize& board) {
    if (const Status status = check(controls, board); !status) {
        return status.error();
    }
    const double length = static_cast<double>(board.length.inNanometres());
    const auto inLengths = [length](Length l) {
        return static_cast<double>(l.inNanometres()) / length;
    };
    const auto inches = [length](double n) {
        return n * static_cast<double>(Length::nanometresPerInch) / length;
    };
    const bool tapeDecides = controls.tape.size() >= 2;
    std::vector<Constraint> constraints;
    for (const CornerMark& mark : controls.corners) {
        const Point known = placeOf(mark.corner, board);
        constraints.push_back({mark.at.pixels(),
                               {},
                               1,
                               0,
                               inLengths(known.x),
                               tapeDecides ? cornerPixels * overruledBy : cornerPixels,
                               0,
                               tapeDecides});
        constraints.push_back(
            {mark.at.pixels(), {}, 0, 1, inLengths(known.y), cornerPixels, 0, false});
    }
    for (const TapeReading& reading : controls.tape) {
        constraints.push_back({reading.at.pixels(),
                               {},
                               1,
                               0,
                               inLengths(reading.reading),
                               tapePixels,
                               inches(tapeInches),
                               false});
    }
    const double rise = inLengths(board.widthAtFar - board.widthAtDatum);
    const double unit = std::hypot(1, rise);
    for (const EdgeMark& mark : controls.edges) {
        const double straight =
            controls.corners.size() == 4
                ? crookInches * std::sqrt(static_cast<double>(controls.edges.size()))
                : edgeInches;
        Constraint line{mark.at.pixels(), {}, 0, 1, 0, edgePixels, inches(straight), false};
        if (mark.edge == LongEdge::Far) {
            line.a = -rise / unit;
            line.b = 1 / unit;
            line.c = inLengths(board.widthAtDatum) / unit;
        }
        constraints.push_back(line);
    }
    // The tape says where an end is; that the end is square the corners still say.
    if (tapeDecides) {
        for (const auto& [near, far] : {std::pair(Corner::DatumNear, Corner::DatumFar),
                                        std::pair(Corner::EndNear, Corner::EndFar)}) {
            const auto a = cornerOf(controls, near);
            const auto b = cornerOf(controls, far);
            if (a && b) {
                constraints.push_back({*a, b, 1, 0, 0, cornerPixels, 0, false});
            }
        }
    }
    return constraints;
}

} // namespace stavewright::photo
