#include "core/panels/Proposal.h"

#include <algorithm>

#include "core/panels/PanelEdits.h"

namespace stavewright::panels {

const Panel* partnerOf(const std::vector<Panel>& panels, const Panel& panel) {
    if (panel.chosen.matches) {
        return findPanel(panels, *panel.chosen.matches);
    }
    const auto found = std::find_if(panels.begin(), panels.end(), [&](const Panel& other) {
        return other.chosen.matches == panel.name;
    });
    return found == panels.end() ? nullptr : &*found;
}

glueup::Score scoreOf(const Panel& panel, const Panel* partner) {
    if (!partner) {
        return glueup::Scoring(panel.problem).score(panel.order);
    }
    if (partner->name < panel.name) { // the same two edges meet, whichever is looked at
        return scoreOf(*partner, &panel);
    }
    const PairProblem pair = sideBySide(panel, *partner);
    return glueup::Scoring(pair.problem).score(pair.order);
}

glueup::Score scoreAsTheyCome(const Panel& panel, const Panel* partner) {
    Panel one = panel;
    one.order = asTheyCome(panel);
    if (!partner) {
        return scoreOf(one, nullptr);
    }
    Panel two = *partner;
    two.order = asTheyCome(*partner);
    return scoreOf(one, &two);
}

Proposal propose(const Panel& panel, const Panel* partner, const glueup::ArrangeLimits& limits,
                 const std::stop_token& stop) {
    if (partner && partner->name < panel.name) {
        return propose(*partner, &panel, limits, stop);
    }
    PairProblem problem{panel.problem, panel.order};
    Proposal proposal;
    proposal.panels = {panel.name};
    if (partner) {
        problem = sideBySide(panel, *partner);
        proposal.panels.push_back(partner->name);
    }
    const glueup::Arrangement found = arrange(problem.problem, problem.order, limits, stop);
    proposal.before = glueup::Scoring(problem.problem).score(problem.order);
    proposal.after = found.score;
    proposal.order = found.order;
    proposal.proved = found.proved;
    proposal.stoppedEarly = found.stoppedEarly;
    proposal.isBetter = found.score.total < proposal.before.total;
    if (!proposal.isBetter && isAllowed(glueup::Scoring(problem.problem), problem.order)) {
        proposal.order = problem.order; // nothing is moved for nothing
    }
    return proposal;
}

Result<Edit> editFor(const Document& document, const std::vector<Panel>& panels,
                     const Proposal& proposal) {
    const Panel* first = findPanel(panels, proposal.panels.front());
    const Panel* second =
        proposal.panels.size() == 2 ? findPanel(panels, proposal.panels.back()) : nullptr;
    if (!first || (proposal.panels.size() == 2 && !second)) {
        return Error{ErrorCode::BadInput, "The panel is no longer in the plan.", {}};
    }
    return second ? arrangedTogether(document, *first, *second, proposal.order)
                  : arranged(document, *first, proposal.order);
}

} // namespace stavewright::panels
