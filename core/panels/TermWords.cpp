#include "core/panels/TermWords.h"

#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>

namespace stavewright::panels {

namespace {

using glueup::TermUnit;

/// `parts`, `perUnit` (a power of ten) to a unit, rounded to `step` of them, without zeros at the
/// end.
std::string inUnits(std::int64_t parts, std::int64_t perUnit, std::int64_t step) {
    const std::int64_t rounded = (std::abs(parts) + step / 2) / step * step;
    std::string text = std::to_string(rounded / perUnit);
    const std::int64_t rest = rounded % perUnit;
    if (rest != 0) {
        std::string tail = std::to_string(perUnit + rest).substr(1);
        while (tail.back() == '0') {
            tail.pop_back();
        }
        text += '.' + tail;
    }
    return (parts < 0 && rounded != 0 ? "-" : "") + text;
}

/// Up to `digits` decimals.
std::string decimals(std::int64_t thousandths, int digits) {
    const std::int64_t step = digits >= 3 ? 1 : digits == 2 ? 10 : digits == 1 ? 100 : 1000;
    return inUnits(thousandths, 1000, step);
}

const char* unitWord(TermUnit unit, bool one) {
    switch (unit) {
    case TermUnit::Staves:
        return one ? "stave" : "staves";
    case TermUnit::Joints:
        return one ? "joint" : "joints";
    case TermUnit::Knots:
        return one ? "knot" : "knots";
    case TermUnit::ColourSteps:
        return one ? "colour step" : "colour steps";
    case TermUnit::Edges:
        return one ? "edge" : "edges";
    case TermUnit::Seams:
        return one ? "seam" : "seams";
    case TermUnit::Millimetres:
        return "mm";
    }
    return "";
}

/// What counts as 1 where a term counts by degrees, as near knots do; empty where it counts whole
/// things or measures.
std::string wholeOf(GlueTerm term) {
    switch (term) {
    case GlueTerm::Figure:
        return "arch against arch";
    case GlueTerm::KnotAtJoint:
        return "a knot at the glue line";
    case GlueTerm::KnotsCrowded:
        return "two knots that touch";
    case GlueTerm::OuterFigure:
        return "an arched edge";
    default:
        return {};
    }
}

/// From thousandths of a millimetre to thousandths of an inch.
std::int64_t inThou(std::int64_t micrometres) {
    return std::llround(static_cast<double>(micrometres) / 25.4);
}

} // namespace

std::string nameOf(GlueTerm term) {
    switch (term) {
    case GlueTerm::Planing:
        return "Planing direction";
    case GlueTerm::Rings:
        return "Rings as wished";
    case GlueTerm::ShowFace:
        return "Knots on show";
    case GlueTerm::JointStep:
        return "Step at joints";
    case GlueTerm::PanelCup:
        return "Panel cup";
    case GlueTerm::Colour:
        return "Colour steps";
    case GlueTerm::OtherBoard:
        return "Joints of two boards";
    case GlueTerm::Figure:
        return "Figure at joints";
    case GlueTerm::KnotAtJoint:
        return "Knots near joints";
    case GlueTerm::KnotsCrowded:
        return "Knots crowded";
    case GlueTerm::OuterFigure:
        return "Arched figure outside";
    case GlueTerm::CentreSeam:
        return "Seam on the centre line";
    case GlueTerm::NarrowOutside:
        return "Narrow staves outside";
    }
    return {};
}

std::string meaningOf(GlueTerm term) {
    switch (term) {
    case GlueTerm::Planing:
        return "Staves that want to be planed against the rest; they tear, and throw back light "
               "another way.";
    case GlueTerm::Rings:
        return "Joints where both staves have the heart on one side, or staves with the heart "
               "down, as the panel's wish says.";
    case GlueTerm::ShowFace:
        return "Knots on the face that shows.";
    case GlueTerm::JointStep:
        return "Quartered beside plain wood shrinks differently in thickness and leaves a step.";
    case GlueTerm::PanelCup:
        return "How far the whole panel is forecast to go out of flat, from rings, species and "
               "moisture.";
    case GlueTerm::Colour:
        return "Difference in colour of the two edges at each joint.";
    case GlueTerm::OtherBoard:
        return "Joints between wood of two boards.";
    case GlueTerm::Figure:
        return "Arched figure that meets at a joint, or lines that bend there; straight grain "
               "beside straight grain hides it. Arch against arch counts 1. Lines seen in a "
               "photograph count before what was noted.";
    case GlueTerm::KnotAtJoint:
        return "Knots whose disturbed grain comes too near a glue line. One that reaches it counts "
               "1, the farther off the less.";
    case GlueTerm::KnotsCrowded:
        return "Knots of different staves close together. Two that touch count 1, the farther "
               "apart the less.";
    case GlueTerm::OuterFigure:
        return "Arched or slanting figure along the panel's long edges. An arched edge counts 1, "
               "the straighter the less.";
    case GlueTerm::CentreSeam:
        return "A joint on the centre line, where the eye looks first.";
    case GlueTerm::NarrowOutside:
        return "How much the outer staves are narrower than a narrow stave may be there.";
    }
    return {};
}

static std::string valueText(const glueup::TermValue& value, const JobInfo& info, bool isFiner) {
    if (value.unit == TermUnit::Millimetres && info.units == UnitSystem::Inches) {
        const auto perTenthOfThou = static_cast<double>(value.thousandths) / 2.54;
        return (isFiner ? inUnits(std::llround(perTenthOfThou), 10'000, 1)
                        : decimals(inThou(value.thousandths), 3)) +
               " in";
    }
    if (value.unit == TermUnit::Millimetres) {
        return decimals(value.thousandths, isFiner ? 3 : 2) + " mm";
    }
    const std::string number = decimals(value.thousandths, isFiner ? 3 : 1);
    return wholeOf(value.term).empty()
               ? number + " " + unitWord(value.unit, value.thousandths == 1000)
               : number;
}

std::string valueText(const glueup::TermValue& value, const JobInfo& info) {
    return valueText(value, info, false);
}

std::string valueBeside(const glueup::TermValue& value, const glueup::TermValue& other,
                        const JobInfo& info) {
    const std::string plain = valueText(value, info, false);
    const bool alike = value.thousandths != other.thousandths && plain == valueText(other, info);
    return alike ? valueText(value, info, true) : plain;
}

std::string weightText(const glueup::TermValue& value, const JobInfo& info) {
    if (value.unit == TermUnit::Millimetres && info.units == UnitSystem::Inches) {
        return decimals(std::llround(value.weightHundredths * 254.0), 1) + " for each inch";
    }
    const std::string whole = wholeOf(value.term);
    return decimals(value.weightHundredths * std::int64_t{10}, 2) + " for " +
           (whole.empty() ? std::string("each ") + unitWord(value.unit, true) : whole);
}

std::string pointsText(glueup::Cost cost) {
    return decimals(std::llround(static_cast<double>(cost) / 100.0), 1);
}

std::string nameOf(RingWish wish) {
    switch (wish) {
    case RingWish::Alternate:
        return "alternate";
    case RingWish::HeartUp:
        return "heart side up";
    case RingWish::BestFaceUp:
        return "best face up";
    }
    return {};
}

std::string nameOf(glueup::Proved proved) {
    return proved == glueup::Proved::Best ? "proved best" : "best found";
}

std::string fineText(Length length, const JobInfo& info) {
    const std::int64_t micrometres = length.inNanometres() / Length::nanometresPerMicrometre;
    return info.units == UnitSystem::Inches ? decimals(inThou(micrometres), 3) + " in"
                                            : decimals(micrometres, 2) + " mm";
}

std::string widthChangeText(Length change, const JobInfo& info) {
    if (change == Length()) {
        return "keeps its width";
    }
    return (change < Length() ? "shrinks in width by " : "grows in width by ") +
           fineText(abs(change), info);
}

std::vector<std::string> whatGotWorse(const glueup::Score& before, const glueup::Score& after,
                                      const JobInfo& info) {
    std::vector<std::string> worse;
    for (std::size_t i = 0; i < after.terms.size() && i < before.terms.size(); ++i) {
        const glueup::TermValue& now = after.terms[i];
        const glueup::TermValue& then = before.terms[i];
        if (now.thousandths > then.thousandths) {
            const std::string whole = wholeOf(now.term);
            worse.push_back(nameOf(now.term) + ": " + valueBeside(now, then, info) + ", it was " +
                            valueBeside(then, now, info) +
                            (whole.empty() ? "" : " (1 would be " + whole + ")") +
                            (now.weightHundredths == 0 ? " (it does not count)" : ""));
        }
    }
    return worse;
}

} // namespace stavewright::panels
