#include "ui/lumber/BoardSteps.h"

#include <algorithm>

#include "core/lumber/BoardShape.h"
#include "core/lumber/MarkPlace.h"

namespace stavewright::ui {

namespace {

constexpr const char* firstSpecies = "white_oak";

template <class Things>
bool isTaken(const Things& things, const std::string& mark) {
    return std::any_of(things.begin(), things.end(),
                       [&](const auto& thing) { return thing.mark == mark; });
}

std::string freeBoardMark(const Document& document) {
    for (std::size_t number = document.boards.size() + 1;; ++number) {
        if (std::string mark = std::to_string(number); !isTaken(document.boards, mark)) {
            return mark;
        }
    }
}

/// A common rough board in the job's own units.
PlainOutline firstOutline(UnitSystem units) {
    return units == UnitSystem::Inches
               ? PlainOutline{Length::inches(96), Length::inches(8), Length::inches(8), {}}
               : PlainOutline{Length::millimetres(2'400),
                              Length::millimetres(200),
                              Length::millimetres(200),
                              {}};
}

} // namespace

const Board* shownBoard(const Document& document, const std::optional<BoardId>& id) {
    if (id) {
        return findBoard(document, *id);
    }
    return document.boards.empty() ? nullptr : &document.boards.front();
}

Board newBoard(const Document& document) {
    Board board;
    board.species = firstSpecies;
    board.thinnest = board.quarter.nominal();
    PlainOutline outline = firstOutline(document.info.units);
    if (!document.boards.empty()) {
        const Board& last = document.boards.back();
        board.species = last.species;
        board.quarter = last.quarter;
        board.thinnest = last.thinnest;
        board.pricePerBoardFoot = last.pricePerBoardFoot;
        board.moistureTenths = last.moistureTenths;
        board.trimAtDatum = last.trimAtDatum;
        board.trimAtFar = last.trimAtFar;
        const EndWidths widths = endWidthsOf(last.outline);
        outline = {lengthOf(last), widths.atDatum, widths.atFar, {}};
    }
    board.outline = outlineOf(outline);
    board.id = BoardId{document.nextId};
    board.mark = freeBoardMark(document);
    return board;
}

Board copyOf(const Document& document, const Board& board) {
    Board copy = board;
    std::int64_t next = document.nextId;
    copy.id = BoardId{next++};
    copy.mark = freeBoardMark(document);
    copy.billed.reset();
    copy.parent.reset();
    copy.rackLink.reset(); // there is one such board in the shop
    copy.photos.clear();   // they show the other board
    for (Defect& defect : copy.defects) {
        defect.id = DefectId{next++};
    }
    return copy;
}

Edit removal(const Document& document, BoardId board) {
    const bool isCut =
        document.plan && std::any_of(document.plan->boards.begin(), document.plan->boards.end(),
                                     [&](const auto& layout) { return layout.board == board; });
    if (!isCut) {
        return Edit{RemoveBoard{board}};
    }
    return Edit{EditSequence{{Edit{ReplacePlan{}}, Edit{RemoveBoard{board}}}}};
}

Defect newDefect(const Document& document, const Board& board, std::optional<DefectKind> kind) {
    const Length inch =
        document.info.units == UnitSystem::Inches ? Length::inches(1) : Length::millimetres(25);
    Defect defect;
    defect.id = DefectId{document.nextId};
    defect.mark = freeDefectMark(board);
    defect.kind = DefectKind::SoundKnot;
    MarkPlace place{lengthOf(board) / 2, inch, inch, inch};
    if (!board.defects.empty()) {
        const Defect& last = board.defects.back();
        defect.kind = last.kind;
        const MarkPlace before = placeOf(board.outline, last.onA ? *last.onA : *last.onB);
        place.fromDatum = std::min(before.fromDatum + before.along, lengthOf(board) - inch);
    }
    defect.kind = kind.value_or(defect.kind);
    if (isLine(defect.kind)) {
        place.across = inch / 8;
    }
    defect.onA = markAt(board.outline, defect.kind, place);
    return defect;
}

std::string freeDefectMark(const Board& board) {
    for (std::size_t number = board.defects.size() + 1;; ++number) {
        if (std::string mark = "K" + std::to_string(number); !isTaken(board.defects, mark)) {
            return mark;
        }
    }
}

} // namespace stavewright::ui
