#pragma once
// Short ways to write down the parts of a sample piece.

#include <string>
#include <vector>

#include "core/document/Document.h"
#include "core/shop/Presets.h"

namespace stavewright::samples {

struct Finished {
    Length length, width, thickness;
};

/// A part of one board with a show face on A and a hidden face on B.
Part plainPart(Document& document, const std::string& mark, const std::string& name,
               const std::string& group, const std::string& species, int count, Finished finished);

/// Both faces show.
void showBothFaces(Part& part, RuleSetId rules);
/// What the show face tolerates.
void setShowRules(Part& part, RuleSetId rules);

/// A joint that paints both ends of `endPart` over `reach`, and, when `facePart` is set, a patch of
/// its far end as long as `reach`.
void addEndJoint(Document& document, const std::string& name, JointKind kind, PartId endPart,
                 Length reach, PartId facePart);

} // namespace stavewright::samples
