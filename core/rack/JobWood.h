#pragma once
// Wood on its way between a job and the shop rack. The rack is changed first, at once and for good;
// what changes in the job is handed back as an edit. Whoever cannot make that edit takes the rack's
// change back, so that neither has what the other does not know of.
//
//   Result<Brought> brought = takeIntoJob(document, rack, {12, 14}, visit);
//   if (brought && !session.edit(tr("Take 2 pieces"), brought.value().edit)) {
//       rack.takeBack(brought.value().change);
//   }

#include <string>
#include <vector>

#include "core/document/Edit.h"
#include "core/rack/Rack.h"

namespace stavewright::rack {

struct Brought {
    Edit edit;
    std::int64_t change = 0;          ///< of the rack
    std::vector<std::int64_t> pieces; ///< that went to the rack or came from it
    std::vector<std::string> remarks; ///< sentences that the maker must know
};

/// Lends the pieces to the job, which gets copies of its own at the end of its boards. A mark that
/// the job has already is changed, and said.
Result<Brought> takeIntoJob(const Document& document, Rack& rack,
                            const std::vector<std::int64_t>& pieces, const Visit& visit);

/// Puts boards of the job on the rack. A board that the plan does not cut leaves the job and lies
/// on the rack as it was noted last, whether it came from there or not. One that the plan cuts is
/// used up: it stays in the job with its layout locked, and its offcuts go to the rack.
Result<Brought> putOnRack(const Document& document, Rack& rack, const std::vector<BoardId>& boards,
                          const Visit& visit);

/// What putOnRack would do with a board.
enum class WayToRack {
    Whole,
    Offcuts, ///< the plan cuts it
    Done     ///< it was used up before
};
[[nodiscard]] WayToRack wayToRack(const Document& document, const Board& board);

/// All that goes to the rack when the job is done: what the plan cuts, and what came from the rack
/// and was not needed.
[[nodiscard]] std::vector<BoardId> boardsToReturn(const Document& document);

} // namespace stavewright::rack
