#include "core/panels/GlueBench.h"

#include <algorithm>
#include <cmath>

#include "core/units/SaidLength.h"

namespace stavewright::panels {

namespace {

Length widthAt(const Panel& panel, std::size_t place) { return panel.staveAt(place).net.width(); }

/// As few sections as the planer allows, the widest of them as narrow as can be.
std::vector<GlueSection> sectionsOf(const Panel& panel, Length planer) {
    const std::size_t staves = panel.order.size();
    struct Way {
        int sections = 0;
        Length widest;
        std::size_t from = 0;
        bool known = false;
    };
    std::vector<Way> best(staves + 1);
    best[0].known = true;
    for (std::size_t end = 1; end <= staves; ++end) {
        Length width;
        for (std::size_t from = end; from-- > 0;) {
            width += widthAt(panel, from);
            if (planer > Length() && width > planer && from + 1 < end) {
                break; // one stave alone is taken as it is
            }
            const Way way{best[from].sections + 1, std::max(best[from].widest, width), from, true};
            if (!best[end].known || way.sections < best[end].sections ||
                (way.sections == best[end].sections && way.widest < best[end].widest)) {
                best[end] = way;
            }
        }
    }
    std::vector<GlueSection> sections;
    for (std::size_t end = staves; end > 0; end = best[end].from) {
        GlueSection section;
        section.first = best[end].from;
        section.last = end - 1;
        for (std::size_t place = section.first; place < end; ++place) {
            section.width += widthAt(panel, place);
        }
        section.outerStave = std::min(widthAt(panel, section.first), widthAt(panel, section.last));
        sections.insert(sections.begin(), section);
    }
    return sections;
}

} // namespace

Length clampSpacing(Length outerStave, Length caul) { return (outerStave + caul) * 2; }

int clampCount(Length length, Length spacing) {
    if (spacing <= Length() || length <= Length()) {
        return 2;
    }
    const std::int64_t gaps =
        (length.inNanometres() + spacing.inNanometres() - 1) / spacing.inNanometres();
    return static_cast<int>(gaps) + 1;
}

GluePractice practiceFor(const Panel& panel, const Shop& shop, Length caul) {
    GluePractice practice;
    const Length planer = shop.machines.planerWidth;
    practice.sections = sectionsOf(panel, planer);
    Length narrowestSection;
    for (GlueSection& section : practice.sections) {
        section.clampSpacing = clampSpacing(section.outerStave, caul);
        section.clamps = clampCount(panel.roughLength, section.clampSpacing);
        for (std::size_t joint = section.first; joint < section.last; ++joint) {
            practice.jointOrder.push_back(joint);
        }
        practice.planerTakesSections =
            practice.planerTakesSections && (planer <= Length() || section.width <= planer);
        narrowestSection = narrowestSection == Length() ? section.width
                                                        : std::min(narrowestSection, section.width);
    }
    for (std::size_t i = 0; i + 1 < practice.sections.size(); ++i) {
        practice.jointOrder.push_back(practice.sections[i].last);
        ++practice.lastJoints;
    }
    practice.lastSpacing = clampSpacing(narrowestSection, caul);
    practice.lastClamps = clampCount(panel.roughLength, practice.lastSpacing);
    practice.jointArea = panel.roughLength * panel.thickness;
    practice.glueArea = practice.jointArea * static_cast<std::int64_t>(practice.jointOrder.size());
    practice.leastPounds = std::llround(practice.jointArea.toSquareInches() * leastPsi);
    constexpr double filmInches = 0.006;
    constexpr double millilitresPerCubicInch = 16.387064;
    practice.millilitres =
        practice.glueArea.toSquareInches() * filmInches * millilitresPerCubicInch;
    return practice;
}

std::vector<std::string> cautionsFor(const Panel& panel, const GluePractice& practice,
                                     const JobInfo& info) {
    const LengthStyle style{info.units, info.inchDenominator, true};
    std::vector<std::string> cautions;
    std::size_t most = 0;
    for (const GlueSection& section : practice.sections) {
        most = std::max(most, section.last - section.first);
    }
    if (most > 0) {
        cautions.push_back("Up to " + std::to_string(most) +
                           (most == 1 ? " glue line" : " glue lines") + " of " +
                           saidLength(panel.roughLength, style) +
                           " in one go: have the clamps set before the glue is open; open time is "
                           "often 5 to 10 minutes, the bottle says what holds.");
    }
    if (!practice.planerTakesSections) {
        cautions.push_back(
            "A stave is wider than the planer; it has to be levelled by hand or with "
            "a sled.");
    }
    if (practice.lastJoints > 0) {
        cautions.push_back("Level the sections on the planer before the last " +
                           std::string(practice.lastJoints == 1 ? "joint" : "joints") +
                           "; plane no squeezed-out glue.");
    }
    return cautions;
}

} // namespace stavewright::panels
