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
    EXPECT_EQ(rips[1].kind, RipPass::Kind::EdgeTrim); // 5/8 in all, too narrow to rip on its own
    EXPECT_EQ(rips[1].width, in(0, 5, 8));
    EXPECT_EQ(rips[2].width, in(3, 1, 4));
    // Widths, kerfs and trims add up to where the last strip ends.
    EXPECT_EQ(rips[0].width + m_document.shop.machines.rip.kerf + rips[1].width + rips[2].width,
              m_document.plan->boards[0].sections[1].strips[1].across.to);
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
