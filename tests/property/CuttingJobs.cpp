#include "tests/property/CuttingJobs.h"

#include <algorithm>
#include <sstream>

namespace stavewright::cutting::property {

namespace {

constexpr Nm inch = 25'400'000;
constexpr Nm sixteenth = inch / 16;
constexpr Cost dollar = 10'000;
constexpr int rules = 2;

/// Both ends are possible, and all between alike, however small the tests begin.
int between(int low, int high) {
    return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(low, high + 1));
}
std::size_t anyOf(std::size_t count) {
    return static_cast<std::size_t>(between(0, static_cast<int>(count) - 1));
}
bool chance(int percent) { return between(1, 100) > 100 - percent; }

/// Sizes in sixteenths of an inch, on a grid of so many of them.
class Sizes {
  public:
    Sizes(int grid, int percentOff)
        : m_grid(grid)
        , m_percentOff(percentOff) {}
    /// Now and then off every grid.
    Nm operator()(int low, int high) const {
        const Nm whole =
            between((low + m_grid - 1) / m_grid, std::max(low, high) / m_grid) * m_grid * sixteenth;
        return chance(m_percentOff) ? whole + between(0, 1'000) * 977 : whole;
    }

  private:
    int m_grid;
    int m_percentOff;
};

Point at(Nm x, Nm y) { return {Length::nanometres(x), Length::nanometres(y)}; }

/// Four, three or eight corners, counter-clockwise.
Polygon spot(Nm x, Nm y, Nm halfAlong, Nm halfAcross, bool isBox) {
    switch (isBox ? 0 : between(0, 2)) {
    case 0:
        return {at(x - halfAlong, y - halfAcross), at(x + halfAlong, y - halfAcross),
                at(x + halfAlong, y + halfAcross), at(x - halfAlong, y + halfAcross)};
    case 1:
        return {at(x - halfAlong, y - halfAcross), at(x + halfAlong, y), at(x, y + halfAcross)};
    default:
        return {at(x - halfAlong, y - halfAcross / 2), at(x - halfAlong / 2, y - halfAcross),
                at(x + halfAlong / 2, y - halfAcross), at(x + halfAlong, y - halfAcross / 2),
                at(x + halfAlong, y + halfAcross / 2), at(x + halfAlong / 2, y + halfAcross),
                at(x - halfAlong / 2, y + halfAcross), at(x - halfAlong, y + halfAcross / 2)};
    }
}

/// A knot, split or wane: what rule 0 makes of it, and rule 1, which lets more through.
void addDefect(const Sizes& size, Board& board, Nm length, Nm width, int number, bool onlyBoxes) {
    const auto along = static_cast<int>(length / sixteenth);
    const auto across = static_cast<int>(width / sixteenth);
    Block strict;
    strict.region = spot(size(0, along), size(0, across), size(8, 24), size(8, 16), onlyBoxes);
    strict.defect = chance(90) ? number : -1;
    if (chance(40)) {
        strict.fill = between(0, 30) * dollar / 10;
        strict.isFill = chance(70);
    }
    Block lenient = strict;
    lenient.fill = between(0, 20) * dollar / 10;
    lenient.isFill = true;
    const int faces = between(1, 3);
    for (const bool onB : {false, true}) {
        if ((faces & (onB ? 2 : 1)) == 0) {
            continue;
        }
        const auto add = [&](std::size_t rule, const Block& block) {
            RuleLayer& layer = board.layers[rule];
            (onB ? layer.onB : layer.onA).push_back(block);
        };
        add(0, strict);
        if (chance(60)) {
            add(1, lenient);
        }
    }
}

void addCost(Board& board) {
    double twice = 0;
    for (std::size_t i = 0; i < board.outline.size(); ++i) {
        const Point& a = board.outline[i];
        const Point& b = board.outline[(i + 1) % board.outline.size()];
        twice += a.x.toInches() * b.y.toInches() - b.x.toInches() * a.y.toInches();
    }
    board.boardFeetMillionths = static_cast<std::int64_t>(twice / 2 / 144 * 1e6);
    board.cost = board.boardFeetMillionths * between(6, 14) * dollar / 1'000'000;
}

struct BoardWish {
    int mostSlope = 0; ///< sixteenths by which the far edge may come down along the board
    int mostBend = 0;  ///< by which each corner of either edge may stand inside it
    int mostDefects = 0;
    bool onlyBoxes = false;
};

Board board(const Sizes& size, int number, Nm length, Nm width, const BoardWish& wish) {
    Board board;
    board.name = "board " + std::to_string(number + 1);
    const int pieces = wish.mostBend > 0 ? between(1, 3) : 1;
    const Nm slope = wish.mostSlope > 0 && chance(50) ? size(0, wish.mostSlope) : 0;
    const auto bend = [&] { return wish.mostBend > 0 ? size(0, wish.mostBend) : 0; };
    for (int i = 0; i <= pieces; ++i) {
        board.outline.push_back(at(length * i / pieces, bend()));
    }
    for (int i = pieces; i >= 0; --i) {
        board.outline.push_back(at(length * i / pieces, width - slope * i / pieces - bend()));
    }
    board.trimAtDatum = chance(40) ? size(0, 16) : 0;
    board.trimAtFar = chance(40) ? size(0, 16) : 0;
    board.thinnest = inch;
    board.cleaning = inch / 32;
    if (chance(40)) {
        board.bow = size(0, 3);
        board.cup = size(0, 2);
        board.twist = size(0, 2);
        board.warpWhere = between(0, 2);
    }
    board.layers.resize(rules);
    for (int d = between(0, wish.mostDefects); d > 0; --d) {
        addDefect(size, board, length, width, d, wish.onlyBoxes);
    }
    addCost(board);
    return board;
}

void addZones(const Sizes& size, Kind& kind) {
    if (chance(80)) { // what is not said otherwise: one rule for one face, whole
        kind.zones.push_back(
            {between(0, rules - 1), chance(50), {false, 0}, {true, 0}, {false, 0}, {true, 0}});
    }
    for (int zones = between(0, 2); zones > 0; --zones) {
        Zone zone;
        zone.rule = between(0, rules - 1);
        zone.onB = chance(50);
        zone.x0 = {false, chance(50) ? size(0, 8) : 0};
        zone.x1 = {true, chance(50) ? -size(0, 8) : 0};
        zone.y0 = {false, 0};
        zone.y1 = {true, 0};
        if (chance(30)) { // a joint at the low end
            zone.x1 = {false, zone.x0.offset + size(8, 32)};
        }
        if (chance(20)) { // an edge
            zone.y1 = {false, size(4, 12)};
        }
        kind.zones.push_back(zone);
    }
    kind.mayTurn = chance(70);
    kind.mayFaceOver = chance(70);
}

Kind fixedKind(const Sizes& size, const Limits& limits, int shortest, int longest, int demand) {
    Kind kind;
    kind.length = size(shortest, longest);
    kind.width = std::max(size(16, 48), limits.narrowestRip);
    kind.demand = demand;
    kind.thickness = inch * between(20, 28) / 32;
    addZones(size, kind);
    return kind;
}

Kind poolKind(const Sizes& size, const Limits& limits, int shortest, int longest, Nm step,
              int panels) {
    Kind kind;
    kind.isPool = true;
    kind.length = size(shortest, longest);
    kind.step = step;
    kind.width = std::max<Nm>(between(3, 5) * inch / 2, limits.narrowestRip);
    kind.widest = kind.width + between(0, 4) * step;
    kind.jointAllowance = chance(50) ? inch / 8 : 0;
    kind.netWanted = between(8, 14) * inch / 2;
    kind.netMost = kind.netWanted + between(0, 3) * step;
    kind.fewest = between(1, 3);
    kind.most = kind.fewest + between(0, 3);
    kind.demand = panels;
    kind.thickness = inch * between(20, 28) / 32;
    addZones(size, kind);
    return kind;
}

/// What is left out costs more than its share of the lumber, but not always more than a board.
void addPenalties(Problem& problem) {
    int number = 0;
    for (Kind& kind : problem.kinds) {
        kind.name = (kind.isPool ? "panel " : "part ") + std::to_string(++number);
        const Nm width = kind.isPool ? kind.netWanted : kind.width;
        const auto squareInches =
            static_cast<Cost>(kind.length / sixteenth * (width / sixteenth) / 256);
        kind.penaltyUnplaced = squareInches * between(12, 90) * dollar / 100;
    }
}

Limits anyLimits(const Sizes& size) {
    Limits limits;
    limits.crosscutKerf = size(0, 8) / 2;
    limits.ripKerf = chance(60) ? limits.crosscutKerf : size(0, 8) / 2;
    limits.stripCrosscutKerf = chance(70) ? limits.crosscutKerf : size(0, 8) / 2;
    limits.narrowestRip = chance(50) ? size(8, 24) : 0;
    limits.crosscutCost = between(0, 4) * dollar / 10;
    limits.ripCost = between(0, 4) * dollar / 10;
    return limits;
}

} // namespace

rc::Gen<Problem> tinyJob() {
    return rc::gen::exec([] {
        const Sizes size(chance(80) ? 8 : 2, chance(80) ? 0 : 20);
        Problem problem;
        problem.limits = anyLimits(size);
        for (int boards = between(1, 2), b = 0; b < boards; ++b) {
            problem.boards.push_back(
                board(size, b, size(128, 224), size(40, 72), {12, 0, 3, true}));
        }
        if (chance(25)) {
            problem.kinds.push_back(poolKind(size, problem.limits, 64, 112, inch / 2, 1));
            Kind& pool = problem.kinds.back();
            pool.widest = std::min(pool.widest, pool.width + inch);
            pool.netWanted = std::min(pool.netWanted, 5 * inch);
            pool.netMost = std::min(pool.netMost, pool.netWanted + inch / 2);
            pool.most = std::min(pool.most, 3);
            pool.fewest = std::min(pool.fewest, 2);
        }
        for (int kinds = between(1, 2); kinds > 0; --kinds) {
            problem.kinds.push_back(fixedKind(size, problem.limits, 64, 112, between(1, 2)));
        }
        addPenalties(problem);
        return problem;
    });
}

rc::Gen<Problem> smallRack() {
    return rc::gen::exec([] {
        const Sizes size(chance(50) ? 1 : 4, 10);
        Problem problem;
        Limits& limits = problem.limits;
        limits = anyLimits(size);
        limits.jointerWidth = chance(30) ? size(64, 128) : 0;
        limits.leastFacedLength = chance(30) ? size(64, 192) : 0;
        if (chance(50)) {
            limits.offcutLength = size(96, 240);
            limits.offcutWidth = size(24, 48);
            limits.offcutWorthPercent = between(0, 40);
        }
        for (int boards = between(1, 3), b = 0; b < boards; ++b) {
            const int bend = chance(60) ? 10 : 0;
            problem.boards.push_back(board(size, b, size(320, 640), size(64, 144), {16, bend, 4}));
            problem.boards.back().material = chance(90) ? 0 : 1;
        }
        if (chance(50)) {
            problem.kinds.push_back(
                poolKind(size, limits, 96, 320, chance(50) ? inch / 16 : inch / 4, between(1, 2)));
        }
        for (int kinds = between(1, 3); kinds > 0; --kinds) {
            problem.kinds.push_back(fixedKind(size, limits, 64, 320, between(1, 4)));
            problem.kinds.back().thickest = chance(20) ? inch * between(28, 36) / 32 : 0;
        }
        addPenalties(problem);
        if (chance(40)) {
            limits.groupApart = between(0, 40) * dollar / 10;
            for (Kind& kind : problem.kinds) {
                kind.group = between(-1, 1);
            }
        }
        if (chance(20)) { // one blank is cut already, with its section
            const auto last = static_cast<int>(problem.kinds.size()) - 1;
            const Kind& kind = problem.kinds.back();
            const Nm x = size(0, 160);
            problem.fixed.push_back(
                {0,
                 last,
                 {Length::nanometres(x), Length(), Length::nanometres(x + kind.length),
                  Length::nanometres(kind.width)}});
        }
        return problem;
    });
}

namespace {

Mark mirrored(const Mark& mark) { return {!mark.fromHigh, -mark.offset}; }

/// Corners counter-clockwise again, from the same corner on.
void reverse(Polygon& polygon) { std::reverse(polygon.begin(), polygon.end()); }

template <class Change>
void changePolygons(Board& board, Change change) {
    change(board.outline);
    for (RuleLayer& layer : board.layers) {
        for (std::vector<Block>* face : {&layer.onA, &layer.onB}) {
            for (Block& block : *face) {
                change(block.region);
            }
        }
    }
}

void mirrorEnds(Board& board) {
    const Rect box = boundingBox(board.outline);
    changePolygons(board, [&](Polygon& polygon) {
        for (Point& corner : polygon) {
            corner.x = box.x0 + box.x1 - corner.x;
        }
        reverse(polygon);
    });
    std::swap(board.trimAtDatum, board.trimAtFar);
    board.warpWhere = board.warpWhere == 0 ? 0 : 3 - board.warpWhere;
}

void mirrorEdges(Board& board) {
    const Rect box = boundingBox(board.outline);
    changePolygons(board, [&](Polygon& polygon) {
        for (Point& corner : polygon) {
            corner.y = box.y0 + box.y1 - corner.y;
        }
        reverse(polygon);
    });
}

} // namespace

Problem endsMirrored(Problem problem) {
    for (Board& board : problem.boards) {
        mirrorEnds(board);
    }
    for (Kind& kind : problem.kinds) {
        for (Zone& zone : kind.zones) {
            const Mark low = zone.x0;
            zone.x0 = mirrored(zone.x1);
            zone.x1 = mirrored(low);
        }
    }
    return problem;
}

Problem edgesMirrored(Problem problem) {
    for (Board& board : problem.boards) {
        mirrorEdges(board);
    }
    for (Kind& kind : problem.kinds) {
        for (Zone& zone : kind.zones) {
            const Mark low = zone.y0;
            zone.y0 = mirrored(zone.y1);
            zone.y1 = mirrored(low);
        }
    }
    return problem;
}

void turnEndForEnd(Board& board) {
    mirrorEnds(board);
    mirrorEdges(board);
}

void rollOver(Board& board) {
    mirrorEdges(board);
    for (RuleLayer& layer : board.layers) {
        std::swap(layer.onA, layer.onB);
    }
}

namespace {

std::vector<Block*> blocksOf(Problem& problem) {
    std::vector<Block*> blocks;
    for (Board& board : problem.boards) {
        for (RuleLayer& layer : board.layers) {
            for (std::vector<Block>* face : {&layer.onA, &layer.onB}) {
                for (Block& block : *face) {
                    blocks.push_back(&block);
                }
            }
        }
    }
    return blocks;
}

/// From the middle of its box, which lies inside all shapes of spot(), so that what was covered
/// still is.
void grow(Polygon& region) {
    const Rect box = boundingBox(region);
    const Point middle{box.x0 + box.length() / 2, box.y0 + box.width() / 2};
    const std::int64_t percent = between(101, 150);
    for (Point& corner : region) {
        corner.x = middle.x + (corner.x - middle.x) * percent / 100;
        corner.y = middle.y + (corner.y - middle.y) * percent / 100;
    }
}

void restrictBlock(Block& block) {
    switch (between(0, 2)) {
    case 0:
        block.fill.reset();
        block.isFill = false;
        break;
    case 1:
        if (block.fill) {
            *block.fill += between(1, 20) * dollar / 10;
        }
        break;
    default:
        grow(block.region);
        break;
    }
}

void restrictKind(Kind& kind) {
    switch (between(0, 5)) {
    case 0:
        kind.mayTurn = false;
        break;
    case 1:
        kind.mayFaceOver = false;
        break;
    case 2:
        kind.zones.push_back({0, chance(50), {false, 0}, {true, 0}, {false, 0}, {true, 0}});
        break;
    case 3:
        kind.thickness += inch * between(1, 8) / 32;
        break;
    case 4:
        if (kind.isPool) {
            kind.most = std::max(kind.fewest, kind.most - 1);
        }
        break;
    default:
        if (kind.isPool) {
            kind.fewest = std::min(kind.most, kind.fewest + 1);
        }
        break;
    }
}

} // namespace

void makeStricter(Problem& problem) {
    const std::vector<Block*> blocks = blocksOf(problem);
    if (!blocks.empty() && chance(60)) {
        restrictBlock(*blocks[anyOf(blocks.size())]);
    } else {
        restrictKind(problem.kinds[anyOf(problem.kinds.size())]);
    }
}

void widenKerf(Problem& problem) {
    Limits& limits = problem.limits;
    Nm* const kerfs[] = {&limits.crosscutKerf, &limits.ripKerf, &limits.stripCrosscutKerf};
    *kerfs[between(0, 2)] += between(1, 4) * inch / 8;
}

namespace {

void tell(std::ostream& out, const Polygon& polygon) {
    for (const Point& corner : polygon) {
        out << " (" << corner.x.inNanometres() << ' ' << corner.y.inNanometres() << ')';
    }
}

void tell(std::ostream& out, const Mark& mark) {
    out << ' ' << (mark.fromHigh ? "high" : "low") << (mark.offset < 0 ? "" : "+") << mark.offset;
}

} // namespace

std::string describe(const Problem& problem) {
    std::ostringstream out;
    const Limits& limits = problem.limits;
    out << "kerfs " << limits.crosscutKerf << ' ' << limits.ripKerf << ' '
        << limits.stripCrosscutKerf << ", narrowest " << limits.narrowestRip << ", cuts "
        << limits.crosscutCost << ' ' << limits.ripCost << ", jointer " << limits.jointerWidth
        << ' ' << limits.leastFacedLength << ", offcuts " << limits.offcutLength << ' '
        << limits.offcutWidth << ' ' << limits.offcutWorthPercent << " %, apart "
        << limits.groupApart << '\n';
    for (const Board& board : problem.boards) {
        out << board.name << " cost " << board.cost << " trims " << board.trimAtDatum << ' '
            << board.trimAtFar << " warp " << board.bow << ' ' << board.cup << ' ' << board.twist
            << " at " << board.warpWhere << " material " << board.material << " outline";
        tell(out, board.outline);
        out << '\n';
        for (std::size_t r = 0; r < board.layers.size(); ++r) {
            for (const bool onB : {false, true}) {
                for (const Block& block : onB ? board.layers[r].onB : board.layers[r].onA) {
                    out << "  rule " << r << (onB ? " B" : " A") << " defect " << block.defect
                        << (block.fill ? " fill " + std::to_string(*block.fill) : " forbidden");
                    tell(out, block.region);
                    out << '\n';
                }
            }
        }
    }
    for (const Kind& kind : problem.kinds) {
        out << kind.name << ' ' << kind.length << " x " << kind.width << " to " << kind.widest
            << " by " << kind.step << " joint " << kind.jointAllowance << " net " << kind.netWanted
            << " to " << kind.netMost << " staves " << kind.fewest << " to " << kind.most
            << " demand " << kind.demand << " thickness " << kind.thickness << " to "
            << kind.thickest << " penalty " << kind.penaltyUnplaced << (kind.mayTurn ? " turn" : "")
            << (kind.mayFaceOver ? " over" : "") << " group " << kind.group << '\n';
        for (const Zone& zone : kind.zones) {
            out << "  zone rule " << zone.rule << (zone.onB ? " B" : " A");
            for (const Mark& mark : {zone.x0, zone.x1, zone.y0, zone.y1}) {
                tell(out, mark);
            }
            out << '\n';
        }
    }
    for (const Fixed& fixed : problem.fixed) {
        out << "kept: kind " << fixed.kind << " on board " << fixed.board << " from "
            << fixed.rect.x0.inNanometres() << '\n';
    }
    return out.str();
}

} // namespace stavewright::cutting::property
