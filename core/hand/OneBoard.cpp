#include "core/hand/OneBoard.h"

#include <algorithm>

#include "core/base/ListedText.h"

namespace stavewright::hand {

namespace {

/// Marks in the name of a group that nobody gave one; more would not be read.
constexpr std::size_t mostMarks = 4;

bool isIn(const MatchGroup& group, PartId part) {
    return std::find(group.parts.begin(), group.parts.end(), part) != group.parts.end();
}

std::string marksOf(const Document& document, const MatchGroup& group) {
    std::vector<std::string> marks;
    for (const PartId id : group.parts) {
        if (const Part* part = findPart(document, id)) {
            marks.push_back(part->mark);
        }
    }
    return listed(marks, mostMarks);
}

/// The groups of a job while parts come and go. A name that only lists the parts goes on to do so.
class Groups {
  public:
    explicit Groups(const Document& document)
        : m_document(document) {
        for (const MatchGroup& group : document.groups) {
            m_groups.push_back({group, group.name == marksOf(document, group)});
        }
    }

    void takeOut(PartId part) {
        for (Named& each : m_groups) {
            std::erase(each.group.parts, part);
        }
        std::erase_if(m_groups, [](const Named& each) { return each.group.parts.empty(); });
    }

    /// To the group of the other part, which is made where there is none.
    void putIn(PartId part, PartId groupOf) {
        auto found = std::find_if(m_groups.begin(), m_groups.end(), [groupOf](const Named& each) {
            return isIn(each.group, groupOf);
        });
        if (found == m_groups.end()) {
            MatchGroup made;
            made.id = GroupId{m_document.nextId};
            made.parts = {groupOf};
            found = m_groups.insert(found, {std::move(made), true});
        }
        if (!isIn(found->group, part)) {
            found->group.parts.push_back(part);
        }
    }

    [[nodiscard]] Edit replaced() {
        std::vector<MatchGroup> groups;
        for (Named& each : m_groups) {
            if (each.byMarks) {
                each.group.name = marksOf(m_document, each.group);
            }
            groups.push_back(std::move(each.group));
        }
        return Edit{ReplaceGroups{std::move(groups)}};
    }

  private:
    struct Named {
        MatchGroup group;
        bool byMarks; ///< its name lists its parts
    };

    const Document& m_document;
    std::vector<Named> m_groups;
};

} // namespace

std::vector<PartId> wantedWith(const Document& document, PartId part) {
    const auto group = std::find_if(document.groups.begin(), document.groups.end(),
                                    [part](const MatchGroup& each) { return isIn(each, part); });
    return group == document.groups.end() ? std::vector<PartId>() : group->parts;
}

Edit wantTogether(const Document& document, PartId part, PartId other) {
    Groups groups(document);
    if (other != part) {
        groups.takeOut(other);
    }
    groups.putIn(other, part);
    return groups.replaced();
}

Edit letApart(const Document& document, PartId part) {
    Groups groups(document);
    groups.takeOut(part);
    return groups.replaced();
}

} // namespace stavewright::hand
