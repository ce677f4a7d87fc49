#include "core/panels/PanelEdits.h"

#include <gtest/gtest.h>

#include <random>

#include "core/audit/Audit.h"
#include "core/job/JobFile.h"
#include "core/panels/Proposal.h"
#include "tests/unit/core/panels/HandPanel.h"

namespace stavewright::panels {
namespace {

using namespace hand_panel;

TEST(PanelEdits, SwapMoveTurnAndLock) {
    Document job = hand_panel::job();
    ASSERT_TRUE(apply(job, swapped(job, only(job), 0, 2).value()));
    EXPECT_EQ(only(job).staveAt(0).label, "T1-3");
    ASSERT_TRUE(apply(job, moved(job, only(job), 3, 0).value()));
    EXPECT_EQ(only(job).staveAt(0).label, "T1-4");
    EXPECT_EQ(only(job).staveAt(1).label, "T1-3");
    ASSERT_TRUE(apply(job, turned(job, only(job), 0, Turn::FaceOver).value()));
    EXPECT_EQ(only(job).order[0].pose, 2);
    // The plan's blank lies so, too.
    EXPECT_TRUE(job.plan->boards[0].sections[0].strips[3].blanks[0].pose.faceOver);
    EXPECT_EQ(job.plan->totals, totalsOf(job, *job.plan).value());
    ASSERT_TRUE(apply(job, locked(job, only(job), 0, true).value()));
    const Result<Edit> refused = swapped(job, only(job), 0, 1);
    ASSERT_FALSE(refused);
    EXPECT_NE(refused.error().message.find("locked"), std::string::npos);
    EXPECT_FALSE(turned(job, only(job), 0, Turn::EndForEnd));
    EXPECT_TRUE(swapped(job, only(job), 1, 2));
}

TEST(PanelEdits, EveryHistoryComesBackToTheIdenticalDocument) {
    for (std::uint64_t seed = 1; seed <= 8; ++seed) {
        std::mt19937_64 random(seed);
        Document job = hand_panel::job();
        std::vector<Document> before;
        std::vector<Edit> back;
        for (int step = 0; step < 25; ++step) {
            const Panel panel = only(job);
            const auto any = [&] { return static_cast<std::size_t>(random() % 4); };
            Result<Edit> edit = swapped(job, panel, any(), any());
            switch (random() % 5) {
            case 0:
                edit =
                    turned(job, panel, any(), random() % 2 == 0 ? Turn::EndForEnd : Turn::FaceOver);
                break;
            case 1:
                edit = locked(job, panel, any(), random() % 3 == 0);
                break;
            case 2:
                edit = moved(job, panel, any(), any());
                break;
            case 3:
                edit = wished(job, panel,
                              {random() % 2 == 0 ? RingWish::HeartUp : RingWish::Alternate,
                               random() % 2 == 0, PanelName{topPart, 2, 0}});
                break;
            default:
                break;
            }
            if (!edit) {
                continue; // something was locked
            }
            before.push_back(job);
            Result<Edit> inverse = apply(job, edit.value());
            ASSERT_TRUE(inverse);
            back.push_back(std::move(inverse).value());
            const Result<Document> read = fromJson(toJson(job));
            ASSERT_TRUE(read) << describe(read.error());
            EXPECT_EQ(read.value(), job);
        }
        while (!back.empty()) {
            ASSERT_TRUE(apply(job, back.back()));
            EXPECT_EQ(job, before.back());
            back.pop_back();
            before.pop_back();
        }
    }
}

TEST(PanelEdits, AGluedPanelStays) {
    Document job = hand_panel::job();
    job.plan->boards[0].sections[0].strips[1].blanks[0].state = CutState::Glued;
    EXPECT_FALSE(swapped(job, only(job), 0, 1));
}

TEST(PanelEdits, AProposalIsBetterAndKeepsLocks) {
    Document job = hand_panel::job();
    ASSERT_TRUE(apply(job, locked(job, only(job), 1, true).value()));
    const std::vector<Panel> panels = panelsOf(job).value();
    const Proposal proposal = propose(panels[0], nullptr);
    EXPECT_TRUE(proposal.isBetter); // four hearts up: they should alternate
    EXPECT_EQ(proposal.proved, glueup::Proved::Best);
    ASSERT_TRUE(apply(job, editFor(job, panels, proposal).value()));
    const Panel after = only(job);
    EXPECT_EQ(after.staveAt(1).label, "T1-2");
    EXPECT_EQ(scoreOf(after, nullptr), proposal.after);
    EXPECT_LT(proposal.after.total, proposal.before.total);
}

TEST(PanelEdits, WhatTheLayoutHoldsIsNotTurned) {
    for (int level = 0; level < 3; ++level) { // a blank, its section, its board
        Document job = hand_panel::job();
        BoardLayout& layout = job.plan->boards[0];
        Blank& blank = layout.sections[0].strips[1].blanks[0];
        (level == 0 ? blank.locked : level == 1 ? layout.sections[0].locked : layout.locked) = true;
        const Result<Edit> refused = turned(job, only(job), 1, Turn::FaceOver);
        ASSERT_FALSE(refused) << level;
        EXPECT_EQ(refused.error().message,
                  "T1-2 is locked on board 1 and keeps its ends and faces; "
                  "unlock it in the layout first.");
        EXPECT_EQ(bool(turned(job, only(job), 0, Turn::FaceOver)), level == 0);
        EXPECT_TRUE(swapped(job, only(job), 0, 1)); // where it stands in the panel is not laid out
        // An arrangement works round it.
        const Proposal proposal = propose(only(job), nullptr);
        const std::vector<Panel> panels = panelsOf(job).value();
        const Result<Edit> edit = editFor(job, panels, proposal);
        ASSERT_TRUE(edit) << edit.error().message;
        const Plan before = *job.plan;
        ASSERT_TRUE(apply(job, edit.value()));
        for (std::size_t i = 0; i < 4; ++i) {
            const Blank& was = before.boards[0].sections[0].strips[i].blanks[0];
            const Blank& is = job.plan->boards[0].sections[0].strips[i].blanks[0];
            EXPECT_TRUE((level == 0 && i != 1) || was == is) << level << ' ' << i;
        }
    }
}

TEST(PanelEdits, WhatIsCutOfABoardThatIsUsedUpMayBeTurned) {
    Document job = hand_panel::job();
    BoardLayout& layout = job.plan->boards[0];
    layout.locked = true;
    layout.sections[0].state = CutState::Cut;
    layout.sections[0].strips[1].blanks[0].state = CutState::Milled;
    EXPECT_TRUE(turned(job, only(job), 1, Turn::FaceOver));
}

TEST(PanelEdits, TwoPanelsAreArrangedTogether) {
    Document job = hand_panel::job();
    job.parts[0].count = 2;
    job.parts[0].width.base = in(6);
    for (int i = 2; i < 4; ++i) {
        auto& blank = job.plan->boards[0].sections[0].strips[static_cast<std::size_t>(i)].blanks[0];
        blank.purpose = {topPart, 2, 0, i - 1};
    }
    ASSERT_EQ(panelsOf(job).value().size(), 2U);
    const PanelName second{topPart, 2, 0};
    ASSERT_TRUE(apply(
        job, wished(job, panelsOf(job).value()[0], {RingWish::Alternate, false, second}).value()));
    const std::vector<Panel> panels = panelsOf(job).value();
    const Panel* partner = partnerOf(panels, panels[0]);
    ASSERT_NE(partner, nullptr);
    const Proposal proposal = propose(panels[0], partner);
    EXPECT_EQ(proposal.panels.size(), 2U);
    EXPECT_LE(proposal.after.total, proposal.before.total);
    ASSERT_TRUE(apply(job, editFor(job, panels, proposal).value()));
    const std::vector<Panel> after = panelsOf(job).value();
    EXPECT_EQ(scoreOf(after[0], &after[1]).total, proposal.after.total);
    EXPECT_FALSE(wished(job, after[1], {RingWish::Alternate, false, second})); // with itself
}

TEST(PanelEdits, MatchingPanelsExchangeStaves) {
    Document job = twoTops();
    const std::vector<Panel> panels = panelsOf(job).value();
    ASSERT_EQ(panels.size(), 2U);
    ASSERT_TRUE(canExchange(panels[0], panels[1]));
    const Document before = job;
    const std::size_t failures = audit(job).failures();
    // By hand: the second stave of the first for the first of the second.
    const Result<Edit> edit = exchanged(job, panels[0], 1, panels[1], 0);
    ASSERT_TRUE(edit) << edit.error().message;
    const Result<Edit> back = apply(job, edit.value());
    ASSERT_TRUE(back);
    const std::vector<Panel> after = panelsOf(job).value();
    EXPECT_EQ(after[0].staveAt(1).blank, panels[1].staveAt(0).blank);
    EXPECT_EQ(after[1].staveAt(0).blank, panels[0].staveAt(1).blank);
    EXPECT_EQ(after[0].staveAt(1).purpose, panels[0].staveAt(1).purpose); // numbers stay
    EXPECT_EQ(after[0].staveAt(1).at, panels[1].staveAt(0).at);           // wood does not move
    EXPECT_TRUE(after[0].moved.empty());
    EXPECT_EQ(audit(job).failures(), failures);
    ASSERT_TRUE(apply(job, back.value()));
    EXPECT_EQ(job, before);
}

TEST(PanelEdits, WhatTheLayoutHoldsIsNotExchanged) {
    Document job = twoTops();
    const std::vector<Panel> free = panelsOf(job).value();
    for (BoardLayout& layout : job.plan->boards) {
        for (Section& section : layout.sections) {
            for (Strip& strip : section.strips) {
                for (Blank& blank : strip.blanks) {
                    blank.locked = blank.id == free[0].staveAt(1).blank;
                }
            }
        }
    }
    const std::vector<Panel> panels = panelsOf(job).value();
    EXPECT_FALSE(canExchange(panels[0], panels[1]));
    const Result<Edit> refused = exchanged(job, panels[0], 1, panels[1], 0);
    ASSERT_FALSE(refused);
    EXPECT_NE(refused.error().message.find("T1-2 is locked on board"), std::string::npos)
        << refused.error().message;
}

TEST(PanelEdits, AnArrangementOfTwoExchangesWhereItHelps) {
    Document job = twoTops();
    const PanelName second{topPart, 2, 0};
    ASSERT_TRUE(apply(
        job, wished(job, panelsOf(job).value()[0], {RingWish::Alternate, false, second}).value()));
    const std::vector<Panel> panels = panelsOf(job).value();
    EXPECT_EQ(partnerOf(panels, panels[1]), panels.data()); // either way round
    const Proposal proposal = propose(panels[0], partnerOf(panels, panels[0]));
    ASSERT_TRUE(apply(job, editFor(job, panels, proposal).value()));
    const std::vector<Panel> after = panelsOf(job).value();
    EXPECT_EQ(scoreOf(after[0], &after[1]).total, proposal.after.total);
    // Both boards were in both panels; now each panel is of one.
    EXPECT_EQ(after[0].staveAt(0).board, after[0].staveAt(1).board);
    EXPECT_EQ(after[1].staveAt(0).board, after[1].staveAt(1).board);
    EXPECT_LT(proposal.after.total, proposal.before.total);
}

TEST(PanelEdits, AnExchangeThatLeavesAPanelTooNarrowIsRefused) {
    Document job = twoTops();
    const std::vector<Panel> panels = panelsOf(job).value();
    Panel first = panels[0];
    first.wanted = first.width; // its wide stave for a narrow one would not make it
    const Result<Edit> narrow = exchanged(job, first, 1, panels[1], 0);
    ASSERT_FALSE(narrow);
    EXPECT_NE(narrow.error().message.find("the panel wants"), std::string::npos);
    Document wishes = job;
    ASSERT_TRUE(apply(wishes, wished(job, panels[0], {RingWish::HeartUp, false, {}}).value()));
    const std::vector<Panel> unlike = panelsOf(wishes).value();
    EXPECT_FALSE(exchanged(wishes, unlike[0], 0, unlike[1], 0));
    ASSERT_TRUE(apply(job, locked(job, panels[0], 0, true).value()));
    const std::vector<Panel> held = panelsOf(job).value();
    EXPECT_FALSE(exchanged(job, held[0], 0, held[1], 0));
    EXPECT_TRUE(exchanged(job, held[0], 1, held[1], 0));
}

} // namespace
} // namespace stavewright::panels
