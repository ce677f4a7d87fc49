#include "core/glueup/Scoring.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace stavewright::glueup {

namespace {

std::size_t at(GlueTerm term) { return static_cast<std::size_t>(term); }

constexpr std::int64_t one = 1000;

/// Closer than this to the centre line a seam looks as if it stood on it (common practice, no
/// source).
constexpr Length onCentre = Length::inches(1, 4);

/// How far `distance` falls short of `wanted`, in thousandths of it; 0 to 1000.
std::int64_t shortfall(Length distance, Length wanted) {
    if (wanted <= Length() || distance >= wanted) {
        return 0;
    }
    if (distance <= Length()) {
        return one;
    }
    return one - distance.inNanometres() * one / wanted.inNanometres();
}

Length gapBetween(const Rect& a, const Rect& b) {
    const Length along = std::max({Length(), a.x0 - b.x1, b.x0 - a.x1});
    const Length across = std::max({Length(), a.y0 - b.y1, b.y0 - a.y1});
    return Length::nanometres(std::llround(std::hypot(static_cast<double>(along.inNanometres()),
                                                      static_cast<double>(across.inNanometres()))));
}

bool areNearAlong(const std::vector<KnotPlace>& left, const std::vector<KnotPlace>& right,
                  Length apart) {
    for (const KnotPlace& a : left) {
        for (const KnotPlace& b : right) {
            if (a.knot.x0 - b.knot.x1 < apart && b.knot.x0 - a.knot.x1 < apart) {
                return true;
            }
        }
    }
    return false;
}

/// Where the best face is wished for, knots on it count more.
int timesWeighed(GlueTerm term, RingWish wish) {
    return term == GlueTerm::ShowFace && wish == RingWish::BestFaceUp ? 3 : 1;
}

std::int64_t inMicrometres(Length length) {
    return length.inNanometres() / Length::nanometresPerMicrometre;
}

/// Lines that lean more than this look like an arch cut through (common practice, no source).
constexpr std::int64_t archTenths = 150;

/// How far from straight an edge looks, in thousandths: lines of a photograph, else what was noted.
std::int64_t leanOf(Figure figure, const std::optional<EdgeLines>& lines) {
    if (lines) {
        return std::min(one, std::abs(std::int64_t{lines->angleTenths}) * one / archTenths);
    }
    return figure == Figure::Arched ? one : 0;
}

/// How ill two edges look side by side: arch to arch is worst, straight to straight is right. Where
/// photographs show both, most of it is how far their lines bend at the joint: those that go on
/// through it, even at a slant, nearly meet.
std::int64_t figureMeeting(const Stave& a, Pose poseA, const Stave& b, Pose poseB) {
    const std::optional<EdgeLines> linesA = linesAt(a, poseA, Side::Far);
    const std::optional<EdgeLines> linesB = linesAt(b, poseB, Side::Near);
    const std::int64_t lean = (leanOf(figureAt(a, poseA, Side::Far), linesA) +
                               leanOf(figureAt(b, poseB, Side::Near), linesB)) /
                              2;
    if (!linesA || !linesB) {
        return lean;
    }
    std::int64_t bend = std::abs(std::int64_t{linesA->angleTenths} - linesB->angleTenths);
    bend = std::min(bend, 1800 - bend); // a line has no head
    return (3 * std::min(one, bend * one / (2 * archTenths)) + lean) / 4;
}

} // namespace

TermUnit unitOf(GlueTerm term) {
    switch (term) {
    case GlueTerm::Planing:
        return TermUnit::Staves;
    case GlueTerm::Rings:
    case GlueTerm::OtherBoard:
    case GlueTerm::Figure:
        return TermUnit::Joints;
    case GlueTerm::ShowFace:
    case GlueTerm::KnotAtJoint:
    case GlueTerm::KnotsCrowded:
        return TermUnit::Knots;
    case GlueTerm::JointStep:
    case GlueTerm::PanelCup:
    case GlueTerm::NarrowOutside:
        return TermUnit::Millimetres;
    case GlueTerm::Colour:
        return TermUnit::ColourSteps;
    case GlueTerm::OuterFigure:
        return TermUnit::Edges;
    case GlueTerm::CentreSeam:
        return TermUnit::Seams;
    }
    return TermUnit::Staves;
}

