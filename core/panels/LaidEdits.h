#pragma once
// Photographs of a panel's milled staves laid out: added, marked, removed, each as one Edit whose
// inverse gives the identical document back; and what they no longer show once the plan has
// changed.

#include "core/document/Edit.h"
#include "core/panels/Panels.h"

namespace stavewright::panels {

/// As the staves lie side by side before they are glued: rough length, sum of the net widths.
[[nodiscard]] photo::BoardSize laidSize(const Panel& panel);

/// The photograph with the staves as the panel stands now, and joints where their widths put them.
[[nodiscard]] LaidOut laidAsItStands(const Panel& panel, BoardPhoto photo);
/// The joints where the net widths put them, in proportion to the width that was measured.
[[nodiscard]] std::vector<Length> predictedJoints(const LaidOut& laid);
/// Measured anew: joints keep their proportion.
[[nodiscard]] LaidOut measuredAs(LaidOut laid, Length length, Length width);
/// One joint stands there and lies so; where all are square and tight, nothing is said of lies.
[[nodiscard]] LaidOut withJoint(LaidOut laid, std::size_t joint, Length at, const JointLie& lie);
/// It was taken from the other side of the bench: near and far, left and right are exchanged.
/// Joints that were placed stay on their pixels. `turned`: its marks as photo::seenFromOtherSide
/// makes them.
[[nodiscard]] LaidOut seenFromOtherSide(LaidOut laid, photo::PhotoControls turned);
/// How far a joint may be moved: staves stay at least 5 mm wide in the picture.
[[nodiscard]] Stretch roomOfJoint(const LaidOut& laid, std::size_t joint);

[[nodiscard]] const LaidOut* findLaidOut(const GlueUp& glueUp, const PanelName& name,
                                         BoardFace face);
/// In place of the one of that panel and face, or behind all; without an id it gets one.
[[nodiscard]] Edit withLaidOut(const Document& document, LaidOut laid);
[[nodiscard]] Edit withoutLaidOut(const Document& document, const PanelName& name, BoardFace face);

/// One sentence for each photograph of this panel that does not show all of its staves any more.
[[nodiscard]] std::vector<std::string> notShown(const Document& document, const Panel& panel);

} // namespace stavewright::panels
