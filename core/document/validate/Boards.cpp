#include <algorithm>

#include "core/document/Limits.h"
#include "core/document/validate/Findings.h"
#include "core/geometry/PolygonOps.h"
#include "core/units/Glyph.h"

namespace stavewright::validation {

namespace {

/// True when every line across meets the outline in one run: walking round, x goes out and back
/// once.
bool isOneRunAtEveryX(const Polygon& outline) {
    int turns = 0;
    int before = 0; // direction of the last edge that moved in x
    int first = 0;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const Length from = outline[i].x;
        const Length to = outline[(i + 1) % outline.size()].x;
        const int direction = to > from ? 1 : (to < from ? -1 : 0);
        if (direction == 0) {
            continue;
        }
        turns += before != 0 && direction != before ? 1 : 0;
        first = first == 0 ? direction : first;
        before = direction;
    }
    turns += before != first ? 1 : 0;
    return turns == 2;
}

/// Corners few and near enough for the geometry to judge them; then the geometry's own verdict.
void checkPolygon(const Polygon& polygon, const std::string& place, const std::string& what,
                  Findings& findings) {
    findings.count(place, "corners in " + what, polygon.size(), limits::cornersOfOneOutline);
    for (std::size_t i = 0; i < polygon.size() && findings.ok(); ++i) {
        const auto near = [&](const char* axis, Length value) {
            findings.length(at(place, i), std::string(axis) + " of a corner of " + what, value,
                            {-limits::longestBoard, limits::longestBoard});
        };
        near("x", polygon[i].x);
        near("y", polygon[i].y);
    }
    if (!findings.ok()) {
        return;
    }
    if (const Status valid = validatePolygon(polygon); !valid) {
        findings.refuse(place, "For " + what + ": " + valid.error().message);
    }
}

void checkOutline(const Board& board, const std::string& place, const std::string& whose,
                  Findings& findings) {
    const std::string what = "the outline of " + whose;
    checkPolygon(board.outline, place, what, findings);
    if (!findings.ok()) {
        return;
    }
    const Rect box = boundingBox(board.outline);
    if (box.x0 != Length()) {
        findings.refuse(place, "The outline of " + whose +
                                   " begins at x = " + findings.say(box.x0) +
                                   "; it must begin at x = 0, the datum end.");
    }
    findings.length(place, "The length of " + whose, box.length(),
                    Range::aboveZeroUpTo(limits::longestBoard));
    findings.length(place, "The width of " + whose, box.width(),
                    Range::aboveZeroUpTo(limits::widestBoard));
    if (!isOneRunAtEveryX(board.outline)) {
        findings.refuse(place, "The outline of " + whose +
                                   " folds back along the grain; at every distance from the datum "
                                   "end the board must be one run of wood across.");
    }
}

/// A mark may run over the edge, as a knot there does, but at least half of it lies on the board.
bool liesOnBoard(const Polygon& mark, const Board& board) {
    if (coveredWithinTolerance(mark, board.outline)) {
        return true;
    }
    return intersection(mark, board.outline).area * 2 >= areaOf(mark);
}

void checkFaceMark(const FaceMark& mark, const Board& board, const std::string& place,
                   const std::string& whose, Findings& findings) {
    const std::string what = "the mark of " + whose;
    checkPolygon(mark.outline, place + "/outline", what, findings);
    if (mark.form) {
        const Range range = Range::aboveZeroUpTo(limits::longestBoard);
        findings.length(place + "/ellipse/along", "The length of the ellipse of " + whose,
                        mark.form->along, range);
        findings.length(place + "/ellipse/across", "The width of the ellipse of " + whose,
                        mark.form->across, range);
        constexpr std::int64_t fullTurn = 6'283'186; // microradians
        findings.number(place + "/ellipse/turn", "The turn of the ellipse of " + whose,
                        mark.form->turnMicroradians, -fullTurn, fullTurn);
    }
    if (findings.ok() && !liesOnBoard(mark.outline, board)) {
        const Rect box = boundingBox(mark.outline);
        findings.refuse(place + "/outline", "The mark of " + whose + ", at " +
                                                findings.say(box.x0) + " to " +
                                                findings.say(box.x1) +
                                                " from the datum end, lies outside the board; "
                                                "at least half of it must be on the wood.");
    }
}

void checkDefects(const Board& board, const std::string& boardPlace, const std::string& boardName,
                  Findings& findings) {
    const std::string place = boardPlace + "/defects";
    findings.count(place, "defects on " + boardName, board.defects.size(),
                   limits::defectsOnOneBoard);
    Seen marks;
    for (std::size_t i = 0; i < board.defects.size() && findings.ok(); ++i) {
        const Defect& defect = board.defects[i];
        const std::string here = at(place, i);
        findings.mark(here + "/mark", "The mark of a defect on " + boardName, defect.mark);
        if (const auto first = marks.before(defect.mark, here)) {
            findings.refuse(here + "/mark", "The mark " + reading::inQuotes(defect.mark) +
                                                " is given to two defects of " + boardName +
                                                ", first at " + *first +
                                                "; each defect needs its own.");
        }
        const std::string whose = "defect " + defect.mark + " on " + boardName;
        if (!defect.onA && !defect.onB) {
            findings.refuse(here, "There is no mark of " + whose +
                                      " on either face; “onA”, “onB” or both are due.");
        }
        if (defect.onA) {
            checkFaceMark(*defect.onA, board, here + "/onA", whose, findings);
        }
        if (defect.onB) {
            checkFaceMark(*defect.onB, board, here + "/onB", whose, findings);
        }
        if (defect.depth) {
            findings.length(here + "/depth", "The depth of " + whose, *defect.depth,
                            Range::aboveZeroUpTo(limits::thickest));
        }
        findings.text(here + "/note", "The note on " + whose, defect.note, limits::noteCharacters,
                      Findings::Lines::Many);
    }
}

void checkLookedAt(const Board& board, Length length, const std::string& place,
                   const std::string& whose, Findings& findings) {
    for (std::size_t i = 0; i < board.lookedAt.size() && findings.ok(); ++i) {
        const Stretch stretch = board.lookedAt[i].stretch;
        if (stretch.from < Length() || stretch.to > length || stretch.from >= stretch.to) {
            findings.refuse(at(place, i) + "/stretch",
                            "The stretch looked at on " + whose + " runs from " +
                                findings.say(stretch.from) + " to " + findings.say(stretch.to) +
                                "; it must run forwards and lie from 0 to " + findings.say(length) +
                                ", the length of the board.");
        }
        if (board.lookedAt[i].knotsUnder) {
            findings.length(at(place, i) + "/knotsUnder",
                            "The size under which knots on " + whose + " were not marked",
                            *board.lookedAt[i].knotsUnder,
                            Range::aboveZeroUpTo(limits::widestBoard));
        }
    }
}

void checkSawn(const Board& board, const std::string& place, const std::string& whose,
               Findings& findings) {
    findings.count(place, "sawn regions on " + whose, board.sawn.size(),
                   limits::sawnRegionsOnOneBoard);
    const Rect box = boundingBox(board.outline);
    for (std::size_t i = 0; i < board.sawn.size() && findings.ok(); ++i) {
        const Rect& where = board.sawn[i].where;
        if (where.isEmpty() || !box.overlaps(where)) {
            findings.refuse(
                at(place, i) + "/where",
                "The sawn region of " + whose + " runs from " + findings.say(where.x0) + " to " +
                    findings.say(where.x1) + " along and from " + findings.say(where.y0) + " to " +
                    findings.say(where.y1) + " across; it must run forwards and meet the board, " +
                    findings.say(box.x0) + " to " + findings.say(box.x1) + " along and " +
                    findings.say(box.y0) + " to " + findings.say(box.y1) + " across.");
        }
    }
}

void checkPlace(const photo::PhotoPoint& at, const photo::PhotoControls& picture,
                const std::string& place, const std::string& what, Findings& findings) {
    const std::int64_t across = std::int64_t{picture.width} * 1'000;
    const std::int64_t down = std::int64_t{picture.height} * 1'000;
    if (at.x < 0 || at.y < 0 || at.x > across || at.y > down) {
        findings.refuse(place,
                        what + " stands at " + std::to_string(at.x) + ", " + std::to_string(at.y) +
                            " thousandths of a pixel; it must lie in the picture, 0 to " +
                            std::to_string(across) + " and 0 to " + std::to_string(down) + '.');
    }
}

void checkMarks(const photo::PhotoControls& controls, const std::string& here,
                const std::string& whose, Findings& findings) {
    findings.count(here + "/corners", "corners of " + whose, controls.corners.size(), 4);
    findings.count(here + "/tape", "tape readings of " + whose, controls.tape.size(),
                   limits::marksInOnePhoto);
    findings.count(here + "/edges", "places on the edges of " + whose, controls.edges.size(),
                   limits::marksInOnePhoto);
    findings.count(here + "/spots", "spots of " + whose, controls.spots.size(),
                   limits::marksInOnePhoto);
    for (std::size_t i = 0; i < controls.corners.size() && findings.ok(); ++i) {
        const std::string place = at(here + "/corners", i);
        checkPlace(controls.corners[i].at, controls, place + "/at", "A corner of " + whose,
                   findings);
        for (std::size_t k = 0; k < i; ++k) {
            if (controls.corners[k].corner == controls.corners[i].corner) {
                findings.refuse(place + "/corner",
                                "The same corner of the board is marked twice in " + whose +
                                    "; each may be marked once.");
            }
        }
    }
    for (std::size_t i = 0; i < controls.tape.size() && findings.ok(); ++i) {
        const std::string place = at(here + "/tape", i);
        checkPlace(controls.tape[i].at, controls, place + "/at", "A tape reading of " + whose,
                   findings);
        findings.length(place + "/reading", "A tape reading of " + whose, controls.tape[i].reading,
                        Range::zeroUpTo(limits::longestBoard));
    }
    for (std::size_t i = 0; i < controls.edges.size() && findings.ok(); ++i) {
        checkPlace(controls.edges[i].at, controls, at(here + "/edges", i) + "/at",
                   "A place on the edge in " + whose, findings);
    }
    for (std::size_t i = 0; i < controls.spots.size() && findings.ok(); ++i) {
        const std::string place = at(here + "/spots", i);
        const int number = controls.spots[i].number;
        checkPlace(controls.spots[i].at, controls, place + "/at", "A spot in " + whose, findings);
        findings.number(place + "/number", "The number of a spot in " + whose, number, 1,
                        photo::highestSpot);
        for (std::size_t k = 0; k < i; ++k) {
            if (controls.spots[k].number == number) {
                findings.refuse(place + "/number", "Spot " + std::to_string(number) +
                                                       " is marked twice in " + whose +
                                                       "; each may be marked once.");
            }
        }
    }
}

} // namespace

