#pragma once
// Fractions inside plain text, so that everything that measures or paints text sets them alike: a
// raised numerator over a bar over a lowered denominator, the whole number full size before it.
//
//   runsOf("kerf 1/8, length 27 1/2")  -> "kerf " [1/8] ", length 27" [1/2]
//
// Only proper fractions of a halved inch (1/2 to 63/64) are fractions; "8/4" stays lumber.

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "core/papers/PageModel.h"

namespace stavewright::papers {

struct TextRun {
    std::string text;        ///< plain text; empty for a fraction
    std::string numerator;   ///< set for a fraction
    std::string denominator; ///< set for a fraction
    bool afterWhole = false; ///< a fraction that follows a whole number
    [[nodiscard]] bool isFraction() const { return !numerator.empty(); }
    friend bool operator==(const TextRun&, const TextRun&) = default;
};
[[nodiscard]] std::vector<TextRun> runsOf(std::string_view utf8);
/// The same at a type size: in type too small for a legible built fraction "1/8" stays level.
[[nodiscard]] std::vector<TextRun> runsOf(std::string_view utf8, double points);

/// How a fraction stands in a line, in ems of the line's type size.
namespace fractionSetting {
inline constexpr double leastPoints = 9.5;      ///< in smaller type fractions stay level
inline constexpr double scale = 0.76;           ///< type size of numerator and denominator
inline constexpr double numeratorRise = 0.43;   ///< its baseline above the line's
inline constexpr double denominatorDrop = 0.25; ///< its baseline below the line's
inline constexpr double barRise = 0.36;         ///< middle of the bar above the baseline
inline constexpr double barThickness = 0.05;
inline constexpr double gapAfterWhole = 0.09; ///< in place of the space
inline constexpr double overhang = 0.03;      ///< of the bar beyond the wider of the two numbers
} // namespace fractionSetting

/// Ascent and descent of a line's box, in ems; with fractions it is taller. (Inter: capitals 0.73,
/// ascenders 0.76, descenders 0.21.)
struct LineExtent {
    double ascent = 0.76;
    double descent = 0.21;
};
[[nodiscard]] LineExtent extentOf(std::string_view utf8, double points);

/// Width of a line when `plainWidth` measures text without fractions at a type size in points.
using PlainWidth = std::function<Length(const std::string& utf8, double points)>;
[[nodiscard]] Length widthOfRuns(const std::vector<TextRun>& runs, double points,
                                 const PlainWidth& plainWidth);

/// The box that the text covers on its page.
[[nodiscard]] Rect boxOf(const Text& text, const TextMeasure& measure);

} // namespace stavewright::papers
