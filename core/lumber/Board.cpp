#include "core/lumber/Board.h"

#include <algorithm>
#include <boost/multiprecision/cpp_int.hpp>

#include "core/geometry/PolygonOps.h"

namespace stavewright {

namespace {

/// Products of a size and four more, as they stand in the warp formula.
using Wide = boost::multiprecision::int256_t;

Wide wide(Length length) { return length.inNanometres(); }

/// What even warp takes from a piece of this size, rounded up:
/// bow (l/L)^2 + cup (w/W)^2 + twist/2 (l/L)(w/W), over the common divisor 2 L^2 W^2.
Length evenLoss(const Warp& warp, Length pieceLength, Length pieceWidth, Length boardLength,
                Length boardWidth) {
    const Wide l = wide(pieceLength);
    const Wide w = wide(pieceWidth);
    const Wide wholeL = wide(boardLength);
    const Wide wholeW = wide(boardWidth);
    const Wide divisor = 2 * wholeL * wholeL * wholeW * wholeW;
    const Wide sum = 2 * wide(warp.bow) * l * l * wholeW * wholeW +
                     2 * wide(warp.cup) * w * w * wholeL * wholeL +
                     wide(warp.twist) * l * w * wholeL * wholeW;
    return Length::nanometres(static_cast<std::int64_t>((sum + divisor - 1) / divisor));
}

/// The piece reaches into that third of the board in which its warp sits.
bool reachesWarpedThird(const Board& board, Stretch along) {
    const Rect box = boundingBox(board.outline);
    return board.warp.where == Warp::Where::MostlyAtDatumEnd
               ? (along.from - box.x0) * 3 < box.length()
               : (box.x1 - along.to) * 3 < box.length();
}

} // namespace

Length lengthOf(const Board& board) { return boundingBox(board.outline).length(); }

Length widthOf(const Board& board) {
    // Between the corners of the outline the width is linear, so it is greatest at one of them.
    Length widest;
    for (const Point& corner : board.outline) {
        if (const auto across = acrossAt(board.outline, corner.x)) {
            widest = std::max(widest, across->length());
        }
    }
    return widest;
}

BoardFeet exactBoardFeet(const Board& board) {
    return BoardFeet::ofVolume(areaOf(board.outline) * board.quarter.nominal());
}

BoardFeet boardFeetOf(const Board& board) { return board.billed.value_or(exactBoardFeet(board)); }

Money costOf(const Board& board) { return priceOf(board.pricePerBoardFoot, boardFeetOf(board)); }

Length reachableThickness(const Board& board, Stretch along, Length width, Length cleaning) {
    const Length boardLength = lengthOf(board);
    const Length boardWidth = widthOf(board);
    if (boardLength <= Length() || boardWidth <= Length()) {
        return {};
    }
    const Warp& warp = board.warp;
    const Length flat = board.thinnest - cleaning;
    if (warp.where == Warp::Where::Even) {
        return flat - evenLoss(warp, along.length(), width, boardLength, boardWidth);
    }
    if (!reachesWarpedThird(board, along)) {
        return flat;
    }
    const Length halfTwist = (warp.twist + Length::nanometres(1)) / 2; // rounded up
    return flat - warp.bow - warp.cup - halfTwist;
}

std::vector<Stretch> notLookedAt(const Board& board, BoardFace face, Stretch within) {
    std::vector<Stretch> looked;
    for (const LookedAt& seen : board.lookedAt) {
        if (seen.face == face) {
            looked.push_back(seen.stretch);
        }
    }
    std::sort(looked.begin(), looked.end(),
              [](const Stretch& a, const Stretch& b) { return a.from < b.from; });
    std::vector<Stretch> open;
    Length reached = within.from;
    for (const Stretch& seen : looked) {
        if (seen.from >= within.to) {
            break;
        }
        if (seen.from > reached) {
            open.push_back({reached, seen.from});
        }
        reached = std::max(reached, seen.to);
    }
    if (reached < within.to) {
        open.push_back({reached, within.to});
    }
    return open;
}

std::vector<QuickLook> quicklyLookedAt(const Board& board, BoardFace face, Stretch within) {
    // Between two neighbouring ends of looks nothing changes.
    std::vector<Length> ends = {within.from, within.to};
    for (const LookedAt& seen : board.lookedAt) {
        if (seen.face == face) {
            ends.push_back(std::clamp(seen.stretch.from, within.from, within.to));
            ends.push_back(std::clamp(seen.stretch.to, within.from, within.to));
        }
    }
    std::sort(ends.begin(), ends.end());
    std::vector<QuickLook> looks;
    for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
        const Stretch piece{ends[i], ends[i + 1]};
        std::optional<Length> least;
        bool looked = false;
        bool thorough = false;
        for (const LookedAt& seen : board.lookedAt) {
            const bool holds =
                seen.face == face && seen.stretch.from <= piece.from && piece.to <= seen.stretch.to;
            if (!holds) {
                continue;
            }
            looked = true;
            thorough = thorough || !seen.knotsUnder;
            if (seen.knotsUnder) {
                least = std::min(least.value_or(*seen.knotsUnder), *seen.knotsUnder);
            }
        }
        if (piece.from >= piece.to || !looked || thorough || !least) {
            continue;
        }
        if (!looks.empty() && looks.back().stretch.to == piece.from &&
            looks.back().knotsUnder == *least) {
            looks.back().stretch.to = piece.to;
        } else {
            looks.push_back({piece, *least});
        }
    }
    return looks;
}

} // namespace stavewright
