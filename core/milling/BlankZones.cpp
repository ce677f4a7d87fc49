#include "core/milling/BlankZones.h"

#include <algorithm>
#include <string>

#include "core/milling/PartZones.h"
#include "core/shop/Presets.h"

namespace stavewright {

namespace {

/// A zone still in the part's frame, on one face.
struct PartZone {
    BoardFace face = BoardFace::A;
    ZoneArea area;
    RuleSetId rules;
    std::string name;
    bool shows = false;
};

bool isOn(ZoneFaces faces, BoardFace face) {
    return faces == ZoneFaces::Both || (faces == ZoneFaces::A) == (face == BoardFace::A);
}

constexpr std::array<BoardFace, 2> bothFaces = {BoardFace::A, BoardFace::B};

/// The part's own zones, or the shop's defaults where it has none, and the zones of its joints.
std::vector<PartZone> zonesOfPart(const Document& document, const Part& part) {
    std::vector<PartZone> zones;
    for (const Zone& zone : zonesOrDefaults(document.shop, part)) {
        for (const BoardFace face : bothFaces) {
            if (isOn(zone.area.faces, face)) {
                zones.push_back(
                    {face, zone.area, zone.rules, zone.name, zone.role == ZoneRole::ShowFace});
            }
        }
    }
    for (const Joint& joint : document.joints) {
        for (const JointSide& side : joint.sides) {
            if (side.part != part.id) {
                continue;
            }
            for (const BoardFace face : bothFaces) {
                if (isOn(side.area.faces, face)) {
                    zones.push_back({face, side.area, joint.rules, joint.name, false});
                }
            }
        }
    }
    return zones;
}

Anchored fromLow(Length offset) { return {Anchored::From::Low, offset}; }

Stretch within(const AnchoredStretch& stretch, Length extent) {
    const Stretch at = stretch.in(extent);
    return {std::max(at.from, Length()), std::min(at.to, extent)};
}

class Mover {
  public:
    Mover(const PartInBlank& place, std::vector<BlankZone>& zones)
        : m_place(place)
        , m_zones(zones) {}

    void move(const PartZone& zone) const {
        const Stretch across = within(zone.area.across, m_place.partWidth);
        const Stretch along = within(zone.area.along, m_place.partLength);
        if (across.to <= across.from || along.to <= along.from) {
            return;
        }
        if (m_place.jointAllowance) {
            const Length line = *m_place.jointAllowance / 2;
            addToEachPart(zone, along, {fromLow(line), {Anchored::From::High, -line}});
            return;
        }
        // The finished part lies in the middle of the blank's width.
        const Length edge = (m_place.blankWidth - m_place.partWidth) / 2;
        addToEachPart(zone, along, {fromLow(edge + across.from), fromLow(edge + across.to)});
    }

    /// The same stretch on each part of a multiple.
    void addToEachPart(const PartZone& zone, Stretch along, const AnchoredStretch& across) const {
        for (int i = 0; i < m_place.parts; ++i) {
            const Length at = m_place.firstAt + m_place.pitch * i;
            m_zones.push_back({zone.face,
                               {fromLow(at + along.from), fromLow(at + along.to)},
                               across,
                               zone.rules,
                               zone.name,
                               zone.shows});
        }
    }

  private:
    const PartInBlank& m_place;
    std::vector<BlankZone>& m_zones;
};

} // namespace

std::vector<BlankZone> blankZones(const Document& document, const Part& part,
                                  const PartInBlank& place) {
    std::vector<BlankZone> zones;
    const Mover mover(place, zones);
    for (const PartZone& zone : zonesOfPart(document, part)) {
        if (zone.face == BoardFace::A ? place.outerA : place.outerB) {
            mover.move(zone);
        }
    }
    for (const BoardFace face : bothFaces) {
        const bool outer = face == BoardFace::A ? place.outerA : place.outerB;
        if (!outer && findRuleSet(document.shop, presetRules::glueFace)) {
            mover.move({face, {}, presetRules::glueFace, "glue face", false});
        }
    }
    if (place.jointAllowance && findRuleSet(document.shop, presetRules::gluedEdge)) {
        // From the rough edge to the glue line: the rule set's halo keeps knots clear of the line.
        const Length line = *place.jointAllowance / 2;
        const Stretch whole{Length(), place.partLength};
        for (const BoardFace face : bothFaces) {
            const PartZone zone{face, {}, presetRules::gluedEdge, "glued edge", false};
            mover.addToEachPart(zone, whole, {fromLow(Length()), fromLow(line)});
            mover.addToEachPart(zone, whole,
                                {{Anchored::From::High, -line}, {Anchored::From::High, Length()}});
        }
    }
    return zones;
}

} // namespace stavewright
