#pragma once
// Private to core/shop: what the presets share. A preset gives the numbers, in its own round
// units; the stages, their reasons and the verdicts by kind are the same in every shop.
//
// How far each number can be trusted is said beside it:
//   "published": a trade, handbook or manual figure (named beside it);
//   "common practice": what small shops do; no source.

#include "core/shop/Shop.h"

namespace stavewright::preset_parts {

/// What the stages take off, both sides or both ends together unless said otherwise.
struct Allowances {
    Length sandThick;        ///< planed wood
    Length trimEnds;         ///< both ends, clear of snipe
    Length betweenMultiples; ///< beside the kerf, from one part of a multiple to the next
    Length sawnEdge;         ///< cleaning the edge the rip left
    Length jointEdge;        ///< straightening the edge that is jointed
    Length panelSandThick;   ///< after the panel is flattened
    Length panelFlattenThick;
    Length panelTrimEnds;
    Length panelTrimEdges;
    Length staveEdges; ///< two jointed edges of one stave
    Length staveEnds;
    Length blockSandThick;
    Length blockSandAcross;
    Length blockTrimEnds;
    Length blockPlaneThick; ///< the two outside faces of the glued block
    Length blockPlaneAcross;
    Length blockRip;
    Length blockJoint;
    Length plySlip; ///< plies slide on wet glue
    Length plyGlueFaceThick;
    Length plyEdges;
    Length plyEnds;
};
[[nodiscard]] Chains chainsOf(const Allowances& allowances);

/// Sizes up to which knots are tolerated.
struct RuleSizes {
    Length pinKnot;       ///< no more than a pin knot
    Length cleanShow;     ///< sound knot in a clean show face
    Length characterShow; ///< sound knot in a show face that may have knots
    Length filledShow;    ///< open knot that is filled in such a face
    Length filledCheck;   ///< length of a surface check that is filled in such a face
    Length filledHidden;  ///< open knot that is filled out of sight
    Length haloLeast;     ///< disturbed grain along, never counted under this
};
/// The seven rule sets named in Presets.h.
[[nodiscard]] std::vector<RuleSet> ruleSetsOf(const RuleSizes& sizes);

} // namespace stavewright::preset_parts