void checkPhoto(const BoardPhoto& photo, const std::string& here, const std::string& whose,
                Length widest, Findings& findings) {
    findings.text(here + "/name", "The name of " + whose, photo.name, limits::nameCharacters);
    if (photo.file.sha256().empty()) {
        findings.refuse(here + "/sha256", "There is no picture behind " + whose + '.');
    }
    findings.number(here + "/pixels", "The width of " + whose + " in pixels", photo.controls.width,
                    1, limits::pixelsAcross);
    findings.number(here + "/pixels", "The height of " + whose + " in pixels",
                    photo.controls.height, 1, limits::pixelsAcross);
    findings.length(here + "/size/length", "The length in " + whose, photo.size.length,
                    Range::aboveZeroUpTo(limits::longestBoard));
    const Range width = Range::aboveZeroUpTo(widest);
    findings.length(here + "/size/widthAtDatum", "The width at the datum end in " + whose,
                    photo.size.widthAtDatum, width);
    findings.length(here + "/size/widthAtFar", "The width at the far end in " + whose,
                    photo.size.widthAtFar, width);
    if (findings.ok()) {
        checkMarks(photo.controls, here, whose, findings);
    }
}

namespace {

void checkPhotos(const Board& board, const std::string& boardPlace, const std::string& boardName,
                 Findings& findings) {
    const std::string place = boardPlace + "/photos";
    findings.count(place, "photographs of " + boardName, board.photos.size(),
                   limits::photosOfOneBoard);
    for (std::size_t i = 0; i < board.photos.size() && findings.ok(); ++i) {
        const std::string whose = "photograph " + std::to_string(i + 1) + " of " + boardName;
        checkPhoto(board.photos[i], at(place, i), whose, limits::widestBoard, findings);
    }
}

void checkMeasures(const Board& board, const std::string& here, const std::string& whose,
                   Findings& findings) {
    if (std::find(tradeQuarters.begin(), tradeQuarters.end(), board.quarter) ==
        tradeQuarters.end()) {
        findings.refuse(here + "/quarter", "The thickness of " + whose + " is " +
                                               std::to_string(board.quarter.quarters) +
                                               "/4; it must be 4/4, 5/4, 6/4, 8/4, 10/4, 12/4 or "
                                               "16/4.");
    }
    findings.length(here + "/thinnest", "The thinnest spot of " + whose, board.thinnest,
                    Range::aboveZeroUpTo(limits::thickest));
    const Range warp = Range::zeroUpTo(limits::thickest);
    findings.length(here + "/warp/bow", "The bow of " + whose, board.warp.bow, warp);
    findings.length(here + "/warp/cup", "The cup of " + whose, board.warp.cup, warp);
    findings.length(here + "/warp/twist", "The twist of " + whose, board.warp.twist, warp);
    findings.money(here + "/pricePerBoardFoot", "The price of " + whose, board.pricePerBoardFoot);
    if (board.billed && (*board.billed <= BoardFeet() || *board.billed > limits::billed)) {
        findings.refuse(here + "/billed",
                        "The billed measure of " + whose + " is " +
                            std::to_string(board.billed->inMillionths()) +
                            " millionths of a board foot; it must be above 0 and at most " +
                            std::to_string(limits::billed.inMillionths()) + '.');
    }
    if (board.moistureTenths) {
        constexpr std::int64_t twiceItsDryWeight = 2'000; // green wood may hold that much water
        findings.number(here + "/moistureTenths",
                        "The moisture content of " + whose + " in tenths of a percent",
                        *board.moistureTenths, 0, twiceItsDryWeight);
    }
    if (board.ringRadius) {
        findings.length(here + "/ringRadius", "The radius of the rings of " + whose,
                        *board.ringRadius, Range::aboveZeroUpTo(limits::widestPart));
    }
    findings.text(here + "/notes", "The note on " + whose, board.notes, limits::noteCharacters,
                  Findings::Lines::Many);
}

void checkRackLink(const RackLink& link, const std::string& here, const std::string& whose,
                   Findings& findings) {
    constexpr std::size_t nameLength = 32;
    if (link.rack.size() != nameLength ||
        link.rack.find_first_not_of("0123456789abcdef") != std::string::npos) {
        findings.refuse(here + "/rack", "The shop rack that " + whose + " comes from is called " +
                                            reading::inQuotes(link.rack) +
                                            "; 32 digits from 0 to f are due.");
    }
    findings.number(here + "/piece", "The number on the shop rack of " + whose, link.piece, 1,
                    limits::id);
    findings.number(here + "/loan", "The number of the loan of " + whose, link.loan, 0, limits::id);
}

void checkTrims(const Board& board, Length length, const std::string& here,
                const std::string& whose, Findings& findings) {
    findings.length(here + "/trimAtDatum", "The trim at the datum end of " + whose,
                    board.trimAtDatum, {Length(), length, true, false});
    findings.length(here + "/trimAtFar", "The trim at the far end of " + whose, board.trimAtFar,
                    {Length(), length, true, false});
    if (board.trimAtDatum + board.trimAtFar >= length) {
        findings.refuse(here + "/trimAtFar", "The trims of " + whose + " come to " +
                                                 findings.say(board.trimAtDatum + board.trimAtFar) +
                                                 "; together they must be below its length, " +
                                                 findings.say(length) + '.');
    }
}

void checkParent(const Board& board, std::int64_t nextId, const std::string& here,
                 const std::string& whose, Findings& findings) {
    // The parent itself may be gone from the rack.
    const BoardId parent = board.parent->board;
    if (!parent.isSet() || parent.value >= nextId || parent == board.id) {
        findings.refuse(here + "/parent/board",
                        "The board that " + whose + " comes from has id " +
                            std::to_string(parent.value) +
                            "; it must be the id of another board, below the next id " +
                            std::to_string(nextId) + '.');
    }
}

} // namespace

