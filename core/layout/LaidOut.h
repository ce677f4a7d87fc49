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

struct LaidOut {
    PanelName panel;
    /// Face A: the show face was up, B: the back. Its size is that of all staves together.
    BoardPhoto photo;
    std::vector<LaidStave> staves; ///< from the near edge
    std::vector<Length> joints;    ///< between them, from the near edge; one fewer than staves
    friend bool operator==(const LaidOut&, const LaidOut&) = default;
};

} // namespace stavewright
