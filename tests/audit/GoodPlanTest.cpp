// The good plan passes, with totals that were worked out by hand; so do plans that differ from it
// within what is allowed.

#include <algorithm>
#include <utility>

#include <gtest/gtest.h>

#include "AuditSample.h"
#include "BrokenPlan.h"

namespace stavewright::audit_sample {
namespace {

std::string everyFinding(const AuditReport& report) {
    std::string text;
    for (const Finding& finding : report.findings) {
        text += finding.sentence + '\n';
    }
    return text;
}

TEST(GoodPlan, PassesWithoutARemark) {
    const AuditReport report = audit(goodJob());
    EXPECT_TRUE(report.passed());
    EXPECT_EQ(everyFinding(report), "");
}

TEST(GoodPlan, IsCountedAsWorkedOutByHand) {
    const Document job = goodJob();
    const PlanTotals counted = audit(job).totals;
    const PlanTotals& byHand = job.plan->totals;
    EXPECT_EQ(counted.boardsUsed, byHand.boardsUsed);
    EXPECT_EQ(counted.placed, byHand.placed);
    EXPECT_EQ(counted.demanded, byHand.demanded);
    EXPECT_EQ(counted.fills, byHand.fills);
    EXPECT_EQ(counted.lumberUsed.inMillionths(), byHand.lumberUsed.inMillionths());
    EXPECT_EQ(counted.blanks.inMillionths(), byHand.blanks.inMillionths());
    EXPECT_EQ(counted.parts.inMillionths(), byHand.parts.inMillionths());
    EXPECT_EQ(counted.offcutsKept.inMillionths(), byHand.offcutsKept.inMillionths());
    EXPECT_EQ(counted.cost.inTenThousandths(), byHand.cost.inTenThousandths());
}

TEST(GoodPlan, TheFillsAreListedWithTheirPlace) {
    const Document job = goodJob();
    const AuditReport report = audit(job);
    ASSERT_EQ(report.fills.size(), 1U);
    const Fill& fill = report.fills.front();
    // Loose knot K2, 5/8 round, right through at 50 and 2 in from the straight near edge.
    EXPECT_EQ(fill.board, id::board7);
    EXPECT_EQ(fill.defect, DefectId{302});
    EXPECT_EQ(fill.at, (Point{in(50), in(2)}));
    EXPECT_EQ(fill.fromNearEdge, in(2));
    EXPECT_EQ(fill.size, in(5, 8));
    EXPECT_FALSE(fill.marginOnly);
    const auto named = [&](const Blank& blank) { return blank.id == fill.blank; };
    bool found = false;
    for (const Section& one : job.plan->boards[0].sections) {
        for (const Strip& strip : one.strips) {
            found = found || std::any_of(strip.blanks.begin(), strip.blanks.end(), named);
        }
    }
    EXPECT_TRUE(found);
}

TEST(GoodPlan, AFillIsMeasuredFromTheNearEdgeWhereTheBoardIsTapered) {
    Document job = goodJob();
    // The near edge is moved out by an inch; every mark keeps its place.
    for (Point& corner : boardOf(job, id::board7).outline) {
        if (corner.y == Length()) {
            corner.y = -in(1);
        }
    }
    const AuditReport report = audit(job);
    ASSERT_EQ(report.fills.size(), 1U);
    EXPECT_EQ(report.fills.front().fromNearEdge, in(3));
}

TEST(GoodPlan, ADocumentWithoutAPlanPassesWithEmptyTotals) {
    Document job = goodJob();
    job.plan.reset();
    const AuditReport report = audit(job);
    EXPECT_TRUE(report.passed());
    EXPECT_EQ(report.totals, PlanTotals{});
}

struct Variation {
    std::string name;
    std::function<void(Document&)> vary;
};
std::ostream& operator<<(std::ostream& out, const Variation& variation) {
    return out << variation.name;
}

class AllowedVariation : public testing::TestWithParam<Variation> {};

TEST_P(AllowedVariation, Passes) {
    Document job = goodJob();
    GetParam().vary(job);
    claimWhatIsCounted(job);
    EXPECT_EQ(everyFinding(audit(job)), "");
}

Defect faceB(Defect defect, Length depth) {
    std::swap(defect.onA, defect.onB);
    defect.through = false;
    defect.depth = depth;
    return defect;
}

const std::vector<Variation> variations = {
    {"UnplacedBlankIsListed",
     [](Document& job) {
         section(job, 1, 0).strips.clear();
         job.plan->unplaced = {{{id::rail, 2, 0, 0}, "board 8 is too thin"}};
     }},
    {"PanelIsShortAndListed",
     [](Document& job) {
         section(job, 0, 1).strips.pop_back();
         job.plan->unplaced = {{{id::top, 1, 0, 4}, "no clear wood"}};
     }},
    {"BlankTouchesEdgeOfBoardWithinTwoMicrometres",
     [](Document& job) {
         strip(job, 0, 2, 0).across = {Length::micrometres(-2), in(13, 4) - Length::micrometres(2)};
         blank(job, 0, 2, 0).rect.y0 = Length::micrometres(-2);
         blank(job, 0, 2, 0).rect.y1 = in(13, 4) - Length::micrometres(2);
     }},
    {"SmallSoundKnotOnShowSide",
     [](Document& job) {
         boardOf(job, id::board7)
             .defects.push_back(roundDefect(DefectId{309}, "K9", DefectKind::SoundKnot,
                                            {in(355, 4), in(7, 4)}, in(3, 8)));
     }},
    {"DefectOnHiddenSideWithoutZone",
     [](Document& job) {
         boardOf(job, id::board7)
             .defects.push_back(faceB(
                 roundDefect(DefectId{309}, "K9", DefectKind::KnotHole, {in(78), in(7, 4)}, in(1)),
                 in(1, 4)));
     }},
    {"ShallowDefectOnShowSideIsPlanedAway",
     [](Document& job) {
         boardOf(job, id::board7)
             .defects.push_back(faceB(
                 roundDefect(DefectId{309}, "K9", DefectKind::KnotHole, {in(78), in(7, 4)}, in(1)),
                 in(1, 8)));
         blank(job, 0, 2, 0).pose.faceOver = true;
     }},
    {"DefectInWoodThatIsTrimmedOff",
     [](Document& job) {
         boardOf(job, id::board7)
             .defects.push_back(roundDefect(DefectId{309}, "K9", DefectKind::Split,
                                            {in(363, 4), in(7, 4)}, in(3, 4)));
     }},
    {"SlantedKnotLeavesTheZoneAtDepth",
     // On face A it lies in the show side by a hair; planed down it has run out of the part's edge.
     [](Document& job) {
         Defect knot =
             roundDefect(DefectId{309}, "K9", DefectKind::KnotHole, {in(78), in(25, 8)}, in(1, 2));
         knot.onB = roundDefect({}, {}, DefectKind::Other, {in(78), in(101, 16)}, in(1, 2)).onA;
         boardOf(job, id::board7).defects.push_back(knot);
         section(job, 0, 2).strips.pop_back();
         job.plan->unplaced = {{{id::cleat, 1, 0, 0}, "left out here"}};
     }},
    {"ThinnerWhereThePartAllowsIt",
     [](Document& job) {
         job.plan->thicknesses = {{id::rail, in(13, 16)}};
     }},
    {"BoardWithWarpAtTheOtherEnd",
     [](Document& job) {
         Warp& warp = boardOf(job, id::board9).warp;
         warp.bow = in(1);
         warp.where = Warp::Where::MostlyAtFarEnd;
     }},
    {"PanelUsesItsSlack",
     [](Document& job) {
         strip(job, 0, 1, 1).across.to += in(1, 4);
         blank(job, 0, 1, 1).rect.y1 += in(1, 4);
     }},
    {"CutAndMilledAsTheTreeAllows",
     [](Document& job) {
         section(job, 0, 0).state = CutState::Cut;
         blank(job, 0, 0, 0).state = CutState::Milled;
         blank(job, 0, 0, 0).actual = blank(job, 0, 0, 0).rect;
         blank(job, 0, 0, 0).locked = true;
     }},
    {"PlanedAsThickAsItIsNeeded",
     [](Document& job) {
         section(job, 0, 2).state = CutState::Milled;
         section(job, 0, 2).planedTo = in(29, 32);
     }},
    {"WhatIsNotMilledIsNotPlaned",
     [](Document& job) {
         section(job, 0, 2).state = CutState::Cut;
         section(job, 0, 2).planedTo = in(3, 4);
     }},
};

INSTANTIATE_TEST_SUITE_P(Audit, AllowedVariation, testing::ValuesIn(variations),
                         [](const auto& tested) { return tested.param.name; });

TEST(Remarks, StretchesThatNobodyHasLookedAt) {
    Document job = goodJob();
    boardOf(job, id::board7).lookedAt = {{BoardFace::A, {in(0), in(96)}},
                                         {BoardFace::B, {in(20), in(80)}}};
    const AuditReport report = audit(job);
    EXPECT_TRUE(report.passed());
    ASSERT_EQ(report.findings.size(), 1U);
    EXPECT_EQ(report.findings[0].kind, FindingKind::NotLookedAt);
    EXPECT_EQ(report.findings[0].severity, Severity::Remark);
    EXPECT_EQ(report.findings[0].board, id::board7);
    EXPECT_EQ(report.findings[0].sentence,
              "Face B of board 7 has not been looked at from 1\" to 20\" and 80\" to 91 1/4\", "
              "where blanks lie: look before cutting.");
}

TEST(Remarks, QuickLooksWhereAZoneTakesNoSuchKnots) {
    Document job = goodJob();
    Board& board = boardOf(job, id::board7);
    board.lookedAt = {{BoardFace::A, {in(0), in(96)}}, {BoardFace::B, {in(0), in(96)}, in(3)}};
    const AuditReport report = audit(job);
    EXPECT_TRUE(report.passed());
    ASSERT_EQ(report.findings.size(), 1U);
    EXPECT_EQ(report.findings[0].kind, FindingKind::NotLookedAt);
    EXPECT_EQ(report.findings[0].severity, Severity::Remark);
    EXPECT_NE(report.findings[0].sentence.find("Face B of board 7 had only a quick look from "),
              std::string::npos)
        << report.findings[0].sentence;
    EXPECT_NE(report.findings[0].sentence.find("sound knots under 3\""), std::string::npos);

    board.lookedAt.push_back({BoardFace::B, {in(0), in(96)}}); // a thorough look settles it
    EXPECT_TRUE(audit(job).findings.empty());

    // Where every zone takes sound knots of any size, a quick look is enough.
    board.lookedAt.pop_back();
    for (RuleSet& set : job.shop.ruleSets) {
        set.rules[static_cast<std::size_t>(DefectKind::SoundKnot)] = {Verdict::Allowed, {}};
    }
    EXPECT_TRUE(audit(job).findings.empty());
}

TEST(Remarks, GroupsThatComeFromTwoBoards) {
    Document job = goodJob();
    job.groups = {{GroupId{601}, "rails", MatchGroup::Want::OneBoard, {id::rail}}};
    const AuditReport report = audit(job);
    EXPECT_TRUE(report.passed());
    ASSERT_EQ(report.findings.size(), 1U);
    EXPECT_EQ(report.findings[0].kind, FindingKind::GroupApart);
    EXPECT_EQ(report.findings[0].sentence,
              "Group rails should come from one board; it comes from boards 7, 8.");
}

TEST(Remarks, NeighboursWithSectionsBetweenThem) {
    Document job = goodJob();
    job.groups = {{GroupId{601}, "front", MatchGroup::Want::Neighbours, {id::top}}};
    EXPECT_TRUE(audit(job).findings.empty());
    std::swap(section(job, 0, 1).strips, section(job, 0, 2).strips);
    const AuditReport report = audit(job);
    const auto remark =
        std::find_if(report.findings.begin(), report.findings.end(),
                     [](const Finding& f) { return f.kind == FindingKind::GroupApart; });
    ASSERT_NE(remark, report.findings.end());
    EXPECT_EQ(remark->sentence, "Group front should come from neighbouring places; sections of "
                                "board 7 lie between.");
}

// Board 7 is 1 3/16 in thick; its rails need 7/8 + 1/32 (sanding) + 1/8 (cleaning) of that.
TEST(GoodPlan, ABoardMayBeThickerByAsMuchAsTheShopAllows) {
    Document job = goodJob();
    job.shop.mostPlanedAway = in(5, 32);
    EXPECT_TRUE(audit(job).passed());
    job.shop.mostPlanedAway -= Length::nanometres(1);
    EXPECT_FALSE(audit(job).passed());
}

TEST(GoodPlan, APartMadeThinnerForWarpIsNotBlamedForTheBoard) {
    Document job = goodJob();
    job.shop.mostPlanedAway = in(5, 32);
    job.plan->thicknesses = {{id::rail, in(3, 4)}};
    for (const Finding& finding : audit(job).findings) {
        EXPECT_NE(finding.kind, FindingKind::TooMuchPlanedAway) << finding.sentence;
    }
}

TEST(GoodPlan, WhatIsCutIsNotBlamedForItsBoard) {
    Document job = goodJob();
    job.shop.mostPlanedAway = Length();
    for (BoardLayout& layout : job.plan->boards) {
        for (Section& cut : layout.sections) {
            cut.state = CutState::Cut;
            for (Strip& strip : cut.strips) {
                for (Blank& piece : strip.blanks) {
                    piece.state = CutState::Cut;
                }
            }
        }
    }
    EXPECT_TRUE(audit(job).passed());
}

} // namespace
} // namespace stavewright::audit_sample
