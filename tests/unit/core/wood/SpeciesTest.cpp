// The species table: complete, plausible, readable. Its values are checked in tests/published.
#include "core/wood/Species.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include <gtest/gtest.h>

namespace stavewright {
namespace {

TEST(Species, HasACabinetMakersWoods) {
    EXPECT_GE(allSpecies().size(), 20U);
    for (const char* key : {"white_oak", "red_oak", "white_ash", "sugar_maple", "black_cherry",
                            "black_walnut", "american_beech", "yellow_birch", "yellow_poplar"}) {
        EXPECT_NE(findSpecies(key), nullptr) << key;
    }
}

TEST(Species, UnknownKeysAreNull) {
    EXPECT_EQ(findSpecies(""), nullptr);
    EXPECT_EQ(findSpecies("White oak"), nullptr);
    EXPECT_EQ(findSpecies("plywood"), nullptr);
}

TEST(Species, KeysAreUniqueAndPlain) {
    std::set<std::string> keys;
    for (const Species& species : allSpecies()) {
        EXPECT_TRUE(keys.emplace(species.key).second) << species.key;
        EXPECT_TRUE(std::all_of(species.key.begin(), species.key.end(), [](char c) {
            return (c >= 'a' && c <= 'z') || c == '_';
        })) << species.key;
        EXPECT_FALSE(species.name.empty());
        EXPECT_EQ(findSpecies(species.key), &species);
    }
}

// Radial movement is the smaller one in every wood of the handbook's Table 4-3; the handbook's
// woods at 12 % lie between about 300 and 1000 kg/m3.
TEST(Species, ValuesAreOfAWood) {
    for (const Species& species : allSpecies()) {
        EXPECT_GT(species.radialMillionths, 500) << species.key;
        EXPECT_LT(species.radialMillionths, species.tangentialMillionths) << species.key;
        EXPECT_LT(species.tangentialMillionths, 5000) << species.key;
        EXPECT_GT(species.densityKgPerM3, 300) << species.key;
        EXPECT_LT(species.densityKgPerM3, 1000) << species.key;
    }
}

double luminance(std::uint32_t rgb) { // relative luminance, WCAG 2.1
    const auto linear = [&](unsigned shift) {
        const double channel = ((rgb >> shift) & 0xFFU) / 255.0;
        return channel <= 0.04045 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(16) + 0.7152 * linear(8) + 0.0722 * linear(0);
}

// Contrast of dark ink (#23211D) on the wood, WCAG 2.1: 4.5 is asked of text.
TEST(Species, LettersReadOnEveryWood) {
    for (const Species& species : allSpecies()) {
        const double ratio = (luminance(species.woodRgb) + 0.05) / (luminance(0x23211D) + 0.05);
        EXPECT_GE(ratio, 4.5) << species.key;
    }
}

} // namespace
} // namespace stavewright
