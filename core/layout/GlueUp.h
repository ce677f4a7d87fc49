#pragma once
// How the staves of a panel are to be glued: their order, which of them keep their places, and what
// counts in the choice. Part of the job. Which face of a stave is up and which way it runs is said
// by the pose of its blank in the plan and nowhere else, so that whoever judges the plan judges the
// panel that will be glued.

#include <array>
#include <optional>
#include <vector>

#include "core/base/Id.h"
#include "core/layout/LaidOut.h"
#include "core/layout/Plan.h"

namespace stavewright {

/// How the rings of neighbouring staves are to stand. Practice disagrees (alternating keeps a free
/// panel flatter, all one way makes one curve that a base holds down, the best face looks best), so
/// it is chosen for each panel.
enum class RingWish { Alternate, HeartUp, BestFaceUp };

/// What an arrangement is judged by; each term has a value in its own unit and a weight.
enum class GlueTerm {
    Planing,      ///< staves whose grain runs against that of the most
    Rings,        ///< joints or staves that are not as the ring wish says
    ShowFace,     ///< knots on the face that shows
    JointStep,    ///< neighbours that shrink differently in thickness
    PanelCup,     ///< forecast cup of the whole panel
    Colour,       ///< colour steps at the joints
    OtherBoard,   ///< joints between wood of two boards
    Figure,       ///< arched figure that meets at a joint
    KnotAtJoint,  ///< knots with their halo too near a glue line
    KnotsCrowded, ///< knots of different staves close together
    OuterFigure,  ///< arched figure at the panel's long edges
    CentreSeam,   ///< a seam on the centre line
    NarrowOutside ///< narrow staves at the long edges
};
inline constexpr std::array<GlueTerm, 13> allGlueTerms = {
    GlueTerm::Planing,      GlueTerm::Rings,        GlueTerm::ShowFace,    GlueTerm::JointStep,
    GlueTerm::PanelCup,     GlueTerm::Colour,       GlueTerm::OtherBoard,  GlueTerm::Figure,
    GlueTerm::KnotAtJoint,  GlueTerm::KnotsCrowded, GlueTerm::OuterFigure, GlueTerm::CentreSeam,
    GlueTerm::NarrowOutside};

/// Weight of each term in hundredths of a point for one of its units, in the order of allGlueTerms.
/// The usual ranking is looks first, planing direction second, rings third; the figures themselves
/// are ours (common practice, no source).
struct GlueWeights {
    std::array<int, allGlueTerms.size()> hundredths = {1000, 400, 200, 1500, 500, 60, 100,
                                                       300,  600, 300, 300,  500, 16};
    [[nodiscard]] int of(GlueTerm term) const { return hundredths[static_cast<std::size_t>(term)]; }
    friend bool operator==(const GlueWeights&, const GlueWeights&) = default;
};

struct GlueSettings {
    GlueWeights weights;
    /// Moisture content in tenths of a percent: of boards whose own was not measured, and what the
    /// panel will come to in use. 8 % is the handbook's average for interiors of most of North
    /// America (Wood Handbook, chapter 13, recommended moisture content); the dry season of a
    /// heated house lies below it (6 %, common practice).
    int moistureTenths = 80;
    int moistureInUseTenths = 60;
    /// Radius of the rings where nothing better is known: about a third of a saw log's diameter
    /// (common practice, no source).
    Length ringRadius = Length::millimetres(125);
    /// A panel whose forecast cup exceeds this is flagged (common practice, no source).
    Length mostCup = Length::inches(1, 16);
    /// A knot's halo should stay this far from a glue line (common practice, no source).
    Length knotClear = Length::inches(1, 2);
    /// Knots of different staves should be this far apart (common practice, no source).
    Length knotsApart = Length::inches(8);
    /// Narrower staves do not stand at the long edges (common practice, no source).
    Length narrow = Length::inches(3);
    /// Cauls under the clamp jaws; zero for none.
    Length caul = Length::inches(3, 4);
    /// Clamps stand no farther apart than this, however wide the outer stave; zero: as far as their
    /// fans reach. Makers report 6, 12 and 24 to 36 in (common practice, no source).
    Length clampsApart = {};
    /// Pressure on a glue line, in pounds a square inch. 100 to 150 by a clamp-pressure page, 175
    /// to 250 for hardwoods by an adhesive maker ("Dealing with pressure"); joints that fit want
    /// less.
    int leastPsi = 100;
    friend bool operator==(const GlueSettings&, const GlueSettings&) = default;
};

/// A place of the panel, counted from its near edge.
struct GluedStave {
    int stave = 0;       ///< BlankPurpose::stave
    bool locked = false; ///< keeps its place, end and face when the panel is arranged
    // What the maker saw when the panel was arranged; the panel says so when the plan has changed.
    BoardId board;
    Length at;    ///< where on its board the stave began, board frame
    Length width; ///< net
    Pose pose;
    friend bool operator==(const GluedStave&, const GluedStave&) = default;
};

struct PanelArrangement {
    PanelName panel;
    RingWish rings = RingWish::Alternate;
    bool noCentreSeam = false;
    std::optional<PanelName> matches; ///< a panel that is arranged together with this one
    std::vector<GluedStave> staves;   ///< empty: as the staves come off the boards
    friend bool operator==(const PanelArrangement&, const PanelArrangement&) = default;
};

struct GlueUp {
    GlueSettings settings;
    std::vector<PanelArrangement> panels; ///< by name; panels that were never touched have none
    std::vector<LaidOut> laidOut = {};    ///< at most one of each face of a panel
    friend bool operator==(const GlueUp&, const GlueUp&) = default;
};

} // namespace stavewright
