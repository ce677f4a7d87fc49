#pragma once
// The joints between staves laid side by side, looked for near where their widths put them: a dark
// gap, or a step from one wood to the other, that runs along the whole length.

#include <vector>

#include "core/geometry/Shapes.h"
#include "core/photo/Image.h"

namespace stavewright::photo {

struct FoundJoint {
    Length at;            ///< y of the picture's frame, at the middle of its length
    bool isPlain = false; ///< false: nothing stands out, and it is where it was expected
    Length lean = {};     ///< so much higher at the right end than at the left
    Length gap = {};      ///< of dark between the two; zero where they touch
};

/// `straightened` shows `shown` (its upper edge is y1); `expected`: y of each joint, ascending.
/// Each is looked for within `reach` and at most a third of the way to its neighbours, leaning by
/// no more than that from end to end.
[[nodiscard]] std::vector<FoundJoint> jointsNear(const ImageView& straightened, const Rect& shown,
                                                 const std::vector<Length>& expected, Length reach);

} // namespace stavewright::photo
