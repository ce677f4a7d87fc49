#pragma once
// What a maker does to a plan by hand, each as one Edit whose inverse gives the identical document
// back. Whether the new plan is good is for the audit to say; these refuse only what makes no sense
// or touches what is locked or cut.
//
//   Result<Edit> edit = hand::turn(document, blank, {.endForEnd = true});
//   if (edit) session.edit(tr("Turn R2"), edit.value());

#include "core/document/Edit.h"
#include "core/hand/Laying.h"
#include "core/hand/PlanTree.h"

namespace stavewright::hand {

/// Lays the blank down somewhere else.
Result<Edit> move(const Document& document, BlankId blank, const Laying& laying);
/// Takes it off its board; it waits in the tray.
Result<Edit> backToTray(const Document& document, BlankId blank);
/// Lays a blank from the tray down. Of a panel (stave 0) a new stave as wide as the laying's bed.
Result<Edit> layFromTray(const Document& document, const BlankPurpose& purpose,
                         const Laying& laying);
/// The blank lies the other way on the same wood.
Result<Edit> turn(const Document& document, BlankId blank, Pose pose);
/// The two change places. Blanks of one size change what they become; others are laid down at one
/// another's low corner.
Result<Edit> swap(const Document& document, BlankId first, BlankId second);

enum class End { Low, High };
/// One crosscut of a section to another reading (board frame). Its blanks stay where they are.
Result<Edit> moveCrosscut(const Document& document, SectionId section, End end, Length reading);
/// One rip of a strip to another place (v in the section's frame). Staves that fill the strip
/// change their width with it; all else stays where it is.
Result<Edit> moveRip(const Document& document, StripId strip, End edge, Length to);

/// Locked things stay where they are whenever the rest is planned again.
Result<Edit> setLocked(const Document& document, BlankId blank, bool locked);
Result<Edit> setLocked(const Document& document, SectionId section, bool locked);
/// Of a board that the plan cuts: nothing more is cut from it, nothing there moves.
Result<Edit> setLocked(const Document& document, BoardId board, bool locked);

/// Nothing is cut from the board: what was planned there waits in the tray. Or it may be cut again.
/// Refused where it is begun or something on it is locked.
Result<Edit> setAside(const Document& document, BoardId board, bool aside);

/// Why the blank cannot be moved at all: locked or cut; empty when it can.
[[nodiscard]] std::string whyFixed(const Document& document, const TreePlace& place);

} // namespace stavewright::hand
