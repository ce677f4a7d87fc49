#include "core/milling/PartZones.h"

#include "core/shop/Presets.h"

namespace stavewright {

std::vector<Zone> zonesOrDefaults(const Shop& shop, const Part& part) {
    if (!part.zones.empty()) {
        return part.zones;
    }
    std::vector<Zone> zones;
    const auto add = [&](ZoneFaces faces, RuleSetId rules, const char* name, ZoneRole role) {
        if (findRuleSet(shop, rules) != nullptr) {
            ZoneArea area;
            area.faces = faces;
            zones.push_back({ZoneId(), name, role, area, rules});
        }
    };
    add(ZoneFaces::A, presetRules::showFace, "show face", ZoneRole::ShowFace);
    add(ZoneFaces::B, presetRules::hiddenFace, "hidden face", ZoneRole::HiddenFace);
    return zones;
}

} // namespace stavewright