Scoring::Scoring(const ArrangeProblem& problem)
    : m_problem(&problem)
    , m_staves(static_cast<int>(problem.staves.size()))
    , m_slots(problem.staves.size() * 4) {
    assert(!problem.panels.empty() && problem.panels.size() <= 2);
    int end = 0;
    for (const PanelWish& panel : problem.panels) {
        end += panel.staves;
        m_ends.push_back(end);
    }
    assert(end == m_staves);
    assert(!problem.exchange ||
           (problem.panels.size() == 2 && problem.panels[0].rings == problem.panels[1].rings));
    m_planingCost = one * problem.settings.weights.of(GlueTerm::Planing);
    m_planing.resize(m_slots);
    m_mayCrowd.resize(m_slots * m_slots);
    m_alone.resize(m_slots);
    m_outer.resize(m_slots * 2);
    m_joint.resize(m_slots * m_slots);
    m_shown.resize(m_slots);
    m_nearJoint.resize(m_slots);
    for (int s = 0; s < m_staves; ++s) {
        const Stave& stave = problem.staves[static_cast<std::size_t>(s)];
        m_cups.push_back({stave.width, forecastCup(stave.width, stave.rings, stave.movement)});
        for (int p = 0; p < 4; ++p) {
            const Placed placed{s, p};
            m_planing[slot(placed)] = planingInPanel(stave, poseOf(p));
            m_shown[slot(placed)] = shownKnots(stave, poseOf(p));
            m_nearJoint[slot(placed)] = {knotsNearJoint(placed, Side::Near),
                                         knotsNearJoint(placed, Side::Far)};
            const RingWish wish = wishOf(placed).rings;
            m_alone[slot(placed)] = weigh(tallyAlone(placed), wish);
            m_outer[slot(placed) * 2] = weigh(tallyOuter(placed, Side::Near), wish);
            m_outer[slot(placed) * 2 + 1] = weigh(tallyOuter(placed, Side::Far), wish);
        }
    }
    for (int s = 0; s < m_staves; ++s) {
        for (int t = 0; t < m_staves; ++t) {
            const bool canMeet = s != t && (problem.exchange || panelOf(s) == panelOf(t));
            for (int poses = 0; canMeet && poses < 16; ++poses) {
                const Placed left{s, poses / 4};
                const Placed right{t, poses % 4};
                m_mayCrowd[slot(left) * m_slots + slot(right)] =
                    areNearAlong(m_shown[slot(left)], m_shown[slot(right)],
                                 problem.settings.knotsApart)
                        ? 1
                        : 0;
                m_joint[slot(left) * m_slots + slot(right)] =
                    weigh(tallyJoint(left, right), wishOf(left).rings);
            }
        }
    }
}

bool Scoring::mayStand(Placed placed, int place) const {
    const int panel = panelOf(place);
    if (!m_problem->exchange && panel != panelOf(placed.stave)) {
        return false;
    }
    const PanelWish& wish = m_problem->panels[static_cast<std::size_t>(panel)];
    if (!wish.locked.empty()) {
        const auto& here = wish.locked[static_cast<std::size_t>(place - startOf(panel))];
        if (here) {
            return *here == placed;
        }
    }
    for (const PanelWish& each : m_problem->panels) {
        for (const std::optional<Placed>& locked : each.locked) {
            if (locked && locked->stave == placed.stave) {
                return false; // it has a place of its own
            }
        }
    }
    return !staveOf(placed).forbidden[static_cast<std::size_t>(placed.pose)];
}

int Scoring::weightOf(GlueTerm term, RingWish wish) const {
    // A base or frame holds a panel flat whose rings do not alternate; its cup is shown, not
    // weighed.
    if (term == GlueTerm::PanelCup && wish != RingWish::Alternate) {
        return 0;
    }
    return m_problem->settings.weights.of(term) * timesWeighed(term, wish);
}

Cost Scoring::weigh(const Tally& tally, RingWish wish) const {
    Cost cost = 0;
    for (const GlueTerm term : allGlueTerms) {
        cost += tally[at(term)] * weightOf(term, wish);
    }
    return cost;
}

Tally Scoring::tallyAlone(Placed placed) const {
    Tally tally{};
    const RingWish wish = wishOf(placed).rings;
    const int heart = heartInPanel(staveOf(placed), poseOf(placed.pose));
    if (heart < 0 && wish == RingWish::HeartUp) {
        tally[at(GlueTerm::Rings)] = one;
    } else if (heart < 0 && wish == RingWish::BestFaceUp) {
        tally[at(GlueTerm::Rings)] = one / 10; // breaks ties
    }
    tally[at(GlueTerm::ShowFace)] = static_cast<std::int64_t>(m_shown[slot(placed)].size()) * one;
    return tally;
}

