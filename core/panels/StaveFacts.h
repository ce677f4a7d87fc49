#pragma once
// What the document knows of the wood of one stave.

#include "core/milling/BlankSpec.h"
#include "core/panels/Panels.h"

namespace stavewright::panels {

struct StavePlace {
    const Document& document;
    const Board& board;
    const BlankSpec& spec;
    const Blank& blank;
    const Frame& frame; ///< of the section
    Rect net;           ///< in the section's frame
    Length apart;       ///< of its finished surfaces
};

/// Would a defect lie where the rules forbid it, if the blank lay so?
[[nodiscard]] bool isForbidden(const StavePlace& place, Pose pose);

/// Number, board, sizes and all; what photographs tell is asked for where there is somebody to ask.
[[nodiscard]] glueup::Stave staveFacts(const StavePlace& place, const LooksOnBoard& looks);

} // namespace stavewright::panels
