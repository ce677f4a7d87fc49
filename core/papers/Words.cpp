#include "core/papers/Words.h"

#include <string_view>

#include "core/wood/Species.h"

namespace stavewright::papers {

LengthStyle styleOf(const JobInfo& info) { return {info.units, info.inchDenominator, false}; }

std::string lengthText(const JobInfo& info, Length length) {
    // The foot says that lengths are to the nearest step; a sign before each would only be in the
    // way.
    constexpr std::string_view about = "≈";
    std::string text = formatLength(length, styleOf(info));
    if (text.starts_with(about)) {
        text.erase(0, about.size());
    }
    return text;
}

std::string sizeText(const JobInfo& info, Length length, Length width) {
    return lengthText(info, length) + " × " + lengthText(info, width);
}

std::string sizeText(const JobInfo& info, Length length, Length width, Length thickness) {
    return sizeText(info, length, width) + " × " + lengthText(info, thickness);
}

std::string poseWords(const Pose& pose) {
    if (pose.endForEnd && pose.faceOver) {
        return "end for end, face over";
    }
    if (pose.endForEnd) {
        return "end for end";
    }
    return pose.faceOver ? "face over" : "as it lies";
}

std::string speciesName(const std::string& key) {
    const Species* species = findSpecies(key);
    return species != nullptr ? std::string(species->name) : key;
}

std::string quarterText(Quarter quarter) { return std::to_string(quarter.quarters) + "/4"; }

std::string counted(std::int64_t count, const std::string& one, const std::string& many) {
    return std::to_string(count) + " " + (count == 1 ? one : many);
}

} // namespace stavewright::papers
