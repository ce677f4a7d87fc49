#include "core/photo/FacePhotos.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>

#include "core/photo/Resample.h"

namespace stavewright::photo {

namespace {

bool inPicture(const PhotoMap& map, Point at) {
    const std::optional<Pixels> seen = map.toPhoto(at);
    // A corner marked on the very rim counts as seen.
    constexpr double rim = 2;
    return seen && seen->x >= -rim && seen->y >= -rim && seen->x <= map.values().width + rim &&
           seen->y <= map.values().height + rim;
}

Length jointError(const Straightening& left, const Straightening& right, const BoardSize& board,
                  Length at) {
    Length worst;
    for (const Length y : {Length(), widthAt(board, at) / 2, widthAt(board, at)}) {
        const double a = static_cast<double>(left.expectedError({at, y}).inNanometres());
        const double b = static_cast<double>(right.expectedError({at, y}).inNanometres());
        worst = std::max(worst, Length::nanometres(std::llround(std::hypot(a, b))));
    }
    return worst;
}

} // namespace

std::optional<Stretch> shownBy(const PhotoMap& map, const BoardSize& board) {
    constexpr int steps = 512;
    std::optional<Stretch> best;
    std::optional<Stretch> run;
    for (int i = 0; i <= steps; ++i) {
        const Length x = Length::nanometres(board.length.inNanometres() / steps * i +
                                            board.length.inNanometres() % steps * i / steps);
        const bool seen = inPicture(map, {x, Length()}) && inPicture(map, {x, widthAt(board, x)});
        if (!seen) {
            run.reset();
            continue;
        }
        run = run ? Stretch{run->from, x} : Stretch{x, x};
        if (!best || run->length() > best->length()) {
            best = run;
        }
    }
    return best && best->length() > Length() ? best : std::nullopt;
}

FaceArrangement arranged(const std::vector<Straightening>& photos, const BoardSize& board) {
    struct Shown {
        std::size_t photo;
        Stretch along;
    };
    std::vector<Shown> shown;
    for (std::size_t i = 0; i < photos.size(); ++i) {
        if (const auto along = shownBy(photos[i].map, board)) {
            shown.push_back({i, *along});
        }
    }
    std::stable_sort(shown.begin(), shown.end(),
                     [](const Shown& a, const Shown& b) { return a.along.from < b.along.from; });

    // From the datum on, always the photograph that reaches farthest among those that join on.
    FaceArrangement result;
    std::vector<Shown> chain;
    Length reached;
    for (std::size_t next = 0; next < shown.size();) {
        std::optional<Shown> farthest;
        while (next < shown.size() && shown[next].along.from <= reached) {
            if (!farthest || shown[next].along.to > farthest->along.to) {
                farthest = shown[next];
            }
            ++next;
        }
        if (farthest && farthest->along.to > reached) {
            chain.push_back(*farthest);
            reached = farthest->along.to;
        } else if (next < shown.size() && !farthest) {
            result.unseen.push_back({reached, shown[next].along.from});
            reached = shown[next].along.from;
        }
    }
    if (reached < board.length) {
        result.unseen.push_back({reached, board.length});
    }
    for (const Shown& item : chain) {
        result.stretches.push_back({item.photo, item.along});
    }
    for (std::size_t i = 1; i < result.stretches.size(); ++i) {
        FaceStretch& left = result.stretches[i - 1];
        FaceStretch& right = result.stretches[i];
        if (right.along.from <= left.along.to) {
            const Length at = right.along.from + (left.along.to - right.along.from) / 2;
            left.along.to = at;
            right.along.from = at;
            result.joints.push_back(
                {left.photo, right.photo, at,
                 jointError(photos[left.photo], photos[right.photo], board, at)});
        }
    }
    return result;
}

Image facePicture(const std::vector<ImageView>& photos,
                  const std::vector<Straightening>& straightened,
                  const FaceArrangement& arrangement, const BoardSize& board,
                  double pixelsPerInch) {
    assert(photos.size() == straightened.size());
    const Length wide = std::max(board.widthAtDatum, board.widthAtFar);
    const auto pixels = [&](Length l) {
        return static_cast<int>(std::lround(l.toInches() * pixelsPerInch));
    };
    Image whole(std::max(1, pixels(board.length)), std::max(1, pixels(wide)));
    for (const FaceStretch& stretch : arrangement.stretches) {
        const int from = std::clamp(pixels(stretch.along.from), 0, whole.width());
        const int to = std::clamp(pixels(stretch.along.to), from, whole.width());
        if (to == from) {
            continue;
        }
        const auto lengthAt = [&](int column) {
            return Length::nanometres(std::llround(
                static_cast<double>(board.length.inNanometres()) * column / whole.width()));
        };
        const Rect shown{lengthAt(from), Length(), lengthAt(to), wide};
        const Image part = resampled(photos[stretch.photo], straightened[stretch.photo].map, shown,
                                     to - from, whole.height());
        for (int row = 0; row < whole.height(); ++row) {
            const std::uint8_t* source = part.view().at(0, row);
            std::copy(source, source + part.stride(), whole.at(from, row));
        }
    }
    return whole;
}

} // namespace stavewright::photo
