// What the program takes for an inch, a foot and a board foot, against the bodies that define them.
#include "core/units/LengthText.h"
#include "core/units/Measure.h"

#include <gtest/gtest.h>

namespace stavewright {
namespace {

// Source (from memory): National Bureau of Standards, "Refinement of Values for the Yard and the
// Pound", Federal Register, 1 July 1959: 1 yard = 0.9144 m, so 1 inch = 25.4 mm exactly.
TEST(PublishedUnits, TheInternationalYard) {
    EXPECT_EQ(parseLength("36 in", UnitSystem::Millimetres).value(), Length::micrometres(914'400));
    EXPECT_EQ(parseLength("3 ft", UnitSystem::Millimetres).value(), Length::micrometres(914'400));
    EXPECT_EQ(parseLength("1 in", UnitSystem::Millimetres).value(), Length::micrometres(25'400));
}

// Source: Wood Handbook FPL-GTR-190, p. 13-17 (worked example printed in both units): a board of
// 232 mm or 9.15 in grows to 233.7 mm or 9.217 in; the pairs agree within half a millimetre.
TEST(PublishedUnits, TheHandbookBoardInBothUnits) {
    EXPECT_NEAR(parseLength("9.15 in", UnitSystem::Inches).value().toMillimetres(), 232, 0.5);
    EXPECT_NEAR(parseLength("9.217 in", UnitSystem::Inches).value().toMillimetres(), 233.7, 0.5);
}

// Source: National Hardwood Lumber Association, Rules for the Measurement and Inspection of
// Hardwood and Cypress: a board foot is one foot long, one foot wide and one inch thick.
TEST(PublishedUnits, TheBoardFoot) {
    EXPECT_EQ(BoardFeet::ofVolume(Length::inches(12) * Length::inches(12) * Length::inches(1)),
              BoardFeet::whole(1));
}

} // namespace
} // namespace stavewright
