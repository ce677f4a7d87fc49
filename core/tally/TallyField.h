#pragma once
// The columns of a tally, and how the headings of other people's tables name them.

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "core/units/LengthText.h"

namespace stavewright {

enum class TallyField {
    Mark,
    Species,
    Rough, ///< quarter
    Length,
    Width, ///< at the datum end
    FarWidth,
    Thinnest,
    Price,
    Billed, ///< as the yard tallied it
    Moisture,
    Notes,
    Count, ///< so many boards alike; of tables only
    LeaveOut
};
/// Those that a tally holds for one board, in the order in which they are called out.
inline constexpr std::size_t tallyFields = 11;
inline constexpr std::array<TallyField, 13> allTallyFields = {
    TallyField::Mark,    TallyField::Species,  TallyField::Rough,    TallyField::Length,
    TallyField::Width,   TallyField::FarWidth, TallyField::Thinnest, TallyField::Price,
    TallyField::Billed,  TallyField::Moisture, TallyField::Notes,    TallyField::Count,
    TallyField::LeaveOut};

/// "Far width"
[[nodiscard]] std::string_view nameOf(TallyField field);
[[nodiscard]] constexpr bool isLength(TallyField field) {
    return field == TallyField::Length || field == TallyField::Width ||
           field == TallyField::FarWidth || field == TallyField::Thinnest;
}

/// A unit that a heading gives to the bare numbers below it.
enum class TallyUnit {
    None, ///< the job's own
    Inches,
    Feet,
    Millimetres,
    Centimetres,
    Metres,
    Quarters,
    PerBoardFoot,
    PerCubicMetre,
    BoardFeet,
    CubicMetres
};
/// What is put behind a bare number: " mm", " in", " ft"; empty for what needs no sign.
[[nodiscard]] std::string_view signOf(TallyUnit unit);

struct ReadHeading {
    TallyField field = TallyField::LeaveOut;
    TallyUnit unit = TallyUnit::None;
    friend bool operator==(const ReadHeading&, const ReadHeading&) = default;
};
/// "Width (mm)", "LENGTH IN FT", "Price/m³"; nothing when the words are no heading that we know.
[[nodiscard]] std::optional<ReadHeading> readHeading(std::string_view heading);

} // namespace stavewright
