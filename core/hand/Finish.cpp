#include "core/hand/Finish.h"

#include <algorithm>
#include <map>

#include "core/hand/PlanTree.h"
#include "core/planning/PanelWidth.h"
#include "core/planning/Planner.h"

namespace stavewright::hand {

namespace {

constexpr const char* byHand = "Laid back in the tray by hand.";

void inRackOrder(const Document& document, Plan& plan) {
    std::map<BoardId, std::size_t> rank;
    for (std::size_t i = 0; i < document.boards.size(); ++i) {
        rank.emplace(document.boards[i].id, i);
    }
    std::stable_sort(plan.boards.begin(), plan.boards.end(),
                     [&](const BoardLayout& a, const BoardLayout& b) {
                         return rank.at(a.board) < rank.at(b.board);
                     });
}

} // namespace

void listUnplaced(const std::vector<BlankSpec>& specs, Plan& plan, const std::string& reason) {
    const std::map<BlankPurpose, Length> placed = planning::netWidthsIn(plan, specs);
    std::vector<Unplaced> listed;
    for (const BlankSpec& spec : specs) {
        for (int number = 0; number < spec.count; ++number) {
            const BlankPurpose purpose = purposeOf(spec, number);
            const auto found = placed.find(purpose);
            const bool isMissing =
                found == placed.end() || (spec.staves && found->second < spec.staves->netWanted);
            if (!isMissing) {
                continue;
            }
            const auto before =
                std::find_if(plan.unplaced.begin(), plan.unplaced.end(),
                             [&](const Unplaced& each) { return each.purpose == purpose; });
            listed.push_back(before == plan.unplaced.end() ? Unplaced{purpose, reason} : *before);
        }
    }
    plan.unplaced = std::move(listed);
}

Result<Edit> finished(const Document& document, Plan plan, const std::set<BoardId>& touched,
                      std::int64_t nextId, const std::string& reason) {
    Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    if (!specs) {
        return specs.error();
    }
    // Offcuts of boards that nobody touched stay as they are, ids and all.
    Plan changed;
    for (BoardLayout& layout : plan.boards) {
        if (touched.contains(layout.board)) {
            dropPlannedOffcuts(layout);
            changed.boards.push_back(std::move(layout));
        }
    }
    std::erase_if(plan.boards,
                  [&](const BoardLayout& layout) { return touched.contains(layout.board); });
    markOffcuts(document, changed, nextId);
    for (BoardLayout& layout : changed.boards) {
        const bool isUntouched =
            layout.sections.empty() ||
            std::all_of(layout.sections.begin(), layout.sections.end(),
                        [&](const Section& section) {
                            return isFree(layout, section) && section.strips.empty();
                        });
        if (!isUntouched || layout.locked) {
            plan.boards.push_back(std::move(layout));
        }
    }
    inRackOrder(document, plan);
    listUnplaced(specs.value(), plan, reason.empty() ? byHand : reason);
    Result<Plan> made = changedByHand(document, std::move(plan));
    if (!made) {
        return made.error();
    }
    return Edit{ReplacePlan{std::move(made).value()}};
}

} // namespace stavewright::hand