Tally Scoring::tallyOuter(Placed placed, Side side) const {
    Tally tally{};
    const Stave& stave = staveOf(placed);
    const Pose pose = poseOf(placed.pose);
    tally[at(GlueTerm::OuterFigure)] =
        leanOf(figureAt(stave, pose, side), linesAt(stave, pose, side));
    tally[at(GlueTerm::NarrowOutside)] =
        inMicrometres(std::max(Length(), m_problem->settings.narrow - stave.width));
    return tally;
}

Tally Scoring::tallyJoint(Placed left, Placed right) const {
    Tally tally{};
    const Stave& a = staveOf(left);
    const Stave& b = staveOf(right);
    const Pose poseA = poseOf(left.pose);
    const Pose poseB = poseOf(right.pose);
    const int heartA = heartInPanel(a, poseA);
    if (wishOf(left).rings == RingWish::Alternate && heartA != 0 &&
        heartA == heartInPanel(b, poseB)) {
        tally[at(GlueTerm::Rings)] = one;
    }
    // Half of what their thicknesses differ by shows at each face.
    const auto thickness = [](const Stave& stave) {
        return thicknessChange(Length::inches(1), stave.rings, stave.movement);
    };
    const Int128 differ = abs(thickness(a) - thickness(b)).inNanometres();
    const Length step = Length::nanometres(
        static_cast<std::int64_t>(differ * std::min(a.thickness, b.thickness).inNanometres() /
                                  Length::nanometresPerInch / 2));
    tally[at(GlueTerm::JointStep)] = inMicrometres(step);
    const std::optional<Colour> colourA = colourAt(a, poseA, Side::Far);
    const std::optional<Colour> colourB = colourAt(b, poseB, Side::Near);
    if (colourA && colourB) {
        tally[at(GlueTerm::Colour)] = colourStep(*colourA, *colourB);
    }
    tally[at(GlueTerm::OtherBoard)] = a.board == b.board ? 0 : one;
    tally[at(GlueTerm::Figure)] = figureMeeting(a, poseA, b, poseB);
    tally[at(GlueTerm::KnotAtJoint)] = m_nearJoint[slot(left)][1] + m_nearJoint[slot(right)][0];
    tally[at(GlueTerm::KnotsCrowded)] = crowded(left, right, a.width);
    return tally;
}

Tally Scoring::tallyGap(Placed left, Placed right) const {
    Tally tally{};
    const Stave& a = staveOf(left);
    const Stave& b = staveOf(right);
    const std::optional<Colour> colourA = colourAt(a, poseOf(left.pose), Side::Far);
    const std::optional<Colour> colourB = colourAt(b, poseOf(right.pose), Side::Near);
    if (colourA && colourB) {
        tally[at(GlueTerm::Colour)] = colourStep(*colourA, *colourB);
    }
    tally[at(GlueTerm::OtherBoard)] = a.board == b.board ? 0 : one;
    return tally;
}

Cost Scoring::gap(Placed left, Placed right) const {
    return weigh(tallyGap(left, right), wishOf(left).rings);
}

Length Scoring::panelWidth(int panel) const {
    Length width;
    for (int stave = startOf(panel); stave < endOf(panel); ++stave) {
        width += widthOf(stave);
    }
    return width;
}

Length Scoring::widthOf(const Order& order, int panel) const {
    Length width;
    for (int place = startOf(panel); place < endOf(panel); ++place) {
        width += widthOf(order[static_cast<std::size_t>(place)].stave);
    }
    return width;
}

bool Scoring::areWideEnough(const Order& order) const {
    for (int panel = 0; m_problem->exchange && panel < panels(); ++panel) {
        const PanelWish& wish = m_problem->panels[static_cast<std::size_t>(panel)];
        const Length width = widthOf(order, panel);
        if (width < wish.leastWidth || (wish.mostWidth && width > *wish.mostWidth)) {
            return false;
        }
    }
    return true;
}

bool Scoring::isCentreSeam(int panel, Length fromNear, Length width) const {
    return m_problem->panels[static_cast<std::size_t>(panel)].noCentreSeam &&
           abs(fromNear * 2 - width) < onCentre * 2;
}

