#include "core/papers/PanelLabels.h"

#include <algorithm>
#include <array>
#include <iterator>

#include "core/papers/PaperUnits.h"

namespace stavewright::papers {

namespace {

constexpr Length step = 1_mm;
/// Larger marks (a stain, a band of sapwood) have room for a name in them.
constexpr Length largestKept = 20_mm;
constexpr Length thinnestKept = 6_mm; ///< a band that is no higher would strike a name out
constexpr Length arrow = 12_mm;
constexpr Length air = 1.2_mm; ///< between a name and a knot beside it

} // namespace

std::optional<Length> PanelLabels::freePlace(Length from, Length end, Length wide,
                                             const Stretch& high) const {
    const bool rightwards = from <= end;
    for (Length at = from; rightwards ? at <= end : at >= end; at += rightwards ? step : -step) {
        if (m_placer.isFree({at - air, high.from, at + wide + air, high.to})) {
            return at;
        }
    }
    return std::nullopt;
}

Point PanelLabels::placeOf(const Line& line, Length from, Length end, Length wide) const {
    constexpr Length off = 0.4_mm; ///< from the edges of the stave
    const Length highest = std::min(line.baseline, line.area.y0 + line.above + off);
    const Length lowest = std::max(line.baseline, line.area.y1 - line.below - off);
    for (const Length baseline : {line.baseline, highest, lowest}) {
        if (const std::optional<Length> at =
                freePlace(from, end, wide, {baseline - line.above, baseline + line.below})) {
            return {*at, baseline};
        }
    }
    return {from, line.baseline};
}

void PanelLabels::writeStave(const StaveLabel& stave) {
    constexpr Length leastFor14 = 6.2_mm;
    constexpr Length leastFor8 = 3.6_mm;
    const Rect& area = stave.area;
    const Length high = area.width();
    if (high < leastFor8) {
        return; // too narrow to carry its name; the table has it
    }
    const bool isNarrow = high < leastFor14;
    const Length middle = (area.y0 + area.y1) / 2;
    const Length baseline = middle + (isNarrow ? 1_mm : 1.7_mm);
    const TextStyle bold{isNarrow ? 8.0 : 14.0, Weight::SemiBold, Align::Left, Ink::Black, true, 0};
    const Line ofName{area, baseline, isNarrow ? 2.6_mm : 4.2_mm};
    const Length farthest = area.x0 + area.length() / 3;
    const Point nameAt = placeOf(ofName, area.x0 + 3_mm, farthest, m_pen.widthOf(stave.name, bold));
    const Rect name = m_pen.text(nameAt, stave.name, bold);
    m_placer.take(name);
    if (stave.planing != 0) {
        const Length beside = middle + nameAt.y - baseline; // of the name, wherever it stands
        const Stretch ofArrow{beside - 2_mm, beside + 2_mm};
        const Length first = name.x1 + 4_mm;
        const Length left = freePlace(first, farthest + arrow, arrow, ofArrow).value_or(first);
        const Point from{stave.planing > 0 ? left : left + arrow, beside};
        const Point to{stave.planing > 0 ? left + arrow : left, beside};
        m_pen.line(from, to, {0.35_mm});
        m_pen.line(to, {to.x - 2.4_mm * stave.planing, to.y + 1.6_mm}, {0.35_mm});
        m_placer.take({left, ofArrow.from, left + arrow, ofArrow.to});
    }
    const TextStyle small{8, Weight::Regular, Align::Left, Ink::Black, true, 0};
    const Length wide = m_pen.widthOf(stave.comes, small);
    const Length right = area.x1 - 3_mm - wide;
    const Point at = placeOf({area, baseline, 2.6_mm}, right,
                             std::min(right, area.x0 + area.length() / 2), wide);
    m_placer.take(m_pen.text(at, stave.comes, small));
}

/// At its right, else at its left, above or below, on one of these areas; false where nothing is
/// free.
bool PanelLabels::writeKnot(const KnotLabel& label, const std::vector<Rect>& areas) {
    const TextStyle style{8, Weight::SemiBold, Align::Left, Ink::Black, true, 0};
    const Rect& knot = label.knot;
    const Length wide = m_pen.widthOf(label.text, style);
    const Point middle{(knot.x0 + knot.x1) / 2, (knot.y0 + knot.y1) / 2};
    for (const Rect& area : areas) {
        // Of a knot at the end of a stave the letter stands off its middle.
        const Length least = area.x0 + 0.5_mm;
        const Length most = std::max(least, area.x1 - wide - 0.5_mm);
        const Length over = std::clamp(middle.x - wide / 2, least, most);
        const std::array<Point, 4> places = {Point{knot.x1 + 0.6_mm, middle.y + 1_mm},
                                             Point{knot.x0 - 0.6_mm - wide, middle.y + 1_mm},
                                             Point{over, knot.y0 - 0.8_mm},
                                             Point{over, knot.y1 + 2.8_mm}};
        for (const Point& at : places) {
            const Rect box{at.x - 0.3_mm, at.y - 2.6_mm, at.x + wide + 0.3_mm, at.y + 0.4_mm};
            if (area.contains(box) && m_placer.isFree(box)) {
                m_placer.take(box);
                m_pen.text(at, label.text, style);
                return true;
            }
        }
    }
    return false;
}

void PanelLabels::write(const std::vector<StaveLabel>& staves,
                        const std::vector<KnotLabel>& knots) {
    for (const KnotLabel& label : knots) {
        if (label.knot.length() <= largestKept || label.knot.width() <= thinnestKept) {
            m_placer.take(label.knot);
        }
    }
    std::vector<Rect> areas;
    for (const StaveLabel& stave : staves) {
        areas.push_back(stave.area);
    }
    const Rect panel = areas.empty()
                           ? Rect()
                           : Rect{areas.front().x0, std::min(areas.front().y0, areas.back().y0),
                                  areas.front().x1, std::max(areas.front().y1, areas.back().y1)};
    for (const KnotLabel& label : knots) {
        const Length middle = (label.knot.y0 + label.knot.y1) / 2;
        std::vector<Rect> own;
        std::copy_if(areas.begin(), areas.end(), std::back_inserter(own),
                     [&](const Rect& area) { return middle >= area.y0 && middle <= area.y1; });
        if (!writeKnot(label, own)) { // beside it, on another stave
            writeKnot(label, {panel});
        }
    }
    for (const StaveLabel& stave : staves) { // names have more room to make way
        writeStave(stave);
    }
}

} // namespace stavewright::papers
