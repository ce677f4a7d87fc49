#pragma once
// Stable identities of the things in a document. Each kind has its own type, so that a board's id
// cannot be given where a part's is asked for. Ids are positive and unique within one document
// (one counter serves all kinds); 0 means "none yet" and never stands in a file.

#include <compare>
#include <cstdint>
#include <functional>

namespace stavewright {

template <class Tag>
struct Id {
    std::int64_t value = 0;

    [[nodiscard]] constexpr bool isSet() const { return value > 0; }
    friend constexpr auto operator<=>(const Id&, const Id&) = default;
};

using BoardId = Id<struct BoardTag>;
using DefectId = Id<struct DefectTag>;
using PartId = Id<struct PartTag>;
using ZoneId = Id<struct ZoneTag>;
using JointId = Id<struct JointTag>;
using GroupId = Id<struct GroupTag>;
using RuleSetId = Id<struct RuleSetTag>;
using SectionId = Id<struct SectionTag>;
using StripId = Id<struct StripTag>;
using BlankId = Id<struct BlankTag>;
using OffcutId = Id<struct OffcutTag>;

} // namespace stavewright

template <class Tag>
struct std::hash<stavewright::Id<Tag>> {
    std::size_t operator()(const stavewright::Id<Tag>& id) const noexcept {
        return std::hash<std::int64_t>{}(id.value);
    }
};
