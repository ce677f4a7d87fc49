#include "core/panels/GlueBench.h"

#include <algorithm>
#include <cmath>

#include "core/milling/BlankSpec.h"
#include "core/units/SaidLength.h"

namespace stavewright::panels {

namespace {

Length widthAt(const Panel& panel, std::size_t place) { return panel.staveAt(place).net.width(); }

/// As few sub-panels as the planer allows, the widest of them as narrow as can be.
std::vector<SubPanel> subPanelsOf(const Panel& panel, Length planer) {
    const std::size_t staves = panel.order.size();
    struct Way {
        int subPanels = 0;
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
            const Way way{best[from].subPanels + 1, std::max(best[from].widest, width), from, true};
            if (!best[end].known || way.subPanels < best[end].subPanels ||
                (way.subPanels == best[end].subPanels && way.widest < best[end].widest)) {
                best[end] = way;
            }
        }
    }
    std::vector<SubPanel> subPanels;
    for (std::size_t end = staves; end > 0; end = best[end].from) {
        SubPanel subPanel;
        subPanel.first = best[end].from;
        subPanel.last = end - 1;
        for (std::size_t place = subPanel.first; place < end; ++place) {
            subPanel.width += widthAt(panel, place);
        }
        subPanel.outerStave =
            std::min(widthAt(panel, subPanel.first), widthAt(panel, subPanel.last));
        subPanels.insert(subPanels.begin(), subPanel);
    }
    return subPanels;
}

/// As the clamps are set by the tape: nobody spaces them finer.
Length settable(Length spacing, const Document& document) {
    const Length most = document.glueUp.settings.clampsApart;
    if (most > Length() && most < spacing) {
        return most; // as it was typed
    }
    const Length step =
        document.info.units == UnitSystem::Inches ? Length::inches(1, 2) : Length::millimetres(10);
    return std::max(step, step * (spacing.inNanometres() / step.inNanometres()));
}

std::int64_t poundsOn(Area area, const Document& document) {
    return std::llround(area.toSquareInches() * document.glueUp.settings.leastPsi);
}

double millilitresOn(Area area) {
    constexpr double filmInches = 0.006;
    constexpr double millilitresPerCubicInch = 16.387064;
    return area.toSquareInches() * filmInches * millilitresPerCubicInch;
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

GluePractice practiceFor(const Document& document, const Panel& panel) {
    const Length caul = document.glueUp.settings.caul;
    const Length planer = document.shop.machines.planerWidth;
    GluePractice practice;
    practice.subPanels = subPanelsOf(panel, planer);
    Length narrowestSubPanel;
    for (SubPanel& subPanel : practice.subPanels) {
        subPanel.clampSpacing = settable(clampSpacing(subPanel.outerStave, caul), document);
        subPanel.clamps = clampCount(panel.roughLength, subPanel.clampSpacing);
        for (std::size_t joint = subPanel.first; joint < subPanel.last; ++joint) {
            practice.jointOrder.push_back(joint);
        }
        practice.planerTakesAll =
            practice.planerTakesAll && (planer <= Length() || subPanel.width <= planer);
        narrowestSubPanel = narrowestSubPanel == Length()
                                ? subPanel.width
                                : std::min(narrowestSubPanel, subPanel.width);
    }
    for (std::size_t i = 0; i + 1 < practice.subPanels.size(); ++i) {
        practice.jointOrder.push_back(practice.subPanels[i].last);
        ++practice.lastJoints;
    }
    practice.lastSpacing = settable(clampSpacing(narrowestSubPanel, caul), document);
    practice.lastClamps = clampCount(panel.roughLength, practice.lastSpacing);
    practice.jointArea = panel.roughLength * panel.thickness;
    practice.glueArea = practice.jointArea * static_cast<std::int64_t>(practice.jointOrder.size());
    practice.leastPounds = poundsOn(practice.jointArea, document);
    practice.millilitres = millilitresOn(practice.glueArea);
    return practice;
}

std::optional<BlockPractice> practiceFor(const Document& document, const Block& block) {
    const Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    if (!specs || block.plies.empty()) {
        return std::nullopt;
    }
    Length length;
    Length width;
    std::optional<Length> outer;
    for (const BlockPly& ply : block.plies) {
        const BlankSpec* spec = specOf(specs.value(), ply.purpose);
        if (spec == nullptr) {
            return std::nullopt;
        }
        length = std::max(length, spec->length);
        width = std::max(width, spec->width);
        if (&ply == &block.plies.front() || &ply == &block.plies.back()) {
            outer = std::min(outer.value_or(spec->thicknessWanted), spec->thicknessWanted);
        }
    }
    BlockPractice practice;
    practice.clampSpacing = settable(clampSpacing(*outer, document.glueUp.settings.caul), document);
    // A row at the middle reaches half the spacing to either side.
    practice.rows = std::max(1, clampCount(width, practice.clampSpacing) - 1);
    practice.clamps = practice.rows * clampCount(length, practice.clampSpacing);
    practice.seamArea = length * width;
    practice.glueArea = practice.seamArea * static_cast<std::int64_t>(block.seams.size());
    practice.leastPounds = poundsOn(practice.seamArea, document);
    practice.millilitres = millilitresOn(practice.glueArea);
    return practice;
}

std::vector<std::string> cautionsFor(const Panel& panel, const GluePractice& practice,
                                     const JobInfo& info) {
    const LengthStyle style{info.units, info.inchDenominator, true};
    std::vector<std::string> cautions;
    std::size_t most = 0;
    for (const SubPanel& subPanel : practice.subPanels) {
        most = std::max(most, subPanel.last - subPanel.first);
    }
    if (most > 0) {
        cautions.push_back((most == 1 ? std::string("One glue line")
                                      : "Up to " + std::to_string(most) + " glue lines") +
                           " of " + saidLength(panel.roughLength, style) +
                           " in one go: have the clamps set before the glue is open; open time is "
                           "often 5 to 10 minutes, the bottle says what holds.");
    }
    if (!practice.planerTakesAll) {
        cautions.push_back(
            "A stave is wider than the planer; it has to be levelled by hand or with "
            "a sled.");
    }
    if (practice.lastJoints > 0) {
        cautions.push_back("Level the sub-panels on the planer before the last " +
                           std::string(practice.lastJoints == 1 ? "joint" : "joints") +
                           "; plane no squeezed-out glue.");
    }
    return cautions;
}

} // namespace stavewright::panels
