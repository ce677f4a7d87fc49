#pragma once
// What the published instances are made of: sheets and pieces in whole units, and how they become a
// cutting problem. A unit becomes a millimetre; kerfs and costs are nothing unless said otherwise.

#include <vector>

#include "core/cutting/Problem.h"
#include "published/InstanceText.h"

namespace stavewright::cutting::bench {

struct SheetPiece {
    std::int64_t length = 0, width = 0;
    std::int64_t value = 0;
    std::int64_t copies = 1;
};

/// A region that no piece may cover; cuts may run through it.
struct SheetHole {
    std::int64_t x = 0, y = 0, length = 0, width = 0;
};

struct Sheet {
    std::int64_t length = 0, width = 0;
    std::vector<SheetPiece> pieces;
    std::vector<SheetHole> holes;
};

/// `sheet` with its axes exchanged: what is crosscut first there is ripped first here.
[[nodiscard]] Sheet swapped(const Sheet& sheet);
/// Each piece also turned by a right angle.
[[nodiscard]] Sheet withTurned(const Sheet& sheet);

/// "length width", the number of pieces, and for each piece the named numbers.
enum class PieceFields { Value, ValueAndCopies, Copies };
/// Nothing where the numbers end early.
[[nodiscard]] std::optional<Sheet> readSheet(Numbers& numbers, PieceFields fields);
/// From the number of pieces on.
void readPieces(Numbers& numbers, PieceFields fields, Sheet& sheet);

/// How many cutting stages the patterns may have before the trimming cut.
enum class Stages {
    Two,  ///< sections and strips, one piece in each: no strip has room for a second one
    Three ///< the whole family of the engine
};

/// `boards` equal sheets at `boardCost` each, every piece in its plain pose. Leaving a piece out
/// costs its value: with free boards the least cost is the most value.
[[nodiscard]] Problem problemOf(const Sheet& sheet, int boards, Cost boardCost, Stages stages);

inline constexpr Nm sheetUnit = 1'000'000;
/// What one of an instance's units of value is in money.
inline constexpr Cost valueUnit = 10'000;

} // namespace stavewright::cutting::bench
