#include <algorithm>

#include "core/papers/BoardCanvas.h"
#include "core/papers/FractionText.h"
#include "core/papers/Words.h"

namespace stavewright::papers {

namespace {

constexpr TextStyle labelStyle{14, Weight::SemiBold, Align::Left, Ink::Black, true, 0};
constexpr TextStyle sizeStyle{14, Weight::Regular, Align::Left, Ink::Black, true, 0};
constexpr TextStyle smallStyle{10, Weight::SemiBold, Align::Left, Ink::Black, true, 0};
constexpr Length inset = 1.5_mm;
constexpr Length betweenLabelAndSize = 3_mm;
constexpr Length outsideLane = 5.2_mm;
constexpr Length arrowLength = 10_mm;

/// A label that found no room in its blank.
struct Outside {
    Rect inner; ///< the blank on paper
    std::string text;
    Length x;
    int lane = 0;
};

Length heightOf(const std::string& text, const TextStyle& style) {
    const LineExtent extent = extentOf(text, style.points);
    return points(style.points * (extent.ascent + extent.descent));
}

/// Sets a line so that its box is centred on `middle`.
Rect setCentredOn(BoardCanvas& canvas, Length x, Length middle, const std::string& text,
                  const TextStyle& style) {
    const LineExtent extent = extentOf(text, style.points);
    const Length baseline = middle + points(style.points * (extent.ascent - extent.descent) / 2);
    const Rect box = canvas.pen.text({x, baseline}, text, style);
    canvas.placer.take(box);
    return box;
}

/// One barb on the side of the planing direction; without a known direction no barb.
void drawGrainArrow(BoardCanvas& canvas, const Rect& place) {
    const Length y = (place.y0 + place.y1) / 2;
    const Length from = place.x0;
    const Length to = place.x1;
    Pen& pen = canvas.pen;
    const LineLook look{0.35_mm, LineStyle::Solid, Ink::Black};
    pen.line({from, y}, {to, y}, {1.1_mm, LineStyle::Solid, Ink::White});
    pen.line({from, y}, {to, y}, look);
    switch (canvas.cuts.board->planing) {
    case PlaningDirection::TowardsFarEnd:
        pen.line({to, y}, {to - 2_mm, y - 1.3_mm}, look);
        break;
    case PlaningDirection::TowardsDatumEnd:
        pen.line({from, y}, {from + 2_mm, y - 1.3_mm}, look);
        break;
    case PlaningDirection::Unknown:
        break;
    }
    canvas.placer.take({from, y - 1.5_mm, to, y + 1.5_mm});
}

/// At the right end of the blank, or further left, wherever it runs over no label.
void placeGrainArrow(BoardCanvas& canvas, const Rect& inner) {
    const Length middle = (inner.y0 + inner.y1) / 2;
    for (Length to = inner.x1 - inset; to - arrowLength >= inner.x0 + inset; to -= 3_mm) {
        const Rect place{to - arrowLength, middle - 1.5_mm, to, middle + 1.5_mm};
        const bool overDefect =
            std::any_of(canvas.defects.begin(), canvas.defects.end(),
                        [&](const Rect& defect) { return defect.overlaps(place); });
        if (!overDefect && canvas.placer.isFree(place)) {
            drawGrainArrow(canvas, place);
            return;
        }
    }
}

constexpr std::ptrdiff_t noPlace = 1000;

/// How many defects a box would hide; at least `noPlace` where another label stands.
std::ptrdiff_t hidesDefects(const BoardCanvas& canvas, const Rect& box) {
    const auto hidden = std::count_if(canvas.defects.begin(), canvas.defects.end(),
                                      [&](const Rect& defect) { return defect.overlaps(box); });
    return canvas.placer.isFree(box) ? hidden : hidden + noPlace;
}

/// Where a label may stand in its blank, and how many defects it hides there.
struct Spot {
    Length x;
    Length middle; ///< of its height
    std::ptrdiff_t hidden = noPlace;
};

/// Where a label of this size hides the fewest defects: along the middle of the blank, then above
/// and below it; the left where it is all the same.
Spot clearOfDefects(const BoardCanvas& canvas, const Rect& inner, Length width, Length high) {
    const Length centre = (inner.y0 + inner.y1) / 2;
    const Length off = (inner.width() - high) / 2 - 0.3_mm;
    std::vector<Length> middles{centre};
    if (off > 0.5_mm) {
        middles.push_back(centre - off);
        middles.push_back(centre + off);
    }
    Spot best{inner.x0 + inset, centre, noPlace * 2};
    for (const Length middle : middles) {
        for (Length x = inner.x0 + inset; x + width <= inner.x1 - inset; x += 1_mm) {
            const Rect box{x, middle - high / 2, x + width, middle + high / 2};
            if (const auto hidden = hidesDefects(canvas, box); hidden < best.hidden) {
                best = {x, middle, hidden};
            }
            if (best.hidden == 0) {
                return best;
            }
        }
    }
    return best;
}

/// A label that would hide a defect says less than the two apart, so at first none may.
enum class Sparing { Yes, No };

bool mayStand(const Spot& spot, Sparing sparing) {
    return spot.hidden < (sparing == Sparing::Yes ? 1 : noPlace);
}

/// Label and size on one line; apart where a knot lies between them.
bool labelOnOneLine(BoardCanvas& canvas, const Rect& inner, const std::string& label,
                    const std::string& size) {
    const Length labelWidth = canvas.pen.widthOf(label, labelStyle);
    const Length sizeWidth = canvas.pen.widthOf(size, sizeStyle);
    const Length high = heightOf(size, sizeStyle);
    const Length both = labelWidth + betweenLabelAndSize + sizeWidth;
    if (both > inner.length() - inset * 2 || high + 0.4_mm > inner.width()) {
        return false;
    }
    Spot first = clearOfDefects(canvas, inner, both, high);
    Spot second = first;
    second.x += labelWidth + betweenLabelAndSize;
    if (!mayStand(first, Sparing::Yes)) {
        first = clearOfDefects(canvas, inner, labelWidth, high);
        Rect behind = inner;
        behind.x0 = first.x + labelWidth + betweenLabelAndSize - inset;
        // On the same line, so that the two are read as one.
        behind.y0 = first.middle - high / 2 - 0.2_mm;
        behind.y1 = first.middle + high / 2 + 0.2_mm;
        second = clearOfDefects(canvas, behind, sizeWidth, high);
        if (!mayStand(first, Sparing::Yes) || !mayStand(second, Sparing::Yes)) {
            return false;
        }
    }
    const LineExtent extent = extentOf(size, sizeStyle.points);
    const Length baseline =
        first.middle + points(sizeStyle.points * (extent.ascent - extent.descent) / 2);
    canvas.placer.take(canvas.pen.text({first.x, baseline}, label, labelStyle));
    canvas.placer.take(canvas.pen.text({second.x, baseline}, size, sizeStyle));
    return true;
}

bool labelOnTwoLines(BoardCanvas& canvas, const Rect& inner, const std::string& label,
                     const std::string& size) {
    const Length width =
        std::max(canvas.pen.widthOf(label, labelStyle), canvas.pen.widthOf(size, sizeStyle));
    const Length labelHigh = heightOf(label, labelStyle);
    const Length sizeHigh = heightOf(size, sizeStyle);
    if (width > inner.length() - inset * 2 || labelHigh + sizeHigh + 1_mm > inner.width()) {
        return false;
    }
    const Spot spot = clearOfDefects(canvas, inner, width, labelHigh + sizeHigh);
    if (!mayStand(spot, Sparing::Yes)) {
        return false;
    }
    setCentredOn(canvas, spot.x, spot.middle - sizeHigh / 2 - 0.2_mm, label, labelStyle);
    setCentredOn(canvas, spot.x, spot.middle + labelHigh / 2 + 0.2_mm, size, sizeStyle);
    return true;
}

bool labelAlone(BoardCanvas& canvas, const Rect& inner, const std::string& label,
                const TextStyle& style, Sparing sparing) {
    const Length width = canvas.pen.widthOf(label, style);
    const Length high = heightOf(label, style);
    if (width > inner.length() - inset * 2 || high + 0.2_mm > inner.width()) {
        return false;
    }
    const Spot spot = clearOfDefects(canvas, inner, width, high);
    if (!mayStand(spot, sparing)) {
        return false;
    }
    setCentredOn(canvas, spot.x, spot.middle, label, style);
    return true;
}

/// Label and size on one line, on two, the label alone, the label small: the size stands in the
/// list of steps as well, the knot under a label nowhere. Where no label is clear of defects, one
/// that hides few. False when nothing fits.
bool labelInside(BoardCanvas& canvas, const Rect& inner, const std::string& label,
                 const std::string& size) {
    return labelOnOneLine(canvas, inner, label, size) ||
           labelOnTwoLines(canvas, inner, label, size) ||
           labelAlone(canvas, inner, label, labelStyle, Sparing::Yes) ||
           labelAlone(canvas, inner, label, smallStyle, Sparing::Yes) ||
           labelAlone(canvas, inner, label, smallStyle, Sparing::No);
}

/// Where the leader leaves the blank: the first place along it where it runs over no label on its
/// way down and keeps clear of the leaders before it.
void chooseLeaders(const BoardCanvas& canvas, std::vector<Outside>& labels) {
    std::vector<Length> used;
    for (Outside& label : labels) {
        const Length from = label.inner.x0 + 2_mm;
        const Length to = larger(from, label.inner.x1 - 2_mm);
        label.x = from;
        for (Length x = from; x <= to; x += 1.5_mm) {
            const bool apart = std::none_of(used.begin(), used.end(),
                                            [&](Length other) { return abs(other - x) < 3_mm; });
            const Length middle = (label.inner.y0 + label.inner.y1) / 2;
            if (apart && canvas.placer.isFree({x, middle, x, canvas.bottom})) {
                label.x = x;
                break;
            }
        }
        used.push_back(label.x);
    }
}

/// As the readings over the tape: from the far end backwards, each below everything it would cover.
void chooseLanes(const BoardCanvas& canvas, std::vector<Outside>& labels) {
    std::sort(labels.begin(), labels.end(),
              [](const Outside& a, const Outside& b) { return a.x < b.x; });
    for (std::size_t i = labels.size(); i-- > 0;) {
        const Length end = labels[i].x + canvas.pen.widthOf(labels[i].text, smallStyle) + 2_mm;
        for (std::size_t j = i + 1; j < labels.size(); ++j) {
            if (labels[j].x < end) {
                labels[i].lane = std::max(labels[i].lane, labels[j].lane + 1);
            }
        }
    }
}

Length drawOutside(BoardCanvas& canvas, std::vector<Outside>& labels) {
    chooseLeaders(canvas, labels);
    chooseLanes(canvas, labels);
    Length below;
    for (const Outside& label : labels) {
        const Length baseline = canvas.bottom + 5_mm + label.lane * outsideLane;
        const Point start{label.x, (label.inner.y0 + label.inner.y1) / 2};
        canvas.pen.line(start, {label.x, baseline + 0.5_mm},
                        {0.2_mm, LineStyle::Solid, Ink::Black});
        canvas.pen.disc(start, 0.5_mm, Ink::Black);
        canvas.placer.take({label.x - 0.2_mm, start.y, label.x + 0.2_mm, canvas.bottom});
        canvas.placer.take(canvas.pen.text({label.x + 0.8_mm, baseline}, label.text, smallStyle));
        below = larger(below, 5_mm + label.lane * outsideLane + 2_mm);
    }
    return below;
}

/// Blanks and kept offcuts, in the order in which they are counted.
template <class Take>
void forEachLabel(const BoardCuts& cuts, Take take) {
    for (const SectionCuts& section : cuts.sections) {
        for (const StripCuts& strip : section.strips) {
            for (const BlankLine& line : strip.blanks) {
                take(*section.section, woodOf(*line.blank), line.label);
            }
            for (const KeptLine& kept : strip.kept) {
                take(*section.section, kept.offcut->rect, kept.name);
            }
        }
        for (const KeptLine& kept : section.kept) {
            take(*section.section, kept.offcut->rect, kept.name);
        }
    }
}

constexpr Length tagSide = 3.2_mm;

/// How high a strip's number stands at the strip's end: in the middle, or where it hides no defect.
Length tagMiddle(const BoardCanvas& canvas, const Rect& inner, Length left, Length right) {
    const Length centre = (inner.y0 + inner.y1) / 2;
    const Length off = (inner.width() - tagSide) / 2 - 0.3_mm;
    if (off <= Length()) {
        return centre;
    }
    for (const Length middle : {centre, centre - off, centre + off}) {
        if (hidesDefects(canvas, {left, middle - tagSide / 2, right, middle + tagSide / 2}) == 0) {
            return middle;
        }
    }
    return centre;
}

} // namespace

void drawGrainArrows(BoardCanvas& canvas) {
    for (const SectionCuts& section : canvas.cuts.sections) {
        for (const StripCuts& strip : section.strips) {
            for (const BlankLine& line : strip.blanks) {
                placeGrainArrow(canvas, innerBox(canvas.onPaper(
                                            toOuter(section.section->frame, woodOf(*line.blank)))));
            }
        }
    }
}

bool drawStripNumbers(BoardCanvas& canvas) {
    const TextStyle style{8, Weight::SemiBold, Align::Centre, Ink::Black, false, 0};
    bool drawn = false;
    for (const SectionCuts& section : canvas.cuts.sections) {
        for (const StripCuts& strip : section.strips) {
            const Rect rect{Length(), strip.strip->across.from, section.section->along.length(),
                            strip.strip->across.to};
            const Rect inner = innerBox(canvas.onPaper(toOuter(section.section->frame, rect)));
            if (inner.width() < tagSide || !section.hasBlanks()) {
                continue;
            }
            // "a-1" of "7a-1": the board's mark stands over the sheet.
            const std::string name = strip.name.substr(canvas.cuts.board->mark.size());
            const Length left = inner.x0 + 0.5_mm;
            const Length right = left + canvas.pen.widthOf(name, style) + 1.2_mm;
            const Length middle = tagMiddle(canvas, inner, left, right);
            const Rect tag{left, middle - tagSide / 2, right, middle + tagSide / 2};
            canvas.pen.area(cornersOf(tag), Ink::White, {0.2_mm, LineStyle::Solid, Ink::Black});
            canvas.pen.text({(tag.x0 + tag.x1) / 2, middle + 1.05_mm}, name, style);
            canvas.placer.take(tag);
            canvas.stripTags.push_back(tag);
            drawn = true;
        }
    }
    return drawn;
}

void drawSmallBlankLabels(BoardCanvas& canvas) {
    const auto label = [&](const Section& section, const Rect& rect, const std::string& name) {
        const Rect inner = innerBox(canvas.onPaper(toOuter(section.frame, rect)));
        if (!labelAlone(canvas, inner, name, smallStyle, Sparing::Yes)) {
            labelAlone(canvas, inner, name, smallStyle, Sparing::No);
        }
    };
    forEachLabel(canvas.cuts, label);
}

Length drawBlankLabels(BoardCanvas& canvas) {
    std::vector<Outside> outside;
    const auto label = [&](const Section& section, const Rect& rect, const std::string& name) {
        Rect inner = innerBox(canvas.onPaper(toOuter(section.frame, rect)));
        for (const Rect& tag : canvas.stripTags) {
            if (tag.overlaps(inner)) {
                inner.x0 = tag.x1;
            }
        }
        const std::string size = sizeText(canvas.document.info, rect.length(), rect.width());
        if (!labelInside(canvas, inner, name, size)) {
            outside.push_back({inner, name, {}, 0});
        }
    };
    forEachLabel(canvas.cuts, label);
    return drawOutside(canvas, outside);
}

} // namespace stavewright::papers
