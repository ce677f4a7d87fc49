#include "core/panels/PlyEdits.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "core/audit/Audit.h"
#include "tests/unit/core/panels/HandPanel.h"

namespace stavewright::panels {
namespace {

using namespace hand_panel;

TEST(PlyEdits, APlyIsTurnedAndComesBack) {
    Document job = legs(false);
    const Document before = job;
    const std::vector<Block> blocks = blocksOf(job);
    ASSERT_EQ(blocks.size(), 2U);
    EXPECT_EQ(blocks[0].seams[0], PlyMeeting::SameWay);
    const Result<Edit> edit = plyTurned(job, blocks, {0, 1}, Turn::FaceOver);
    ASSERT_TRUE(edit) << edit.error().message;
    const Result<Edit> back = apply(job, edit.value());
    ASSERT_TRUE(back);
    EXPECT_EQ(blocksOf(job)[0].seams[0], PlyMeeting::BarksMeet);
    EXPECT_EQ(blocksOf(job)[1].seams[0], PlyMeeting::SameWay); // the other leg is left alone
    EXPECT_EQ(job.plan->totals, totalsOf(job, *job.plan).value());
    ASSERT_TRUE(apply(job, back.value()));
    EXPECT_EQ(job, before);
}

TEST(PlyEdits, PliesOfTwoLegsChangePlaces) {
    Document job = legs(true);
    const Document before = job;
    const std::vector<Block> blocks = blocksOf(job);
    EXPECT_FALSE(blocks[0].canBookMatch);
    const Result<Edit> edit = pliesExchanged(job, blocks, {0, 0}, {1, 0});
    ASSERT_TRUE(edit) << edit.error().message;
    const Result<Edit> back = apply(job, edit.value());
    ASSERT_TRUE(back);
    const std::vector<Block> after = blocksOf(job);
    EXPECT_TRUE(after[0].canBookMatch);
    EXPECT_TRUE(after[1].canBookMatch);
    EXPECT_EQ(after[0].plies[0].blank, blocks[1].plies[0].blank);
    EXPECT_EQ(after[0].plies[0].label, blocks[0].plies[0].label);
    ASSERT_TRUE(apply(job, back.value()));
    EXPECT_EQ(job, before);
}

TEST(PlyEdits, PairingBringsBoardsTogetherAndBarksToTheSeam) {
    Document job = legs(true);
    const Result<PairingProposal> proposal = pairedPlies(job, topPart);
    ASSERT_TRUE(proposal);
    EXPECT_EQ(proposal.value().before, (PairingFigures{2, 0, 0, 2}));
    EXPECT_EQ(proposal.value().after, (PairingFigures{0, 0, 2, 0}));
    const std::size_t failures = audit(job).failures();
    ASSERT_TRUE(apply(job, *proposal.value().edit));
    EXPECT_EQ(audit(job).failures(), failures);
    EXPECT_FALSE(pairedPlies(job, topPart).value().edit); // nothing is better
}

TEST(PlyEdits, ARuleHoldsAPly) {
    // A loose knot on face A of the first leg's lower ply: with that face up it would lie on the
    // glue line, so it stays where it lies only if its own place allows it.
    Document job = legs(false);
    addKnot(job, in(20), in(5) + in(3, 4));
    const std::size_t failures = audit(job).failures();
    const Result<PairingProposal> proposal = pairedPlies(job, topPart);
    if (proposal && proposal.value().edit) {
        ASSERT_TRUE(apply(job, *proposal.value().edit));
    }
    EXPECT_LE(audit(job).failures(), failures);
}

TEST(PlyEdits, WhatTheLayoutHoldsStays) {
    Document job = legs(true);
    const BlankId held = blocksOf(job)[0].plies[0].blank;
    const auto find = [&]() -> Blank& {
        for (BoardLayout& layout : job.plan->boards) {
            for (Section& section : layout.sections) {
                for (Strip& strip : section.strips) {
                    for (Blank& blank : strip.blanks) {
                        if (blank.id == held) {
                            return blank;
                        }
                    }
                }
            }
        }
        throw std::logic_error("no such blank");
    };
    find().locked = true;
    const Blank before = find();
    const std::vector<Block> blocks = blocksOf(job);
    const Result<Edit> refused = plyTurned(job, blocks, {0, 0}, Turn::FaceOver);
    ASSERT_FALSE(refused);
    EXPECT_NE(refused.error().message.find(" is locked and stays as it lies; unlock it in the "
                                           "layout first."),
              std::string::npos)
        << refused.error().message;
    EXPECT_FALSE(pliesExchanged(job, blocks, {0, 0}, {1, 0}));
    // Pairing works round it, and still finds something.
    const Result<PairingProposal> proposal = pairedPlies(job, topPart);
    ASSERT_TRUE(proposal) << proposal.error().message;
    ASSERT_TRUE(proposal.value().edit);
    ASSERT_TRUE(apply(job, *proposal.value().edit));
    EXPECT_EQ(find().purpose, before.purpose);
    EXPECT_EQ(find().pose, before.pose);
}

TEST(PlyEdits, AGluedBlockStays) {
    Document job = legs(false);
    job.plan->boards[0].sections[0].strips[0].blanks[0].state = CutState::Glued;
    const std::vector<Block> blocks = blocksOf(job);
    EXPECT_FALSE(plyTurned(job, blocks, {0, 1}, Turn::FaceOver));
    EXPECT_FALSE(pliesExchanged(job, blocks, {1, 0}, {0, 0}));
    EXPECT_TRUE(plyTurned(job, blocks, {1, 1}, Turn::FaceOver));
    EXPECT_EQ(pairedPlies(job, topPart).value().before.sameWay, 1); // of the other leg
}

} // namespace
} // namespace stavewright::panels
