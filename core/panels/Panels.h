#pragma once
// The panels of a job as they are to be glued: which blanks of the plan make which panel, and what
// each stave is like, for the arrangement, its pictures and its papers.
//
//   Result<std::vector<Panel>> panels = panelsOf(document);
//   glueup::Scoring scoring(panels.value().front().problem);

#include <functional>
#include <string>
#include <vector>

#include "core/document/Document.h"
#include "core/glueup/Arrange.h"

namespace stavewright::panels {

/// Where the net stave lies on its board, and what it is.
struct PanelStave {
    BlankId blank;
    BlankPurpose purpose;
    std::string label; ///< "T1-3"
    BoardId board;
    std::string boardMark;
    Frame frame;   ///< of its section in the board frame
    Rect net;      ///< finished length and net width, in the section's frame
    Length at;     ///< where it begins on its board, x of the board frame
    Length woodAt; ///< where its blank begins there: what the board sheet and the layout say
    CutState state = CutState::Planned;
    bool isHeld = false; ///< locked in the layout, or its section or board is
};

struct Panel {
    PanelName name;
    std::string label;  ///< "T1", of a ply "L2a"
    std::string title;  ///< "Top"
    Length length;      ///< finished
    Length roughLength; ///< as it is glued up
    Length width;       ///< of the staves side by side
    Length wanted;      ///< width of the glued-up panel that the part asks for
    Length most;        ///< that its staves may come to
    Length finishedWidth;
    Length thickness;               ///< finished; of a ply its share
    bool isGlued = false;           ///< at least one of its staves is
    PanelArrangement chosen;        ///< as stored, or the defaults; its staves may be out of date
    std::vector<PanelStave> staves; ///< by number; same index as in the problem
    glueup::ArrangeProblem problem; ///< of this panel alone
    glueup::Order order;            ///< as it stands now
    std::vector<std::string> moved; ///< what the plan changed since it was arranged, in sentences
    [[nodiscard]] const PanelStave& staveAt(std::size_t place) const {
        return staves[static_cast<std::size_t>(order[place].stave)];
    }
};

/// What photographs tell of one face of a stave, given its net rectangle in its section's frame:
/// colours of strips from the near to the far edge, and which way its lines run along both.
using LooksOnBoard =
    std::function<glueup::PhotoLook(BoardId, BoardFace, const Frame&, const Rect&)>;

/// Panels with at least one stave in the plan, in the order of parts, instances and plies. Fails as
/// blankSpecs() does.
Result<std::vector<Panel>> panelsOf(const Document& document, const LooksOnBoard& looks = {});

/// "T1"
[[nodiscard]] const Panel* findPanel(const std::vector<Panel>& panels, const PanelName& name);
[[nodiscard]] const PanelArrangement* findArrangement(const GlueUp& glueUp, const PanelName& name);

/// Two panels as one problem; the second's staves come behind the first's. Where both are panels
/// of one part, staves may be exchanged between them.
struct PairProblem {
    glueup::ArrangeProblem problem;
    glueup::Order order;
};
[[nodiscard]] bool canExchange(const Panel& first, const Panel& second);
[[nodiscard]] PairProblem sideBySide(const Panel& first, const Panel& second);

/// The order in which the staves come off the boards: by number, as the plan lays them.
[[nodiscard]] glueup::Order asTheyCome(const Panel& panel);

} // namespace stavewright::panels
