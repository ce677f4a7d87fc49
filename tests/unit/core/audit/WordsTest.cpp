#include "core/audit/Words.h"

#include <gtest/gtest.h>

namespace stavewright::audit_detail {
namespace {

TEST(Words, LengthsFollowTheStyleOfTheJob) {
    Document job;
    EXPECT_EQ(Words(job).length(Length::inches(55, 2)), "27 1/2\"");
    EXPECT_EQ(Words(job).tapeStep(), Length::inches(1, 16));
    job.info.units = UnitSystem::Millimetres;
    EXPECT_EQ(Words(job).length(Length::millimetres(698)), "698 mm");
    EXPECT_EQ(Words(job).tapeStep(), Length::millimetres(1));
}

TEST(Words, WhatTheStyleCannotShowIsSaidInMillimetres) {
    const Document job;
    const Words words(job);
    EXPECT_EQ(words.length(Length()), "0\"");
    EXPECT_EQ(words.length(Length::nanometres(1)), "0.000001 mm");
    EXPECT_EQ(words.length(Length::nanometres(-5'000)), "-0.005 mm");
    EXPECT_EQ(words.length(Length::nanometres(1'020'000)), "1.02 mm");
}

TEST(Words, UnknownThingsAreSaidToBeUnknown) {
    const Document job;
    const Words words(job);
    EXPECT_EQ(words.board(BoardId{7}), "a board that is not in the job");
    EXPECT_EQ(words.blank({PartId{7}, 1, 0, 0}), "a blank of an unknown part");
    EXPECT_EQ(words.part(PartId{7}), "a part that is not in the job");
}

TEST(Words, CountsAndCapitals) {
    EXPECT_EQ(counted(1, "fill"), "1 fill");
    EXPECT_EQ(counted(0, "fill"), "0 fills");
    EXPECT_EQ(capitalised("section 2"), "Section 2");
    EXPECT_EQ(capitalised("R2"), "R2");
    EXPECT_EQ(capitalised(""), "");
}

} // namespace
} // namespace stavewright::audit_detail