Cost Scoring::seam(int panel, Length fromNear) const {
    return isCentreSeam(panel, fromNear, panelWidth(panel))
               ? one * m_problem->settings.weights.of(GlueTerm::CentreSeam)
               : 0;
}

std::int64_t Scoring::knotsNearJoint(Placed placed, Side side) const {
    const Stave& stave = staveOf(placed);
    std::int64_t sum = 0;
    for (const bool shows : {true, false}) {
        for (const KnotPlace& knot : shows ? shownKnots(stave, poseOf(placed.pose))
                                           : hiddenKnots(stave, poseOf(placed.pose))) {
            const Length away = side == Side::Near ? knot.halo.y0 : stave.width - knot.halo.y1;
            sum += shortfall(away, m_problem->settings.knotClear);
        }
    }
    return sum;
}

std::int64_t Scoring::crowded(Placed left, Placed right, Length apart) const {
    std::int64_t sum = 0;
    for (const KnotPlace& a : m_shown[slot(left)]) {
        for (const KnotPlace& b : m_shown[slot(right)]) {
            Rect moved = b.knot;
            moved.y0 += apart;
            moved.y1 += apart;
            sum += shortfall(gapBetween(a.knot, moved), m_problem->settings.knotsApart);
        }
    }
    return sum;
}

Cost Scoring::crowding(Placed left, Placed right, Length apart) const {
    return crowded(left, right, apart) * m_problem->settings.weights.of(GlueTerm::KnotsCrowded);
}

CupPart Scoring::cupPart(Placed placed) const {
    CupPart part = m_cups[static_cast<std::size_t>(placed.stave)];
    if (poseOf(placed.pose).faceOver) {
        part.cup = -part.cup;
    }
    return part;
}

Cost Scoring::cup(const std::vector<CupPart>& panel, RingWish wish) const {
    const int weight = weightOf(GlueTerm::PanelCup, wish);
    return weight == 0 ? 0 : inMicrometres(panelCup(panel).depth) * weight;
}

std::int64_t Scoring::against(const Order& order, int direction) const {
    return std::count_if(order.begin(), order.end(),
                         [&](const Placed& placed) { return planing(placed) == -direction; });
}

Cost Scoring::addingUp(const Order& order) const {
    Cost cost = std::min(against(order, 1), against(order, -1)) * m_planingCost;
    for (int panel = 0; panel < panels(); ++panel) {
        const bool seamsCount = m_problem->panels[static_cast<std::size_t>(panel)].noCentreSeam;
        const Length width = seamsCount ? widthOf(order, panel) : Length();
        const Cost seamCost = one * m_problem->settings.weights.of(GlueTerm::CentreSeam);
        Length fromNear;
        for (int place = startOf(panel); place < endOf(panel); ++place) {
            const Placed here = order[static_cast<std::size_t>(place)];
            cost += m_alone[slot(here)];
            if (place > startOf(panel)) {
                cost += joint(order[static_cast<std::size_t>(place - 1)], here);
                cost += seamsCount && isCentreSeam(panel, fromNear, width) ? seamCost : 0;
            }
            fromNear += widthOf(here.stave);
        }
        if (endOf(panel) > startOf(panel)) {
            cost += outer(order[static_cast<std::size_t>(startOf(panel))], Side::Near);
            cost += outer(order[static_cast<std::size_t>(endOf(panel) - 1)], Side::Far);
        }
    }
    if (panels() == 2 && endOf(0) > 0 && endOf(1) > endOf(0)) {
        cost += gap(order[static_cast<std::size_t>(endOf(0) - 1)],
                    order[static_cast<std::size_t>(endOf(0))]);
    }
    return cost;
}

/// Knots that crowd one another across staves between.
Cost Scoring::notNeighbours(const Order& order, int panel) const {
    Cost cost = 0;
    for (int place = startOf(panel) + 2; place < endOf(panel); ++place) {
        const Placed here = order[static_cast<std::size_t>(place)];
        Length between;
        for (int other = place - 2; other >= startOf(panel); --other) {
            between += widthOf(order[static_cast<std::size_t>(other + 1)].stave);
            if (between >= m_problem->settings.knotsApart) {
                break;
            }
            const Placed there = order[static_cast<std::size_t>(other)];
            if (mayCrowd(there, here)) {
                cost += crowding(there, here, between + widthOf(there.stave));
            }
        }
    }
    return cost;
}

