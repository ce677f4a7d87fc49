#include "ui/session/LostSelection.h"

#include <algorithm>

namespace stavewright::ui {

namespace {

bool planHolds(const Document& document, BlankId id) {
    if (!document.plan) {
        return false;
    }
    for (const BoardLayout& layout : document.plan->boards) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                if (std::any_of(strip.blanks.begin(), strip.blanks.end(),
                                [id](const Blank& blank) { return blank.id == id; })) {
                    return true;
                }
            }
        }
    }
    return false;
}

} // namespace

Selection withoutLost(const Document& document, Selection kept) {
    if (kept.board) {
        const Board* board = findBoard(document, *kept.board);
        if (board == nullptr) {
            kept.board.reset();
            kept.defect.reset();
        } else if (kept.defect &&
                   std::none_of(board->defects.begin(), board->defects.end(),
                                [&](const Defect& defect) { return defect.id == *kept.defect; })) {
            kept.defect.reset();
        }
    }
    if (kept.part && findPart(document, *kept.part) == nullptr) {
        kept.part.reset();
    }
    if (kept.blank && !planHolds(document, *kept.blank)) {
        kept.blank.reset();
    }
    return kept;
}

} // namespace stavewright::ui
