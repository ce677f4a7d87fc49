#include "core/glueup/Scoring.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>

#include "RandomPanels.h"
#include "core/glueup/Arrange.h"

namespace stavewright::glueup {
namespace {

using namespace testing;

Stave plain(HeartSide heart) {
    Stave stave;
    stave.board = BoardId{1};
    stave.width = Length::inches(4);
    stave.length = Length::inches(40);
    stave.thickness = Length::inches(3, 4);
    stave.rings = {heart, 0, Length::inches(5)};
    stave.movement = {1580, 3690, -20};
    return stave;
}

ArrangeProblem panelOf(std::vector<Stave> staves, RingWish rings = RingWish::Alternate) {
    ArrangeProblem problem;
    problem.panels = {{static_cast<int>(staves.size()), rings, false, {}}};
    problem.staves = std::move(staves);
    return problem;
}

std::int64_t valueOf(const ArrangeProblem& problem, const Order& order, GlueTerm term) {
    return Scoring(problem).score(order).terms[static_cast<std::size_t>(term)].thousandths;
}

TEST(Scoring, TermsSumUpToWhatTheSearchCounts) {
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        const ArrangeProblem problem =
            seed % 4 == 0 ? randomPair(seed, 3, 4)
                          : randomPanel(seed, {.staves = 2 + static_cast<int>(seed % 12)});
        const Scoring scoring(problem);
        const Order order = randomOrder(scoring, seed);
        EXPECT_EQ(scoring.score(order).total, scoring.total(order)) << "seed " << seed;
    }
}

TEST(Scoring, RingsAsWished) {
    const std::vector<Stave> three(3, plain(HeartSide::FaceA));
    const Order alike{{0, 0}, {1, 0}, {2, 0}};
    const Order alternate{{0, 0}, {1, 2}, {2, 1}};
    EXPECT_EQ(valueOf(panelOf(three), alike, GlueTerm::Rings), 2000);
    EXPECT_EQ(valueOf(panelOf(three), alternate, GlueTerm::Rings), 0);
    EXPECT_EQ(valueOf(panelOf(three, RingWish::HeartUp), alike, GlueTerm::Rings), 0);
    EXPECT_EQ(valueOf(panelOf(three, RingWish::HeartUp), alternate, GlueTerm::Rings), 1000);
}

TEST(Scoring, AlternatingRingsKeepThePanelFlatter) {
    const ArrangeProblem panel = panelOf(std::vector<Stave>(5, plain(HeartSide::FaceA)));
    const Order alike{{0, 0}, {1, 0}, {2, 0}, {3, 0}, {4, 0}};
    const Order alternate{{0, 0}, {1, 2}, {2, 0}, {3, 2}, {4, 0}};
    EXPECT_GT(valueOf(panel, alike, GlueTerm::PanelCup),
              5 * valueOf(panel, alternate, GlueTerm::PanelCup));
}

TEST(Scoring, TheCupOfAPanelOnABaseIsShownButNotWeighed) {
    const ArrangeProblem panel =
        panelOf(std::vector<Stave>(3, plain(HeartSide::FaceA)), RingWish::HeartUp);
    const TermValue cup = Scoring(panel)
                              .score({{0, 0}, {1, 0}, {2, 0}})
                              .terms[static_cast<std::size_t>(GlueTerm::PanelCup)];
    EXPECT_GT(cup.thousandths, 0);
    EXPECT_EQ(cup.weightHundredths, 0);
}

TEST(Scoring, PlaningCountsTheStavesAgainstTheMost) {
    std::vector<Stave> staves(4, plain(HeartSide::Unknown));
    for (Stave& stave : staves) {
        stave.planing = PlaningDirection::TowardsFarEnd;
    }
    const ArrangeProblem panel = panelOf(staves);
    EXPECT_EQ(valueOf(panel, {{0, 0}, {1, 1}, {2, 0}, {3, 2}}, GlueTerm::Planing), 2000);
    EXPECT_EQ(valueOf(panel, {{0, 1}, {1, 1}, {2, 0}, {3, 2}}, GlueTerm::Planing), 1000);
    EXPECT_EQ(valueOf(panel, {{0, 0}, {1, 3}, {2, 0}, {3, 3}}, GlueTerm::Planing), 0);
}

TEST(Scoring, StraightGrainMeetsStraightGrain) {
    Stave stave = plain(HeartSide::Unknown);
    stave.nearEdge = Figure::Straight;
    stave.farEdge = Figure::Arched;
    const ArrangeProblem panel = panelOf({stave, stave});
    const Order archesMeet{{0, 0}, {1, 1}};
    const Order archesOut{{0, 1}, {1, 0}};
    EXPECT_EQ(valueOf(panel, archesMeet, GlueTerm::Figure), 1000);
    EXPECT_EQ(valueOf(panel, archesMeet, GlueTerm::OuterFigure), 0);
    EXPECT_EQ(valueOf(panel, archesOut, GlueTerm::Figure), 0);
    EXPECT_EQ(valueOf(panel, archesOut, GlueTerm::OuterFigure), 2000);
}

Stave withLines(std::int32_t nearTenths, std::int32_t farTenths) {
    Stave stave = plain(HeartSide::Unknown);
    for (FaceView* face : {&stave.faceA, &stave.faceB}) {
        face->photo.nearLines = EdgeLines{nearTenths, 80};
        face->photo.farLines = EdgeLines{farTenths, 80};
    }
    return stave;
}

TEST(Scoring, LinesOfAPhotographCountBeforeWhatWasNoted) {
    Stave noted = plain(HeartSide::Unknown);
    noted.nearEdge = noted.farEdge = Figure::Arched;
    Stave straight = withLines(0, 0);
    straight.nearEdge = straight.farEdge = Figure::Arched;
    const auto joint = [](const Stave& a, const Stave& b) {
        return valueOf(panelOf({a, b}), {{0, 0}, {1, 0}}, GlueTerm::Figure);
    };
    EXPECT_EQ(joint(straight, straight), 0);
    EXPECT_EQ(joint(noted, straight), 500); // what was noted of the one, seen of the other
    EXPECT_EQ(joint(noted, noted), 1000);
    // 15 degrees look arched: straight meets it half well, its mirror image not at all, and lines
    // that go on at the same slant nearly meet.
    EXPECT_EQ(joint(straight, withLines(150, 0)), 500);
    EXPECT_EQ(joint(withLines(0, -150), withLines(150, 0)), 1000);
    EXPECT_EQ(joint(withLines(0, 150), withLines(150, 0)), 250);
    // Lines have no head: 80 and -80 degrees are 20 apart.
    EXPECT_EQ(joint(withLines(0, 800), withLines(-800, 0)), (3 * 666 + 1000) / 4);
    EXPECT_EQ(
        valueOf(panelOf({withLines(75, 0), straight}), {{0, 0}, {1, 0}}, GlueTerm::OuterFigure),
        500);
}

/// A fan of lines cut into six staves and shuffled: the arrangement puts it together again, as it
/// was or turned about as a whole.
TEST(Scoring, AShuffledFanOfLinesIsPutBack) {
    constexpr std::array<std::int32_t, 7> fan = {-240, -130, -90, 0, 70, 160, 280};
    constexpr std::array<std::size_t, 6> shuffled = {3, 0, 5, 1, 4, 2};
    std::vector<Stave> staves;
    for (const std::size_t piece : shuffled) {
        staves.push_back(withLines(fan[piece], fan[piece + 1]));
    }
    ArrangeProblem problem = panelOf(staves);
    problem.settings.weights.hundredths.fill(0);
    problem.settings.weights.hundredths[static_cast<std::size_t>(GlueTerm::Figure)] = 300;
    const Arrangement found = arrange(problem, {});
    EXPECT_EQ(found.proved, Proved::Best);
    std::vector<std::size_t> pieces;
    for (const Placed& placed : found.order) {
        pieces.push_back(shuffled[static_cast<std::size_t>(placed.stave)]);
    }
    if (pieces.front() > pieces.back()) {
        std::reverse(pieces.begin(), pieces.end());
    }
    EXPECT_EQ(pieces, (std::vector<std::size_t>{0, 1, 2, 3, 4, 5}));
}

TEST(Scoring, AKnotAtTheOuterEdgeIsNotAtAJoint) {
    Stave knotty = plain(HeartSide::Unknown);
    const Rect knot{Length::inches(10), {}, Length::inches(11), Length::inches(1)};
    knotty.faceA.knots = {{knot, knot}};
    const ArrangeProblem panel = panelOf({knotty, plain(HeartSide::Unknown)});
    EXPECT_EQ(valueOf(panel, {{0, 0}, {1, 0}}, GlueTerm::KnotAtJoint), 0);
    EXPECT_EQ(valueOf(panel, {{0, 1}, {1, 0}}, GlueTerm::KnotAtJoint), 1000);
}

TEST(Scoring, KnotsCrowdAcrossAStaveBetweenToo) {
    Stave knotty = plain(HeartSide::Unknown);
    const Rect knot{Length::inches(10), Length::inches(1), Length::inches(11), Length::inches(3)};
    knotty.faceA.knots = {{knot, knot}};
    const Stave clear = plain(HeartSide::Unknown);
    const ArrangeProblem panel = panelOf({knotty, clear, knotty, clear});
    // 2 in apart of 8: three quarters; a clear stave between, 6 in: a quarter.
    EXPECT_EQ(valueOf(panel, {{1, 0}, {0, 0}, {2, 0}, {3, 0}}, GlueTerm::KnotsCrowded), 750);
    EXPECT_EQ(valueOf(panel, {{0, 0}, {1, 0}, {2, 0}, {3, 0}}, GlueTerm::KnotsCrowded), 250);
    EXPECT_EQ(valueOf(panel, {{0, 0}, {1, 0}, {3, 0}, {2, 2}}, GlueTerm::KnotsCrowded), 0);
}

TEST(Scoring, NoSeamOnTheCentreLineIfAsked) {
    ArrangeProblem panel = panelOf(std::vector<Stave>(4, plain(HeartSide::Unknown)));
    const Order order{{0, 0}, {1, 0}, {2, 0}, {3, 0}};
    EXPECT_EQ(valueOf(panel, order, GlueTerm::CentreSeam), 0);
    panel.panels[0].noCentreSeam = true;
    EXPECT_EQ(valueOf(panel, order, GlueTerm::CentreSeam), 1000);
}

TEST(Scoring, NarrowStavesStandInside) {
    Stave narrow = plain(HeartSide::Unknown);
    narrow.width = Length::inches(2);
    const ArrangeProblem panel =
        panelOf({plain(HeartSide::Unknown), narrow, plain(HeartSide::Unknown)});
    EXPECT_EQ(valueOf(panel, {{0, 0}, {1, 0}, {2, 0}}, GlueTerm::NarrowOutside), 0);
    EXPECT_EQ(valueOf(panel, {{1, 0}, {0, 0}, {2, 0}}, GlueTerm::NarrowOutside), 25'400);
}

TEST(Scoring, TurningTheWholePanelChangesNothing) {
    for (std::uint64_t seed = 1; seed <= 50; ++seed) {
        const ArrangeProblem problem = randomPanel(seed, {.staves = 6});
        const Scoring scoring(problem);
        Order order = randomOrder(scoring, seed);
        const Cost before = scoring.total(order);
        std::reverse(order.begin(), order.end());
        for (Placed& placed : order) {
            placed.pose ^= 1; // end for end
        }
        EXPECT_EQ(scoring.total(order), before) << "seed " << seed;
    }
}

} // namespace
} // namespace stavewright::glueup
