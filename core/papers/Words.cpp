#include "core/papers/Words.h"

#include "core/wood/Species.h"

namespace stavewright::papers {

LengthStyle styleOf(const JobInfo& info) { return {info.units, info.inchDenominator, false}; }

// The foot says that lengths are to the nearest step; a sign before each would only be in the way.
std::string lengthText(const JobInfo& info, Length length) {
    return nearestText(length, styleOf(info));
}

std::string tapeText(const JobInfo& info, Length length) {
    return lengthText(info, onTape(length, styleOf(info)));
}

std::string exactText(const JobInfo& info, Length length) {
    constexpr int finest = 64;
    return nearestText(length, {info.units, finest, false});
}

std::string settingText(const JobInfo& info, Length length) {
    return settingText(length, styleOf(info));
}

std::string sizeText(const JobInfo& info, Length length, Length width) {
    return settingText(info, length) + " × " + settingText(info, width);
}

std::string sizeText(const JobInfo& info, Length length, Length width, Length thickness) {
    return sizeText(info, length, width) + " × " + exactText(info, thickness);
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

std::string fillName(const Defect& defect) {
    return defect.mark.empty() ? "Fill" : "Fill " + defect.mark;
}

std::string counted(std::int64_t count, const std::string& one, const std::string& many) {
    return std::to_string(count) + " " + (count == 1 ? one : many);
}

} // namespace stavewright::papers
