#include "core/hand/PlanTree.h"

#include <algorithm>

#include "core/planning/Kept.h"

namespace stavewright::hand {

namespace {

bool isOnlyMarked(const Offcut& offcut) { return offcut.state == CutState::Planned; }

bool isCut(const Offcut& offcut) { return !isOnlyMarked(offcut); }

/// The blanks' extent along the board.
std::optional<Stretch> extentOf(const Section& section) {
    std::optional<Stretch> extent;
    for (const Strip& strip : section.strips) {
        for (const Blank& blank : strip.blanks) {
            const Rect box = boxOnBoard(section, woodOf(blank));
            extent = extent ? Stretch{std::min(extent->from, box.x0), std::max(extent->to, box.x1)}
                            : Stretch{box.x0, box.x1};
        }
    }
    return extent;
}

void dropEmptySections(BoardLayout& layout) {
    std::erase_if(layout.sections, [&](const Section& section) {
        return isFree(layout, section) && section.strips.empty();
    });
}

} // namespace

std::optional<TreePlace> placeOf(const Plan& plan, BlankId id) {
    for (std::size_t b = 0; b < plan.boards.size(); ++b) {
        const std::vector<Section>& sections = plan.boards[b].sections;
        for (std::size_t s = 0; s < sections.size(); ++s) {
            for (std::size_t t = 0; t < sections[s].strips.size(); ++t) {
                const std::vector<Blank>& blanks = sections[s].strips[t].blanks;
                const auto found = std::find_if(blanks.begin(), blanks.end(),
                                                [id](const Blank& each) { return each.id == id; });
                if (found != blanks.end()) {
                    return TreePlace{b, s, t, static_cast<std::size_t>(found - blanks.begin())};
                }
            }
        }
    }
    return std::nullopt;
}

const Section& sectionAt(const Plan& plan, const TreePlace& place) {
    return plan.boards[place.board].sections[place.section];
}

const Blank& blankAt(const Plan& plan, const TreePlace& place) {
    return sectionAt(plan, place).strips[place.strip].blanks[place.blank];
}

const BoardLayout* layoutOf(const Plan& plan, BoardId board) {
    const auto found =
        std::find_if(plan.boards.begin(), plan.boards.end(),
                     [board](const BoardLayout& each) { return each.board == board; });
    return found == plan.boards.end() ? nullptr : &*found;
}

bool isFree(const BoardLayout& layout, const Section& section) {
    return !planning::mustStay(layout, section);
}

void dropPlannedOffcuts(BoardLayout& layout) {
    for (Section& section : layout.sections) {
        if (isFree(layout, section)) {
            std::erase_if(section.offcuts, isOnlyMarked);
            for (Strip& strip : section.strips) {
                std::erase_if(strip.offcuts, isOnlyMarked);
            }
        }
    }
    dropEmptySections(layout);
}

void takeOut(BoardLayout& layout, BlankId id) {
    for (Section& section : layout.sections) {
        for (Strip& strip : section.strips) {
            const auto found = std::find_if(strip.blanks.begin(), strip.blanks.end(),
                                            [id](const Blank& each) { return each.id == id; });
            if (found == strip.blanks.end()) {
                continue;
            }
            const Rect box = boxOnBoard(section, woodOf(*found));
            strip.blanks.erase(found);
            if (isFree(layout, section)) {
                std::erase_if(section.strips, [](const Strip& each) {
                    return each.blanks.empty() &&
                           std::none_of(each.offcuts.begin(), each.offcuts.end(), isCut);
                });
                const std::optional<Stretch> left = extentOf(section);
                if (left && box.x1 >= section.along.to - polygonTolerance) {
                    section.along.to = std::max(left->to, section.along.from);
                }
                if (left && box.x0 <= section.along.from + polygonTolerance) {
                    section.along.from = std::min(left->from, section.along.to);
                }
            }
            dropEmptySections(layout);
            return;
        }
    }
}

Rect boxOnBoard(const Section& section, const Rect& rect) {
    return boundingBox(toOuter(section.frame, rect));
}

bool holdsLock(const BoardLayout& layout) {
    const auto isLocked = [](const auto& each) { return each.locked; };
    return layout.locked ||
           std::any_of(layout.sections.begin(), layout.sections.end(), [&](const Section& section) {
               return section.locked ||
                      std::any_of(section.strips.begin(), section.strips.end(),
                                  [&](const Strip& strip) {
                                      return std::any_of(strip.blanks.begin(), strip.blanks.end(),
                                                         isLocked);
                                  });
           });
}

} // namespace stavewright::hand
