#include "core/job/write/Writers.h"

#include "core/job/JobFile.h"
#include "core/layout/GluePresets.h"

namespace stavewright::job {

Json toJson(const JobInfo& info) {
    return {{"title", toJson(info.title)},
            {"client", toJson(info.client)},
            {"notes", toJson(info.notes)},
            {"units", toJson(info.units)},
            {"inchDenominator", toJson(info.inchDenominator)},
            {"currency", toJson(info.currency)}};
}

Json toJson(const LogEntry& entry) {
    return {{"time", toJson(entry.time)}, {"what", toJson(entry.what)}, {"why", toJson(entry.why)}};
}

Json toJson(const BoardRule& rule) {
    Json json{
        {"kind", toJson(rule.kind)}, {"board", toJson(rule.board)}, {"part", toJson(rule.part)}};
    putIfSet(json, "along", rule.along);
    return json;
}

Json documentToJson(const Document& document) {
    Json json{{"formatVersion", jobFormatVersion}, {"job", toJson(document.info)},
              {"shop", toJson(document.shop)},     {"boards", toJson(document.boards)},
              {"parts", toJson(document.parts)},   {"joints", toJson(document.joints)},
              {"groups", toJson(document.groups)}, {"log", toJson(document.log)},
              {"nextId", toJson(document.nextId)}};
    putIfSet(json, "plan", document.plan);
    if (!document.boardRules.empty()) {
        json["boardRules"] = toJson(document.boardRules);
    }
    const GlueUp untouched{glueSettingsFor(document.info.units), {}, {}};
    if (document.glueUp != untouched) {
        json["glueUp"] = toJson(document.glueUp);
    }
    return json;
}

} // namespace stavewright::job
