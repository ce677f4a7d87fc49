#pragma once
// What an arrangement of staves is worth: every term with its value, unit and weight.
//
// All values are whole thousandths of the term's unit and all weights whole hundredths of a point,
// so that sums are exact whatever their order: the search, the proof and what is shown are one
// number.

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "core/glueup/Stave.h"
#include "core/layout/GlueUp.h"

namespace stavewright::glueup {

/// A stave in its place.
struct Placed {
    int stave = 0; ///< index into ArrangeProblem::staves
    int pose = 0;  ///< poseIndex
    friend bool operator==(const Placed&, const Placed&) = default;
};
/// From the near edge; of two panels first all of the one, then all of the other.
using Order = std::vector<Placed>;

struct PanelWish {
    int staves = 0; ///< how many of the problem's staves, in the list's order, are this panel's
    RingWish rings = RingWish::Alternate;
    bool noCentreSeam = false;
    std::vector<std::optional<Placed>> locked; ///< by place; empty: none
    // Where staves are exchanged between two panels: what each must come to.
    Length leastWidth = {};
    std::optional<Length> mostWidth = std::nullopt;
};

/// One panel, or two that are seen side by side: their grain agrees, and the edges that meet match.
struct ArrangeProblem {
    std::vector<Stave> staves;
    std::vector<PanelWish> panels;
    GlueSettings settings;
    /// Any stave may stand in either of two panels, as long as both get their widths. Only where
    /// both wish the same of their rings.
    bool exchange = false;
};

/// Costs in hundred-thousandths of a point.
using Cost = std::int64_t;
/// Values by term, in thousandths of the unit.
using Tally = std::array<std::int64_t, allGlueTerms.size()>;

enum class TermUnit { Staves, Joints, Knots, Millimetres, ColourSteps, Edges, Seams };

struct TermValue {
    GlueTerm term = GlueTerm::Planing;
    TermUnit unit = TermUnit::Staves;
    std::int64_t thousandths = 0;
    int weightHundredths = 0; ///< 0 where the wish leaves the term out
    int times = 1;            ///< the weight is so many times that of the settings, by the wish
    [[nodiscard]] Cost cost() const { return thousandths * weightHundredths; }
    friend bool operator==(const TermValue&, const TermValue&) = default;
};

struct Score {
    std::vector<TermValue> terms; ///< in the order of allGlueTerms
    Cost total = 0;
    friend bool operator==(const Score&, const Score&) = default;
};

[[nodiscard]] TermUnit unitOf(GlueTerm term);

class Scoring {
  public:
    explicit Scoring(const ArrangeProblem& problem);

    [[nodiscard]] const ArrangeProblem& problem() const { return *m_problem; }
    [[nodiscard]] int staves() const { return m_staves; }
    /// Place after the last of the panel's places; place 0 is the first of the first panel.
    [[nodiscard]] int endOf(int panel) const { return m_ends[static_cast<std::size_t>(panel)]; }
    [[nodiscard]] int startOf(int panel) const { return panel == 0 ? 0 : endOf(panel - 1); }
    [[nodiscard]] int panels() const { return static_cast<int>(m_ends.size()); }
    /// Of a place; of a stave as long as none is exchanged.
    [[nodiscard]] int panelOf(int staveOrPlace) const { return staveOrPlace < m_ends[0] ? 0 : 1; }
    /// Both panels get their widths, also where staves were exchanged.
    [[nodiscard]] bool areWideEnough(const Order& order) const;

    /// May this stave stand in this pose at this place? Its panel, locks and the plan's rules.
    [[nodiscard]] bool mayStand(Placed placed, int place) const;

