#include <algorithm>

#include "core/audit/Checks.h"
#include "core/geometry/PolygonOps.h"

namespace stavewright::audit_detail {

namespace {

void checkEnds(const PlacedSection& placed, Report& report) {
    const Words& words = report.words();
    const Rect box = boundingBox(placed.board->outline);
    const Stretch& along = placed.section->along;
    const About subject{.board = placed.board->id};
    const std::string name = words.section(placed.board->id, placed.index);
    if (along.from < box.x0) {
        report.fail(FindingKind::SectionOutsideBoard, subject,
                    name + " begins " + words.length(box.x0 - along.from) +
                        " before the datum end.");
    }
    if (along.to > box.x1) {
        report.fail(FindingKind::SectionOutsideBoard, subject,
                    name + " ends " + words.length(along.to - box.x1) +
                        " past the far end of the board.");
    }
}

void checkNeighbours(const Case& opened, const PlacedSection& low, const PlacedSection& high,
                     Report& report) {
    const Words& words = report.words();
    const Length gap = high.section->along.from - low.section->along.to;
    const Length kerf = opened.document.shop.machines.crosscut.kerf;
    const About subject{.board = low.board->id};
    const std::size_t first = std::min(low.index, high.index) + 1;
    const std::size_t second = std::max(low.index, high.index) + 1;
    const std::string pair = "sections " + std::to_string(first) + " and " +
                             std::to_string(second) + " of " + words.board(low.board->id);
    if (gap < Length()) {
        report.fail(FindingKind::SectionsOverlap, subject,
                    pair + " overlap by " + words.length(-gap) + ".");
    } else if (gap < kerf) {
        report.fail(FindingKind::KerfMissing, subject,
                    pair + " stand " + words.beside(gap, kerf) + " apart, " +
                        words.length(kerf - gap) + " less than the " + words.length(kerf) +
                        " that the crosscut takes.");
    }
}

} // namespace

void checkSections(const Case& opened, Report& report) {
    std::vector<const PlacedSection*> onBoard;
    const auto checkBoard = [&] {
        const auto lower = [](const PlacedSection* a, const PlacedSection* b) {
            return a->section->along.from < b->section->along.from;
        };
        if (!std::is_sorted(onBoard.begin(), onBoard.end(), lower)) {
            report.fail(FindingKind::CutOrder, {.board = onBoard.front()->board->id},
                        "The sections of " + report.words().board(onBoard.front()->board->id) +
                            " are not listed from the datum end on.");
        }
        std::stable_sort(onBoard.begin(), onBoard.end(), lower);
        for (std::size_t i = 1; i < onBoard.size(); ++i) {
            checkNeighbours(opened, *onBoard[i - 1], *onBoard[i], report);
        }
        onBoard.clear();
    };
    for (const PlacedSection& placed : opened.sections) {
        if (!onBoard.empty() && onBoard.front()->board != placed.board) {
            checkBoard();
        }
        if (placed.sound) {
            checkEnds(placed, report);
            onBoard.push_back(&placed);
        }
    }
    checkBoard();
}

} // namespace stavewright::audit_detail
