#pragma once
// A photograph of the milled staves of a panel, laid side by side on the bench. It stands in place
// of the photographs of their boards wherever a stave is seen.
//
// Its frame is that of the panel as it lay: x along the grain, y across from the near edge, the
// show face up; a photograph of the back is kept as it is seen through from the show face.

#include <vector>

#include "core/geometry/PolygonOps.h"
#include "core/layout/Plan.h"
#include "core/lumber/BoardPhoto.h"

namespace stavewright {

/// One panel of the job: of a part, or of one ply of it.
struct PanelName {
    PartId part;
    int instance = 1;
    int ply = 0; ///< 0: the part itself is the panel
    friend constexpr auto operator<=>(const PanelName&, const PanelName&) = default;
};

/// A stave in the photograph: which wood it is, and how it lay. Its number may become that of other
/// wood; the wood itself does not change.
struct LaidStave {
    BoardId board;
    Frame frame; ///< of its section in the board frame
    Rect net;    ///< finished length and net width, in the section's frame
    Pose pose;
    friend bool operator==(const LaidStave&, const LaidStave&) = default;
};

/// Staves that lay worse than this are pushed together before they are photographed.
inline constexpr Length mostJointLean = Length::millimetres(60);
inline constexpr Length mostJointGap = Length::millimetres(25);

/// How two neighbours lay at their joint, when they were not pushed together square.
struct JointLie {
    Length lean; ///< so much farther from the near edge at the far end than at the near end
    Length gap;  ///< between the two, bare floor, half of it on either side of the joint
    friend bool operator==(const JointLie&, const JointLie&) = default;
};

struct LaidOut {
    PanelName panel;
    /// Face A: the show face was up, B: the back. Its size is that of all staves together.
    BoardPhoto photo;
    std::vector<LaidStave> staves; ///< from the near edge
    /// Between them, from the near edge, at the middle of their length; one fewer than staves.
    std::vector<Length> joints;
    std::vector<JointLie> lies = {}; ///< of each joint; empty: all square and tight
    [[nodiscard]] JointLie lieOf(std::size_t joint) const {
        return joint < lies.size() ? lies[joint] : JointLie{};
    }
    friend bool operator==(const LaidOut&, const LaidOut&) = default;
};

} // namespace stavewright
