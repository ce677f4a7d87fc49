#include "core/panels/BenchWords.h"

#include <cmath>

#include "core/units/SaidLength.h"

namespace stavewright::panels {

namespace {

// Exact by definition: a pound (force) is 4.4482216 N, a square inch 645.16 square millimetres, a
// US fluid ounce 29.5735 ml.
constexpr double newtonsPerPound = 4.4482216152605;
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

double newtonsPerSquareMillimetre(int psi) {
    return psi * newtonsPerPound / squareMillimetresPerSquareInch;
}

} // namespace

std::string pressureText(const Document& document, std::int64_t pounds) {
    const int psi = document.glueUp.settings.leastPsi;
    if (isInches(document.info)) {
        return "at least " + std::to_string(psi) + " psi: " + std::to_string(pounds) +
               " lb on each joint";
    }
    return "at least " + rounded(newtonsPerSquareMillimetre(psi), 2) +
           " N/mm²: " + rounded(static_cast<double>(pounds) * newtonsPerPound / 1000, 1) +
           " kN on each joint";
}

std::string makersPressureText(const JobInfo& info) {
    if (isInches(info)) {
        return std::to_string(makersLeastPsi) + " to " + std::to_string(makersMostPsi) + " psi";
    }
    return rounded(newtonsPerSquareMillimetre(makersLeastPsi), 1) + " to " +
           rounded(newtonsPerSquareMillimetre(makersMostPsi), 1) + " N/mm²";
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
