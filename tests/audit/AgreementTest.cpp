// The audit works out halves of the job by itself; here its answers are held against the planner's
// side, which works them out in another way. A difference is a bug in one of the two.

#include <algorithm>
#include <random>
#include <tuple>

#include <gtest/gtest.h>

#include "AuditSample.h"
#include "core/audit/Facing.h"
#include "core/audit/Needs.h"
#include "core/audit/Surface.h"
#include "core/lumber/Board.h"
#include "core/milling/BlankSpec.h"
#include "core/shop/Presets.h"

namespace stavewright::audit_sample {
namespace {

using audit_detail::Need;
using audit_detail::NeededZone;

TEST(Agreement, ThicknessLeftByWarp) {
    std::mt19937_64 random(7);
    const auto upTo = [&](std::int64_t most) {
        return Length::nanometres(
            1 + static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(most)));
    };
    for (int round = 0; round < 2000; ++round) {
        Board board;
        const Length length = in(24) + upTo(in(120).inNanometres());
        const Length width = in(3) + upTo(in(12).inNanometres());
        board.outline = {{in(0), in(0)}, {length, in(0)}, {length, width}, {in(0), width - in(1)}};
        board.thinnest = in(2);
        board.warp = {upTo(in(1).inNanometres()), upTo(in(1, 2).inNanometres()),
                      upTo(in(1).inNanometres()), static_cast<Warp::Where>(round % 3)};
        const Length from = upTo((length / 2).inNanometres());
        const Stretch along{from, from + upTo((length - from).inNanometres())};
        const Length pieceWidth = upTo(width.inNanometres());
        const Length mine = audit_detail::thicknessLeft(board, along, pieceWidth, in(1, 8));
        const Length theirs = reachableThickness(board, along, pieceWidth, in(1, 8));
        EXPECT_GE(mine, theirs);
        EXPECT_LE(mine - theirs, Length::nanometres(3));
    }
}

TEST(Agreement, DefectsAtDepth) {
    std::mt19937_64 random(11);
    const auto between = [&](int low, int high) {
        return low + static_cast<int>(random() % static_cast<std::uint64_t>(high - low + 1));
    };
    for (int round = 0; round < 500; ++round) {
        const auto mark = [&] {
            return roundDefect({}, {}, DefectKind::SoundKnot,
                               {in(between(160, 200), 16), in(between(32, 64), 16)},
                               in(between(4, 40), 16))
                .onA;
        };
        Defect defect;
        defect.kind = DefectKind::SoundKnot;
        defect.through = between(0, 1) == 1;
        if (between(0, 3) > 0) {
            defect.onA = mark();
        }
        if (!defect.onA || between(0, 1) == 1) {
            defect.onB = mark();
        }
        if (!defect.through && between(0, 1) == 1) {
            defect.depth = in(between(1, 30), 16);
        }
        const Length depth = in(between(0, 32), 16);
        const auto mine = audit_detail::markAtDepth(defect, in(2), depth);
        const auto theirs = outlineAtDepth(defect, in(2), depth);
        ASSERT_EQ(mine.has_value(), theirs.has_value());
        if (mine) {
            const Rect a = boundingBox(*mine);
            const Rect b = boundingBox(*theirs);
            constexpr Length grid = Length::micrometres(2);
            EXPECT_LE(
                std::max({abs(a.x0 - b.x0), abs(a.x1 - b.x1), abs(a.y0 - b.y0), abs(a.y1 - b.y1)}),
                grid);
        }
        EXPECT_EQ(audit_detail::ruleSize(defect), sizeOf(defect));
    }
}

using ZoneKey =
    std::tuple<int, std::int64_t, std::int64_t, std::int64_t, std::int64_t, std::int64_t>;

ZoneKey keyOf(BoardFace face, Stretch along, Stretch across, RuleSetId rules) {
    return {static_cast<int>(face),     along.from.inNanometres(), along.to.inNanometres(),
            across.from.inNanometres(), across.to.inNanometres(),  rules.value};
}

void expectTheSameNeeds(const Document& job) {
    audit_detail::Report report(job);
    const std::vector<Need> needs = audit_detail::needsOf(job, Plan{}, report);
    const auto specs = blankSpecs(job);
    ASSERT_TRUE(specs.ok());
    for (const Need& need : needs) {
        const BlankSpec* spec = specOf(specs.value(), {need.part->id, 1, need.ply, 0});
        SCOPED_TRACE(need.part->mark + " ply " + std::to_string(need.ply));
        ASSERT_TRUE(spec);
        EXPECT_EQ(spec->length, need.length);
        EXPECT_EQ(spec->thicknessWanted, need.thickness);
        EXPECT_EQ(spec->partsPerBlank, need.partsPerBlank);
        ASSERT_EQ(spec->staves.has_value(), need.staves.has_value());
        if (need.staves) {
            EXPECT_EQ(spec->staves->netWanted, need.staves->gluedWidth);
            EXPECT_EQ(spec->staves->netMost, need.staves->mostWidth);
            EXPECT_EQ(spec->staves->jointAllowance, need.staves->jointing);
            EXPECT_EQ(spec->staves->fewest, need.staves->fewest);
            EXPECT_EQ(spec->staves->most, need.staves->most);
            EXPECT_GE(spec->staves->leastRough - need.staves->jointing, need.staves->leastNet);
            EXPECT_LE(spec->staves->widestRough - need.staves->jointing, need.staves->widestNet);
        } else {
            EXPECT_EQ(spec->width, need.width);
        }
        // Whatever the audit protects, the planner must protect as well.
        const Length width = need.staves ? in(4) : need.width;
        std::vector<ZoneKey> mine;
        std::vector<ZoneKey> theirs;
        for (const NeededZone& zone : need.zones) {
            mine.push_back(keyOf(zone.face, zone.along, zone.across.in(width), zone.rules->id));
        }
        for (const BlankZone& zone : spec->zones) {
            theirs.push_back(
                keyOf(zone.face, zone.along.in(need.length), zone.across.in(width), zone.rules));
        }
        std::sort(mine.begin(), mine.end());
        std::sort(theirs.begin(), theirs.end());
        EXPECT_EQ(mine, theirs);
    }
}

TEST(Agreement, NeedsOfTheSampleJob) { expectTheSameNeeds(goodJob()); }

TEST(Agreement, NeedsWithTheInchShop) {
    Document job = goodJob();
    job.shop = inchShop();
    expectTheSameNeeds(job);
}

TEST(Agreement, NeedsWithTheMetricShop) {
    Document job = goodJob();
    job.shop = metricShop();
    expectTheSameNeeds(job);
}

TEST(Agreement, NeedsOfALaminatedPanelWithAJoint) {
    Document job = goodJob();
    partOf(job, id::leg).makeUp.panel = PanelMakeUp{in(1), in(3), 1, 4};
    Joint joint;
    joint.id = JointId{1};
    joint.name = "rail to leg";
    joint.rules = presetRules::joint;
    JointSide atLeg;
    atLeg.part = id::leg;
    atLeg.area.along.to = {Anchored::From::Low, in(4)};
    JointSide atRail;
    atRail.part = id::rail;
    atRail.area.along.from = {Anchored::From::High, in(-7, 2)};
    joint.sides = {atLeg, atRail};
    job.joints = {joint};
    expectTheSameNeeds(job);
}

} // namespace
} // namespace stavewright::audit_sample
