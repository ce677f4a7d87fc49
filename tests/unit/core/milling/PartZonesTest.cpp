#include "core/milling/PartZones.h"

#include <gtest/gtest.h>

#include "core/shop/Presets.h"

namespace stavewright {
namespace {

TEST(PartZones, WithoutAnyOfItsOwnFaceAShowsAndFaceBIsHidden) {
    const std::vector<Zone> zones = zonesOrDefaults(inchShop(), Part{});
    ASSERT_EQ(zones.size(), 2U);
    EXPECT_EQ(zones[0].role, ZoneRole::ShowFace);
    EXPECT_EQ(zones[0].rules, presetRules::showFace);
    EXPECT_EQ(zones[0].area.faces, ZoneFaces::A);
    EXPECT_EQ(zones[1].role, ZoneRole::HiddenFace);
    EXPECT_EQ(zones[1].rules, presetRules::hiddenFace);
    EXPECT_EQ(zones[1].area.faces, ZoneFaces::B);
    for (const Zone& zone : zones) {
        EXPECT_EQ(zone.area.along, AnchoredStretch{});
        EXPECT_EQ(zone.area.across, AnchoredStretch{});
    }
}

TEST(PartZones, OneOfItsOwnTakesThePlaceOfBoth) {
    Part part;
    part.zones = {{ZoneId{9}, "pocket end", ZoneRole::JoineryEnd, {}, presetRules::joint}};
    EXPECT_EQ(zonesOrDefaults(inchShop(), part), part.zones);
}

TEST(PartZones, DefaultsOnlyAsFarAsTheShopHasTheirRules) {
    Shop shop = inchShop();
    std::erase_if(shop.ruleSets,
                  [](const RuleSet& rules) { return rules.id == presetRules::hiddenFace; });
    ASSERT_EQ(zonesOrDefaults(shop, Part{}).size(), 1U);
    shop.ruleSets.clear();
    EXPECT_TRUE(zonesOrDefaults(shop, Part{}).empty());
}

} // namespace
} // namespace stavewright
