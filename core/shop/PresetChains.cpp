#include "core/shop/PresetParts.h"

namespace stavewright::preset_parts {

namespace {

StageAllowance stage(Stage which, Length along, Length across, Length thick, std::string why) {
    return {which, along, across, thick, std::move(why)};
}

// Each chain runs from the finished part backwards. A stage that adds nothing still stands in its
// place: it says why it adds nothing, and the shop may give it a number.

MillingChain oneBoard(const Allowances& a) {
    const Length no;
    return {stage(Stage::Sand, no, no, a.sandThick, "sanding both faces"),
            stage(Stage::PartMultiple, a.betweenMultiples, no, no,
                  "clean end between the parts of a multiple"),
            stage(Stage::TrimToLength, a.trimEnds, no, no,
                  "square ends clear of planer snipe, half at each end"),
            stage(Stage::RipToWidth, no, a.sawnEdge, no, "cleaning the sawn edge"),
            stage(Stage::Plane, no, no, no, "counted with the warp of the board"),
            stage(Stage::JointFaceAndEdge, no, a.jointEdge, no, "straightening the first edge"),
            stage(Stage::RoughCrosscut, no, no, no, "the rough ends fall in the trim")};
}

MillingChain panel(const Allowances& a) {
    const Length no;
    return {
        stage(Stage::Sand, no, no, a.panelSandThick, "fine sanding after flattening"),
        stage(Stage::TrimPanelSquare, a.panelTrimEnds, a.panelTrimEdges, no,
              "trimming ends and edges square"),
        stage(Stage::FlattenPanel, no, no, a.panelFlattenThick, "levelling the joints, both faces"),
        stage(Stage::GlueEdges, no, no, no, "glue takes nothing")};
}

MillingChain stave(const Allowances& a) {
    const Length no;
    return {stage(Stage::JointStaveEdges, no, a.staveEdges, no, "two jointed edges"),
            stage(Stage::Plane, no, no, no, "counted with the warp of the board"),
            stage(Stage::RoughCrosscut, a.staveEnds, no, no, "snipe and slip along the joint")};
}

MillingChain block(const Allowances& a) {
    const Length no;
    return {stage(Stage::Sand, no, a.blockSandAcross, a.blockSandThick, "sanding all four sides"),
            stage(Stage::TrimToLength, a.blockTrimEnds, no, no,
                  "square ends, half at each end, cut last"),
            stage(Stage::PlaneSawnFaces, no, a.blockPlaneAcross, no, "planing the sawn sides"),
            stage(Stage::SecondRip, no, a.blockRip, no, "ripping off squeezed-out glue"),
            stage(Stage::SecondPlane, no, no, a.blockPlaneThick,
                  "equal amounts off both outside faces, so that the seam stays in the middle"),
            stage(Stage::SecondJoint, no, a.blockJoint, no, "jointing the first side square")};
}

MillingChain ply(const Allowances& a) {
    const Length no;
    return {stage(Stage::GlueFaces, no, a.plySlip, no, "plies slide on wet glue"),
            stage(Stage::PlaneGlueFaces, no, no, a.plyGlueFaceThick,
                  "planing the glue face flat just before gluing"),
            stage(Stage::JointFaceAndEdge, no, a.plyEdges, no, "rough edges"),
            stage(Stage::RoughCrosscut, a.plyEnds, no, no, "snipe and slip along the seam")};
}

} // namespace

Chains chainsOf(const Allowances& a) { return {oneBoard(a), panel(a), stave(a), block(a), ply(a)}; }

} // namespace stavewright::preset_parts
