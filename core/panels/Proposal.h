#pragma once
// A better arrangement for a panel, or for two that should match, held against the present one.

#include "core/document/Edit.h"
#include "core/panels/Panels.h"

namespace stavewright::panels {

struct Proposal {
    std::vector<PanelName> panels; ///< one or two
    glueup::Score before;          ///< as the staves stand
    glueup::Score after;
    glueup::Order order; ///< over both panels, as in sideBySide()
    glueup::Proved proved = glueup::Proved::BestFound;
    bool isBetter = false;
    bool stoppedEarly = false;
};

/// The panel that this one should match, or that should match this one; null when it has none or
/// that one is not in the plan.
[[nodiscard]] const Panel* partnerOf(const std::vector<Panel>& panels, const Panel& panel);

/// As the panels stand, side by side with its partner where it has one; the one that comes first in
/// the job lies at the near edge.
[[nodiscard]] glueup::Score scoreOf(const Panel& panel, const Panel* partner);

/// The same with the staves of each in the order in which they come off the boards, lying as they
/// lie now.
[[nodiscard]] glueup::Score scoreAsTheyCome(const Panel& panel, const Panel* partner);

[[nodiscard]] Proposal propose(const Panel& panel, const Panel* partner,
                               const glueup::ArrangeLimits& limits = {},
                               const std::stop_token& stop = {});

/// The edit that takes it.
Result<Edit> editFor(const Document& document, const std::vector<Panel>& panels,
                     const Proposal& proposal);

} // namespace stavewright::panels
