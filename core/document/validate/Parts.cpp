#include <algorithm>
#include <unordered_set>

#include "core/document/Limits.h"
#include "core/document/SizeResolver.h"
#include "core/document/validate/Findings.h"
#include "core/units/Glyph.h"

namespace stavewright::validation {

namespace {

/// What part, joint and group checks look up again and again.
struct Lookup {
    explicit Lookup(const Document& document)
        : sizes(document) {
        for (const Part& part : document.parts) {
            parts.emplace(part.id, &part);
        }
        for (const RuleSet& ruleSet : document.shop.ruleSets) {
            ruleSets.insert(ruleSet.id);
        }
    }
    [[nodiscard]] const Part* part(PartId id) const {
        const auto found = parts.find(id);
        return found == parts.end() ? nullptr : found->second;
    }

    std::unordered_map<PartId, const Part*> parts;
    std::unordered_set<RuleSetId> ruleSets;
    SizeResolver sizes;
};

void checkRuleSet(RuleSetId id, const Lookup& lookup, const std::string& place,
                  const std::string& whose, Findings& findings) {
    if (!lookup.ruleSets.contains(id)) {
        findings.refuse(place + "/rules", "The rules of " + whose + " have id " +
                                              std::to_string(id.value) +
                                              ", which is no rule set of the shop.");
    }
}

void checkSize(const Part& part, Dimension dimension, Length most, const std::string& here,
               Lookup& lookup, Findings& findings) {
    const std::string place = here + '/' + nameOf(dimension);
    const Size& size = sizeOf(part, dimension);
    findings.count(place + "/leans", "sizes that one size leans on", size.leans.size(),
                   limits::leansOfOneSize);
    for (std::size_t i = 0; i < size.leans.size(); ++i) {
        if (size.leans[i].factor != 1 && size.leans[i].factor != -1) {
            findings.refuse(at(place + "/leans", i) + "/factor",
                            "The factor of a leaning size of part " + part.mark + " is " +
                                std::to_string(size.leans[i].factor) + "; it must be 1 or -1.");
        }
    }
    if (!findings.ok()) {
        return;
    }
    const Result<Length> resolved = lookup.sizes.resolve(part, dimension);
    if (!resolved) {
        findings.refuse(size.leans.empty() ? place : place + "/leans", resolved.error().message);
        return;
    }
    findings.length(place, std::string("The ") + nameOf(dimension) + " of part " + part.mark,
                    resolved.value(), Range::aboveZeroUpTo(most));
}

void checkMakeUp(const Part& part, const std::string& here, Findings& findings) {
    const std::string whose = "part " + part.mark;
    if (part.makeUp.lamination) {
        findings.number(here + "/makeUp/lamination/plies", "The number of plies of " + whose,
                        part.makeUp.lamination->plies, 2, limits::plies);
    }
    if (part.makeUp.panel) {
        const PanelMakeUp& panel = *part.makeUp.panel;
        const std::string place = here + "/makeUp/panel";
        findings.length(place + "/leastStave", "The least stave of " + whose, panel.leastStave,
                        Range::aboveZeroUpTo(limits::widestBoard));
        findings.length(place + "/widestStave", "The widest stave of " + whose, panel.widestStave,
                        {panel.leastStave, limits::widestBoard});
        findings.number(place + "/fewestStaves", "The fewest staves of " + whose,
                        panel.fewestStaves, 1, limits::staves);
        findings.number(place + "/mostStaves", "The most staves of " + whose, panel.mostStaves,
                        panel.fewestStaves, limits::staves);
    }
}

void checkArea(const ZoneArea& area, const Part& part, const std::string& place,
               const std::string& whose, Lookup& lookup, Findings& findings) {
    const auto check = [&](const AnchoredStretch& stretch, Dimension dimension, const char* key) {
        const Result<Length> extent = lookup.sizes.resolve(part, dimension);
        if (!extent) {
            return; // said where the size stands
        }
        const Stretch at = stretch.in(extent.value());
        if (at.from < Length() || at.to > extent.value() || at.from >= at.to) {
            findings.refuse(place + key, "The area of " + whose + " runs from " +
                                             findings.say(at.from) + " to " + findings.say(at.to) +
                                             "; it must run forwards and lie from 0 to " +
                                             findings.say(extent.value()) + ", the " +
                                             nameOf(dimension) + " of part " + part.mark + '.');
        }
    };
    check(area.along, Dimension::Length, "/along");
    check(area.across, Dimension::Width, "/across");
}

void checkPart(const Part& part, const std::string& here, Lookup& lookup, Findings& findings) {
    const std::string whose = "part " + part.mark;
    findings.text(here + "/name", "The name of " + whose, part.name, limits::nameCharacters);
    findings.text(here + "/group", "The group of " + whose, part.group, limits::nameCharacters);
    findings.text(here + "/notes", "The note on " + whose, part.notes, limits::noteCharacters,
                  Findings::Lines::Many);
    findings.species(here + "/species", whose, part.species);
    findings.number(here + "/count", "The count of " + whose, part.count, 1, limits::partCount);
    findings.number(here + "/perBlank", "The number in one blank of " + whose, part.perBlank, 1,
                    limits::partsInOneBlank);
    checkSize(part, Dimension::Length, limits::longestPart, here, lookup, findings);
    checkSize(part, Dimension::Width, limits::widestPart, here, lookup, findings);
    checkSize(part, Dimension::Thickness, limits::thickest, here, lookup, findings);
    if (!findings.ok()) {
        return;
    }
    if (part.leastThickness) {
        const Result<Length> wanted = lookup.sizes.resolve(part, Dimension::Thickness);
        findings.length(here + "/leastThickness", "The least thickness of " + whose,
                        *part.leastThickness, Range::aboveZeroUpTo(wanted.value()));
    }
    checkMakeUp(part, here, findings);
    findings.count(here + "/zones", "zones on " + whose, part.zones.size(), limits::zonesOnOnePart);
    for (std::size_t i = 0; i < part.zones.size() && findings.ok(); ++i) {
        const Zone& zone = part.zones[i];
        const std::string zoneHere = at(here + "/zones", i);
        const std::string zoneName = "zone " + reading::inQuotes(zone.name) + " of " + whose;
        findings.text(zoneHere + "/name", "The name of a zone of " + whose, zone.name,
                      limits::nameCharacters);
        checkRuleSet(zone.rules, lookup, zoneHere, zoneName, findings);
        checkArea(zone.area, part, zoneHere + "/area", zoneName, lookup, findings);
    }
}

bool isDigit(char c) { return c >= '0' && c <= '9'; }

/// True when a label of `shorter` reads like one of `longer`: mark "R" with eleven pieces and mark
/// "R1" both give "R11". Labels are the mark, a number, perhaps a letter, perhaps a hyphen and a
/// number.
bool labelsClash(const Part& shorter, const Part& longer) {
    const std::string_view more = std::string_view(longer.mark).substr(shorter.mark.size());
    if (more.empty() || !isDigit(more.front())) {
        return false;
    }
    if (more.find('-') != std::string_view::npos) {
        return true; // "R" and "R1-": a stave of R is labelled like a piece of "R1-"
    }
    if (!std::all_of(more.begin(), more.end(), isDigit)) {
        return false;
    }
    // The longer mark's first piece is numbered 1 behind its own digits.
    int number = 0;
    for (const char digit : more) {
        number = number * 10 + (digit - '0');
        if (number > limits::partCount) {
            return false;
        }
    }
    return number > 0 && number * 10 + 1 <= shorter.count;
}

void checkMarks(const std::vector<Part>& parts, Findings& findings) {
    Seen marks;
    std::unordered_map<std::string_view, std::size_t> byMark;
    for (std::size_t i = 0; i < parts.size() && findings.ok(); ++i) {
        const std::string place = at("/parts", i);
        findings.mark(place + "/mark", "The mark of a part", parts[i].mark);
        if (const auto first = marks.before(parts[i].mark, place)) {
            findings.refuse(place + "/mark", "The mark " + reading::inQuotes(parts[i].mark) +
                                                 " is given to two parts, first at " + *first +
                                                 "; each part needs its own.");
        }
        byMark.emplace(parts[i].mark, i);
    }
    for (std::size_t i = 0; i < parts.size() && findings.ok(); ++i) {
        const std::string_view mark = parts[i].mark;
        for (std::size_t length = 1; length < mark.size(); ++length) {
            const auto shorter = byMark.find(mark.substr(0, length));
            if (shorter != byMark.end() && labelsClash(parts[shorter->second], parts[i])) {
                findings.refuse(at("/parts", i) + "/mark",
                                "With the marks " + reading::inQuotes(parts[shorter->second].mark) +
                                    " and " + reading::inQuotes(mark) +
                                    " two pieces would get the same label; one of the marks must "
                                    "be another.");
            }
        }
    }
}

void checkJoint(const Joint& joint, const std::string& here, Lookup& lookup, Findings& findings) {
    const std::string whose = "joint " + reading::inQuotes(joint.name);
    findings.text(here + "/name", "The name of a joint", joint.name, limits::nameCharacters);
    checkRuleSet(joint.rules, lookup, here, whose, findings);
    if (joint.sides.empty() || joint.sides.size() > 2) {
        findings.refuse(here + "/sides", "The number of sides of " + whose + " is " +
                                             std::to_string(joint.sides.size()) +
                                             "; it must be 1 or 2.");
    }
    for (std::size_t i = 0; i < joint.sides.size() && findings.ok(); ++i) {
        const std::string sideHere = at(here + "/sides", i);
        const Part* part = lookup.part(joint.sides[i].part);
        if (!part) {
            findings.refuse(sideHere + "/part", "A side of " + whose + " names part id " +
                                                    std::to_string(joint.sides[i].part.value) +
                                                    ", which is not in the job.");
            return;
        }
        checkArea(joint.sides[i].area, *part, sideHere + "/area", whose, lookup, findings);
    }
}

void checkGroup(const MatchGroup& group, const std::string& here, const Lookup& lookup,
                Findings& findings) {
    const std::string whose = "group " + reading::inQuotes(group.name);
    findings.text(here + "/name", "The name of a group", group.name, limits::nameCharacters);
    if (group.parts.empty()) {
        findings.refuse(here + "/parts",
                        "There are no parts in " + whose + "; one or more are due.");
    }
    std::unordered_set<PartId> seen;
    for (std::size_t i = 0; i < group.parts.size() && findings.ok(); ++i) {
        const Part* part = lookup.part(group.parts[i]);
        if (!part) {
            findings.refuse(at(here + "/parts", i), "In " + whose + " stands part id " +
                                                        std::to_string(group.parts[i].value) +
                                                        ", which is not in the job.");
        } else if (!seen.insert(part->id).second) {
            findings.refuse(at(here + "/parts", i), "Part " + part->mark + " stands twice in " +
                                                        whose + "; once is enough.");
        }
    }
}

} // namespace

void checkParts(const Document& document, Findings& findings) {
    checkMarks(document.parts, findings);
    Lookup lookup(document);
    for (std::size_t i = 0; i < document.parts.size() && findings.ok(); ++i) {
        checkPart(document.parts[i], at("/parts", i), lookup, findings);
    }
    for (std::size_t i = 0; i < document.joints.size() && findings.ok(); ++i) {
        checkJoint(document.joints[i], at("/joints", i), lookup, findings);
    }
    for (std::size_t i = 0; i < document.groups.size() && findings.ok(); ++i) {
        checkGroup(document.groups[i], at("/groups", i), lookup, findings);
    }
}

} // namespace stavewright::validation
