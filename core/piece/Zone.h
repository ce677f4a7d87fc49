#pragma once
// Zones say what each region of a finished part tolerates; rule sets say it per kind of defect.

#include <array>
#include <map>
#include <optional>
#include <string>

#include "core/base/Id.h"
#include "core/geometry/Shapes.h"
#include "core/lumber/Defect.h"

namespace stavewright {

enum class Verdict { Allowed, AllowedIfFilled, Forbidden };

/// What a zone says to one kind of defect. Up to `largest` the verdict holds, above it the defect
/// is forbidden; no `largest` means any size.
struct DefectRule {
    Verdict verdict = Verdict::Forbidden;
    std::optional<Length> largest;
    friend bool operator==(const DefectRule&, const DefectRule&) = default;
};

/// How much wood round a knot counts as the knot, because its grain is disturbed: the larger of
/// `least` and a share of the knot's size, in hundredths (100 = one diameter).
struct Halo {
    int alongHundredths = 0;
    int acrossHundredths = 0;
    Length leastAlong;
    Length leastAcross;
    friend bool operator==(const Halo&, const Halo&) = default;
};

struct RuleSet {
    RuleSetId id;
    std::string name; ///< e.g. "Show face", "Joint", "Glued edge"
    std::array<DefectRule, allDefectKinds.size()> rules; ///< by DefectKind
    Halo halo;                                           ///< round knots, holes and bark pockets
    [[nodiscard]] const DefectRule& ruleFor(DefectKind kind) const {
        return rules[static_cast<std::size_t>(kind)];
    }
    friend bool operator==(const RuleSet&, const RuleSet&) = default;
};

/// A position along one dimension of a part, measured from its low or its high end, so that zones
/// keep their meaning when sizes change: {High, -3.5 in} is 3 1/2 in before the far end.
struct Anchored {
    enum class From { Low, High };
    From from = From::Low;
    Length offset;
    [[nodiscard]] constexpr Length in(Length extent) const {
        return from == From::Low ? offset : extent + offset;
    }
    friend constexpr bool operator==(const Anchored&, const Anchored&) = default;
};

struct AnchoredStretch {
    Anchored from{Anchored::From::Low, Length()};
    Anchored to{Anchored::From::High, Length()};
    [[nodiscard]] constexpr Stretch in(Length extent) const {
        return {from.in(extent), to.in(extent)};
    }
    friend constexpr bool operator==(const AnchoredStretch&, const AnchoredStretch&) = default;
};

/// Faces of a part. Face A of a part is its show face where it has one; B lies opposite.
enum class ZoneFaces { A, B, Both };

/// A region of a finished part. Part frame: x along its length, y across its width from the near
/// edge.
struct ZoneArea {
    ZoneFaces faces = ZoneFaces::Both;
    AnchoredStretch along;
    AnchoredStretch across;
    friend bool operator==(const ZoneArea&, const ZoneArea&) = default;
};

enum class ZoneRole { ShowFace, HiddenFace, JoineryEnd, GluedEdge, ProfiledEdge };

struct Zone {
    ZoneId id;
    std::string name; ///< e.g. "top face", "pocket end"
    ZoneRole role = ZoneRole::ShowFace;
    ZoneArea area;
    RuleSetId rules;
    friend bool operator==(const Zone&, const Zone&) = default;
};

} // namespace stavewright
