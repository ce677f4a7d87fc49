#pragma once
// What a bound rests on, as sections that can be cut.

#include "core/cutting/BoardModel.h"
#include "core/cutting/BoundSection.h"
#include "core/cutting/Facing.h"
#include "core/cutting/Interrupt.h"
#include "core/cutting/SectionMenu.h"
#include "core/cutting/Values.h"

namespace stavewright::cutting {

/// The sections of a chain, each as it stands and as short as what is best cut from it needs, one
/// behind the other; none when interrupted.
[[nodiscard]] std::vector<BoundSection> sectionsToCut(const Context& context,
                                                      const BoardModel& model, const Values& values,
                                                      const std::vector<BoundSection>& chain,
                                                      const Interrupt& interrupt,
                                                      std::int64_t& work);

/// The chain itself, cut at once: of each section the blanks that have room where, or nearly where,
/// they are foreseen.
[[nodiscard]] Pattern chainAsCut(const Context& context, const BoardModel& model,
                                 const std::vector<BoundSection>& chain);

} // namespace stavewright::cutting
