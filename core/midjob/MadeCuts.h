#pragma once
// Cuts as they were made, with their actual readings. Cuts are made from the datum end and from the
// straightened edge on; who marks a later one first says whether those before it are made too.

#include "core/hand/HandEdits.h"
#include "core/hand/SafeWindow.h"
#include "core/midjob/ShopEvent.h"

namespace stavewright::midjob {

/// What of the cuts before one that is made.
enum class Earlier { MadeOnTheirMarks, StillToMake };

/// Cuts before this one that are not marked as made: on the board, in its section, in its strip.
/// Crosscuts of the section that is ripped, and rips of the strip that is crosscut, are not among
/// them: those are made.
[[nodiscard]] std::vector<hand::CutRef> earlierThan(const Document& document, BoardId board,
                                                    const hand::CutRef& cut);

/// The cut was made at `where`, read as core/hand/Cuts.h says. What no longer comes out finds its
/// place elsewhere.
Result<ShopEvent> cutMade(const Document& document, BoardId board, const hand::CutRef& cut,
                          Length where, const Note& note,
                          Earlier earlier = Earlier::MadeOnTheirMarks);

/// The blank was measured off its strip: it is so long and wide. A size above the planned one is
/// trimmed again and loses nothing.
Result<ShopEvent> sizeMeasured(const Document& document, BlankId blank, Length length, Length width,
                               const Note& note);

/// A fresh end was cut, the saw's kerf included in the wood that is gone: at the datum end
/// everything before `reading`, at the far end everything beyond it.
Result<ShopEvent> freshEnd(const Document& document, BoardId board, hand::End end, Length reading,
                           const Note& note);

/// All cuts on the board are made on their marks that are not made yet.
Result<ShopEvent> allCutsMade(const Document& document, BoardId board, const Note& note);

/// The piece has come so far in the shop; its section counts as cut, its strip as ripped. Backwards
/// only until it is planned, which undo does.
Result<ShopEvent> stateReached(const Document& document, BlankId blank, CutState state,
                               const Note& note);

/// States that this piece goes through, in the shop's order: glued and second milling only where
/// its part is made up of several.
[[nodiscard]] std::vector<CutState> statesFor(const Document& document,
                                              const BlankPurpose& purpose);

} // namespace stavewright::midjob
