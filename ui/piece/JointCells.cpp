#include "ui/piece/JointCells.h"

#include <QCoreApplication>

#include <algorithm>

#include "ui/entry/Cells.h"
#include "ui/entry/Reading.h"
#include "ui/piece/ZoneCells.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("JointCells", text); }

QStringList kindWords() {
    return {tr("pocket screw"), tr("mortise and tenon"), tr("dowel"),
            tr("lap joint"),    tr("slot fastener"),     tr("bore")};
}

QStringList wishWords() { return {tr("one board"), tr("neighbours")}; }

const Part* partOfMark(const Document& document, const QString& mark) {
    const auto found =
        std::find_if(document.parts.begin(), document.parts.end(),
                     [&](const Part& part) { return words(part.mark) == mark.trimmed(); });
    return found == document.parts.end() ? nullptr : &*found;
}

QString markOf(const Document& document, PartId id) {
    const Part* part = findPart(document, id);
    return part != nullptr ? words(part->mark) : QString("?");
}

using Change = std::function<Edit(const std::function<void(Joint&)>&)>;

EntryCell otherPartCell(const Document& document, const JointRow& row, const Change& change) {
    const Joint& joint = document.joints[row.joint];
    EntryCell cell;
    const std::size_t other = 1 - row.side;
    cell.text = joint.sides.size() > 1 ? markOf(document, joint.sides[other].part) : QString();
    cell.tip = tr("The other part of the joint; its area is typed there");
    for (const Part& part : document.parts) {
        cell.choices << words(part.mark);
    }
    cell.propose = [&document, row, other, change](const QString& typed) -> Result<Edit> {
        if (typed.trimmed().isEmpty()) {
            return change([&](Joint& j) { j.sides = {j.sides[row.side]}; });
        }
        const Part* part = partOfMark(document, typed);
        if (part == nullptr) {
            return wrong(tr("There is no part with the mark “%1”.").arg(typed.trimmed()));
        }
        return change([&](Joint& j) {
            if (j.sides.size() > 1) {
                j.sides[other].part = part->id;
            } else {
                j.sides.push_back({part->id, j.sides[row.side].area});
            }
        });
    };
    return cell;
}

} // namespace

std::vector<JointRow> jointRows(const Document& document, PartId part) {
    std::vector<JointRow> rows;
    for (std::size_t j = 0; j < document.joints.size(); ++j) {
        for (std::size_t s = 0; s < document.joints[j].sides.size(); ++s) {
            if (document.joints[j].sides[s].part == part) {
                rows.push_back({j, s});
            }
        }
    }
    return rows;
}

std::vector<EntryTitle> jointTitles() {
    std::vector<EntryTitle> titles = {{tr("Joint"), {}},
                                      {tr("Kind"), {}},
                                      {tr("With"), tr("Mark of the other part")},
                                      {tr("Rules"), {}}};
    for (const EntryTitle& title : areaTitles()) {
        titles.push_back(title);
    }
    return titles;
}

QString jointText(JointKind kind) { return kindWords()[static_cast<int>(kind)]; }

EntryCell jointCell(const DocumentSession& session, const JointRow& row, int column) {
    const Document& document = session.document();
    if (row.joint >= document.joints.size() ||
        row.side >= document.joints[row.joint].sides.size()) {
        return {};
    }
    const Joint& joint = document.joints[row.joint];
    const Change change = [&document, row](const std::function<void(Joint&)>& set) {
        std::vector<Joint> joints = document.joints;
        set(joints[row.joint]);
        return Edit{ReplaceJoints{std::move(joints)}};
    };
    EntryCell cell;
    switch (column) {
    case 0:
        cell = textCell(joint.name, [change](std::string typed) {
            return Result<Edit>(change([&](Joint& j) { j.name = typed; }));
        });
        break;
    case 1:
        cell = choiceCell(static_cast<int>(joint.kind), kindWords(), [change](int typed) {
            return Result<Edit>(
                change([typed](Joint& j) { j.kind = static_cast<JointKind>(typed); }));
        });
        break;
    case 2:
        cell = otherPartCell(document, row, change);
        break;
    case 3:
        cell = ruleSetCell(document.shop, joint.rules, [change](RuleSetId id) {
            return change([id](Joint& j) { j.rules = id; });
        });
        break;
    default:
        cell = areaCell(session.lengthStyle(), joint.sides[row.side].area, column - 4,
                        [change, row](const ZoneArea& area) {
                            return change([&](Joint& j) { j.sides[row.side].area = area; });
                        });
        break;
    }
    cell.step = tr("Joint %1").arg(words(joint.name));
    return cell;
}

std::vector<EntryTitle> groupTitles() {
    return {{tr("Group"), {}},
            {tr("Wish"), tr("All from one board, or from neighbouring places on it")},
            {tr("Parts"), tr("Marks of the parts: R E, or R, E")}};
}

EntryCell groupCell(const DocumentSession& session, std::size_t at, int column) {
    const Document& document = session.document();
    if (at >= document.groups.size()) {
        return {};
    }
    const MatchGroup& group = document.groups[at];
    const auto change = [&document, at](const std::function<void(MatchGroup&)>& set) {
        std::vector<MatchGroup> groups = document.groups;
        set(groups[at]);
        return Edit{ReplaceGroups{std::move(groups)}};
    };
    EntryCell cell;
    if (column == 0) {
        cell = textCell(group.name, [change](std::string typed) {
            return Result<Edit>(change([&](MatchGroup& g) { g.name = typed; }));
        });
    } else if (column == 1) {
        cell = choiceCell(static_cast<int>(group.want), wishWords(), [change](int typed) {
            return Result<Edit>(
                change([typed](MatchGroup& g) { g.want = static_cast<MatchGroup::Want>(typed); }));
        });
    } else {
        QStringList marks;
        for (const PartId id : group.parts) {
            marks << markOf(document, id);
        }
        cell.text = marks.join(" ");
        cell.propose = [change, &document](const QString& typed) -> Result<Edit> {
            std::vector<PartId> parts;
            for (const QString& each : typed.split(' ', Qt::SkipEmptyParts)) {
                // "R, E" as well, but a mark may have a comma of its own.
                const bool isMark = partOfMark(document, each) != nullptr;
                for (const QString& mark :
                     isMark ? QStringList{each} : each.split(',', Qt::SkipEmptyParts)) {
                    const Part* part = partOfMark(document, mark);
                    if (part == nullptr) {
                        return wrong(tr("There is no part with the mark “%1”.").arg(mark));
                    }
                    parts.push_back(part->id);
                }
            }
            return change([&](MatchGroup& g) { g.parts = parts; });
        };
    }
    cell.step = tr("Match group %1").arg(words(group.name));
    return cell;
}

std::vector<MatchGroup> withGroup(const Document& document, PartId part) {
    std::vector<MatchGroup> groups = document.groups;
    MatchGroup group;
    group.id = GroupId{document.nextId};
    group.name = tr("new group").toStdString();
    group.parts = {part};
    groups.push_back(std::move(group));
    return groups;
}

} // namespace stavewright::ui
