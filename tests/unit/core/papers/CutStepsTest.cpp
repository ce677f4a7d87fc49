#include "core/papers/CutSteps.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/unit/core/papers/PaperJob.h"

namespace stavewright::papers {
namespace {

using sample::in;

class CutStepsOfTheSample : public testing::Test {
  protected:
    BoardCuts cuts(std::size_t board) {
        return cutsOf(m_document, m_specs, m_document.plan->boards[board]);
    }

    Document m_document = sample::makeJob();
    std::vector<BlankSpec> m_specs = sample::makeSpecs();
};

TEST_F(CutStepsOfTheSample, readingsAreTheSectionsEndsFromTheDatumEnd) {
    const BoardCuts straight = cuts(0);
    ASSERT_EQ(straight.crosscuts.size(), 5U);
    EXPECT_EQ(straight.crosscuts[0].reading, in(1, 1, 2));
    EXPECT_EQ(straight.crosscuts[0].blade, Blade::TowardsDatum);
    // 1a ends at 31 1/2 and 1b starts one kerf further on: one cut, with the kerf beyond the line.
    EXPECT_EQ(straight.crosscuts[1].reading, in(31, 1, 2));
    EXPECT_EQ(straight.crosscuts[1].blade, Blade::AwayFromDatum);
    EXPECT_EQ(straight.crosscuts[1].ends, 0U);
    EXPECT_EQ(straight.crosscuts[1].starts, 1U);
    EXPECT_EQ(straight.crosscuts[1].startReading, in(31, 5, 8));
    EXPECT_EQ(straight.crosscuts[2].reading, in(61, 5, 8));
    EXPECT_EQ(straight.crosscuts[3].reading, in(66));
    EXPECT_EQ(straight.crosscuts[3].blade, Blade::TowardsDatum);
    EXPECT_EQ(straight.crosscuts[4].reading, in(90));
}

TEST_F(CutStepsOfTheSample, everySectionEndIsACutOrTheBoardsOwnEnd) {
    for (std::size_t board = 0; board < 2; ++board) {
        const BoardCuts all = cuts(board);
        for (std::size_t i = 1; i < all.crosscuts.size(); ++i) {
            EXPECT_LT(all.crosscuts[i - 1].reading, all.crosscuts[i].reading);
        }
        for (std::size_t i = 0; i < all.sections.size(); ++i) {
            const auto marks = [&](auto wanted) {
                return std::count_if(all.crosscuts.begin(), all.crosscuts.end(), wanted);
            };
            const Stretch along = all.sections[i].section->along;
            EXPECT_EQ(1, marks([&](const CrosscutMark& m) {
                          return m.ends == i && m.reading == along.to;
                      }));
            EXPECT_EQ(1, marks([&](const CrosscutMark& m) {
                          return m.starts == i && m.startReading == along.from;
                      }));
        }
    }
}

TEST_F(CutStepsOfTheSample, aSectionFlushWithTheBoardsEndNeedsNoCutThere) {
    m_document.plan->boards[0].sections[0].along.from = Length();
    EXPECT_EQ(cuts(0).crosscuts.front().ends, 0U);
}

TEST_F(CutStepsOfTheSample, aKerfOneNanometreOffIsTwoCuts) {
    Section& second = m_document.plan->boards[0].sections[1];
    second.along.from += Length::nanometres(1);
    EXPECT_EQ(cuts(0).crosscuts.size(), 6U);
}

TEST_F(CutStepsOfTheSample, fenceSettingsAreTheStripsWidthsWithWasteBetween) {
    const BoardCuts straight = cuts(0);
    const std::vector<RipPass>& rips = straight.sections[1].rips;
    ASSERT_EQ(rips.size(), 3U);
    EXPECT_EQ(rips[0].width, in(3, 1, 4));
    // 5/8 in all lies before the second strip, too narrow to be ripped off on its own: it stays on
    // the strip, which is then turned and ripped to its own width.
    EXPECT_EQ(rips[1].kind, RipPass::Kind::WithSliver);
    EXPECT_EQ(rips[1].width, in(3, 7, 8));
    EXPECT_EQ(rips[2].kind, RipPass::Kind::OffSliver);
    EXPECT_EQ(rips[2].width, in(3, 1, 4));
    const Stretch second = m_document.plan->boards[0].sections[1].strips[1].across;
    EXPECT_EQ(rips[0].width + m_document.shop.machines.rip.kerf + rips[1].width, second.to);
    EXPECT_EQ(rips[1].cutsAt(), second.to);
    EXPECT_EQ(rips[2].cutsAt(), second.from);
}

TEST_F(CutStepsOfTheSample, aSliverThatIsOffAlreadyIsNoPass) {
    Strip& second = m_document.plan->boards[0].sections[1].strips[1];
    second.highEdgeRipped = true;
    {
        const BoardCuts straight = cuts(0);
        const std::vector<RipPass>& rips = straight.sections[1].rips;
        ASSERT_EQ(rips.size(), 3U);
        EXPECT_TRUE(rips[1].isMade);
        EXPECT_FALSE(rips[2].isMade);
    }
    second.highEdgeRipped = false;
    second.lowEdgeRipped = true;
    {
        const BoardCuts straight = cuts(0);
        const std::vector<RipPass>& rips = straight.sections[1].rips;
        ASSERT_EQ(rips.size(), 2U);
        EXPECT_EQ(rips[1].kind, RipPass::Kind::Strip);
        EXPECT_EQ(rips[1].width, in(3, 1, 4));
        EXPECT_FALSE(rips[1].isMade);
    }
    second.blanks[0].state = CutState::Ripped;
    EXPECT_TRUE(cuts(0).sections[1].rips[1].isMade);
}

/// The band saw takes less than the plan leaves between strips for the table saw.
TEST_F(CutStepsOfTheSample, whatIsTooLittleForAPassStaysOnTheStripBesideIt) {
    Section& section = m_document.plan->boards[1].sections[0];
    ASSERT_EQ(section.facing, FirstFacing::RoughRippedFirst);
    section.strips[1].across.from = section.strips[0].across.to + in(0, 1, 8);
    const BoardCuts tapered = cuts(1);
    const std::vector<RipPass>& rips = tapered.sections[0].rips;
    ASSERT_EQ(rips.size(), 2U);
    const Length kerf = m_document.shop.machines.roughRip.kerf;
    EXPECT_EQ(rips[1].over, in(0, 1, 8) - kerf);
    EXPECT_EQ(rips[0].width + kerf + rips[1].width, section.strips[1].across.to);
    section.strips[1].lowEdgeRipped = true;
    EXPECT_EQ(cuts(1).sections[0].rips[1].width, section.strips[1].across.length());
}

TEST_F(CutStepsOfTheSample, wideWasteBetweenStripsIsRippedOffWithItsKerfCounted) {
    Strip& upper = m_document.plan->boards[0].sections[1].strips[1];
    upper.across = {in(5), in(8, 1, 4)};
    upper.blanks[0].rect = {in(0), in(5), in(30), in(8, 1, 4)};
    const BoardCuts straight = cuts(0);
    const RipPass& waste = straight.sections[1].rips[1];
    EXPECT_EQ(waste.kind, RipPass::Kind::Waste);
    // From 3 1/4 + 1/8 to 5, less the kerf of the cut that frees the waste.
    EXPECT_EQ(waste.width, in(1, 1, 2));
}

TEST_F(CutStepsOfTheSample, aKeptOffcutBetweenStripsIsRippedOffByItsNameAndNotAsWaste) {
    Section& section = m_document.plan->boards[0].sections[1];
    Strip& upper = section.strips[1];
    upper.across = {in(5), in(8, 1, 4)};
    upper.blanks[0].rect = {in(0), in(5), in(30), in(8, 1, 4)};
    section.offcuts = {
        {OffcutId{90}, {in(0), in(3, 3, 8), in(30), in(4, 7, 8)}, CutState::Planned}};
    const BoardCuts straight = cuts(0);
    const RipPass& pass = straight.sections[1].rips[1];
    EXPECT_EQ(pass.kind, RipPass::Kind::Kept);
    EXPECT_EQ(pass.width, in(1, 1, 2));
    EXPECT_EQ(pass.keeps, "Keep 1");
    ASSERT_EQ(straight.sections[1].kept.size(), 1U);
    EXPECT_EQ(straight.sections[1].kept[0].name, "Keep 1");
    // A hair over the edge, as in a frame at an angle.
    section.offcuts[0].rect.y1 += Length::nanometres(1010);
    EXPECT_EQ(cuts(0).sections[1].rips[1].kind, RipPass::Kind::Kept);
    // Above the last strip it falls off by itself and needs no pass.
    section.offcuts[0].rect = {in(0), in(8, 3, 8), in(30), in(8, 7, 8)};
    EXPECT_EQ(cuts(0).sections[1].rips[1].kind, RipPass::Kind::Waste);
}

TEST_F(CutStepsOfTheSample, keptOffcutsAreCountedOverTheBoard) {
    Section& first = m_document.plan->boards[1].sections[0];
    first.offcuts = {{OffcutId{90}, {in(0), in(6), in(30), in(7)}, CutState::Planned}};
    const BoardCuts tapered = cuts(1);
    EXPECT_EQ(tapered.sections[0].strips[1].kept.front().name, "Keep 1");
    EXPECT_EQ(tapered.sections[0].kept.front().name, "Keep 2");
}

TEST_F(CutStepsOfTheSample, aMultipleIsNamedByAllItsParts) {
    m_document.parts[1].perBlank = 2;
    EXPECT_EQ(cuts(1).sections[0].strips[1].blanks[0].label, "C1, C2");
}

TEST_F(CutStepsOfTheSample, stripReadingsCountFromTheStripsEnd) {
    const BoardCuts tapered = cuts(1);
    const StripCuts& rails = tapered.sections[0].strips[0];
    ASSERT_EQ(rails.crosscuts.size(), 3U);
    EXPECT_EQ(rails.crosscuts[1].starts, 1U);
    // One kerf between the rails, exactly, though the frame is turned.
    EXPECT_EQ(rails.crosscuts[1].startReading - rails.crosscuts[1].reading,
              m_document.shop.machines.stripCrosscut.kerf);
    // The frame's origin is the strip's corner to within the skew of a 1 in 48 taper over 3 1/2 in.
    EXPECT_LE(abs(rails.crosscuts[0].reading - in(0, 1, 4)), in(3, 1, 2) / 48 + in(0, 1, 64));
}

TEST_F(CutStepsOfTheSample, aStripOfOneWholeBlankIsNotCrosscut) {
    EXPECT_TRUE(cuts(0).sections[0].strips[0].crosscuts.empty());
}

TEST_F(CutStepsOfTheSample, aStripHardlyOutOfSquareIsNotCutForThat) {
    // As long as its section, which stands at 1 in 960: under 1/32 over the width of the strip.
    Section& section = m_document.plan->boards[0].sections[0];
    section.frame.run = Length::nanometres(960);
    section.frame.rise = Length::nanometres(1);
    Rect& wood = section.strips[0].blanks[0].rect;
    wood = {Length::nanometres(1000), wood.y0, in(30) + Length::nanometres(1000), wood.y1};
    EXPECT_TRUE(cuts(0).sections[0].strips[0].crosscuts.empty());
    EXPECT_FALSE(cuts(0).sections[0].strips[0].isSquared);
    // Ten times that slant is squared, and takes what the strip's corner stands out.
    section.frame.run = Length::nanometres(96);
    wood = {in(0, 1, 16), wood.y0, in(29, 15, 16), wood.y1};
    const BoardCuts straight = cuts(0);
    EXPECT_TRUE(straight.sections[0].strips[0].isSquared);
    EXPECT_GE(straight.sections[0].strips[0].hook, in(0, 1, 32));
}

TEST_F(CutStepsOfTheSample, wasteThatIsCutOffTakesNoLetter) {
    BoardLayout& layout = m_document.plan->boards[0];
    Section waste;
    waste.id = SectionId{90};
    waste.along = {in(0), in(1)};
    waste.state = CutState::Cut;
    layout.sections.insert(layout.sections.begin(), waste);
    BoardCuts straight = cuts(0);
    EXPECT_EQ(straight.sections[0].name, "waste");
    EXPECT_EQ(straight.sections[1].name, "1a");
    EXPECT_EQ(straight.sections[3].strips[1].name, "1c-2");
    // The end that is fresh now lies a kerf past the waste.
    EXPECT_EQ(straight.freshEnd, in(1) + m_document.shop.machines.crosscut.kerf);
    // A section that still holds something keeps its letter, and so does one that is only planned.
    layout.sections[0].state = CutState::Planned;
    EXPECT_EQ(cuts(0).sections[0].name, "1a");
    EXPECT_FALSE(cuts(0).freshEnd);
    layout.sections[0].state = CutState::Cut;
    layout.sections[0].offcuts = {{OffcutId{91}, {in(0), in(0), in(1), in(6)}, CutState::Cut}};
    EXPECT_EQ(cuts(0).sections[0].name, "1a");
}

TEST_F(CutStepsOfTheSample, aBlankNarrowerThanItsStripIsTrimmed) {
    const BoardCuts tapered = cuts(1);
    const std::vector<TrimPass>& trims = tapered.sections[0].strips[0].trims;
    ASSERT_EQ(trims.size(), 2U);
    EXPECT_EQ(trims[1].label, labelOf(m_document, {sample::rail, 2, 0, 0}));
    EXPECT_EQ(trims[1].width, in(3, 1, 4));
}

TEST_F(CutStepsOfTheSample, theThickestBlankSaysHowFarToPlane) {
    const BoardCuts straight = cuts(0);
    EXPECT_EQ(straight.sections[0].planeTo, in(1, 1, 2));
    // The shelf was chosen 1/8 thinner, 1 9/16 - 1/8.
    EXPECT_EQ(straight.sections[2].planeTo, in(1, 7, 16));
    EXPECT_EQ(cuts(1).sections[0].planeTo, in(1, 1, 16));
}

TEST_F(CutStepsOfTheSample, theEdgeLineOfATaperedBoardIsMeasuredFromItsEdge) {
    // The frame starts 1/4 above the near edge's corner at x = 1, where the edge has climbed 1/48.
    const BoardCuts tapered = cuts(1);
    const EdgeLine& line = tapered.sections[0].edge;
    EXPECT_LE(abs(line.atDatumSide - (in(0, 1, 4) - in(1) / 48)), in(0, 1, 64));
    EXPECT_LE(abs(line.atFarSide - line.atDatumSide), in(0, 1, 64));
}

TEST_F(CutStepsOfTheSample, sectionsAndStripsAreNamedFromTheDatumEndAndTheNearEdge) {
    const BoardCuts straight = cuts(0);
    EXPECT_EQ(straight.sections[2].name, "1c");
    EXPECT_EQ(straight.sections[2].strips[1].name, "1c-2");
}

} // namespace
} // namespace stavewright::papers
