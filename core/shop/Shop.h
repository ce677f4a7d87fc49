#pragma once
// The shop: saws, machines, what each stage takes off, the rule sets, what an offcut must be to be
// kept. Presets (Presets.h) fill it; everything in it is shown and can be edited.

#include <string>
#include <vector>

#include "core/piece/Zone.h"
#include "core/units/Measure.h"

namespace stavewright {

/// A saw as the plan needs it: what its cut takes away and what it can take in.
struct Saw {
    std::string name;
    Length kerf;
    Length deepest; ///< thickest stock it cuts in one pass
    Length widest;  ///< widest stock it crosscuts; zero when it does not matter
    friend bool operator==(const Saw&, const Saw&) = default;
};

struct Machines {
    Saw crosscut;      ///< boards into sections
    Saw rip;           ///< sections into strips, and the trimming rip
    Saw stripCrosscut; ///< strips into blanks
    Saw roughRip;      ///< band saw: rough-ripping a section before its first facing
    Length jointerWidth;
    Length jointerLeastLength;
    Length planerWidth;
    Length planerLeastLength;
    Length planerLeastThickness;
    Length longestBoard; ///< that can be handled; longer ones are crosscut first where they lie
    Length narrowestRip; ///< nothing narrower is ripped
    Length cautionRip;   ///< rips narrower than this carry a caution
    friend bool operator==(const Machines&, const Machines&) = default;
};

enum class FlattenMethod { ScraperAndSander, Planer, Sled };

enum class Stage {
    Sand,
    TrimToLength,
    RipToWidth,
    Plane,
    JointFaceAndEdge,
    RoughCrosscut,
    TrimPanelSquare,
    FlattenPanel,
    GlueEdges,
    JointStaveEdges,
    PlaneSawnFaces,
    SecondRip,
    SecondPlane,
    SecondJoint,
    GlueFaces,
    PlaneGlueFaces,
    PartMultiple
};

/// What one stage adds to the size of the piece, walking back from finished to rough.
struct StageAllowance {
    Stage stage = Stage::Sand;
    Length along;
    Length across;
    Length thick;
    std::string why; ///< shown in the sum, e.g. "snipe, 1 in an end"
    friend bool operator==(const StageAllowance&, const StageAllowance&) = default;
};
using MillingChain = std::vector<StageAllowance>;

/// Chains run from the finished part backwards, in the order in which the walk meets them.
struct Chains {
    MillingChain oneBoard; ///< finished part -> blank
    MillingChain panel;    ///< finished panel -> glued-up panel
    MillingChain stave;    ///< net stave in the panel -> blank
    MillingChain block;    ///< finished laminated block -> glued-up block
    MillingChain ply;      ///< net ply in the block -> blank (or -> the ply as a panel)
    friend bool operator==(const Chains&, const Chains&) = default;
};

struct OffcutRule {
    Length leastLength;
    Length leastWidth;
    Length leastThickness;
    int worthPercent = 30; ///< of its share of the board's price; 0 to 60
    friend bool operator==(const OffcutRule&, const OffcutRule&) = default;
};

struct Prices {
    Money fillEach;   ///< time and resin for one filled knot
    Money crosscut;   ///< time for one crosscut
    Money rip;        ///< time for one rip
    Money knotOnShow; ///< what one allowed knot on a show face counts against a plan
    Money groupApart; ///< what each board beyond the first counts that a match group comes from
    friend bool operator==(const Prices&, const Prices&) = default;
};

struct Shop {
    std::string name; ///< of the preset it began as
    Machines machines;
    Chains chains;
    FlattenMethod flatten = FlattenMethod::ScraperAndSander;
    Length
        cleaning; ///< thickness two cleaning passes take at the first facing, both faces together
    /// Most by which a board, at its thinnest, may be thicker than a blank's milling needs: the
    /// thickness wanted at the first facing and the cleaning. Thicker wood is left for thicker
    /// parts.
    Length mostPlanedAway;
    Length rawEnd;     ///< trim at a raw board end that carries no other mark
    Length widthStep;  ///< step of free stave widths
    Length panelSlack; ///< most that the staves of one panel may exceed what is asked
    OffcutRule offcuts;
    Prices prices;
    std::vector<RuleSet> ruleSets;
    friend bool operator==(const Shop&, const Shop&) = default;
};

[[nodiscard]] const RuleSet* findRuleSet(const Shop& shop, RuleSetId id);

} // namespace stavewright
