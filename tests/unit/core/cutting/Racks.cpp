#include "Racks.h"

#include <algorithm>
#include <array>
#include <random>

namespace stavewright::cutting::testing {

namespace {

class Dice {
  public:
    explicit Dice(std::uint64_t seed)
        : m_engine(seed) {}
    Nm between(Nm low, Nm high) {
        return low + static_cast<Nm>(m_engine() % static_cast<std::uint64_t>(high - low + 1));
    }
    bool percent(int chance) { return between(0, 99) < chance; }

  private:
    std::mt19937_64 m_engine;
};

/// The rules of a rack, by Zone::rule.
enum Rule { showFace, hiddenFace, joint, gluedEdge, ruleCount };

struct Knot {
    Nm x, y, halfAlong, halfAcross;
    bool loose, onA, onB;
    int defect;
};

constexpr Cost dollar = 10'000;

void addKnot(Board& board, const Knot& knot) {
    const Nm size = 2 * std::max(knot.halfAlong, knot.halfAcross);
    for (const bool onB : {false, true}) {
        if (!(onB ? knot.onB : knot.onA)) {
            continue;
        }
        const auto add = [&](Rule rule, Nm haloAlong, Nm haloAcross, std::optional<Cost> fill,
                             bool isFill) {
            RuleLayer& layer = board.layers[rule];
            (onB ? layer.onB : layer.onA)
                .push_back({ellipse(knot.x, knot.y, knot.halfAlong + haloAlong,
                                    knot.halfAcross + haloAcross),
                            fill, isFill, knot.defect});
        };
        // Show face: sound knots to 1 in count against looks; loose to 3/4 in are filled; the rest
        // out.
        if (!knot.loose && size <= inch) {
            add(showFace, 0, 0, dollar / 2, false);
        } else if (knot.loose && size <= 3 * inch / 4) {
            add(showFace, 0, 0, 3 * dollar, true);
        } else {
            add(showFace, inch / 4, inch / 8, std::nullopt, false);
        }
        // Hidden face: sound knots stay; loose to 1 1/2 in are filled.
        if (knot.loose) {
            if (size <= 3 * inch / 2) {
                add(hiddenFace, 0, 0, 2 * dollar, true);
            } else {
                add(hiddenFace, inch / 8, inch / 8, std::nullopt, false);
            }
        }
        // Joints: nothing, and half a knot of grain round it. Glued edges: nothing loose, nothing
        // large.
        add(joint, knot.halfAlong, knot.halfAcross / 2, std::nullopt, false);
        if (knot.loose || size > inch) {
            add(gluedEdge, 0, 0, std::nullopt, false);
        }
    }
}

Board makeBoard(Dice& dice, int number) {
    Board board;
    board.name = std::to_string(number + 1);
    board.layers.resize(ruleCount);
    const Nm length = dice.between(84 * 4, 144 * 4) * inch / 4;
    const Nm width = dice.between(5 * 8, 21 * 4) * inch / 8;
    Nm farLow = width;
    Nm crook = 0;
    Nm nearDrop = 0;
    if (dice.percent(30)) {
        farLow -= dice.between(1, 8) * inch / 8; // taper
    }
    if (dice.percent(30)) {
        crook = dice.between(1, 6) * inch / 16;
    }
    if (dice.percent(15)) {
        nearDrop = dice.between(1, 6) * inch / 8; // wane eats the near edge towards one end
    }
    const auto point = [](Nm x, Nm y) {
        return Point{Length::nanometres(x), Length::nanometres(y)};
    };
    board.outline = {point(0, 0),
                     point(length / 3, crook * 8 / 9),
                     point(2 * length / 3, crook * 8 / 9),
                     point(length, nearDrop),
                     point(length, std::max(nearDrop + 3 * inch, farLow)),
                     point(2 * length / 3, width + crook * 8 / 9 - (width - farLow) * 2 / 3),
                     point(length / 3, width + crook * 8 / 9 - (width - farLow) / 3),
                     point(0, width)};
    if (crook == 0 && nearDrop == 0) {
        board.outline = {point(0, 0), point(length, 0), point(length, farLow), point(0, width)};
    }
    board.trimAtDatum = dice.between(2, 10) * inch / 4;
    board.trimAtFar = dice.between(2, 10) * inch / 4;
    board.thinnest = inch * 15 / 16;
    board.cleaning = inch / 32;
    board.bow = dice.between(0, 4) * inch / 16;
    board.cup = dice.between(0, 2) * inch / 16;
    board.twist = dice.between(0, 2) * inch / 16;
    const Nm feet = length / (12 * inch);
    const Nm tenths = dice.between(3, 9);
    const Nm knots = std::max<Nm>(1, feet * tenths / 10);
    for (Nm k = 0; k < knots; ++k) {
        Knot knot{};
        const Nm half = dice.between(20, 130) * inch / 100; // 0.4 to 2.6 in over all
        knot.halfAcross = half;
        knot.halfAlong = half * dice.between(100, 140) / 100;
        knot.x = dice.between(2 * 16, length * 16 / inch - 2 * 16) * inch / 16;
        knot.y = dice.between(0, width * 16 / inch) * inch / 16;
        knot.loose = dice.percent(35);
        const Nm faces = dice.between(0, 9);
        knot.onA = faces < 8;
        knot.onB = faces >= 8 || faces < 6;
        knot.defect = static_cast<int>(k);
        addKnot(board, knot);
    }
    double twice = 0;
    for (std::size_t i = 0; i < board.outline.size(); ++i) {
        const Point& a = board.outline[i];
        const Point& b = board.outline[(i + 1) % board.outline.size()];
        twice += a.x.toInches() * b.y.toInches() - b.x.toInches() * a.y.toInches();
    }
    board.boardFeetMillionths = static_cast<std::int64_t>(twice / 2 / 144 * 1e6);
    board.cost = board.boardFeetMillionths * 9 * dollar / 1'000'000;
    return board;
}

struct PartWish {
    const char* name;
    int length, width; ///< sixteenths of an inch, or millimetres
    int count;
    bool isPool, shows, joints;
};

std::vector<PartWish> partsOf(JobFamily family, bool metric) {
    // Rough sizes in inches; the metric jobs are laid out anew in round millimetres.
    struct Row {
        const char* name;
        double length, width;
        int count;
        bool isPool, shows, joints;
    };
    std::vector<Row> rows;
    switch (family) {
    case JobFamily::Table:
        rows = {{"top", 74, 37, 1, true, true, false},
                {"long apron", 62, 4.25, 2, false, true, true},
                {"end apron", 28, 4.25, 2, false, true, true},
                {"leg ply", 30.5, 3.375, 8, false, false, true},
                {"stretcher", 52, 3, 1, false, false, true},
                {"cleat", 20, 2.5, 4, false, false, false}};
        break;
    case JobFamily::Benches:
        rows = {{"seat", 50, 13, 1, true, true, false},
                {"rail", 44, 3.25, 2, false, true, true},
                {"leg", 18, 3.5, 4, false, false, true},
                {"end rail", 15, 3.25, 2, false, true, true},
                {"brace", 38, 2.5, 1, false, false, true}};
        break;
    case JobFamily::Chest:
        rows = {{"side panel", 25, 19, 1, true, true, false},
                {"drawer front", 17, 5.25, 3, false, true, false},
                {"drawer side", 19, 4.75, 6, false, false, true},
                {"rail", 35, 2.5, 2, false, true, true},
                {"stile", 30, 2.75, 2, false, true, true},
                {"runner", 18, 2, 4, false, false, false},
                {"kicker", 15, 2, 3, false, false, false}};
        break;
    case JobFamily::WideTop:
        rows = {{"wide top", 88, 41, 1, true, true, false},
                {"end board", 42, 4.5, 2, false, true, true},
                {"batten", 36, 3, 3, false, false, false},
                {"slip", 24, 2.5, 2, false, false, false}};
        break;
    }
    std::vector<PartWish> parts;
    for (const Row& row : rows) {
        const double scale = metric ? 25 : 16;
        parts.push_back({row.name, static_cast<int>(row.length * scale),
                         static_cast<int>(row.width * scale), row.count, row.isPool, row.shows,
                         row.joints});
    }
    return parts;
}

Kind makeKind(const PartWish& part, Nm unit, bool metric) {
    Kind kind;
    kind.name = part.name;
    kind.length = part.length * unit;
    kind.thickness = inch * 3 / 4;
    const Mark low{false, 0};
    const Mark high{true, 0};
    const Nm trim = metric ? 12 * millimetre : inch / 2;
    const Mark lowTrim{false, part.isPool ? trim : inch / 8};
    const Mark highTrim{true, part.isPool ? -trim : -inch / 8};
    const int show = part.shows ? showFace : hiddenFace;
    kind.zones.push_back({show, false, lowTrim, highTrim, low, high});
    kind.zones.push_back({hiddenFace, true, lowTrim, highTrim, low, high});
    if (part.joints) {
        for (const bool onB : {false, true}) {
            kind.zones.push_back({joint, onB, lowTrim, {false, 3 * inch}, low, high});
            kind.zones.push_back({joint, onB, {true, -3 * inch}, highTrim, low, high});
        }
    }
    if (part.isPool) {
        kind.isPool = true;
        kind.jointAllowance = metric ? 4 * millimetre : inch / 8;
        kind.step = metric ? millimetre : inch / 16;
        kind.width = (metric ? 75 * millimetre : 3 * inch) + kind.jointAllowance;
        kind.widest = (metric ? 165 * millimetre : 13 * inch / 2) + kind.jointAllowance;
        for (const bool onB : {false, true}) {
            kind.zones.push_back({gluedEdge, onB, lowTrim, highTrim, low, {false, inch / 2}});
            kind.zones.push_back({gluedEdge, onB, lowTrim, highTrim, {true, -inch / 2}, high});
        }
    } else {
        kind.width = part.width * unit;
    }
    return kind;
}

} // namespace

std::string nameOf(JobFamily family) {
    switch (family) {
    case JobFamily::Table:
        return "table";
    case JobFamily::Benches:
        return "benches";
    case JobFamily::Chest:
        return "chest";
    case JobFamily::WideTop:
        return "wide top";
    }
    return "?";
}

Polygon box(Nm x0, Nm y0, Nm x1, Nm y1) {
    const auto point = [](Nm x, Nm y) {
        return Point{Length::nanometres(x), Length::nanometres(y)};
    };
    return {point(x0, y0), point(x1, y0), point(x1, y1), point(x0, y1)};
}

Polygon ellipse(Nm x, Nm y, Nm halfAlong, Nm halfAcross) {
    // Sixteen directions in millionths; 1/cos(pi/16) = 1.019591 puts the corners outside. A table,
    // so that no library's cosine decides what a rack looks like.
    static constexpr std::array<std::pair<int, int>, 16> directions = {{{1000000, 0},
                                                                        {923880, 382683},
                                                                        {707107, 707107},
                                                                        {382683, 923880},
                                                                        {0, 1000000},
                                                                        {-382683, 923880},
                                                                        {-707107, 707107},
                                                                        {-923880, 382683},
                                                                        {-1000000, 0},
                                                                        {-923880, -382683},
                                                                        {-707107, -707107},
                                                                        {-382683, -923880},
                                                                        {0, -1000000},
                                                                        {382683, -923880},
                                                                        {707107, -707107},
                                                                        {923880, -382683}}};
    Polygon polygon;
    for (const auto& [along, across] : directions) {
        polygon.push_back(
            {Length::nanometres(x + halfAlong / 1000 * 1019591 / 1000 * along / 1000000),
             Length::nanometres(y + halfAcross / 1000 * 1019591 / 1000 * across / 1000000)});
    }
    return polygon;
}

Problem barsOfAClearBoard(Nm length, Nm width, Nm barLength, Nm barWidth, int demand) {
    Problem problem;
    Board board;
    board.outline = box(0, 0, length, width);
    board.thinnest = inch;
    problem.boards = {board};
    Kind kind;
    kind.length = barLength;
    kind.width = barWidth;
    kind.thickness = inch / 2;
    kind.demand = demand;
    problem.kinds = {kind};
    problem.limits.crosscutKerf = problem.limits.ripKerf = problem.limits.stripCrosscutKerf =
        inch / 8;
    return problem;
}

Problem withManyKinds(Problem problem, int alike, std::uint64_t seed) {
    Dice dice(seed * 7919);
    std::vector<Kind> kinds;
    for (const Kind& like : problem.kinds) {
        for (int left = like.demand; left > 0; left -= alike) {
            Kind kind = like;
            kind.demand = std::min(left, alike);
            if (left < like.demand) {
                kind.name += " " + std::to_string(left);
                kind.length += like.length / 100 * dice.between(-20, 20);
                if (kind.isPool) {
                    const Nm wider = dice.between(-8, 8) * inch / 2;
                    kind.netWanted += wider;
                    kind.netMost += wider;
                } else {
                    kind.width += dice.between(-3, 3) * inch / 8;
                }
            }
            kinds.push_back(std::move(kind));
        }
    }
    problem.kinds = std::move(kinds);
    return problem;
}

Values pricesByArea(const Problem& problem, int percentOfFirst, int percentOfOthers) {
    Values values;
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Kind& kind = problem.kinds[k];
        const Cost perInch = kind.length / inch * 20 * (k == 0 ? percentOfFirst : percentOfOthers);
        values.each.push_back(kind.isPool ? 0 : perInch * (kind.width / (inch / 4)) / 4);
        values.perMetre.push_back(kind.isPool ? perInch * 40 : 0);
    }
    return values;
}

