#include "core/hand/Laying.h"

#include <algorithm>

#include "core/hand/PlanTree.h"

namespace stavewright::hand {

namespace {

void sortTree(BoardLayout& layout) {
    std::stable_sort(
        layout.sections.begin(), layout.sections.end(),
        [](const Section& a, const Section& b) { return a.along.from < b.along.from; });
    for (Section& section : layout.sections) {
        std::stable_sort(
            section.strips.begin(), section.strips.end(),
            [](const Strip& a, const Strip& b) { return a.across.from < b.across.from; });
        for (Strip& strip : section.strips) {
            std::stable_sort(strip.blanks.begin(), strip.blanks.end(),
                             [](const Blank& a, const Blank& b) { return a.rect.x0 < b.rect.x0; });
        }
    }
}

/// Everything in the section stands `by` further along its frame, whose origin goes back as much:
/// on the board nothing moves, but for the rounding of a leaning frame.
void moveOrigin(Section& section, Length by) {
    section.frame.origin = toOuter(section.frame, Point{-by, Length()});
    const auto shift = [by](Rect& rect) {
        rect.x0 += by;
        rect.x1 += by;
    };
    for (Strip& strip : section.strips) {
        for (Blank& blank : strip.blanks) {
            shift(blank.rect);
            if (blank.actual) {
                shift(*blank.actual);
            }
        }
        for (Offcut& offcut : strip.offcuts) {
            shift(offcut.rect);
        }
    }
    for (Offcut& offcut : section.offcuts) {
        shift(offcut.rect);
    }
}

Section sectionFor(const Laying& laying, Length length, Blank blank, std::int64_t& nextId) {
    Section section;
    section.id = SectionId{nextId++};
    section.facing = laying.bed.facing;
    section.frame = laying.bed.frame;
    section.frame.origin = toOuter(laying.bed.frame, Point{laying.along, laying.bed.across.from});
    Strip strip;
    strip.id = StripId{nextId++};
    strip.across = {Length(), laying.bed.across.length()};
    blank.rect = {Length(), Length(), length, strip.across.to};
    const Rect box = boxOnBoard(section, blank.rect);
    section.along = {box.x0, box.x1};
    strip.blanks.push_back(std::move(blank));
    section.strips.push_back(std::move(strip));
    return section;
}

void layInSection(Section& section, bool mayGrow, const Laying& laying, Length length, Blank blank,
                  std::int64_t& nextId) {
    blank.rect = rectOf(laying, length);
    const Rect box = boxOnBoard(section, blank.rect);
    const auto strip = std::find_if(section.strips.begin(), section.strips.end(),
                                    [&](const Strip& each) { return each.id == laying.bed.strip; });
    const Length low = blank.rect.x0;
    if (strip != section.strips.end()) {
        strip->blanks.push_back(std::move(blank));
    } else {
        Strip made;
        made.id = StripId{nextId++};
        made.across = laying.bed.across;
        made.blanks.push_back(std::move(blank));
        section.strips.push_back(std::move(made));
    }
    if (!mayGrow) {
        return;
    }
    section.along = {std::min(section.along.from, box.x0), std::max(section.along.to, box.x1)};
    if (low < Length()) {
        moveOrigin(section, -low);
    }
}

} // namespace

Rect rectOf(const Laying& laying, Length length) {
    return {laying.along, laying.bed.across.from, laying.along + length, laying.bed.across.to};
}

Polygon outlineOf(const Laying& laying, Length length) {
    return toOuter(laying.bed.frame, rectOf(laying, length));
}

BoardLayout laid(BoardLayout layout, const Laying& laying, Length length, Blank blank,
                 std::int64_t& nextId) {
    layout.board = laying.board;
    blank.pose = laying.pose;
    const auto section =
        std::find_if(layout.sections.begin(), layout.sections.end(),
                     [&](const Section& each) { return each.id == laying.bed.section; });
    if (section == layout.sections.end()) {
        layout.sections.push_back(sectionFor(laying, length, std::move(blank), nextId));
    } else {
        const bool mayGrow = isFree(layout, *section);
        layInSection(*section, mayGrow, laying, length, std::move(blank), nextId);
    }
    sortTree(layout);
    return layout;
}

Laying layingOf(const BoardLayout& layout, const Section& section, const Strip& strip,
                const Blank& blank) {
    Laying laying;
    laying.board = layout.board;
    laying.bed.section = section.id;
    laying.bed.strip = strip.id;
    laying.bed.frame = section.frame;
    laying.bed.across = {blank.rect.y0, blank.rect.y1};
    laying.along = blank.rect.x0;
    laying.pose = blank.pose;
    return laying;
}

} // namespace stavewright::hand
