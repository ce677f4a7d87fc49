#include "core/audit/Needs.h"

#include <algorithm>

#include "core/audit/ZoneNeeds.h"

namespace stavewright::audit_detail {

namespace {

struct Size3 {
    Length along;
    Length across;
    Length thick;
};

/// What a chain adds. PartMultiple stands between the parts of a multiple, so it is not added once.
Size3 takenBy(const MillingChain& chain) {
    Size3 sum;
    for (const StageAllowance& stage : chain) {
        if (stage.stage != Stage::PartMultiple) {
            sum.along += stage.along;
            sum.across += stage.across;
            sum.thick += stage.thick;
        }
    }
    return sum;
}

Length betweenMultiples(const Shop& shop) {
    Length gap = shop.machines.stripCrosscut.kerf;
    for (const StageAllowance& stage : shop.chains.oneBoard) {
        if (stage.stage == Stage::PartMultiple) {
            gap += stage.along;
        }
    }
    return gap;
}

Size3 operator+(const Size3& a, const Size3& b) {
    return {a.along + b.along, a.across + b.across, a.thick + b.thick};
}

/// The thickness the plan makes the part at: the wanted one unless the plan chose a thinner one.
Length chosenThickness(const Plan& plan, const Part& part, Length wanted, Report& report) {
    const Words& words = report.words();
    const auto chosenFor = [&](const ThicknessChoice& choice) { return choice.part == part.id; };
    const auto chosen = std::find_if(plan.thicknesses.begin(), plan.thicknesses.end(), chosenFor);
    if (chosen == plan.thicknesses.end()) {
        return wanted;
    }
    if (std::find_if(chosen + 1, plan.thicknesses.end(), chosenFor) != plan.thicknesses.end()) {
        report.fail(FindingKind::BadThicknessChoice, {.part = part.id},
                    "The plan chooses a thickness for part " + words.part(part.id) + " twice.");
    }
    const Length least = part.leastThickness.value_or(wanted);
    if (chosen->finished < least || chosen->finished > wanted) {
        report.fail(FindingKind::BadThicknessChoice, {.part = part.id},
                    "The plan makes part " + words.part(part.id) + ' ' +
                        words.length(chosen->finished) + " thick; " +
                        (least == wanted ? words.length(wanted) + " is asked for."
                                         : "from " + words.length(least) + " to " +
                                               words.length(wanted) + " is allowed."));
    }
    return chosen->finished;
}

class NeedBuilder {
  public:
    NeedBuilder(const Document& document, const Plan& plan, const Part& part, Report& report)
        : m_document(document)
        , m_plan(plan)
        , m_part(part)
        , m_report(report) {}

    void addTo(std::vector<Need>& needs) {
        if (!readSizes()) {
            return;
        }
        if (!m_part.makeUp.lamination) {
            needs.push_back(needOf(0, 1));
            return;
        }
        const int plies = std::max(1, m_part.makeUp.lamination->plies);
        for (int ply = 1; ply <= plies; ++ply) {
            needs.push_back(needOf(ply, plies));
        }
    }

  private:
    bool readSizes() {
        const auto length = resolvedSize(m_document, m_part, Dimension::Length);
        const auto width = resolvedSize(m_document, m_part, Dimension::Width);
        const auto wanted = resolvedSize(m_document, m_part, Dimension::Thickness);
        for (const auto* size : {&length, &width, &wanted}) {
            if (!*size) {
                m_report.fail(FindingKind::UnresolvedSize, {.part = m_part.id},
                              "The size of part " + m_report.words().part(m_part.id) +
                                  " is not known: " + size->error().message);
                return false;
            }
        }
        const Length thickness = chosenThickness(m_plan, m_part, wanted.value(), m_report);
        m_finished = {length.value(), width.value(), thickness};
        m_wanted = wanted.value();
        return true;
    }

    Need needOf(int ply, int plies) const {
        const Chains& chains = m_document.shop.chains;
        const bool isPly = ply > 0;
        const bool isPanel = m_part.makeUp.panel.has_value();

        Need need;
        need.part = &m_part;
        need.ply = ply;
        need.plies = plies;
        need.finishedPart = m_finished.along * m_finished.across * m_finished.thick;
        need.finalThickness = m_finished.thick / plies;

        Size3 size = m_finished;
        if (isPly) {
            size = size + takenBy(chains.block);
            size.thick = size.thick / plies;
            size = size + takenBy(chains.ply);
        }
        Length repeat; // from one part of a multiple to the next
        if (isPanel) {
            size = size + takenBy(chains.panel);
            const Length gluedWidth = size.across;
            const Size3 stave = takenBy(chains.stave);
            need.staves = stavesFor(gluedWidth, stave.across);
            size = size + stave;
        } else if (!isPly) {
            need.partsPerBlank = std::max(1, m_part.perBlank);
            repeat = m_finished.along + betweenMultiples(m_document.shop);
            size = size + takenBy(chains.oneBoard);
        }
        const Length partAt = (size.along - m_finished.along) / 2;
        need.length = size.along + repeat * (need.partsPerBlank - 1);
        need.width = size.across;
        need.leastLength = m_finished.along + repeat * (need.partsPerBlank - 1);
        need.leastWidth = m_finished.across;
        need.thickness = size.thick;
        // A ply carries its share of what is missing; not a nanometre less than its share.
        const Length missing = m_wanted - m_finished.thick;
        need.thicknessOfWanted = size.thick + missing / plies + Length::nanometres(isPly ? 2 : 0);

        const PartInBlank place{.finishedLength = m_finished.along,
                                .finishedWidth = m_finished.across,
                                .along = partAt,
                                .across = (size.across - m_finished.across) / 2,
                                .repeat = repeat,
                                .parts = need.partsPerBlank};
        addZones(m_document, m_part, place, need, m_report);
        return need;
    }

    NeededStaves stavesFor(Length gluedWidth, Length jointing) const {
        const PanelMakeUp& panel = *m_part.makeUp.panel;
        return {.gluedWidth = gluedWidth,
                .mostWidth = gluedWidth + m_document.shop.panelSlack,
                .jointing = jointing,
                .leastNet = panel.leastStave,
                .widestNet = panel.widestStave,
                .fewest = panel.fewestStaves,
                .most = panel.mostStaves};
    }

    const Document& m_document;
    const Plan& m_plan;
    const Part& m_part;
    Report& m_report;
    Size3 m_finished;
    Length m_wanted; ///< finished thickness, where the plan chose a thinner one
};

} // namespace

std::vector<Need> needsOf(const Document& document, const Plan& plan, Report& report) {
    std::vector<Need> needs;
    for (const Part& part : document.parts) {
        NeedBuilder(document, plan, part, report).addTo(needs);
    }
    for (const ThicknessChoice& choice : plan.thicknesses) {
        if (!findPart(document, choice.part)) {
            report.fail(FindingKind::UnknownPart, {.part = choice.part},
                        "The plan chooses a thickness for a part that is not in the job.");
        }
    }
    return needs;
}

const Need* needFor(const std::vector<Need>& needs, const BlankPurpose& purpose) {
    const auto found = std::find_if(needs.begin(), needs.end(), [&](const Need& need) {
        return need.part->id == purpose.part && need.ply == purpose.ply;
    });
    return found == needs.end() ? nullptr : &*found;
}

} // namespace stavewright::audit_detail
