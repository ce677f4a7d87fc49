// Rules for boards name boards and parts of the job, and a stretch that lies on the board.

#include "core/document/Limits.h"
#include "core/document/validate/Findings.h"
#include "core/geometry/PolygonOps.h"

namespace stavewright::validation {

void checkBoardRules(const Document& document, Findings& findings) {
    for (std::size_t i = 0; i < document.boardRules.size() && findings.ok(); ++i) {
        const BoardRule& rule = document.boardRules[i];
        const std::string here = at("/boardRules", i);
        const Board* board = findBoard(document, rule.board);
        if (!board) {
            findings.refuse(here + "/board", "The rule names board id " +
                                                 std::to_string(rule.board.value) +
                                                 ", which is not in the job.");
        } else if (!findPart(document, rule.part)) {
            findings.refuse(here + "/part", "The rule names part id " +
                                                std::to_string(rule.part.value) +
                                                ", which is not in the job.");
        } else if (rule.along && rule.along->from >= rule.along->to) {
            findings.refuse(here + "/along", "The stretch that is kept on board " + board->mark +
                                                 " ends where it begins or before; it must have a "
                                                 "length.");
        } else if (rule.along) {
            findings.length(here + "/along/0", "The beginning of the stretch", rule.along->from,
                            Range::zeroUpTo(limits::longestBoard));
            findings.length(here + "/along/1", "The end of the stretch", rule.along->to,
                            Range::aboveZeroUpTo(limits::longestBoard));
        }
    }
}

} // namespace stavewright::validation
