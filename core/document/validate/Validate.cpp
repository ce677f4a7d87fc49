#include "core/document/Document.h"

#include <unordered_map>

#include "core/document/Ids.h"
#include "core/document/Limits.h"
#include "core/document/validate/Findings.h"

namespace stavewright {

namespace validation {

namespace {

/// Ids of one document with the places where they stand; one counter serves all kinds.
class IdRegister {
  public:
    explicit IdRegister(Findings& findings)
        : m_findings(findings) {}

    template <class Tag>
    void add(Id<Tag> id, const std::string& place) {
        if (id.value < 1 || id.value > limits::id) {
            m_findings.refuse(place + "/id", "The id is " + std::to_string(id.value) +
                                                 "; it must be from 1 to " +
                                                 std::to_string(limits::id) + '.');
        }
        const auto [found, isNew] = m_places.emplace(id.value, place);
        if (!isNew) {
            m_findings.refuse(place + "/id", "The id " + std::to_string(id.value) +
                                                 " is given twice, first at " + found->second +
                                                 "; each id may stand there once.");
        }
    }
    template <class Things>
    void addAll(const Things& things, const std::string& place) {
        for (std::size_t i = 0; i < things.size(); ++i) {
            add(things[i].id, at(place, i));
        }
    }

  private:
    Findings& m_findings;
    std::unordered_map<std::int64_t, std::string> m_places;
};

void addPlan(const Plan& plan, IdRegister& ids) {
    for (std::size_t b = 0; b < plan.boards.size(); ++b) {
        const std::string sections = at("/plan/boards", b) + "/sections";
        ids.addAll(plan.boards[b].sections, sections);
        for (std::size_t s = 0; s < plan.boards[b].sections.size(); ++s) {
            const Section& section = plan.boards[b].sections[s];
            const std::string strips = at(sections, s) + "/strips";
            ids.addAll(section.offcuts, at(sections, s) + "/offcuts");
            ids.addAll(section.strips, strips);
            for (std::size_t t = 0; t < section.strips.size(); ++t) {
                ids.addAll(section.strips[t].blanks, at(strips, t) + "/blanks");
                ids.addAll(section.strips[t].offcuts, at(strips, t) + "/offcuts");
            }
        }
    }
}

} // namespace

void checkIds(const Document& document, Findings& findings) {
    IdRegister ids(findings);
    ids.addAll(document.shop.ruleSets, "/shop/ruleSets");
    ids.addAll(document.boards, "/boards");
    for (std::size_t i = 0; i < document.boards.size(); ++i) {
        ids.addAll(document.boards[i].defects, at("/boards", i) + "/defects");
        ids.addAll(document.boards[i].photos, at("/boards", i) + "/photos");
    }
    ids.addAll(document.parts, "/parts");
    for (std::size_t i = 0; i < document.parts.size(); ++i) {
        ids.addAll(document.parts[i].zones, at("/parts", i) + "/zones");
    }
    ids.addAll(document.joints, "/joints");
    ids.addAll(document.groups, "/groups");
    if (document.plan) {
        addPlan(*document.plan, ids);
    }
    for (std::size_t i = 0; i < document.glueUp.laidOut.size(); ++i) {
        ids.add(document.glueUp.laidOut[i].photo.id, at("/glueUp/laidOut", i) + "/photo");
    }
    const std::int64_t largest = largestId(document);
    if (document.nextId <= largest || document.nextId > limits::id + 1) {
        findings.refuse("/nextId", "The next id is " + std::to_string(document.nextId) +
                                       "; it must be above " + std::to_string(largest) +
                                       ", the largest id in the job, and at most " +
                                       std::to_string(limits::id + 1) + '.');
    }
}

void checkInfo(const Document& document, Findings& findings) {
    const JobInfo& info = document.info;
    findings.text("/job/title", "The title", info.title, limits::nameCharacters);
    findings.text("/job/client", "The client", info.client, limits::nameCharacters);
    findings.text("/job/notes", "The note of the job", info.notes, limits::noteCharacters,
                  Findings::Lines::Many);
    findings.text("/job/currency", "The currency", info.currency, limits::markCharacters);
    if (info.inchDenominator != 8 && info.inchDenominator != 16 && info.inchDenominator != 32 &&
        info.inchDenominator != 64) {
        findings.refuse("/job/inchDenominator", "The finest fraction of an inch is 1/" +
                                                    std::to_string(info.inchDenominator) +
                                                    "; it must be 1/8, 1/16, 1/32 or 1/64.");
    }
    for (std::size_t i = 0; i < document.log.size() && findings.ok(); ++i) {
        const LogEntry& entry = document.log[i];
        findings.text(at("/log", i) + "/what", "The log entry", entry.what, limits::noteCharacters,
                      Findings::Lines::Many);
        findings.text(at("/log", i) + "/why", "The reason in the log", entry.why,
                      limits::noteCharacters, Findings::Lines::Many);
    }
}

} // namespace validation

Status validate(const Document& document) {
    validation::Findings findings(document.info.units);
    // How many come first: with those in bounds, nothing below takes long.
    findings.count("/boards", "boards", document.boards.size(), mostBoards);
    findings.count("/parts", "parts", document.parts.size(), limits::parts);
    findings.count("/joints", "joints", document.joints.size(), limits::joints);
    findings.count("/groups", "groups", document.groups.size(), limits::groups);
    findings.count("/boardRules", "rules for boards", document.boardRules.size(),
                   limits::boardRules);
    findings.count("/shop/ruleSets", "rule sets", document.shop.ruleSets.size(), limits::ruleSets);
    for (const auto check :
         {validation::checkIds, validation::checkInfo, validation::checkShop,
          validation::checkBoards, validation::checkParts, validation::checkBoardRules,
          validation::checkPlan, validation::checkGlueUp}) {
        if (findings.ok()) {
            check(document, findings);
        }
    }
    return findings.status();
}

} // namespace stavewright
