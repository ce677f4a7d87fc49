#pragma once
// The figures by which plans for one job are compared: money, lumber, looks, work at the machines.
// Counted from document and plan, so that they mean the same for every plan, however it was found.

#include "core/document/Document.h"

namespace stavewright {

/// A set-up is one setting of a machine that serves all pieces of that size, wherever they lie;
/// returning to a size counts once. Common practice, no source. Boards are crosscut into sections
/// at marks along the tape, so that takes none. What is cut already takes none any more.
struct SetUps {
    int ripWidths = 0;      ///< fence of the rip saw: widths of strips, and of blanks trimmed to
                            ///< less than their strip
    int roughRipWidths = 0; ///< fence of the saw that rips sections before their first facing
    int stopLengths = 0; ///< stop of the saw that crosscuts strips: lengths of the blanks it cuts
    [[nodiscard]] int total() const { return ripWidths + roughRipWidths + stopLengths; }
    friend bool operator==(const SetUps&, const SetUps&) = default;
};

struct PlanFigures {
    int missing = 0; ///< blanks and panels without a place
    Money cost;      ///< as PlanTotals::cost
    /// The cost, what allowed knots on show faces count against the plan, and what groups on
    /// several boards do: what an ordinary search makes small.
    Money counted;
    BoardFeet lumber; ///< of the boards used, whole
    int boards = 0;
    /// Pairs of a blank and a knot, hole or bark pocket in one of its show faces, allowed or to be
    /// filled; the disturbed grain counts as the knot, as for the rules.
    int knotsOnShow = 0;
    int boardsTooMany = 0; ///< beyond the first, summed over the match groups
    SetUps setUps;
    friend bool operator==(const PlanFigures&, const PlanFigures&) = default;
};

/// The plan's own totals are taken as they are. Blanks that no spec of the document knows count
/// nothing.
[[nodiscard]] PlanFigures figuresOf(const Document& document, const Plan& plan);

/// PlanFigures::counted alone.
[[nodiscard]] Money countedFor(const Document& document, const Plan& plan);

[[nodiscard]] SetUps setUpsOf(const Plan& plan);

/// What of PlanFigures::counted is there because groups come from several boards.
[[nodiscard]] Money groupsApart(const Document& document, const Plan& plan);

} // namespace stavewright