    // What adds up by place and by neighbours. `direction` is the planing direction that is held to
    // be the panel's: +1 or -1.
    [[nodiscard]] Cost alone(Placed placed, int direction) const {
        return m_alone[slot(placed)] + (planing(placed) == -direction ? m_planingCost : 0);
    }
    [[nodiscard]] Cost outer(Placed placed, Side side) const {
        return m_outer[slot(placed) * 2 + (side == Side::Near ? 0 : 1)];
    }
    [[nodiscard]] Cost joint(Placed left, Placed right) const {
        return m_joint[slot(left) * m_slots + slot(right)];
    }
    /// Across the gap between two panels.
    [[nodiscard]] Cost gap(Placed left, Placed right) const;
    /// A seam so far from the near edge of the panel.
    [[nodiscard]] Cost seam(int panel, Length fromNear) const;
    [[nodiscard]] Length widthOf(int stave) const {
        return m_problem->staves[static_cast<std::size_t>(stave)].width;
    }
    [[nodiscard]] Length panelWidth(int panel) const;
    [[nodiscard]] int planing(Placed placed) const { return m_planing[slot(placed)]; }

    // What does not.
    /// Knots of staves `left` and `right` that are not neighbours; the near edges stand so far
    /// apart.
    [[nodiscard]] Cost crowding(Placed left, Placed right, Length apart) const;
    /// Whether knots of the two lie near enough along the grain to crowd each other.
    [[nodiscard]] bool mayCrowd(Placed left, Placed right) const {
        return m_mayCrowd[slot(left) * m_slots + slot(right)] != 0;
    }
    [[nodiscard]] Cost cup(const std::vector<CupPart>& panel, RingWish wish) const;
    [[nodiscard]] CupPart cupPart(Placed placed) const;

    /// All that is weighed, as the search counts it.
    [[nodiscard]] Cost total(const Order& order) const;
    /// The same where it is no more than `atMost`; above that, anything above it. `room` is reused
    /// from call to call.
    [[nodiscard]] Cost total(const Order& order, std::vector<CupPart>& room, Cost atMost) const;
    /// The same, term by term.
    [[nodiscard]] Score score(const Order& order) const;

  private:
    [[nodiscard]] std::size_t slot(Placed placed) const {
        return static_cast<std::size_t>(placed.stave) * 4 + static_cast<std::size_t>(placed.pose);
    }
    [[nodiscard]] const Stave& staveOf(Placed placed) const {
        return m_problem->staves[static_cast<std::size_t>(placed.stave)];
    }
    [[nodiscard]] const PanelWish& wishOf(Placed placed) const {
        return m_problem->panels[static_cast<std::size_t>(panelOf(placed.stave))];
    }
    [[nodiscard]] int weightOf(GlueTerm term, RingWish wish) const;
    [[nodiscard]] Cost weigh(const Tally& tally, RingWish wish) const;
    [[nodiscard]] Tally tallyAlone(Placed placed) const;
    [[nodiscard]] Tally tallyOuter(Placed placed, Side side) const;
    [[nodiscard]] Tally tallyJoint(Placed left, Placed right) const;
    [[nodiscard]] Tally tallyGap(Placed left, Placed right) const;
    [[nodiscard]] bool isCentreSeam(int panel, Length fromNear, Length width) const;
    [[nodiscard]] Length widthOf(const Order& order, int panel) const;
    [[nodiscard]] std::int64_t crowded(Placed left, Placed right, Length apart) const;
    [[nodiscard]] std::int64_t knotsNearJoint(Placed placed, Side side) const;
    [[nodiscard]] Cost addingUp(const Order& order) const;
    [[nodiscard]] Cost notNeighbours(const Order& order, int panel) const;
    [[nodiscard]] std::int64_t against(const Order& order, int direction) const;

    const ArrangeProblem* m_problem;
    int m_staves = 0;
    std::size_t m_slots = 0;
    std::vector<int> m_ends;
    Cost m_planingCost = 0;
    std::vector<int> m_planing;
    std::vector<char> m_mayCrowd;
    std::vector<Cost> m_alone;
    std::vector<Cost> m_outer;
    std::vector<Cost> m_joint;
    std::vector<CupPart> m_cups; ///< by stave, as it lies
    std::vector<std::vector<KnotPlace>> m_shown;
    std::vector<std::array<std::int64_t, 2>> m_nearJoint; ///< by slot and side
};

} // namespace stavewright::glueup
