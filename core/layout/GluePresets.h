#pragma once
// What glue-up begins with in a shop of either unit, in its own round figures. Weights and
// moisture are the same in both.

#include "core/layout/GlueUp.h"
#include "core/units/LengthText.h"

namespace stavewright {

[[nodiscard]] inline GlueSettings glueSettingsFor(UnitSystem units) {
    GlueSettings settings; // as they stand there: inches
    if (units == UnitSystem::Millimetres) {
        // The same practice in round metric figures (common practice, no source).
        settings.mostCup = Length::micrometres(1500);
        settings.knotClear = Length::millimetres(12);
        settings.knotsApart = Length::millimetres(200);
        settings.narrow = Length::millimetres(75);
        settings.caul = Length::millimetres(20);
        // 0.70 N/mm²: 700 kPa, what low-density woods want at least (Wood Handbook, chapter 10,
        // on bonding pressure); joints that fit want no more.
        settings.leastPsi = 102;
    }
    return settings;
}

} // namespace stavewright