Problem makeRack(const RackWish& wish) {
    Dice dice(wish.seed * 1000 + static_cast<std::uint64_t>(wish.family) * 7 +
              static_cast<std::uint64_t>(wish.boards));
    Problem problem;
    double lumber = 0; // square inches
    Cost allBoards = 0;
    for (int b = 0; b < wish.boards; ++b) {
        problem.boards.push_back(makeBoard(dice, b));
        allBoards += problem.boards.back().cost;
        lumber += static_cast<double>(problem.boards.back().boardFeetMillionths) * 144 / 1e6;
    }
    Limits& limits = problem.limits;
    limits.crosscutKerf = inch / 8;
    limits.ripKerf = inch / 8;
    limits.stripCrosscutKerf = inch / 8;
    limits.jointerWidth = 8 * inch;
    limits.leastFacedLength = 12 * inch;
    limits.narrowestRip = 3 * inch / 4;
    limits.crosscutCost = dollar * 15 / 100;
    limits.ripCost = dollar * 25 / 100;

    const Nm unit = wish.metric ? millimetre : inch / 16;
    const std::vector<PartWish> parts = partsOf(wish.family, wish.metric);
    double wanted = lumber * wish.demandPercent / 100;
    const double square = static_cast<double>(inch) * static_cast<double>(inch);
    double set = 0;
    for (const PartWish& part : parts) {
        set += static_cast<double>(part.length * unit) * static_cast<double>(part.width * unit) /
               square * part.count;
    }
    // As many whole sets as the share allows; for the rest of it, panels become narrower.
    const int sets = std::max(1, static_cast<int>(wanted / set + 0.5));
    const double size = wanted / (set * sets);
    for (const PartWish& part : parts) {
        Kind kind = makeKind(part, unit, wish.metric);
        if (kind.isPool) {
            const Nm least = 2 * (kind.width - kind.jointAllowance) + 2 * inch;
            const Nm full = part.width * unit;
            const Nm width =
                static_cast<Nm>(size * static_cast<double>(full / kind.step)) * kind.step;
            kind.netWanted = std::max(least / kind.step * kind.step, width);
            kind.netMost = kind.netWanted + (wish.metric ? 20 * millimetre : 3 * inch / 4);
            kind.fewest = 1;
            kind.most =
                std::max<int>(2, static_cast<int>((kind.netWanted + 4 * inch - 1) / (4 * inch)));
            kind.demand = sets;
        } else {
            kind.demand = std::max(1, static_cast<int>(part.count * sets * size + 0.5));
        }
        // Nothing is left out to save a board.
        kind.penaltyUnplaced = allBoards * (kind.isPool ? 16 : 1);
        problem.kinds.push_back(std::move(kind));
    }
    return problem;
}

} // namespace stavewright::cutting::testing
