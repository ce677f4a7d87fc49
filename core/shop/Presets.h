#pragma once
// Shops to begin with: common practice, shown and editable. Every number has its reason in
// Presets.cpp.

#include "core/shop/Shop.h"

namespace stavewright {

/// Ids of the rule sets that every preset holds.
namespace presetRules {
inline constexpr RuleSetId showFace{1};
inline constexpr RuleSetId showFaceFilled{2}; ///< knots may show, open ones filled
inline constexpr RuleSetId hiddenFace{3};
inline constexpr RuleSetId joint{4};
inline constexpr RuleSetId gluedEdge{5};
inline constexpr RuleSetId glueFace{6}; ///< between plies: open knots are filled first
inline constexpr RuleSetId profiledEdge{7};
inline constexpr std::int64_t last = 7;
} // namespace presetRules

/// A one-person shop with inch machines: 8 in jointer, 13 in planer, 10 in table saw, 14 in band
/// saw.
[[nodiscard]] Shop inchShop();
/// The same with metric machines and steps: 260 mm planer-jointer, 3.2 mm kerfs.
[[nodiscard]] Shop metricShop();

} // namespace stavewright
