#include "core/papers/DefectMarks.h"

#include "core/papers/StepLines.h"

#include <array>
#include <string>

#include "core/papers/FractionText.h"

namespace stavewright::papers {

namespace {

constexpr TextStyle letterStyle{8, Weight::SemiBold, Align::Centre, Ink::Black, true, 0};
constexpr TextStyle fillStyle{10, Weight::SemiBold, Align::Left, Ink::Black, true, 0};

struct LetterSize {
    Length width;
    Length up; ///< capitals only: no descender
};

Rect boxAround(Point middle, const LetterSize& size) {
    return {middle.x - size.width / 2, middle.y - size.up / 2, middle.x + size.width / 2,
            middle.y + size.up / 2};
}

/// Middles to try, nearest first: inside, then the sides and beside them, then rings further off.
std::vector<Point> candidates(const Rect& box, const LetterSize& size) {
    const Point middle{(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
    std::vector<Point> tries;
    if (box.length() > size.width * 2 && box.width() > size.up * 3 / 2) {
        tries.push_back(middle);
    }
    constexpr std::array<std::pair<double, double>, 12> directions = {{{1, 0},
                                                                       {-1, 0},
                                                                       {0, -1},
                                                                       {0, 1},
                                                                       {1, -0.5},
                                                                       {-1, -0.5},
                                                                       {1, 0.5},
                                                                       {-1, 0.5},
                                                                       {1, -1},
                                                                       {-1, -1},
                                                                       {1, 1},
                                                                       {-1, 1}}};
    for (Length off = 0.5_mm; off < 16_mm; off += 1.5_mm) {
        for (const auto& [dx, dy] : directions) {
            tries.push_back({middle.x + scaled(box.length() / 2 + size.width / 2 + off, dx),
                             middle.y + scaled(box.width() / 2 + size.up / 2 + off, dy)});
        }
    }
    return tries;
}

/// Whether a line between the two points runs over no label.
bool leaderIsFree(const LabelPlacer& placer, Point from, Point to) {
    constexpr int steps = 12;
    for (int i = 1; i < steps; ++i) {
        const Point at{from.x + (to.x - from.x) * i / steps, from.y + (to.y - from.y) * i / steps};
        if (!placer.isFree({at.x, at.y, at.x, at.y})) {
            return false;
        }
    }
    return true;
}

} // namespace

LineLook lookOf(drawing::StrokeRole role, bool onFaceB) {
    const LineStyle outline = onFaceB ? LineStyle::ShortDash : LineStyle::Solid;
    switch (role) {
    case drawing::StrokeRole::Outline:
        return {0.25_mm, outline, Ink::Black};
    case drawing::StrokeRole::HeavyOutline:
        return {onFaceB ? 0.3_mm : 0.5_mm, outline, Ink::Black};
    case drawing::StrokeRole::BrokenOutline:
        return {0.25_mm, LineStyle::ShortDash, Ink::Black};
    case drawing::StrokeRole::Hatch:
        return {0.15_mm, LineStyle::Solid, Ink::Black};
    case drawing::StrokeRole::Axis:
        return {0.2_mm, LineStyle::LongDash, Ink::Black};
    }
    return {};
}

namespace {

/// Takes the first free place for a label of this size, with a leader where it stands far off;
/// returns its middle.
std::optional<Point> takePlace(Pen& pen, LabelPlacer& placer, const Rect& box,
                               const LetterSize& size, const std::vector<Rect>& spared = {}) {
    for (const Point& middle : candidates(box, size)) {
        const Rect covered = boxAround(middle, size);
        const bool hides = std::any_of(spared.begin(), spared.end(),
                                       [&](const Rect& other) { return other.overlaps(covered); });
        if (hides || !placer.isFree(covered)) {
            continue;
        }
        const Point heart{(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
        const Length away = larger(abs(middle.x - heart.x) - box.length() / 2 - size.width / 2,
                                   abs(middle.y - heart.y) - box.width() / 2 - size.up / 2);
        const bool leads = away > 2.5_mm;
        if (leads && !leaderIsFree(placer, heart, middle)) {
            continue;
        }
        if (leads) {
            pen.line(heart, middle, {0.15_mm, LineStyle::Solid, Ink::Black});
        }
        placer.take(covered);
        return middle;
    }
    return std::nullopt;
}

/// Baseline of type whose capitals are to be centred on `middle`.
Length baselineOn(Length middle, double size) { return middle + points(size * (0.76 - 0.21) / 2); }

} // namespace

void placeLetter(Pen& pen, LabelPlacer& placer, const Rect& box, char letter) {
    const std::string text(1, letter);
    const LetterSize size{pen.widthOf(text, letterStyle), points(letterStyle.points * 0.97)};
    if (const auto middle = takePlace(pen, placer, box, size)) {
        pen.text({middle->x, baselineOn(middle->y, letterStyle.points)}, text, letterStyle);
    }
}

void placeFill(Pen& pen, LabelPlacer& placer, const Rect& box, const std::string& text,
               const std::vector<Rect>& spared) {
    // The ring that the maker is to chalk round it.
    const Point heart{(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
    const Length radius = larger(box.length(), box.width()) / 2 + 0.8_mm;
    pen.circle(heart, radius, {0.3_mm, LineStyle::Solid, Ink::Black});
    const Rect ring{heart.x - radius, heart.y - radius, heart.x + radius, heart.y + radius};

    constexpr Length gap = 0.7_mm;
    TextStyle style = fillStyle;
    // First where no other defect is hidden and no cut crossed, the name in smaller type if need
    // be; then anywhere.
    struct Try {
        double points;
        bool sparing;
    };
    for (const Try& now : {Try{10, true}, Try{8, true}, Try{10, false}, Try{8, false}}) {
        style.points = now.points;
        const Length wide = fillSignWidth + gap + pen.widthOf(text, style);
        const LetterSize label{wide, larger(points(now.points * 0.97), fillSignHeight)};
        const auto middle =
            takePlace(pen, placer, ring, label, now.sparing ? spared : std::vector<Rect>());
        if (middle) {
            const Length left = middle->x - wide / 2;
            drawFillSign(pen, {left + fillSignWidth / 2, middle->y - fillSignHeight / 2});
            pen.text({left + fillSignWidth + gap, baselineOn(middle->y, now.points)}, text, style);
            placer.take(ring);
            return;
        }
    }
    // No place at all: the drop on the knot itself, so that the sign is never missing.
    drawFillSign(pen, {heart.x, heart.y - fillSignHeight / 2});
}

} // namespace stavewright::papers
