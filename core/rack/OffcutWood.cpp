#include "core/rack/OffcutWood.h"

#include <algorithm>
#include <set>

#include "core/geometry/PolygonOps.h"
#include "core/job/BoardText.h"
#include "core/layout/PieceState.h"
#include "core/units/SaidLength.h"

namespace stavewright::rack {

namespace {

Polygon moved(Polygon polygon, Point by) {
    for (Point& corner : polygon) {
        corner = {corner.x + by.x, corner.y + by.y};
    }
    return polygon;
}

/// What is common to both, the largest piece first.
std::vector<Polygon> commonPieces(const Polygon& a, const Polygon& b) {
    std::vector<Polygon> pieces = intersection(a, b).pieces;
    for (Polygon& piece : pieces) {
        piece = normalised(std::move(piece));
    }
    std::erase_if(pieces, [](const Polygon& piece) { return !validatePolygon(piece); });
    std::stable_sort(pieces.begin(), pieces.end(),
                     [](const Polygon& x, const Polygon& y) { return areaOf(x) > areaOf(y); });
    return pieces;
}

/// The marks of one face that lie on the wood, in the wood's own frame.
std::vector<FaceMark> marksOn(const FaceMark& mark, const Polygon& wood, Point toFrame) {
    if (coveredWithinTolerance(mark.outline, wood)) { // whole: it keeps its form
        FaceMark whole{moved(mark.outline, toFrame), mark.form};
        if (whole.form) {
            whole.form->centre = {whole.form->centre.x + toFrame.x,
                                  whole.form->centre.y + toFrame.y};
        }
        return {std::move(whole)};
    }
    std::vector<FaceMark> marks;
    for (Polygon& piece : commonPieces(mark.outline, wood)) {
        marks.push_back({moved(std::move(piece), toFrame), std::nullopt});
    }
    return marks;
}

/// A skewed knot that enters or leaves the wood through a sawn face: where it shows on neither or
/// one face, the whole of its way from face to face stands for the missing mark. That is more than
/// there is, never less.
void addHiddenWay(const Defect& defect, const Polygon& wood, Point toFrame,
                  std::vector<FaceMark>& onA, std::vector<FaceMark>& onB) {
    if (!defect.through || !defect.onA || !defect.onB || (!onA.empty() && !onB.empty())) {
        return;
    }
    Polygon both = defect.onA->outline;
    both.insert(both.end(), defect.onB->outline.begin(), defect.onB->outline.end());
    const std::vector<FaceMark> way = marksOn({convexHull(both), std::nullopt}, wood, toFrame);
    for (std::vector<FaceMark>* marks : {&onA, &onB}) {
        if (marks->empty() && !way.empty()) {
            marks->push_back(way.front());
        }
    }
}

void addDefect(const Defect& defect, const Polygon& wood, Point toFrame,
               std::vector<Defect>& defects) {
    std::vector<FaceMark> onA =
        defect.onA ? marksOn(*defect.onA, wood, toFrame) : std::vector<FaceMark>();
    std::vector<FaceMark> onB =
        defect.onB ? marksOn(*defect.onB, wood, toFrame) : std::vector<FaceMark>();
    addHiddenWay(defect, wood, toFrame, onA, onB);
    // The largest pieces of both faces belong together; what a crooked edge parts off is a mark of
    // its own.
    for (std::size_t i = 0; i < std::max(onA.size(), onB.size()); ++i) {
        Defect part = defect;
        part.id = {};
        part.mark = i == 0 ? defect.mark : "";
        part.onA = i < onA.size() ? std::optional(onA[i]) : std::nullopt;
        part.onB = i < onB.size() ? std::optional(onB[i]) : std::nullopt;
        defects.push_back(std::move(part));
    }
}

/// Further parts of a defect get marks that no other one has.
void giveMarks(std::vector<Defect>& defects) {
    std::set<std::string> given;
    for (const Defect& defect : defects) {
        given.insert(defect.mark);
    }
    std::size_t next = 1;
    for (Defect& defect : defects) {
        while (defect.mark.empty()) {
            std::string mark = "D" + std::to_string(next++);
            if (given.insert(mark).second) {
                defect.mark = std::move(mark);
            }
        }
    }
}

/// a x b / c rounded up.
Length scaledUp(Length value, Length part, Length whole) {
    const Int128 product = static_cast<Int128>(value.inNanometres()) * part.inNanometres();
    const Int128 all = whole.inNanometres();
    return Length::nanometres(static_cast<std::int64_t>((product + all - 1) / all));
}

/// What warp is left in a part of the board by the square law; warp that sits at one end goes whole
/// with the wood of that third, and not at all with other wood.
Warp warpOf(const Board& board, const Rect& part) {
    const Rect whole = boundingBox(board.outline);
    if (board.warp.where != Warp::Where::Even) {
        const bool atDatum = board.warp.where == Warp::Where::MostlyAtDatumEnd;
        const Length third = whole.length() / 3;
        const bool reaches = atDatum ? part.x0 < third : part.x1 > whole.x1 - third;
        return reaches ? board.warp : Warp{};
    }
    const Length length = std::min(part.length(), whole.length());
    const Length width = std::min(part.width(), whole.width());
    Warp warp;
    warp.bow = scaledUp(scaledUp(board.warp.bow, length, whole.length()), length, whole.length());
    warp.cup = scaledUp(scaledUp(board.warp.cup, width, whole.width()), width, whole.width());
    warp.twist = scaledUp(scaledUp(board.warp.twist, length, whole.length()), width, whole.width());
    return warp;
}

/// The stretch of the strip's length, or the band across the section, that the cuts beside the
/// offcut leave: in the section's frame, wide open where no cut bounds it.
Rect cutBounds(const Document& document, const Section& section, const Rect& offcut,
               const Strip* strip) {
    constexpr Length far = Length::millimetres(20'000);
    Rect open{-far, -far, far, far};
    if (strip != nullptr) {
        const Length kerf = document.shop.machines.stripCrosscut.kerf;
        open.y0 = strip->across.from;
        open.y1 = strip->across.to;
        for (const Blank& blank : strip->blanks) {
            const Rect rect = woodOf(blank);
            if (rect.x1 <= offcut.x0) {
                open.x0 = std::max(open.x0, rect.x1 + kerf);
            } else if (rect.x0 >= offcut.x1) {
                open.x1 = std::min(open.x1, rect.x0 - kerf);
            }
        }
        return open;
    }
    const Length kerf = section.facing == FirstFacing::RoughRippedFirst
                            ? document.shop.machines.roughRip.kerf
                            : document.shop.machines.rip.kerf;
    for (const Strip& other : section.strips) {
        if (other.across.to <= offcut.y0) {
            open.y0 = std::max(open.y0, other.across.to + kerf);
        } else if (other.across.from >= offcut.y1) {
            open.y1 = std::min(open.y1, other.across.from - kerf);
        }
    }
    return open;
}

/// The wood that the cuts leave round an offcut's rectangle, in the board's frame; the rectangle
/// itself where that makes no sound outline.
Polygon woodRound(const Document& document, const Board& board, const Section& section,
                  const Offcut& offcut, const Strip* strip) {
    Polygon rect = toOuter(section.frame, offcut.rect);
    const Rect box = boundingBox(board.outline);
    const Polygon slab = polygonOf(Rect{section.along.from, box.y0, section.along.to, box.y1});
    const Polygon cuts = toOuter(section.frame, cutBounds(document, section, offcut.rect, strip));
    Polygon wood;
    Area most;
    for (const Polygon& between : commonPieces(board.outline, slab)) {
        for (Polygon& piece : commonPieces(between, cuts)) {
            const Area shared = intersection(piece, rect).area;
            if (shared > most) {
                most = shared;
                wood = std::move(piece);
            }
        }
    }
    if (wood.empty() || !validateBoard(partOf(board, wood))) {
        return rect;
    }
    return wood;
}

/// What the plan credits the job for the offcut, per board foot of the wood that it is.
Money priceOf(const Document& document, const Board& from, const Offcut& offcut,
              const Board& board) {
    const Int128 credit =
        static_cast<Int128>(costOf(from).inTenThousandths()) * document.shop.offcuts.worthPercent;
    const Int128 share = offcut.rect.area().inSquareNanometres() / 1'000'000; // keeps it in range
    const Int128 whole = areaOf(from.outline).inSquareNanometres() / 1'000'000;
    const Int128 measure = exactBoardFeet(board).inMillionths();
    if (whole <= 0 || measure <= 0) {
        return {};
    }
    const Int128 worth = credit * share / whole; // hundredths of ten-thousandths
    return Money::tenThousandths(
        static_cast<std::int64_t>((worth * 1'000'000 / 100 + measure / 2) / measure));
}

/// To which thickness the wood of an offcut is planed: of one beside the strips, the section when
/// it was faced whole.
std::optional<Length> planedTo(const Section& section, const Strip* strip) {
    if (strip != nullptr) {
        return stavewright::planedTo(section, *strip);
    }
    const bool isMilledWhole =
        section.facing == FirstFacing::Whole &&
        (section.state >= CutState::Milled ||
         std::any_of(section.strips.begin(), section.strips.end(),
                     [&section](const Strip& each) { return isMilled(section, each); }));
    return isMilledWhole ? section.planedTo : std::nullopt;
}

/// Faced and planed, it is flat and as thick as it was planed; its marks stay as they were on the
/// rough faces, which is more than there is, never less. Its quarters say as what it was bought.
void asPlaned(const Document& document, Length planed, Board& board) {
    board.thinnest = std::min(board.thinnest, planed);
    board.warp = {};
    const LengthStyle style{document.info.units, document.info.inchDenominator, true};
    board.notes = "Planed already, to " + saidLength(board.thinnest, style) + ".";
}

std::string markOf(const Board& board, std::size_t number) {
    const std::string ending = "-" + std::to_string(number);
    constexpr std::size_t most = 16; // characters of a mark; these are single bytes or cut between
    std::string mark = board.mark;
    while (mark.size() + ending.size() > most) {
        do {
            mark.pop_back();
        } while (!mark.empty() && (static_cast<unsigned char>(mark.back()) & 0xC0U) == 0x80U);
    }
    return mark + ending;
}

} // namespace

Board partOf(const Board& board, const Polygon& wood) {
    const Rect box = boundingBox(wood);
    const Point toFrame{-box.x0, -box.y0};
    const Rect whole = boundingBox(board.outline);
    Board part = board;
    part.id = {};
    part.parent.reset();
    part.rackLink.reset();
    part.billed.reset();
    part.photos.clear();
    part.setAside = false;
    part.outline = moved(wood, toFrame);
    part.warp = warpOf(board, box);
    part.trimAtDatum = std::max(Length(), board.trimAtDatum - box.x0);
    part.trimAtFar = std::max(Length(), board.trimAtFar - (whole.x1 - box.x1));
    if (part.trimAtDatum + part.trimAtFar >= box.length()) {
        part.trimAtDatum = {};
        part.trimAtFar = {};
    }
    part.lookedAt.clear();
    for (LookedAt look : board.lookedAt) {
        look.stretch = {std::max(look.stretch.from, box.x0) - box.x0,
                        std::min(look.stretch.to, box.x1) - box.x0};
        if (look.stretch.from < look.stretch.to) {
            part.lookedAt.push_back(look);
        }
    }
    part.sawn.clear();
    for (SawnRegion region : board.sawn) {
        if (region.where.overlaps(box)) {
            region.where = {std::max(region.where.x0, box.x0) - box.x0,
                            std::max(region.where.y0, box.y0) - box.y0,
                            std::min(region.where.x1, box.x1) - box.x0,
                            std::min(region.where.y1, box.y1) - box.y0};
            part.sawn.push_back(region);
        }
    }
    part.defects.clear();
    for (const Defect& defect : board.defects) {
        addDefect(defect, wood, toFrame, part.defects);
    }
    giveMarks(part.defects);
    return part;
}

std::vector<OffcutBoard> offcutBoards(const Document& document, BoardId id) {
    std::vector<OffcutBoard> found;
    const Board* board = findBoard(document, id);
    if (board == nullptr || !document.plan) {
        return found;
    }
    const auto add = [&](const Section& section, const Offcut& offcut, const Strip* strip) {
        const Polygon wood = woodRound(document, *board, section, offcut, strip);
        OffcutBoard made{offcut.id, partOf(*board, wood), {}};
        const Rect box = boundingBox(wood);
        made.origin = {box.x0, box.y0};
        made.board.mark = markOf(*board, found.size() + 1);
        made.board.notes.clear();
        if (const std::optional<Length> planed = planedTo(section, strip)) {
            asPlaned(document, *planed, made.board);
        }
        made.board.pricePerBoardFoot = priceOf(document, *board, offcut, made.board);
        found.push_back(std::move(made));
    };
    for (const BoardLayout& layout : document.plan->boards) {
        if (layout.board != id) {
            continue;
        }
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Offcut& offcut : strip.offcuts) {
                    add(section, offcut, &strip);
                }
            }
            for (const Offcut& offcut : section.offcuts) {
                add(section, offcut, nullptr);
            }
        }
    }
    return found;
}

} // namespace stavewright::rack
