// The species table.
//
// Sources:
//   C1  Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), ch. 13, Table 13-5, p.
//   13-16:
//       dimensional change coefficients for 6 to 14 % moisture content, read. The oaks carry the
//       rows of the commercial groups (red oak, white oak).
//   C2  The same coefficients as reprinted in flooring-trade stability charts (Agriculture Handbook
//   72,
//       rev. 1987; NWFA Technical Publication A200).
//   C3  The worked example of the Wood Handbook, FPL-GTR-190, p. 13-17.
//   G1  Specific gravity of the USDA Forest Inventory and Analysis species table (Miles & Smith
//   2009,
//       Research Note NRS-38), volume at 12 % moisture content.
//   G2  Wood Handbook, FPL-GTR-190, Table 5-3a, p. 5-8.
//   G3  Wood Handbook, FPL-GTR-282 (2021), Table 5-5b, green volume, brought to 12 % by its Eq.
//   4-13.
// Weight is 1000 x specific gravity x 1.12 (Wood Handbook Eq. 4-14): wood with its water.
// These are averages; a board may differ by a tenth and more. The drawn colours are our own.

#include "core/wood/Species.h"

#include <algorithm>
#include <array>

namespace stavewright {

namespace {

// key, name, kg/m3 at 12 %, radial and tangential coefficient x 1e6 per 1 % moisture content,
// colour
constexpr auto species = std::to_array<Species>({
    // Coefficients C1, weight G1.
    {"red_alder", "Red alder", 459, 1510, 2560, 0xDDB58C},
    {"white_ash", "White ash", 672, 1690, 2740, 0xE6D7B8},
    {"black_ash", "Black ash", 549, 1720, 2740, 0xD6C19A},
    {"american_basswood", "American basswood", 414, 2300, 3300, 0xEBDDBF},
    {"american_beech", "American beech", 717, 1900, 4310, 0xE0BE96},
    {"yellow_birch", "Yellow birch", 694, 2560, 3380, 0xE6CFA4},
    {"paper_birch", "Paper birch", 616, 2190, 3040, 0xEBDCB9},
    {"butternut", "Butternut", 426, 1160, 2230, 0xCFB389},
    {"black_cherry", "Black cherry", 560, 1260, 2480, 0xD6A27C},
    {"american_chestnut", "American chestnut", 482, 1160, 2340, 0xCDAE82},
    {"american_elm", "American elm", 560, 1440, 3380, 0xD4B68C},
    {"slippery_elm", "Slippery (red) elm", 594, 1690, 3150, 0xC9A57C},
    {"hackberry", "Hackberry", 594, 1650, 3150, 0xE2D2A6},
    {"pecan", "Pecan hickory", 739, 1690, 3150, 0xD8B88E},
    {"honeylocust", "Honeylocust", 728, 1440, 2300, 0xD9A981},
    {"black_locust", "Black locust", 773, 1580, 2520, 0xCFB872},
    {"sugar_maple", "Sugar (hard) maple", 706, 1650, 3530, 0xEEDFC2},
    {"red_maple", "Red (soft) maple", 605, 1370, 2890, 0xE8D3B2},
    {"silver_maple", "Silver (soft) maple", 526, 1020, 2520, 0xE9D8B9},
    {"bigleaf_maple", "Bigleaf (soft) maple", 538, 1260, 2480, 0xE5CDAA},
    {"red_oak", "Northern red oak", 706, 1580, 3690, 0xDDB78F},
    {"white_oak", "White oak", 762, 1800, 3650, 0xDCC298},
    {"bur_oak", "Bur oak", 717, 1800, 3650, 0xD3B88C},
    {"common_persimmon", "Common persimmon", 829, 2780, 4030, 0xE1CBA6},
    {"sassafras", "Sassafras", 515, 1370, 2160, 0xD2B184},
    {"sweetgum", "Sweetgum", 582, 1830, 3650, 0xD3AC8A},
    {"american_sycamore", "American sycamore", 549, 1720, 2960, 0xDFBD9C},
    {"black_walnut", "Black walnut", 616, 1900, 2740, 0xB08D6C},
    // Coefficients C2 (tangential read in reprints, radial from memory), weight G1.
    {"shagbark_hickory", "Shagbark hickory", 806, 2590, 4110, 0xDCBE92},
    {"douglas_fir", "Douglas-fir, coast", 538, 1650, 2670, 0xE0B183},
    // Coefficients C3 (radial read; tangential from memory, implied by the printed result), weight
    // G1.
    {"white_fir", "White fir", 437, 1120, 2450, 0xEEDFBE},
    // Coefficients of table C1 from memory, weight G1.
    {"yellow_poplar", "Yellow-poplar", 470, 1580, 2890, 0xDAD3A6},
    {"baldcypress", "Baldcypress", 515, 1300, 2160, 0xE0C48F},
    {"western_redcedar", "Western redcedar", 358, 1110, 2340, 0xCB9D79},
    {"eastern_white_pine", "Eastern white pine", 392, 710, 2120, 0xF0DCAE},
    {"sitka_spruce", "Sitka spruce", 403, 1480, 2630, 0xEAD3AC},
    // Coefficients of table C1 from memory, weight G2.
    {"ponderosa_pine", "Ponderosa pine", 448, 1330, 2160, 0xEED5A3},
    // Coefficients of table C1 and weight from memory.
    {"eastern_redcedar", "Eastern redcedar", 526, 1060, 1620, 0xD39A84},
    // Coefficients of table C1 from memory, weight G3.
    {"true_mahogany", "True mahogany", 538, 1720, 2380, 0xC68F69},
    {"african_mahogany", "African mahogany", 504, 1410, 2010, 0xCB9673},
    // Coefficients C2 (tangential read in reprints, radial from memory), weight G3.
    {"teak", "Teak", 672, 1010, 1860, 0xC79F65},
    // Coefficients derived: C = 1/(3000/S - 20) from shrinkage S of 4.6 % and 7.4 %, S from memory;
    // weight G3.
    {"sapele", "Sapele", 672, 1580, 2590, 0xBD8263},
});

} // namespace

std::span<const Species> allSpecies() { return species; }

const Species* findSpecies(std::string_view key) {
    const auto found = std::find_if(species.begin(), species.end(),
                                    [&](const Species& s) { return s.key == key; });
    return found == species.end() ? nullptr : &*found;
}

} // namespace stavewright