Cost Scoring::total(const Order& order) const {
    std::vector<CupPart> room;
    return total(order, room, std::int64_t{1} << 62);
}

Cost Scoring::total(const Order& order, std::vector<CupPart>& cups, Cost atMost) const {
    Cost cost = addingUp(order);
    for (int panel = 0; panel < panels() && cost <= atMost; ++panel) {
        cost += notNeighbours(order, panel);
        const RingWish wish = m_problem->panels[static_cast<std::size_t>(panel)].rings;
        if (cost > atMost || weightOf(GlueTerm::PanelCup, wish) == 0) {
            continue;
        }
        cups.clear();
        for (int place = startOf(panel); place < endOf(panel); ++place) {
            cups.push_back(cupPart(order[static_cast<std::size_t>(place)]));
        }
        cost += cup(cups, wish);
    }
    return cost;
}

Score Scoring::score(const Order& order) const {
    Tally sum{};
    const auto add = [&](const Tally& tally) {
        for (std::size_t i = 0; i < sum.size(); ++i) {
            sum[i] += tally[i];
        }
    };
    sum[at(GlueTerm::Planing)] = std::min(against(order, 1), against(order, -1)) * one;
    std::int64_t shownCup = 0; // of panels that a base holds flat
    bool cupIsWeighed = false;
    // Of two panels that wish otherwise there is no one weight; then the knots are counted so
    // often.
    const RingWish first = m_problem->panels.front().rings;
    const bool wishesAgree = m_problem->panels.back().rings == first;
    for (int panel = 0; panel < panels(); ++panel) {
        std::vector<CupPart> cups;
        const Length width = widthOf(order, panel);
        Length fromNear;
        for (int place = startOf(panel); place < endOf(panel); ++place) {
            const Placed here = order[static_cast<std::size_t>(place)];
            Tally alone = tallyAlone(here);
            if (!wishesAgree) {
                alone[at(GlueTerm::ShowFace)] *=
                    timesWeighed(GlueTerm::ShowFace, wishOf(here).rings);
            }
            add(alone);
            if (place > startOf(panel)) {
                add(tallyJoint(order[static_cast<std::size_t>(place - 1)], here));
                sum[at(GlueTerm::CentreSeam)] += isCentreSeam(panel, fromNear, width) ? one : 0;
            }
            Length apart = fromNear;
            for (int other = startOf(panel); other + 1 < place; ++other) {
                const Placed there = order[static_cast<std::size_t>(other)];
                sum[at(GlueTerm::KnotsCrowded)] += crowded(there, here, apart);
                apart -= widthOf(there.stave);
            }
            cups.push_back(cupPart(here));
            fromNear += widthOf(here.stave);
        }
        if (endOf(panel) > startOf(panel)) {
            add(tallyOuter(order[static_cast<std::size_t>(startOf(panel))], Side::Near));
            add(tallyOuter(order[static_cast<std::size_t>(endOf(panel) - 1)], Side::Far));
        }
        const std::int64_t depth = inMicrometres(panelCup(cups).depth);
        if (m_problem->panels[static_cast<std::size_t>(panel)].rings == RingWish::Alternate) {
            sum[at(GlueTerm::PanelCup)] += depth;
            cupIsWeighed = true;
        } else {
            shownCup = std::max(shownCup, depth);
        }
    }
    if (panels() == 2 && endOf(0) > 0 && endOf(1) > endOf(0)) {
        add(tallyGap(order[static_cast<std::size_t>(endOf(0) - 1)],
                     order[static_cast<std::size_t>(endOf(0))]));
    }
    if (!cupIsWeighed) {
        sum[at(GlueTerm::PanelCup)] = shownCup;
    }
    Score score;
    for (const GlueTerm term : allGlueTerms) {
        const bool isWeighed = term != GlueTerm::PanelCup || cupIsWeighed;
        const int times = wishesAgree ? timesWeighed(term, first) : 1;
        // Alternating rings are a matter of joints, all one way of staves.
        const bool isOfStaves = term == GlueTerm::Rings && first != RingWish::Alternate;
        const TermUnit unit = isOfStaves ? TermUnit::Staves : unitOf(term);
        const TermValue value{term, unit, sum[at(term)],
                              isWeighed ? m_problem->settings.weights.of(term) * times : 0, times};
        score.total += value.cost();
        score.terms.push_back(value);
    }
    return score;
}

} // namespace stavewright::glueup
