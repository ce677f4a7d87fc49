// Where the words on the drawing of a panel stand: off knots and bands, and on their own stave.

#include "core/papers/PanelLabels.h"

#include <gtest/gtest.h>

#include "core/papers/PaperUnits.h"
#include "tests/unit/core/papers/PageChecks.h"

namespace stavewright::papers {
namespace {

constexpr Rect nearStave{10_mm, 40_mm, 130_mm, 54_mm};
constexpr Rect farStave{10_mm, 26_mm, 130_mm, 40_mm};

/// What a text covers, roughly: letters of 8 and 14 points are 2 and 3.6 mm high.
Rect boxOf(const Text& text, Pen& pen) {
    const TextStyle style{text.points, text.weight, text.align, text.ink, text.halo, 0};
    const Length high = text.points > 10 ? Length::micrometres(3600) : 2_mm;
    return {text.at.x, text.at.y - high, text.at.x + pen.widthOf(text.utf8, style), text.at.y};
}

/// Writes both staves with these knots, and expects that no text lies on a knot, on another text or
/// outside the panel.
void expectApart(const std::vector<KnotLabel>& knots) {
    const checks::PlainMeasure measure;
    Page page;
    page.width = 200_mm;
    page.height = 200_mm;
    Pen pen(page, measure);
    PanelLabels(pen).write({{nearStave, "1  T1-1", "board 4, end for end", 1},
                            {farStave, "2  T1-2", "board 5, face over", -1}},
                           knots);
    const auto texts = checks::textsOf(page);
    ASSERT_EQ(texts.size(), 4 + knots.size());
    for (std::size_t i = 0; i < texts.size(); ++i) {
        const Rect box = boxOf(*texts[i], pen);
        EXPECT_TRUE(nearStave.contains(box) || farStave.contains(box)) << texts[i]->utf8;
        for (std::size_t k = i + 1; k < texts.size(); ++k) {
            EXPECT_FALSE(box.overlaps(boxOf(*texts[k], pen)))
                << texts[i]->utf8 << ", " << texts[k]->utf8;
        }
        for (const KnotLabel& knot : knots) {
            EXPECT_FALSE(box.overlaps(knot.knot)) << texts[i]->utf8 << ", " << knot.text;
        }
    }
}

TEST(PanelLabels, StandInTheMiddleWhereNothingIsInTheWay) { expectApart({}); }

TEST(PanelLabels, NamesMakeWayForKnots) {
    expectApart({{{13_mm, 44_mm, 19_mm, 49_mm}, "K1"},
                 {{100_mm, 45_mm, 104_mm, 49_mm}, "S"},
                 {{20_mm, 30_mm, 25_mm, 34_mm}, "K2"}});
}

TEST(PanelLabels, AKnotCutByTheEndOfItsStaveIsNamedOnIt) {
    expectApart({{{10_mm, 45_mm, Length::micrometres(10'300), 49_mm}, "K2"},
                 {{Length::micrometres(129'700), 31_mm, 130_mm, 35_mm}, "K3"}});
}

TEST(PanelLabels, ABandThatIsNoHigherThanANameDoesNotStrikeItOut) {
    expectApart({{{10_mm, 46_mm, 100_mm, 48_mm}, "A"}});
}

} // namespace
} // namespace stavewright::papers
