#include "TinyJobs.h"

#include <algorithm>

#include "Racks.h"
#include "core/cutting/Random.h"

namespace stavewright::cutting::exact {

namespace {

constexpr Cost dollar = 10'000;
constexpr int strict = 0;  // rules
constexpr int lenient = 1; // the same defects, smaller, to be filled where strict forbids

class Maker {
  public:
    explicit Maker(std::uint64_t seed)
        : m_dice(seed * 7919 + 17)
        , m_metric(seed % 2 == 0)
        , m_unit(m_metric ? 25 * testing::millimetre : testing::inch) {}

    TinyJob make() {
        makeLimits();
        const int boards = between(1, 3);
        for (int b = 0; b < boards; ++b) {
            makeBoard(b);
        }
        int blanks = 0;
        if (m_dice.below(3) == 0) {
            makePool();
            blanks = m_problem.kinds.back().most;
        }
        for (int kinds = between(1, 3); kinds > 0 && blanks < 6; --kinds) {
            makeFixed(between(1, std::min(3, 6 - blanks)));
            blanks += m_problem.kinds.back().demand;
        }
        return {std::move(m_problem), m_unit, m_metric};
    }

  private:
    int between(int low, int high) { return static_cast<int>(m_dice.between(low, high)); }
    bool chance(std::size_t percent) { return m_dice.below(100) < percent; }

    void makeLimits() {
        Limits& limits = m_problem.limits;
        limits.crosscutKerf = between(0, 1) * m_unit;
        limits.ripKerf = between(0, 1) * m_unit;
        limits.stripCrosscutKerf = between(0, 1) * m_unit;
        limits.narrowestRip = between(0, 2) * m_unit;
        limits.crosscutCost = between(0, 4) * dollar / 10;
        limits.ripCost = between(0, 4) * dollar / 10;
    }

    void makeBoard(int number) {
        Board board;
        board.name = "board " + std::to_string(number + 1);
        const int length = between(8, 14);
        const int width = between(3, 6);
        board.outline = testing::box(0, 0, length * m_unit, width * m_unit);
        board.trimAtDatum = chance(30) ? m_unit : 0;
        board.trimAtFar = chance(30) ? m_unit : 0;
        board.thinnest = 100 * testing::millimetre;
        board.cost = length * width * between(8, 14) * dollar / 100;
        board.boardFeetMillionths = length * width * 10'000;
        board.layers.resize(2);
        for (int d = between(0, 3); d > 0; --d) {
            addDefect(board, length, width, d);
        }
        m_problem.boards.push_back(std::move(board));
    }

    void addDefect(Board& board, int length, int width, int number) {
        const int along = between(1, 3);
        const int across = between(1, std::min(2, width - 1));
        const int x = between(-1, length - 1);
        const int y = between(-1, width - 1);
        const int face = between(0, 2); // A, B, through
        const Nm u = m_unit;
        const Block forbidden{testing::box(x * u, y * u, (x + along) * u, (y + across) * u),
                              std::nullopt, false, number};
        Block small = forbidden;
        small.region = testing::box(x * u, y * u, (x + 1) * u, (y + across) * u);
        small.fill = between(1, 20) * dollar / 10;
        small.isFill = true;
        Block strictBlock = forbidden;
        if (chance(30)) {
            strictBlock.fill = between(5, 40) * dollar / 10;
            strictBlock.isFill = true;
        }
        for (const bool onB : {false, true}) {
            if (face != 2 && onB != (face == 1)) {
                continue;
            }
            const auto at = [&](int rule) -> std::vector<Block>& {
                RuleLayer& layer = board.layers[static_cast<std::size_t>(rule)];
                return onB ? layer.onB : layer.onA;
            };
            at(strict).push_back(strictBlock);
            at(lenient).push_back(small);
        }
    }

    void makeZones(Kind& kind) {
        const Mark low{false, 0};
        const Mark high{true, 0};
        const Mark from{false, chance(40) ? m_unit : 0};
        const Mark to{true, chance(40) ? -m_unit : 0};
        kind.zones.push_back({strict, false, from, to, low, high});
        kind.zones.push_back({lenient, true, from, to, low, high});
        if (chance(30)) { // a joint at one end
            kind.zones.push_back({strict, true, low, {false, 2 * m_unit}, low, high});
        }
        if (chance(20)) { // an edge that shows
            kind.zones.push_back({strict, true, low, high, {true, -m_unit}, high});
        }
        kind.mayTurn = chance(80);
        kind.mayFaceOver = chance(70);
    }

    void makeFixed(int demand) {
        Kind kind;
        kind.name = "part " + std::to_string(m_problem.kinds.size() + 1);
        const int length = between(3, 7);
        const int width = between(1, 3);
        kind.length = length * m_unit;
        kind.width = std::max<Nm>(width * m_unit, m_problem.limits.narrowestRip);
        kind.demand = demand;
        kind.penaltyUnplaced = length * width * 2 * dollar;
        makeZones(kind);
        m_problem.kinds.push_back(std::move(kind));
    }

    void makePool() {
        Kind kind;
        kind.name = "panel";
        kind.isPool = true;
        kind.length = between(4, 7) * m_unit;
        kind.width = between(2, 3) * m_unit;
        kind.widest = kind.width + between(1, 2) * m_unit;
        kind.step = m_unit;
        kind.jointAllowance = chance(30) ? m_unit : 0;
        const int net = between(4, 7);
        kind.netWanted = net * m_unit;
        kind.netMost = (net + between(0, 2)) * m_unit;
        kind.fewest = between(1, 2);
        kind.most = 4;
        kind.demand = 1;
        kind.penaltyUnplaced = net * 14 * dollar;
        makeZones(kind);
        m_problem.kinds.push_back(std::move(kind));
    }

    Random m_dice;
    bool m_metric;
    Nm m_unit;
    Problem m_problem;
};

} // namespace

TinyJob tinyJob(std::uint64_t seed) { return Maker(seed).make(); }

} // namespace stavewright::cutting::exact
