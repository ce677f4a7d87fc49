#include <algorithm>
#include <set>

#include "core/audit/Checks.h"

namespace stavewright::audit_detail {

namespace {

bool isMember(const MatchGroup& group, PartId part) {
    return std::find(group.parts.begin(), group.parts.end(), part) != group.parts.end();
}

/// The sections used stand next to one another.
bool adjoin(const std::set<std::size_t>& sections) {
    return sections.empty() || *sections.rbegin() - *sections.begin() + 1 == sections.size();
}

} // namespace

void checkGroups(const Case& opened, Report& report) {
    const Words& words = report.words();
    for (const MatchGroup& group : opened.document.groups) {
        std::vector<const Board*> boards; // in the order met
        std::set<std::size_t> sections;
        for (const PlacedBlank& placed : opened.blanks) {
            if (!isMember(group, placed.blank->purpose.part)) {
                continue;
            }
            if (std::find(boards.begin(), boards.end(), placed.board) == boards.end()) {
                boards.push_back(placed.board);
            }
            sections.insert(placed.inSection);
        }
        const std::string name = group.name.empty() ? "A match group" : "Group " + group.name;
        if (boards.size() > 1) {
            std::string list;
            for (const Board* board : boards) {
                list += (list.empty() ? "" : ", ") + board->mark;
            }
            report.remark(FindingKind::GroupApart, {.board = boards.front()->id},
                          name + " should come from one board; it comes from boards " + list + ".");
        } else if (group.want == MatchGroup::Want::Neighbours && !adjoin(sections)) {
            report.remark(FindingKind::GroupApart, {.board = boards.front()->id},
                          name + " should come from neighbouring places; sections of " +
                              words.board(boards.front()->id) + " lie between.");
        }
    }
}

} // namespace stavewright::audit_detail
