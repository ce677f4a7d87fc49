#pragma once
// From the document's values to JSON, one source file for each group. Every key is written, also
// where the value is the default; what is not there (an optional) has no key.

#include <nlohmann/json.hpp>

#include "core/document/Document.h"
#include "core/job/Words.h"

namespace stavewright::job {

using Json = nlohmann::json; // its objects are sorted by key

inline Json toJson(bool value) { return value; }
inline Json toJson(int value) { return value; }
inline Json toJson(std::int64_t value) { return value; }
inline Json toJson(std::uint64_t value) { return value; }
inline Json toJson(const std::string& value) { return value; }
inline Json toJson(Length value) { return value.inNanometres(); }
inline Json toJson(Money value) { return value.inTenThousandths(); }
inline Json toJson(BoardFeet value) { return value.inMillionths(); }
inline Json toJson(const Point& value) { return {toJson(value.x), toJson(value.y)}; }
inline Json toJson(const Stretch& value) { return {toJson(value.from), toJson(value.to)}; }
inline Json toJson(const Rect& value) {
    return {toJson(value.x0), toJson(value.y0), toJson(value.x1), toJson(value.y1)};
}
template <class Tag>
Json toJson(const Id<Tag>& id) {
    return id.value;
}
template <class Enum>
requires requires { Words<Enum>::what; }
Json toJson(Enum value) { return std::string(wordOf(value)); }
// Declared before the list writer, which must see them all.
// Board.cpp
Json toJson(const Warp& warp);
Json toJson(const LookedAt& lookedAt);
Json toJson(const SawnRegion& region);
Json toJson(const Ellipse& ellipse);
Json toJson(const FaceMark& mark);
Json toJson(const Defect& defect);
Json toJson(const BoardParent& parent);
Json toJson(const RackLink& link);
Json toJson(const photo::PhotoPoint& point);
Json toJson(const photo::CornerMark& mark);
Json toJson(const photo::TapeReading& mark);
Json toJson(const photo::EdgeMark& mark);
Json toJson(const photo::SpotMark& mark);
Json toJson(const BoardPhoto& photo);
Json toJson(const Board& board);
// Part.cpp
Json toJson(const LeanTerm& term);
Json toJson(const Size& size);
Json toJson(const LaminationMakeUp& lamination);
Json toJson(const PanelMakeUp& panel);
Json toJson(const MakeUp& makeUp);
Json toJson(const Anchored& anchored);
Json toJson(const AnchoredStretch& stretch);
Json toJson(const Zone& zone);
Json toJson(const JointSide& side);
Json toJson(const ZoneArea& area);
Json toJson(const Part& part);
Json toJson(const Joint& joint);
Json toJson(const MatchGroup& group);
// Shop.cpp
Json toJson(const Saw& saw);
Json toJson(const Machines& machines);
Json toJson(const StageAllowance& allowance);
Json toJson(const Chains& chains);
Json toJson(const OffcutRule& rule);
Json toJson(const Prices& prices);
Json toJson(const DefectRule& rule);
Json toJson(const Halo& halo);
Json toJson(const RuleSet& ruleSet);
Json toJson(const Shop& shop);
// Plan.cpp
Json toJson(const Blank& blank);
Json toJson(const Offcut& offcut);
Json toJson(const Strip& strip);
Json toJson(const Frame& frame);
Json toJson(const Section& section);
Json toJson(const BoardLayout& layout);
Json toJson(const ThicknessChoice& choice);
Json toJson(const Unplaced& unplaced);
Json toJson(const PlanTotals& totals);
Json toJson(const Proof& proof);
Json toJson(const Origin& origin);
Json toJson(const Plan& plan);
void putPose(Json& json, Pose pose); ///< among the keys of what lies so
// GlueUp.cpp
Json toJson(const GlueSettings& settings);
Json toJson(const PanelName& name);
Json toJson(const GluedStave& stave);
Json toJson(const PanelArrangement& panel);
Json toJson(const LaidStave& stave);
Json toJson(const JointLie& lie);
Json toJson(const LaidOut& laid);
Json toJson(const GlueUp& glueUp);
// Document.cpp
Json toJson(const JobInfo& info);
Json toJson(const LogEntry& entry);
Json toJson(const BoardRule& rule);

template <class T>
Json toJson(const std::vector<T>& values) {
    Json list = Json::array();
    for (const T& value : values) {
        list.push_back(toJson(value));
    }
    return list;
}

/// object[key] = the value, unless there is none.
template <class T>
void putIfSet(Json& object, const char* key, const std::optional<T>& value) {
    if (value) {
        object[key] = toJson(*value);
    }
}

/// With the format version.
Json documentToJson(const Document& document);

/// Two-space indent and a final newline; lists of plain numbers stand on one line.
[[nodiscard]] std::string canonicalText(const Json& json);

} // namespace stavewright::job
