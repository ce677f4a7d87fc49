#include "RandomPanels.h"

#include <algorithm>
#include <numeric>
#include <random>

namespace stavewright::glueup::testing {

namespace {

class Chance {
  public:
    explicit Chance(std::uint64_t seed)
        : m_engine(seed) {}
    int between(int low, int high) {
        return low + static_cast<int>(m_engine() % static_cast<std::uint64_t>(high - low + 1));
    }
    bool oneIn(int times) { return between(1, times) == 1; }

  private:
    std::mt19937_64 m_engine;
};

FaceView randomFace(Chance& chance, const Stave& stave, const Colour& wood) {
    FaceView face;
    const int strips = chance.between(1, 4);
    for (int i = 0; i < strips; ++i) {
        face.photo.colours.push_back({wood.lightness + chance.between(-400, 400),
                                      wood.a + chance.between(-150, 150),
                                      wood.b + chance.between(-200, 200)});
    }
    for (int knots = chance.between(0, 2); knots > 0; --knots) {
        const Length x = Length::millimetres(chance.between(20, 1100));
        const Length y = Length::millimetres(
            chance.between(0, static_cast<int>(stave.width.toMillimetres()) - 12));
        const Length size = Length::millimetres(chance.between(5, 30));
        const Rect knot{x, y, x + size, std::min(stave.width, y + size)};
        face.knots.push_back(
            {knot, {knot.x0 - size, knot.y0 - size / 2, knot.x1 + size, knot.y1 + size / 2}});
    }
    return face;
}

Stave randomStave(Chance& chance, int number, const PanelKind& kind) {
    Stave stave;
    stave.number = number;
    stave.board = BoardId{chance.between(1, kind.boards)};
    stave.width = Length::inches(chance.between(24, 96), 16);
    stave.length = Length::millimetres(1200);
    stave.thickness = Length::millimetres(22);
    stave.movement = {1580, 3690, -20};
    stave.rings.angleTenths = chance.between(0, 900);
    stave.rings.radius = Length::millimetres(chance.between(50, 300));
    stave.rings.heart = chance.oneIn(6)   ? HeartSide::Unknown
                        : chance.oneIn(2) ? HeartSide::FaceA
                                          : HeartSide::FaceB;
    stave.planing = chance.oneIn(5)   ? PlaningDirection::Unknown
                    : chance.oneIn(2) ? PlaningDirection::TowardsFarEnd
                                      : PlaningDirection::TowardsDatumEnd;
    constexpr std::array figures = {Figure::Unknown, Figure::Straight, Figure::Arched};
    stave.nearEdge = figures[static_cast<std::size_t>(chance.between(0, 2))];
    stave.farEdge = figures[static_cast<std::size_t>(chance.between(0, 2))];
    const Colour wood{6800 + 300 * static_cast<int>(stave.board.value), 800, 2200};
    stave.faceA = randomFace(chance, stave, wood);
    stave.faceB = randomFace(chance, stave, wood);
    if (kind.photographed) {
        for (FaceView* face : {&stave.faceA, &stave.faceB}) {
            for (std::optional<EdgeLines>* lines :
                 {&face->photo.nearLines, &face->photo.farLines}) {
                if (!chance.oneIn(4)) {
                    *lines = {chance.between(-300, 300), chance.between(0, 100)};
                }
            }
        }
    }
    if (kind.rulesForbidPoses) {
        const int stays = chance.between(0, 3);
        for (int pose = 0; pose < 4; ++pose) {
            stave.forbidden[static_cast<std::size_t>(pose)] = pose != stays && chance.oneIn(2);
        }
    }
    return stave;
}

class Trial {
  public:
    explicit Trial(const Scoring& scoring)
        : m_scoring(scoring)
        , m_used(static_cast<std::size_t>(scoring.staves())) {}

    Cost least() {
        go(0);
        return m_least;
    }

  private:
    void go(int place) {
        if (place == m_scoring.staves()) {
            if (m_scoring.areWideEnough(m_order)) {
                m_least = std::min(m_least, m_scoring.total(m_order));
            }
            return;
        }
        for (int stave = 0; stave < m_scoring.staves(); ++stave) {
            for (int pose = 0; !m_used[static_cast<std::size_t>(stave)] && pose < 4; ++pose) {
                if (m_scoring.mayStand({stave, pose}, place)) {
                    m_used[static_cast<std::size_t>(stave)] = true;
                    m_order.push_back({stave, pose});
                    go(place + 1);
                    m_order.pop_back();
                    m_used[static_cast<std::size_t>(stave)] = false;
                }
            }
        }
    }

    const Scoring& m_scoring;
    std::vector<bool> m_used;
    Order m_order;
    Cost m_least = std::int64_t{1} << 60;
};

} // namespace

ArrangeProblem randomPanel(std::uint64_t seed, const PanelKind& kind) {
    Chance chance(seed);
    ArrangeProblem problem;
    for (int i = 0; i < kind.staves; ++i) {
        problem.staves.push_back(randomStave(chance, i + 1, kind));
    }
    problem.panels.push_back({kind.staves, kind.rings, kind.noCentreSeam, {}});
    return problem;
}

ArrangeProblem randomPair(std::uint64_t seed, int left, int right) {
    ArrangeProblem problem = randomPanel(seed, {.staves = left + right});
    problem.panels = {{left, RingWish::Alternate, true, {}},
                      {right, seed % 2 == 0 ? RingWish::HeartUp : RingWish::Alternate, false, {}}};
    return problem;
}

Order randomOrder(const Scoring& scoring, std::uint64_t seed) {
    Chance chance(seed);
    Order order;
    for (int panel = 0; panel < scoring.panels(); ++panel) {
        std::vector<int> staves(
            static_cast<std::size_t>(scoring.endOf(panel) - scoring.startOf(panel)));
        std::iota(staves.begin(), staves.end(), scoring.startOf(panel));
        for (std::size_t i = staves.size(); i > 1; --i) {
            std::swap(staves[i - 1],
                      staves[static_cast<std::size_t>(chance.between(0, static_cast<int>(i) - 1))]);
        }
        for (const int stave : staves) {
            Placed placed{stave, 0};
            do {
                placed.pose = chance.between(0, 3);
            } while (!scoring.mayStand(placed, static_cast<int>(order.size())));
            order.push_back(placed);
        }
    }
    return order;
}

Cost bruteForce(const Scoring& scoring) { return Trial(scoring).least(); }

} // namespace stavewright::glueup::testing
