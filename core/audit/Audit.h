#pragma once
// The independent judge of every plan. It reads the document, never the solver's Problem, shares
// only value types and the geometry adapter with the planner, and recomputes halo, depth,
// thickness, demand, yield and cost in its own way. It runs after every plan, edit and load;
// nothing prints from a plan that fails it.

#include <string>
#include <vector>

#include "core/document/Document.h"

namespace stavewright {

enum class FindingKind {
    BadNumber, ///< a stretch or rectangle without extent, or beyond what any shop holds
    UnknownBoard,
    BoardSetAside,
    BoardTwice,
    SectionOutsideBoard,
    SectionsOverlap,
    BadFrame, ///< a section's frame that turns too far or points nowhere
    StripsOverlap,
    StripOutsideSection,
    KerfMissing,
    BlanksOverlap,
    BlankOutsideStrip,
    BlankOutsideSection, ///< reaches over one of the section's crosscuts
    BlankOutsideBoard,
    RawEnd,
    DefectInZone,
    UnknownRules, ///< a zone or joint names a rule set that the shop does not have
    NotLookedAt,  ///< a remark, not a failure: "clean as far as seen"
    ThicknessNotReached,
    PlanedTooThin, ///< laid into milled wood that is planed thinner than the blank needs
    BadThicknessChoice,
    TooMuchPlanedAway, ///< the board is thicker than the blank's milling needs, beyond the shop's
                       ///< limit
    AgainstBoardRule,  ///< on wood that is kept for another part, or that this one is kept off
    TooWideForMachine,
    TooShortForMachine,
    TooLongToHandle, ///< a blank beyond the longest board that the shop handles
    RipTooNarrow,
    WrongSize,
    WrongSpecies,
    DemandShort, ///< work that is neither placed nor listed as unplaced
    DemandExceeded,
    DuplicatePurpose,
    PanelWidth,
    StaveWidth,
    StaveCount,
    CutOrder,
    BadState, ///< states that contradict each other: a blank cut from a section that is not
    WrongTotals,
    BadOffcut,
    DuplicateId,
    UnknownPart,
    UnresolvedSize, ///< a part whose finished size leans in a circle or on a missing part
    BadUnplaced,    ///< listed as unplaced, yet placed, listed twice or not wanted
    GroupApart      ///< a remark
};

enum class Severity { Failure, Remark };

struct Finding {
    FindingKind kind = FindingKind::UnknownBoard;
    Severity severity = Severity::Failure;
    std::string sentence; ///< "Loose knot K3 lies in the joint zone of R2 on board 7."
    BoardId board;
    BlankId blank;
    DefectId defect;
    PartId part;
    friend bool operator==(const Finding&, const Finding&) = default;
};

/// A defect that a placed blank may keep only if it is filled: one for each pair of defect and
/// blank, as PlanTotals::fills counts them.
struct Fill {
    BoardId board;
    BlankId blank;
    DefectId defect;
    bool onFaceA = false; ///< of the board: the planed surface where it has to be filled
    bool onFaceB = false;
    /// The defect itself stays outside the zone, only the disturbed grain round it reaches in: look
    /// whether there is anything to fill.
    bool marginOnly = false;
    Point at;            ///< its middle on that surface, board frame
    Length fromNearEdge; ///< of `at`, from the board's rough near edge
    Length size;         ///< as rules compare it
    friend bool operator==(const Fill&, const Fill&) = default;
};

struct AuditReport {
    std::vector<Finding> findings; ///< failures first, then by board
    std::vector<Fill> fills;       ///< in the plan's order; totals.fills is their number
    PlanTotals totals;             ///< as the audit counts them
    [[nodiscard]] bool passed() const;
    [[nodiscard]] std::size_t failures() const;
};

/// Judges document.plan; a document without a plan passes with empty totals. Work that is listed as
/// unplaced is not a failure; work that is missing without being listed is.
[[nodiscard]] AuditReport audit(const Document& document);

/// The same for a plan that is not in the document yet.
[[nodiscard]] AuditReport audit(const Document& document, const Plan& plan);

} // namespace stavewright
