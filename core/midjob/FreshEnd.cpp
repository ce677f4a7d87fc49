#include "core/midjob/MadeCuts.h"

#include <algorithm>

#include "core/hand/PlanTree.h"
#include "core/midjob/Settle.h"
#include "core/midjob/ShopMarks.h"
#include "core/midjob/Words.h"

namespace stavewright::midjob {

Result<ShopEvent> freshEnd(const Document& document, BoardId boardId, hand::End end, Length reading,
                           const Note& note) {
    const Board* found = findBoard(document, boardId);
    if (!document.plan || !found) {
        return noPlan();
    }
    const Rect box = boundingBox(found->outline);
    const Length kerf = document.shop.machines.crosscut.kerf;
    const bool atDatum = end == hand::End::Low;
    if (atDatum ? reading <= box.x0 + kerf || reading >= box.x1
                : reading >= box.x1 - kerf || reading <= box.x0) {
        return refused("A fresh end at " + said(document, reading) + " does not lie on board " +
                       found->mark + "; it may lie from " + saidReading(document, box.x0 + kerf) +
                       " to " + saidReading(document, box.x1 - kerf) + ".");
    }
    Happened happened{document, {boardId}, {boardId}, {}, {}};
    Plan& plan = *happened.after.plan;
    Board& board = *std::find_if(happened.after.boards.begin(), happened.after.boards.end(),
                                 [&](const Board& each) { return each.id == boardId; });
    if (atDatum) {
        board.trimAtDatum = reading - box.x0;
    } else {
        board.trimAtFar = box.x1 - reading;
    }
    BoardLayout* layout = layoutIn(plan, boardId);
    if (layout) {
        const auto isGone = [&](const Stretch& along) {
            return atDatum ? along.from < reading : along.to > reading;
        };
        for (const Section& section : layout->sections) {
            if (isGone(section.along) && section.state != CutState::Planned &&
                !section.strips.empty()) {
                return refused("The section from " + saidReading(document, section.along.from) +
                               " to " + saidReading(document, section.along.to) + " of board " +
                               board.mark +
                               " is cut off already; a fresh end there is a cut in that section.");
            }
        }
        hand::dropPlannedOffcuts(*layout);
        std::vector<BlankId> gone;
        for (const Section& section : layout->sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    const Rect lies = hand::boxOnBoard(section, blank.rect);
                    if (isGone({lies.x0, lies.x1})) {
                        gone.push_back(blank.id);
                    }
                }
            }
        }
        for (const BlankId id : gone) {
            hand::takeOut(*layout, id);
        }
        for (Section& section : layout->sections) {
            if (atDatum) {
                section.along.from = std::max(section.along.from, reading);
            } else {
                section.along.to = std::min(section.along.to, reading);
            }
        }
        std::erase_if(layout->sections, [](const Section& section) {
            return section.along.from >= section.along.to;
        });
        addWaste(happened.after, *layout,
                 atDatum ? Stretch{box.x0, reading - kerf} : Stretch{reading + kerf, box.x1});
    }
    happened.what =
        "Fresh end taken off board " + board.mark + " at " + said(document, reading) + ".";
    return settle(document, std::move(happened), note);
}

} // namespace stavewright::midjob
