#include <gtest/gtest.h>

#include <algorithm>

#include "core/document/Limits.h"
#include "core/document/SizeResolver.h"
#include "tests/unit/core/document/SampleDocument.h"

namespace stavewright {
namespace {

TEST(DocumentTest, FindsBoardsAndPartsById) {
    const Document document = sample::sideTable();
    ASSERT_NE(findBoard(document, sample::thickBoard), nullptr);
    EXPECT_EQ(findBoard(document, sample::thickBoard)->mark, "2");
    EXPECT_EQ(findBoard(document, BoardId{999}), nullptr);
    ASSERT_NE(findPart(document, sample::rail), nullptr);
    EXPECT_EQ(findPart(document, sample::rail)->mark, "R");
    EXPECT_EQ(findPart(document, PartId{}), nullptr);
}

TEST(DocumentTest, ALegIsAsHighAsTheTableLessItsTop) {
    const Document document = sample::sideTable();
    const Part& leg = *findPart(document, sample::leg);
    EXPECT_EQ(resolvedSize(document, leg, Dimension::Length).value(), Length::inches(69, 4));
    EXPECT_EQ(resolvedSize(document, leg, Dimension::Width).value(), Length::inches(2));
}

TEST(DocumentTest, LeansAddUpOverSeveralParts) {
    Document document = sample::sideTable();
    // rail length = 2 in + leg length (18 - 3/4) - top width (12)
    document.parts[2].length = {
        Length::inches(2),
        {{1, sample::leg, Dimension::Length}, {-1, sample::top, Dimension::Width}}};
    EXPECT_EQ(resolvedSize(document, document.parts[2], Dimension::Length).value(),
              Length::inches(29, 4));
}

TEST(DocumentTest, ALeanOnAMissingPartIsAnError) {
    Document document = sample::sideTable();
    document.parts[1].length.leans[0].part = PartId{999};
    const Result<Length> size = resolvedSize(document, document.parts[1], Dimension::Length);
    ASSERT_FALSE(size);
    EXPECT_EQ(size.error().message,
              "The length of part L leans on part id 999, which is not in the job.");
}

TEST(DocumentTest, ACircleOfLeansIsAnError) {
    Document document = sample::sideTable();
    // top thickness -> rail width -> leg length -> top thickness
    document.parts[0].thickness.leans = {{1, sample::rail, Dimension::Width}};
    document.parts[2].width.leans = {{1, sample::leg, Dimension::Length}};
    const Result<Length> size = resolvedSize(document, document.parts[1], Dimension::Length);
    ASSERT_FALSE(size);
    EXPECT_NE(size.error().message.find("in a circle"), std::string::npos) << size.error().message;
}

TEST(DocumentTest, ASizeMayLeanOnAnotherDimensionOfItsOwnPart) {
    Document document = sample::sideTable();
    document.parts[1].width = {Length(), {{1, sample::leg, Dimension::Thickness}}};
    EXPECT_EQ(resolvedSize(document, document.parts[1], Dimension::Width).value(),
              Length::inches(11, 4));
}

// Each size leans twice on the next: followed naively this would take 2^120 steps.
TEST(DocumentTest, LeansThatForkAreFollowedOnce) {
    Document document = sample::sideTable();
    document.parts.clear();
    constexpr int chain = 120;
    for (int i = 0; i < chain; ++i) {
        Part part;
        part.id = PartId{100 + i};
        part.length.base = Length::millimetres(1);
        if (i + 1 < chain) {
            part.length.leans = {{1, PartId{101 + i}, Dimension::Length},
                                 {-1, PartId{101 + i}, Dimension::Length}};
        }
        document.parts.push_back(part);
    }
    EXPECT_EQ(resolvedSize(document, document.parts[0], Dimension::Length).value(),
              Length::millimetres(1));
}

// Refused alike whichever end of the chain is asked first.
TEST(DocumentTest, AVeryLongChainOfLeansIsRefused) {
    Document document = sample::sideTable();
    document.parts.clear();
    for (int i = 0; i <= limits::leansInOneChain; ++i) {
        Part part;
        part.id = PartId{100 + i};
        part.length = {Length::millimetres(1), {{1, PartId{101 + i}, Dimension::Length}}};
        document.parts.push_back(part);
    }
    document.parts.back().length.leans.clear();
    EXPECT_FALSE(resolvedSize(document, document.parts[0], Dimension::Length));
    EXPECT_EQ(resolvedSize(document, document.parts[1], Dimension::Length).value(),
              Length::millimetres(limits::leansInOneChain));
    SizeResolver bottomUp(document);
    for (std::size_t i = document.parts.size(); i > 1; --i) {
        EXPECT_TRUE(bottomUp.resolve(document.parts[i - 1], Dimension::Length));
    }
    EXPECT_FALSE(bottomUp.resolve(document.parts[0], Dimension::Length));
}

TEST(DocumentTest, SizesThatGrowWithoutBoundAreRefusedBeforeTheyOverflow) {
    Document document = sample::sideTable();
    document.parts.clear();
    constexpr int chain = 100;
    for (int i = 0; i < chain; ++i) {
        Part part;
        part.id = PartId{100 + i};
        part.length.base = Length::millimetres(1);
        if (i + 1 < chain) {
            part.length.leans = {{1, PartId{101 + i}, Dimension::Length},
                                 {1, PartId{101 + i}, Dimension::Length}};
        }
        document.parts.push_back(part);
    }
    const Result<Length> size = resolvedSize(document, document.parts[0], Dimension::Length);
    ASSERT_FALSE(size);
    EXPECT_NE(size.error().message.find("more than 100 m"), std::string::npos);
}

TEST(DocumentTest, LabelsNamePieceStaveAndPly) {
    const Document document = sample::sideTable();
    EXPECT_EQ(labelOf(document, {sample::rail, 2, 0, 0}), "R2");
    EXPECT_EQ(labelOf(document, {sample::top, 1, 0, 3}), "T1-3");
    EXPECT_EQ(labelOf(document, {sample::leg, 2, 1, 0}), "L2a");
    EXPECT_EQ(labelOf(document, {sample::leg, 2, 2, 3}), "L2b-3");
    EXPECT_EQ(labelOf(document, {PartId{999}, 1, 0, 0}), "?1");
}

TEST(DocumentTest, TheBlankOfAMultipleIsNamedByAllItsParts) {
    Document document = sample::sideTable();
    EXPECT_EQ(labelOfAll(document, {sample::top, 1, 0, 3}), "T1-3");
    EXPECT_EQ(labelOfAll(document, {PartId{999}, 1, 0, 0}), "?1");
    const auto rail = std::find_if(document.parts.begin(), document.parts.end(),
                                   [](const Part& part) { return part.id == sample::rail; });
    ASSERT_NE(rail, document.parts.end());
    rail->count = 5;
    rail->perBlank = 1;
    EXPECT_EQ(labelOfAll(document, {sample::rail, 2, 0, 0}), "R2");
    rail->perBlank = 2;
    EXPECT_EQ(labelOfAll(document, {sample::rail, 1, 0, 0}), "R1, R2");
    EXPECT_EQ(labelOfAll(document, {sample::rail, 5, 0, 0}), "R5") << "the rest of the last blank";
    rail->perBlank = 4;
    EXPECT_EQ(labelOfAll(document, {sample::rail, 1, 0, 0}), "R1 to R4");
}

TEST(DocumentTest, TakenIdsAreNew) {
    Document document = sample::sideTable();
    EXPECT_EQ(document.takeId<BoardId>(), BoardId{60});
    EXPECT_EQ(document.takeId<PartId>(), PartId{61});
    EXPECT_EQ(document.nextId, 62);
}

} // namespace
} // namespace stavewright
