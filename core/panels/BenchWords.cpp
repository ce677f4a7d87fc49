#include "core/panels/BenchWords.h"

#include <cmath>

#include "core/units/PressureText.h"
#include "core/units/SaidLength.h"

namespace stavewright::panels {

namespace {

// Exact by definition: a square inch is 645.16 square millimetres, a US fluid ounce 29.5735 ml.
constexpr double squareMillimetresPerSquareInch = 645.16;
constexpr double millilitresPerOunce = 29.5735295625;

bool isInches(const JobInfo& info) { return info.units == UnitSystem::Inches; }

/// `value` with so many decimals (0 to 2), without zeros at the end.
std::string rounded(double value, int decimals) {
    std::int64_t parts = 1;
    for (int i = 0; i < decimals; ++i) {
        parts *= 10;
    }
    const std::int64_t whole = std::llround(value * static_cast<double>(parts));
    std::string text = std::to_string(whole / parts);
    if (const std::int64_t rest = whole % parts; rest != 0) {
        std::string tail = std::to_string(parts + rest).substr(1);
        while (tail.back() == '0') {
            tail.pop_back();
        }
        text += '.' + tail;
    }
    return text;
}

} // namespace

std::string pressureText(const Document& document, std::int64_t pounds) {
    const int psi = document.glueUp.settings.leastPsi;
    const UnitSystem units = document.info.units;
    const std::string least =
        "at least " + formatPressure(psi, units) + ' ' + pressureUnit(units) + ": ";
    if (isInches(document.info)) {
        return least + std::to_string(pounds) + " lb on each joint";
    }
    // Of the pressure as it is shown, so that both figures agree.
    const double area = static_cast<double>(pounds) / psi * squareMillimetresPerSquareInch;
    const double newtons = area * static_cast<double>(hundredthsOfNewton(psi)) / 100;
    return least + rounded(newtons / 1000, 1) + " kN on each joint";
}

std::string makersPressureText(const JobInfo& info) {
    if (isInches(info)) {
        return std::to_string(makersLeastPsi) + " to " + std::to_string(makersMostPsi) + " psi";
    }
    const auto tenths = [](int psi) {
        return rounded(static_cast<double>(hundredthsOfNewton(psi)) / 100, 1);
    };
    return tenths(makersLeastPsi) + " to " + tenths(makersMostPsi) + ' ' + pressureUnit(info.units);
}

std::string glueText(double millilitres, Area area, const JobInfo& info) {
    const std::string onEach = " on one face of each joint, ";
    if (isInches(info)) {
        return rounded(millilitres / millilitresPerOunce, 1) + " fl oz" + onEach +
               rounded(area.toSquareInches(), 0) + " sq in of joints in all";
    }
    return rounded(millilitres, 0) + " ml" + onEach +
           rounded(area.toSquareInches() * squareMillimetresPerSquareInch / 100, 0) +
           " cm² of joints in all";
}

std::string clampsText(int clamps, Length spacing, const JobInfo& info) {
    return std::to_string(clamps) + " clamps, at most " +
           saidLength(spacing, {info.units, info.inchDenominator, true}) + " apart";
}

std::vector<std::string> benchLines(const Document& document, const Block& block) {
    const std::optional<BlockPractice> practice = practiceFor(document, block);
    if (!practice) {
        return {};
    }
    const JobInfo& info = document.info;
    std::string clamps = clampsText(practice->clamps, practice->clampSpacing, info);
    if (practice->rows > 1) {
        clamps += ", in " + std::to_string(practice->rows) + " rows";
    }
    return {
        "Each block: " + clamps + ", cauls over the whole face.",
        "Pressure " + pressureText(document, practice->leastPounds) +
            ". Where faces fit, the spacing is the working rule.",
        "Glue for a block: " + glueText(practice->millilitres, practice->glueArea, info) + ".",
        "Faces want more glue than edges and plies slide on it: have clamps and stops set, open "
        "time is often 5 to 10 minutes, the bottle says what holds."};
}

} // namespace stavewright::panels
