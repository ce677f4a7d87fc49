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

/// How many defects a label at `x` would hide; at least `noPlace` where another label stands.
std::ptrdiff_t hidesDefects(const BoardCanvas& canvas, const Rect& inner, Length x, Length width,
                            Length high) {
    const Length middle = (inner.y0 + inner.y1) / 2;
    const Rect box{x, middle - high / 2, x + width, middle + high / 2};
    const auto hidden = std::count_if(canvas.defects.begin(), canvas.defects.end(),
                                      [&](const Rect& defect) { return defect.overlaps(box); });
    return canvas.placer.isFree(box) ? hidden : hidden + noPlace;
}

/// Where along the blank a label of this width hides the fewest defects; the left where it is all
/// the same.
Length clearOfDefects(const BoardCanvas& canvas, const Rect& inner, Length width, Length high) {
    const Length first = inner.x0 + inset;
    Length best = first;
    auto fewest = hidesDefects(canvas, inner, best, width, high);
    for (Length x = first; x + width <= inner.x1 - inset && fewest > 0; x += 1_mm) {
        if (const auto count = hidesDefects(canvas, inner, x, width, high); count < fewest) {
            best = x;
            fewest = count;
        }
    }
    return best;
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
    Length x = clearOfDefects(canvas, inner, both, high);
    Length sizeX = x + labelWidth + betweenLabelAndSize;
    std::ptrdiff_t hidden = hidesDefects(canvas, inner, x, both, high);
    if (hidden > 0) {
        const Length apart = clearOfDefects(canvas, inner, labelWidth, high);
        Rect behind = inner;
        behind.x0 = apart + labelWidth + betweenLabelAndSize - inset;
        const Length second = clearOfDefects(canvas, behind, sizeWidth, high);
        const std::ptrdiff_t hiddenApart = hidesDefects(canvas, inner, apart, labelWidth, high) +
                                           hidesDefects(canvas, inner, second, sizeWidth, high);
        if (hiddenApart < hidden && second + sizeWidth <= inner.x1 - inset) {
            x = apart;
            sizeX = second;
            hidden = hiddenApart;
        }
    }
    if (hidden >= noPlace) {
        return false;
    }
    const LineExtent extent = extentOf(size, sizeStyle.points);
    const Length baseline =
        (inner.y0 + inner.y1) / 2 + points(sizeStyle.points * (extent.ascent - extent.descent) / 2);
    canvas.placer.take(canvas.pen.text({x, baseline}, label, labelStyle));
    canvas.placer.take(canvas.pen.text({sizeX, baseline}, size, sizeStyle));
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
    const Length x = clearOfDefects(canvas, inner, width, labelHigh + sizeHigh);
    if (hidesDefects(canvas, inner, x, width, labelHigh + sizeHigh) >= noPlace) {
        return false;
    }
    const Length middle = (inner.y0 + inner.y1) / 2;
    setCentredOn(canvas, x, middle - sizeHigh / 2 - 0.2_mm, label, labelStyle);
    setCentredOn(canvas, x, middle + labelHigh / 2 + 0.2_mm, size, sizeStyle);
    return true;
}

bool labelAlone(BoardCanvas& canvas, const Rect& inner, const std::string& label,
                const TextStyle& style) {
    const Length width = canvas.pen.widthOf(label, style);
    const Length high = heightOf(label, style);
    if (width > inner.length() - inset * 2 || high + 0.2_mm > inner.width()) {
        return false;
    }
    const Length x = clearOfDefects(canvas, inner, width, high);
    if (hidesDefects(canvas, inner, x, width, high) >= noPlace) {
        return false;
    }
    setCentredOn(canvas, x, (inner.y0 + inner.y1) / 2, label, style);
    return true;
}

/// Label and size on one line, on two, the label alone, the label small. False when nothing fits.
bool labelInside(BoardCanvas& canvas, const Rect& inner, const std::string& label,
                 const std::string& size) {
    return labelOnOneLine(canvas, inner, label, size) ||
           labelOnTwoLines(canvas, inner, label, size) ||
           labelAlone(canvas, inner, label, labelStyle) ||
           labelAlone(canvas, inner, label, smallStyle);
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

} // namespace

void drawGrainArrows(BoardCanvas& canvas) {
    for (const SectionCuts& section : canvas.cuts.sections) {
        for (const StripCuts& strip : section.strips) {
            for (const BlankLine& line : strip.blanks) {
                placeGrainArrow(canvas, innerBox(canvas.onPaper(
                                            toOuter(section.section->frame, line.blank->rect))));
            }
        }
    }
}

bool drawStripNumbers(BoardCanvas& canvas) {
    const TextStyle style{8, Weight::SemiBold, Align::Centre, Ink::Black, false, 0};
    constexpr Length side = 3.2_mm;
    bool drawn = false;
    for (const SectionCuts& section : canvas.cuts.sections) {
        for (const StripCuts& strip : section.strips) {
            const Rect rect{Length(), strip.strip->across.from, section.section->along.length(),
                            strip.strip->across.to};
            const Rect inner = innerBox(canvas.onPaper(toOuter(section.section->frame, rect)));
            if (inner.width() < side || !section.hasBlanks()) {
                continue;
            }
            // "a-1" of "7a-1": the board's mark stands over the sheet.
            const std::string name = strip.name.substr(canvas.cuts.board->mark.size());
            const Length middle = (inner.y0 + inner.y1) / 2;
            const Length left = inner.x0 + 0.5_mm;
            const Rect tag{left, middle - side / 2, left + canvas.pen.widthOf(name, style) + 1.2_mm,
                           middle + side / 2};
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
    for (const SectionCuts& section : canvas.cuts.sections) {
        for (const StripCuts& strip : section.strips) {
            for (const BlankLine& line : strip.blanks) {
                const Rect inner =
                    innerBox(canvas.onPaper(toOuter(section.section->frame, line.blank->rect)));
                labelAlone(canvas, inner, line.label, smallStyle);
            }
        }
    }
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
    int offcut = 0;
    for (const SectionCuts& section : canvas.cuts.sections) {
        for (const StripCuts& strip : section.strips) {
            for (const BlankLine& line : strip.blanks) {
                label(*section.section, line.blank->rect, line.label);
            }
            for (const Offcut& kept : strip.strip->offcuts) {
                label(*section.section, kept.rect, "Keep " + std::to_string(++offcut));
            }
        }
        for (const Offcut& kept : section.section->offcuts) {
            label(*section.section, kept.rect, "Keep " + std::to_string(++offcut));
        }
    }
    return drawOutside(canvas, outside);
}

} // namespace stavewright::papers
