#pragma once
// What speaks against gluing a panel as it stands. The audit judges each stave's zones in the plan;
// these are the things that only show once the staves lie side by side.

#include <string>
#include <vector>

#include "core/panels/Panels.h"

namespace stavewright::panels {

struct PanelFinding {
    enum class Kind {
        JointOnKnot, ///< a glue line or a strength joint would hold on a knot: refused
        PoseRefused, ///< a stave lies where the part's rules forbid a defect: refused
        TooNarrow,   ///< the staves do not make the width: refused
        Cup,         ///< the forecast cup exceeds what was set: flagged with a remedy
        Moisture     ///< staves differ in moisture by more than two points: flagged
    };
    Kind kind = Kind::Cup;
    bool isRefusal = false;
    std::string sentence;
    std::vector<std::size_t> places; ///< of the staves concerned
};

/// Refusals first.
[[nodiscard]] std::vector<PanelFinding> checkPanel(const Document& document, const Panel& panel);

/// Forecast cup of one stave with the panel's face up (hollow > 0).
[[nodiscard]] Length staveCup(const Panel& panel, std::size_t place);
/// Of the whole panel; `overall` is signed likewise.
[[nodiscard]] glueup::CupForecast cupOf(const Panel& panel);
/// The staves that the forecast of the cup leaves out, as the heart side of their boards is not
/// noted, in a sentence; empty where it knows all.
[[nodiscard]] std::string cupUnknownOf(const Panel& panel);
/// "goes hollow by 0.012 in on its show face", "stays flat"; nothing where no stave's cup is known.
[[nodiscard]] std::string cupText(const Panel& panel, const JobInfo& info);
/// Eq. 13-2 over all staves: what the panel's width changes by.
[[nodiscard]] Length widthChangeOf(const Panel& panel);

} // namespace stavewright::panels
