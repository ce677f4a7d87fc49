#pragma once
// What a job may hold at most. Wide enough for any shop, tight enough that sums of sizes never
// leave 64 bits and that a slipped digit is caught. Common practice, no source.

#include <cstddef>
#include <cstdint>

#include "core/units/Measure.h"

namespace stavewright::limits {

inline constexpr Length longestBoard = Length::millimetres(12'000);
inline constexpr Length widestBoard = Length::millimetres(1'500);
inline constexpr Length thickest = Length::millimetres(300);
inline constexpr Length longestPart = Length::millimetres(12'000);
inline constexpr Length widestPart = Length::millimetres(4'000);
/// Kerfs are thinner than this.
inline constexpr Length kerfBelow = Length::inches(1);
/// Machine capacities, allowances and other lengths of the shop.
inline constexpr Length shopLength = Length::millimetres(20'000);
inline constexpr Length allowance = Length::millimetres(500);
/// Sizes that only come about by leaning stay below this on the way.
inline constexpr Length anyLength = Length::millimetres(100'000);

inline constexpr std::size_t parts = 2'000;
inline constexpr std::size_t defectsOnOneBoard = 1'000;
inline constexpr std::size_t sawnRegionsOnOneBoard = 100;
inline constexpr std::size_t photosOfOneBoard = 100;
inline constexpr std::size_t photosOfOneJob = 4'000;
inline constexpr std::size_t marksInOnePhoto = 200; ///< of each kind
inline constexpr int pixelsAcross = 60'000;
inline constexpr std::size_t zonesOnOnePart = 200;
inline constexpr std::size_t joints = 10'000;
inline constexpr std::size_t groups = 1'000;
inline constexpr std::size_t boardRules = 10'000;
inline constexpr std::size_t ruleSets = 200;
inline constexpr std::size_t stagesInOneChain = 50;
inline constexpr std::size_t leansOfOneSize = 20;
inline constexpr int leansInOneChain = 200;
inline constexpr std::size_t cornersOfOneOutline = 1'000;
inline constexpr std::size_t markCharacters = 16;
inline constexpr std::size_t nameCharacters = 200;
inline constexpr std::size_t noteCharacters = 20'000;
inline constexpr int partCount = 10'000;
inline constexpr int partsInOneBlank = 100;
inline constexpr int plies = 26; ///< they are lettered a to z
inline constexpr int staves = 200;
inline constexpr int worthPercent = 60;
inline constexpr Money price = Money::whole(100'000);
inline constexpr BoardFeet billed = BoardFeet::whole(10'000);
inline constexpr std::int64_t id = 1'000'000'000'000;

} // namespace stavewright::limits
