#include "core/papers/PanelLabels.h"

#include <algorithm>
#include <array>

#include "core/papers/PaperUnits.h"

namespace stavewright::papers {

namespace {

constexpr Length step = 1_mm;
/// Larger marks (a stain, a band of sapwood) have room for a name in them.
constexpr Length largestKept = 20_mm;
constexpr Length arrow = 12_mm;
constexpr Length air = 0.8_mm; ///< between a name and a knot beside it

} // namespace

Length PanelLabels::freePlace(Length from, Length end, Length wide, const Stretch& high) const {
    const bool rightwards = from <= end;
    for (Length at = from; rightwards ? at <= end : at >= end; at += rightwards ? step : -step) {
        if (m_placer.isFree({at - air, high.from, at + wide + air, high.to})) {
            return at;
        }
    }
    return from;
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
    const auto around = [&](Length above) { return Stretch{baseline - above, baseline + 1_mm}; };
    const TextStyle bold{isNarrow ? 8.0 : 14.0, Weight::SemiBold, Align::Left, Ink::Black, true, 0};
    const Stretch ofName = around(isNarrow ? 2.6_mm : 4.2_mm);
    const Length farthest = area.x0 + area.length() / 3;
    const Length at = freePlace(area.x0 + 3_mm, farthest, m_pen.widthOf(stave.name, bold), ofName);
    const Rect name = m_pen.text({at, baseline}, stave.name, bold);
    m_placer.take(name);
    if (stave.planing != 0) {
        const Stretch ofArrow{middle - 2_mm, middle + 2_mm};
        const Length left = freePlace(name.x1 + 4_mm, farthest + arrow, arrow, ofArrow);
        const Point from{stave.planing > 0 ? left : left + arrow, middle};
        const Point to{stave.planing > 0 ? left + arrow : left, middle};
        m_pen.line(from, to, {0.35_mm});
        m_pen.line(to, {to.x - 2.4_mm * stave.planing, to.y + 1.6_mm}, {0.35_mm});
        m_placer.take({left, ofArrow.from, left + arrow, ofArrow.to});
    }
    const TextStyle small{8, Weight::Regular, Align::Left, Ink::Black, true, 0};
    const Length wide = m_pen.widthOf(stave.comes, small);
    const Length right = area.x1 - 3_mm - wide;
    const Length left =
        freePlace(right, std::min(right, area.x0 + area.length() / 2), wide, around(2.6_mm));
    m_placer.take(m_pen.text({left, baseline}, stave.comes, small));
}

/// At its right, else at its left, above or below; left out where nothing is free.
void PanelLabels::writeKnot(const KnotLabel& label) {
    const TextStyle style{8, Weight::SemiBold, Align::Left, Ink::Black, true, 0};
    const Rect& knot = label.knot;
    const Length wide = m_pen.widthOf(label.text, style);
    const Point middle{(knot.x0 + knot.x1) / 2, (knot.y0 + knot.y1) / 2};
    const std::array<Point, 4> places = {
        Point{knot.x1 + 0.6_mm, middle.y + 1_mm}, Point{knot.x0 - 0.6_mm - wide, middle.y + 1_mm},
        Point{middle.x - wide / 2, knot.y0 - 0.8_mm}, Point{middle.x - wide / 2, knot.y1 + 2.8_mm}};
    for (const Point& at : places) {
        const Rect box{at.x - 0.3_mm, at.y - 2.6_mm, at.x + wide + 0.3_mm, at.y + 0.4_mm};
        if (m_placer.isFree(box)) {
            m_placer.take(box);
            m_pen.text(at, label.text, style);
            return;
        }
    }
}

void PanelLabels::write(const std::vector<StaveLabel>& staves,
                        const std::vector<KnotLabel>& knots) {
    for (const KnotLabel& label : knots) {
        if (label.knot.length() <= largestKept) {
            m_placer.take(label.knot);
        }
    }
    for (const StaveLabel& stave : staves) {
        writeStave(stave);
    }
    for (const KnotLabel& label : knots) {
        writeKnot(label);
    }
}

} // namespace stavewright::papers
