#include "core/planning/NearestMiss.h"

namespace stavewright::planning {

void explainUnplaced(const Document&, const std::vector<BlankSpec>&, const Thicknesses&, Plan&) {}

} // namespace stavewright::planning
