#include "core/panels/KeepLocks.h"

#include <map>

#include "core/base/ListedText.h"
#include "core/planning/Planner.h"

namespace stavewright::panels {

namespace {

template <typename Visit>
void visitBlanks(const Plan& plan, const Visit& visit) {
    for (const BoardLayout& layout : plan.boards) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    visit(layout, section, blank);
                }
            }
        }
    }
}

/// "T1-3 on board 2", for each that does not lie as it is held.
std::vector<std::string> notKept(const Document& document, const Plan& plan) {
    std::map<BlankId, const Blank*> after;
    visitBlanks(plan, [&](const BoardLayout&, const Section&, const Blank& blank) {
        after[blank.id] = &blank;
    });
    std::vector<std::string> names;
    visitBlanks(*document.plan,
                [&](const BoardLayout& layout, const Section& section, const Blank& blank) {
                    const auto found = after.find(blank.id);
                    const bool isKept = found != after.end() && found->second->pose == blank.pose &&
                                        found->second->purpose == blank.purpose;
                    if (!isKept && isHeld(layout, section, blank)) {
                        const Board* board = findBoard(document, layout.board);
                        names.push_back(labelOf(document, blank.purpose) + " on board " +
                                        (board ? board->mark : ""));
                    }
                });
    return names;
}

} // namespace

bool isHeld(const BoardLayout& layout, const Section& section, const Blank& blank) {
    return blank.locked || section.locked || (layout.locked && blank.state == CutState::Planned);
}

Result<Plan> changedKeepingLocks(const Document& document, Plan plan) {
    Result<Plan> made = changedByHand(document, std::move(plan));
    if (!made || !document.plan) {
        return made;
    }
    const std::vector<std::string> names = notKept(document, made.value());
    if (names.empty()) {
        return made;
    }
    return Error{ErrorCode::BadInput,
                 listed(names) +
                     (names.size() == 1 ? " is locked and stays as it lies; unlock it"
                                        : " are locked and stay as they lie; unlock them") +
                     " in the layout first.",
                 {}};
}

} // namespace stavewright::panels
