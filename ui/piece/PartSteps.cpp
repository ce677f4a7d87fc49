#include "ui/piece/PartSteps.h"

#include <QCoreApplication>

#include <algorithm>

#include "core/milling/PartZones.h"
#include "core/shop/Presets.h"
#include "ui/entry/Reading.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("PartSteps", text); }

/// A, B, ... Z, AA, AB: the first that no part has.
std::string freePartMark(const Document& document) {
    const auto taken = [&](const std::string& mark) {
        return std::any_of(document.parts.begin(), document.parts.end(),
                           [&](const Part& part) { return part.mark == mark; });
    };
    for (std::string head;;) {
        for (char letter = 'A'; letter <= 'Z'; ++letter) {
            if (std::string mark = head + letter; !taken(mark)) {
                return mark;
            }
        }
        head += 'A';
    }
}

const Part* whoLeansOn(const Document& document, PartId id) {
    for (const Part& part : document.parts) {
        for (const Size* size : {&part.length, &part.width, &part.thickness}) {
            if (part.id != id &&
                std::any_of(size->leans.begin(), size->leans.end(),
                            [id](const LeanTerm& term) { return term.part == id; })) {
                return &part;
            }
        }
    }
    return nullptr;
}

} // namespace

const Part* shownPart(const Document& document, const std::optional<PartId>& id) {
    if (id) {
        return findPart(document, *id);
    }
    return document.parts.empty() ? nullptr : &document.parts.front();
}

Part newPart(const Document& document) {
    const bool inches = document.info.units == UnitSystem::Inches;
    Part part;
    part.id = PartId{document.nextId};
    part.mark = freePartMark(document);
    part.name = tr("New part").toStdString();
    part.species = document.boards.empty() ? "white_oak" : document.boards.front().species;
    part.length = {inches ? Length::inches(24) : Length::millimetres(600), {}};
    part.width = {inches ? Length::inches(3) : Length::millimetres(80), {}};
    part.thickness = {inches ? Length::inches(3, 4) : Length::millimetres(20), {}};
    if (!document.parts.empty()) {
        const Part& last = document.parts.back();
        part.group = last.group;
        part.species = last.species;
        part.thickness = last.thickness;
        part.thickness.leans.clear();
        part.leastThickness = last.leastThickness;
        if (last.thickness.base <= Length()) {
            part.thickness.base = inches ? Length::inches(3, 4) : Length::millimetres(20);
        }
    }
    return part;
}

Part copyOf(const Document& document, const Part& part) {
    Part copy = part;
    std::int64_t next = document.nextId;
    copy.id = PartId{next++};
    copy.mark = freePartMark(document);
    for (Zone& zone : copy.zones) {
        zone.id = ZoneId{next++};
    }
    return copy;
}

Result<Edit> removal(const Document& document, PartId id) {
    if (const Part* other = whoLeansOn(document, id)) {
        return wrong(tr("A size of part %1 leans on this part; take that lean away first.")
                         .arg(words(other->mark)));
    }
    EditSequence steps;
    std::vector<Joint> joints = document.joints;
    for (Joint& joint : joints) {
        std::erase_if(joint.sides, [id](const JointSide& side) { return side.part == id; });
    }
    std::erase_if(joints, [](const Joint& joint) { return joint.sides.empty(); });
    if (joints != document.joints) {
        steps.edits.push_back(Edit{ReplaceJoints{joints}});
    }
    std::vector<MatchGroup> groups = document.groups;
    for (MatchGroup& group : groups) {
        std::erase(group.parts, id);
    }
    std::erase_if(groups, [](const MatchGroup& group) { return group.parts.empty(); });
    if (groups != document.groups) {
        steps.edits.push_back(Edit{ReplaceGroups{groups}});
    }
    if (document.plan) {
        steps.edits.push_back(Edit{ReplacePlan{}});
    }
    steps.edits.push_back(Edit{RemovePart{id}});
    return Edit{std::move(steps)};
}

Part withZone(const Document& document, const Part& part, const ZoneArea& area) {
    Part changed = part;
    changed.zones = zonesOrDefaults(document.shop, part);
    std::int64_t next = document.nextId;
    for (Zone& zone : changed.zones) {
        if (!zone.id.isSet()) {
            zone.id = ZoneId{next++};
        }
    }
    const RuleSet* rules = findRuleSet(document.shop, presetRules::joint);
    if (rules == nullptr && !document.shop.ruleSets.empty()) {
        rules = &document.shop.ruleSets.front();
    }
    if (rules != nullptr) {
        changed.zones.push_back(
            {ZoneId{next}, tr("new zone").toStdString(), ZoneRole::JoineryEnd, area, rules->id});
    }
    return changed;
}

std::vector<Joint> withJoint(const Document& document, const Part& part) {
    const bool inches = document.info.units == UnitSystem::Inches;
    std::vector<Joint> joints = document.joints;
    const RuleSet* rules = findRuleSet(document.shop, presetRules::joint);
    if (rules == nullptr && !document.shop.ruleSets.empty()) {
        rules = &document.shop.ruleSets.front();
    }
    if (rules == nullptr) {
        return joints;
    }
    Joint joint;
    joint.id = JointId{document.nextId};
    joint.name = tr("new joint").toStdString();
    joint.rules = rules->id;
    JointSide side;
    side.part = part.id;
    side.area.along.to = {Anchored::From::Low,
                          inches ? Length::inches(2) : Length::millimetres(50)};
    joint.sides.push_back(side);
    joints.push_back(std::move(joint));
    return joints;
}

} // namespace stavewright::ui
