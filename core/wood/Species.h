#pragma once
// What the program knows of a species: name, weight, movement (each value with its source in
// Species.cpp).

#include <cstdint>
#include <span>
#include <string_view>

namespace stavewright {

struct Species {
    std::string_view key;              ///< stable, as in job files, e.g. "white_oak"
    std::string_view name;             ///< "White oak"
    int densityKgPerM3 = 0;            ///< at 12 % moisture content
    std::int32_t radialMillionths = 0; ///< dimensional change coefficient C_R, per 1 % MC, x 1e6
    std::int32_t tangentialMillionths = 0; ///< C_T x 1e6
    std::uint32_t woodRgb = 0xE4CFA6;      ///< quiet colour of its drawn figure, light theme
};

[[nodiscard]] std::span<const Species> allSpecies();
/// Null for a key that is not in the table.
[[nodiscard]] const Species* findSpecies(std::string_view key);

} // namespace stavewright
