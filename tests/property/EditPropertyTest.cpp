// Every edit of the rack is undone and done again exactly, over random sequences of everything that
// is done to boards and marks.

#include <algorithm>
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include "core/document/Edit.h"
#include "core/lumber/BoardShape.h"
#include "core/lumber/MarkPlace.h"
#include "core/lumber/Marking.h"
#include "core/tally/StretchNote.h"
#include "core/tally/TallyTable.h"
#include "tests/property/Generators.h"
#include "tests/property/PhotoEdits.h"

namespace stavewright {
namespace {

using namespace property;

Point placeOn(const Board& board) {
    const Rect box = boundingBox(board.outline);
    return {box.x0 + box.length() * *rc::gen::inRange(0, 101) / 100,
            box.y0 + box.width() * *rc::gen::inRange(0, 101) / 100};
}

Polygon drawnOn(const Board& board) {
    Polygon points;
    const int count = *rc::gen::inRange(1, 9);
    for (int i = 0; i < count; ++i) {
        points.push_back(placeOn(board));
    }
    return points;
}

/// Something drawn, or what was drawn is nothing.
std::optional<FaceMark> anyMark(const Board& board) {
    const Length hair = Length::micrometres(400);
    Result<FaceMark> mark = ellipseBetween(placeOn(board), placeOn(board));
    switch (*rc::gen::inRange(0, 5)) {
    case 0:
        break;
    case 1:
        mark = ringMark(drawnOn(board), hair);
        break;
    case 2:
        mark = strokeMark(drawnOn(board), Length::millimetres(3), hair);
        break;
    case 3:
        mark = waneMark(board.outline, drawnOn(board), hair);
        break;
    default:
        mark = stretchMark(board.outline, {placeOn(board).x, placeOn(board).x});
        break;
    }
    return mark ? std::optional(mark.value()) : std::nullopt;
}

Defect* anyDefect(Board& board) {
    return board.defects.empty()
               ? nullptr
               : &board.defects[*rc::gen::inRange<std::size_t>(0, board.defects.size())];
}

/// One change of the board as a maker makes it.
Board changed(Board board, std::int64_t nextId) {
    Defect* defect = anyDefect(board);
    const BoardFace face = *rc::gen::element(BoardFace::A, BoardFace::B);
    switch (*rc::gen::inRange(0, 11)) {
    case 0:
    case 1:
        if (const auto mark = anyMark(board)) {
            Defect made;
            made.id = DefectId{nextId};
            made.mark = "K" + std::to_string(nextId);
            made.kind = *rc::gen::elementOf(allDefectKinds);
            (face == BoardFace::A ? made.onA : made.onB) = mark;
            board.defects.push_back(made);
        }
        return board;
    case 2:
        if (defect != nullptr) {
            const auto partner = partnerOf(board, defect->id, lengthOf(board));
            return partner ? paired(board, defect->id, *partner)
                           : parted(board, defect->id, DefectId{nextId}, "P");
        }
        return board;
    case 3:
        if (defect != nullptr && defect->onA) {
            Rect box = boxOf(*defect->onA);
            box.x1 += *lengthWithin(1, 30);
            box.y0 -= *lengthWithin(0, 10);
            defect->onA = stretchedTo(*defect->onA, box);
        }
        return board;
    case 4:
        if (defect != nullptr) {
            const DefectId gone = defect->id;
            std::erase_if(board.defects, [&](const Defect& each) { return each.id == gone; });
        }
        return board;
    case 5:
        return withLook(board, {face,
                                {Length(), *lengthWithin(1, 500)},
                                *rc::gen::element<std::optional<Length>>(std::nullopt,
                                                                         Length::millimetres(25))});
    case 6:
        return withRestLookedAt(board, face, Length::millimetres(20));
    case 7:
        return withOutline(board, bent(board.outline, *lengthWithin(-20, 20)));
    case 8:
        return withOutline(board, ofLength(board.outline, *lengthWithin(300, 4'000)));
    case 9:
        board.sawn.push_back({Sawn::Rift, boundingBox(board.outline)});
        board.warp.bow = *lengthWithin(0, 20);
        board.trimAtDatum = *lengthWithin(0, 50);
        return board;
    default: {
        StretchNote note;
        note.stretch = Stretch{Length(), *lengthWithin(1, 300)};
        const auto noted = withNote(board, note, face, DefectId{nextId}, "X");
        return noted ? noted.value() : board;
    }
    }
}

Edit anyEdit(const Document& document) {
    const std::size_t count = document.boards.size();
    const int choice = *rc::gen::inRange(0, 13);
    if (count == 0 || choice == 0) {
        Board made = *property::board();
        made.id = BoardId{document.nextId};
        made.mark = std::to_string(document.nextId);
        return Edit{InsertBoard{*rc::gen::inRange<std::size_t>(0, count + 1), made}};
    }
    const Board& board = document.boards[*rc::gen::inRange<std::size_t>(0, count)];
    if (choice == 1) {
        return Edit{RemoveBoard{board.id}};
    }
    if (choice == 2) {
        std::vector<TallyRow> rows(*rc::gen::inRange<std::size_t>(1, 5));
        for (TallyRow& row : rows) {
            row.at(TallyField::Length) = std::to_string(*rc::gen::inRange(30, 150));
            row.at(TallyField::Width) = std::to_string(*rc::gen::inRange(3, 15));
        }
        return putInJob(document, readTally(document, rows));
    }
    if (choice >= 10) {
        return anyPhotoEdit(document, board);
    }
    return Edit{ReplaceBoard{changed(board, document.nextId)}};
}

RC_GTEST_PROP(Edits, AreTakenBackAndDoneAgainExactly, ()) {
    Document document;
    std::vector<Document> states = {document};
    std::vector<Edit> back;
    const int steps = *rc::gen::inRange(1, 25);
    for (int i = 0; i < steps; ++i) {
        Result<Edit> inverse = apply(document, anyEdit(document));
        RC_ASSERT(inverse.ok());
        back.push_back(std::move(inverse).value());
        states.push_back(document);
    }
    std::vector<Edit> forth;
    for (std::size_t i = back.size(); i-- > 0;) {
        Result<Edit> again = apply(document, back[i]);
        RC_ASSERT(again.ok());
        RC_ASSERT(document == states[i]);
        forth.push_back(std::move(again).value());
    }
    for (std::size_t i = 0; i < forth.size(); ++i) {
        Result<Edit> inverse = apply(document, forth[forth.size() - 1 - i]);
        RC_ASSERT(inverse.ok());
        RC_ASSERT(document == states[i + 1]);
    }
}

/// What is drawn, however wildly, is a sound polygon or a sentence.
RC_GTEST_PROP(Marks, AreSoundPolygonsOrNothing, ()) {
    const Board board = *property::board();
    if (const auto mark = anyMark(board)) {
        const Status valid = validatePolygon(mark->outline);
        RC_ASSERT(valid.ok());
        RC_ASSERT(mark->outline.size() <= 1'000U);
    }
}

RC_GTEST_PROP(Looks, ANewLookIsLookedAtAndNothingElseIsLost, ()) {
    Board board = *property::board();
    const Stretch whole{Length(), lengthOf(board)};
    const auto stretch = [&] {
        const Length a = whole.to * *rc::gen::inRange(0, 100) / 100;
        return Stretch{a, a + (whole.to - a) * *rc::gen::inRange(1, 101) / 100};
    };
    const int looks = *rc::gen::inRange(1, 7);
    for (int i = 0; i < looks; ++i) {
        const LookedAt look{BoardFace::A, stretch(),
                            *rc::gen::element<std::optional<Length>>(
                                std::nullopt, Length::millimetres(10), Length::millimetres(25))};
        if (look.stretch.from >= look.stretch.to) {
            continue;
        }
        const Board before = board;
        board = withLook(board, look);
        RC_ASSERT(notLookedAt(board, BoardFace::A, look.stretch).empty());
        for (const QuickLook& quick : quicklyLookedAt(board, BoardFace::A, look.stretch)) {
            RC_ASSERT(look.knotsUnder && quick.knotsUnder <= *look.knotsUnder);
        }
        // Outside it nothing has changed.
        for (const Stretch& beside :
             {Stretch{whole.from, look.stretch.from}, Stretch{look.stretch.to, whole.to}}) {
            RC_ASSERT(notLookedAt(board, BoardFace::A, beside) ==
                      notLookedAt(before, BoardFace::A, beside));
            RC_ASSERT(quicklyLookedAt(board, BoardFace::A, beside) ==
                      quicklyLookedAt(before, BoardFace::A, beside));
        }
    }
}

} // namespace
} // namespace stavewright