void checkBoards(const Document& document, Findings& findings) {
    std::size_t photos = 0;
    for (const Board& board : document.boards) {
        photos += board.photos.size();
    }
    findings.count("/boards", "photographs", photos, limits::photosOfOneJob);
    Seen marks;
    for (std::size_t i = 0; i < document.boards.size() && findings.ok(); ++i) {
        const Board& board = document.boards[i];
        const std::string here = at("/boards", i);
        findings.mark(here + "/mark", "The mark of a board", board.mark);
        if (const auto first = marks.before(board.mark, here)) {
            findings.refuse(here + "/mark", "The mark " + reading::inQuotes(board.mark) +
                                                " is given to two boards, first at " + *first +
                                                "; each board needs its own.");
        }
        const std::string whose = "board " + board.mark;
        findings.species(here + "/species", whose, board.species);
        checkMeasures(board, here, whose, findings);
        checkOutline(board, here + "/outline", whose, findings);
        if (!findings.ok()) {
            return;
        }
        const Length length = boundingBox(board.outline).length();
        checkTrims(board, length, here, whose, findings);
        checkLookedAt(board, length, here + "/lookedAt", whose, findings);
        checkSawn(board, here + "/sawn", whose, findings);
        checkDefects(board, here, whose, findings);
        checkPhotos(board, here, whose, findings);
        if (board.parent) {
            checkParent(board, document.nextId, here, whose, findings);
        }
        if (board.rackLink) {
            checkRackLink(*board.rackLink, here + "/rackLink", whose, findings);
        }
    }
}

} // namespace stavewright::validation
