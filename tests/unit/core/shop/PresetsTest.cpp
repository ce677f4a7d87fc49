#include "core/shop/Presets.h"

#include <algorithm>
#include <gtest/gtest.h>
#include <set>

#include "core/lumber/Board.h"

namespace stavewright {
namespace {

constexpr Length in(std::int64_t numerator, std::int64_t denominator = 1) {
    return Length::inches(numerator, denominator);
}

constexpr std::array<RuleSetId, 7> allSets = {presetRules::showFace,    presetRules::showFaceFilled,
                                              presetRules::hiddenFace,  presetRules::joint,
                                              presetRules::gluedEdge,   presetRules::glueFace,
                                              presetRules::profiledEdge};

class Preset : public testing::TestWithParam<Shop (*)()> {
  protected:
    const Shop shop = GetParam()();

    [[nodiscard]] const RuleSet& rules(RuleSetId id) const {
        const RuleSet* found = findRuleSet(shop, id);
        EXPECT_NE(found, nullptr) << "rule set " << id.value;
        static const RuleSet none;
        return found ? *found : none;
    }
    [[nodiscard]] Verdict verdict(RuleSetId id, DefectKind kind) const {
        return rules(id).ruleFor(kind).verdict;
    }
};

TEST_P(Preset, holdsTheSevenRuleSets) {
    EXPECT_EQ(shop.ruleSets.size(), allSets.size());
    std::set<std::string> names;
    for (const RuleSetId id : allSets) {
        names.insert(rules(id).name);
    }
    EXPECT_EQ(names.size(), allSets.size());
    EXPECT_EQ(names.count(""), 0U);
    EXPECT_EQ(findRuleSet(shop, RuleSetId{presetRules::last + 1}), nullptr);
}

TEST_P(Preset, everySizeInARuleIsPositive) {
    for (const RuleSetId id : allSets) {
        for (const DefectKind kind : allDefectKinds) {
            const DefectRule& rule = rules(id).ruleFor(kind);
            if (rule.largest) {
                EXPECT_GT(*rule.largest, Length()) << rules(id).name << ", " << nameOf(kind);
                EXPECT_NE(rule.verdict, Verdict::Forbidden) << rules(id).name;
            }
        }
    }
}

// The rows of the common practice matrix (no source), kind by kind.
TEST_P(Preset, neverAllowsWhatIsAvoidedEverywhere) {
    for (const RuleSetId id : allSets) {
        for (const DefectKind kind : {DefectKind::Pith, DefectKind::Split, DefectKind::Shake,
                                      DefectKind::Wane, DefectKind::Other}) {
            EXPECT_EQ(verdict(id, kind), Verdict::Forbidden) << rules(id).name << nameOf(kind);
        }
    }
}

TEST_P(Preset, soundKnotsByPlace) {
    const auto largest = [&](RuleSetId id) {
        const DefectRule& rule = rules(id).ruleFor(DefectKind::SoundKnot);
        EXPECT_EQ(rule.verdict, Verdict::Allowed) << rules(id).name;
        return rule.largest;
    };
    EXPECT_EQ(largest(presetRules::hiddenFace), std::nullopt);
    EXPECT_EQ(largest(presetRules::glueFace), std::nullopt);
    // clean < character; a glued edge stands pin knots only
    EXPECT_LT(*largest(presetRules::gluedEdge), *largest(presetRules::showFace));
    EXPECT_LT(*largest(presetRules::showFace), *largest(presetRules::showFaceFilled));
    EXPECT_EQ(verdict(presetRules::joint, DefectKind::SoundKnot), Verdict::Forbidden);
    EXPECT_EQ(verdict(presetRules::profiledEdge, DefectKind::SoundKnot), Verdict::Forbidden);
}

TEST_P(Preset, openKnotsAndBarkAreFilledOrAvoided) {
    for (const DefectKind kind :
         {DefectKind::LooseKnot, DefectKind::KnotHole, DefectKind::BarkPocket}) {
        EXPECT_EQ(verdict(presetRules::showFace, kind), Verdict::Forbidden);
        EXPECT_EQ(verdict(presetRules::showFaceFilled, kind), Verdict::AllowedIfFilled);
        EXPECT_EQ(verdict(presetRules::hiddenFace, kind), Verdict::AllowedIfFilled);
        EXPECT_EQ(verdict(presetRules::glueFace, kind), Verdict::AllowedIfFilled);
        EXPECT_EQ(verdict(presetRules::joint, kind), Verdict::Forbidden);
        EXPECT_EQ(verdict(presetRules::gluedEdge, kind), Verdict::Forbidden);
        EXPECT_EQ(verdict(presetRules::profiledEdge, kind), Verdict::Forbidden);
    }
}

TEST_P(Preset, checksColourAndWormHoles) {
    EXPECT_EQ(verdict(presetRules::showFaceFilled, DefectKind::Check), Verdict::AllowedIfFilled);
    EXPECT_EQ(verdict(presetRules::hiddenFace, DefectKind::Check), Verdict::Allowed);
    EXPECT_EQ(verdict(presetRules::joint, DefectKind::Check), Verdict::Forbidden);
    EXPECT_EQ(verdict(presetRules::gluedEdge, DefectKind::Check), Verdict::Forbidden);
    EXPECT_EQ(verdict(presetRules::showFace, DefectKind::Sapwood), Verdict::Forbidden);
    EXPECT_EQ(verdict(presetRules::showFaceFilled, DefectKind::WormHoles),
              Verdict::AllowedIfFilled);
    EXPECT_EQ(verdict(presetRules::profiledEdge, DefectKind::Stain), Verdict::Allowed);
    for (const DefectKind kind : {DefectKind::Sapwood, DefectKind::Stain, DefectKind::WormHoles}) {
        for (const RuleSetId id : {presetRules::hiddenFace, presetRules::joint,
                                   presetRules::gluedEdge, presetRules::glueFace}) {
            EXPECT_EQ(verdict(id, kind), Verdict::Allowed) << rules(id).name << nameOf(kind);
        }
    }
}

TEST_P(Preset, theHaloStandsWhereWoodIsGluedOrJoined) {
    for (const RuleSetId id : allSets) {
        const Halo& halo = rules(id).halo;
        if (id == presetRules::joint || id == presetRules::gluedEdge) {
            EXPECT_EQ(halo.alongHundredths, 100);
            EXPECT_EQ(halo.acrossHundredths, 50);
            EXPECT_GT(halo.leastAlong, Length());
        } else {
            EXPECT_EQ(halo, Halo{}) << rules(id).name;
        }
    }
}

TEST_P(Preset, chainsRunFromFinishedToRoughAndTakeNothingNegative) {
    const Chains& chains = shop.chains;
    for (const MillingChain* chain :
         {&chains.oneBoard, &chains.panel, &chains.stave, &chains.block, &chains.ply}) {
        ASSERT_FALSE(chain->empty());
        std::set<Stage> seen;
        for (const StageAllowance& stage : *chain) {
            EXPECT_TRUE(seen.insert(stage.stage).second) << "a stage stands twice: " << stage.why;
            EXPECT_FALSE(stage.why.empty());
            EXPECT_GE(stage.along, Length());
            EXPECT_GE(stage.across, Length());
            EXPECT_GE(stage.thick, Length());
        }
    }
    EXPECT_EQ(chains.oneBoard.front().stage, Stage::Sand);
    EXPECT_EQ(chains.oneBoard.back().stage, Stage::RoughCrosscut);
    EXPECT_EQ(chains.panel.front().stage, Stage::Sand);
    EXPECT_EQ(chains.stave.back().stage, Stage::RoughCrosscut);
    EXPECT_EQ(chains.ply.back().stage, Stage::RoughCrosscut);
}

TEST_P(Preset, machinesArePlausible) {
    const Machines& machines = shop.machines;
    for (const Saw* saw :
         {&machines.crosscut, &machines.rip, &machines.stripCrosscut, &machines.roughRip}) {
        EXPECT_FALSE(saw->name.empty());
        EXPECT_GT(saw->kerf, Length());
        EXPECT_LT(saw->kerf, in(1, 4));
        EXPECT_GT(saw->deepest, in(2));
    }
    EXPECT_GT(machines.jointerWidth, in(4));
    EXPECT_GE(machines.planerWidth, machines.jointerWidth);
    EXPECT_GT(machines.jointerLeastLength, in(10));
    EXPECT_GT(machines.planerLeastLength, in(10));
    EXPECT_GT(machines.longestBoard, in(96));
    EXPECT_LT(machines.narrowestRip, machines.cautionRip);
}

TEST_P(Preset, offcutsAndPricesNeverMakeScrapWorthBuying) {
    EXPECT_GT(shop.offcuts.worthPercent, 0);
    EXPECT_LE(shop.offcuts.worthPercent, 60);
    EXPECT_GT(shop.offcuts.leastLength, shop.offcuts.leastWidth);
    for (const Money price : {shop.prices.fillEach, shop.prices.crosscut, shop.prices.rip}) {
        EXPECT_GT(price, Money());
    }
    EXPECT_GT(shop.widthStep, Length());
    EXPECT_GE(shop.panelSlack, shop.widthStep);
    EXPECT_GT(shop.cleaning, Length());
    EXPECT_GT(shop.rawEnd, Length());
}

Length thickOf(const MillingChain& chain) {
    Length sum;
    for (const StageAllowance& stage : chain) {
        sum += stage.thick;
    }
    return sum;
}

// Finished thicknesses that the trade counts on from each quarter must come out of a flat board.
TEST_P(Preset, aFlatBoardReachesTheThicknessTheTradeCountsOn) {
    const auto room = [&](Quarter quarter, Length finished) { // left for warp
        return quarter.nominal() - shop.cleaning - finished;
    };
    const Chains& chains = shop.chains;
    EXPECT_GE(room({4}, in(3, 4)), thickOf(chains.oneBoard) + in(1, 16));
    EXPECT_GE(room({4}, in(3, 4)), thickOf(chains.panel) + thickOf(chains.stave) + in(1, 32));
    EXPECT_GE(room({8}, in(3, 2)), thickOf(chains.oneBoard) + in(1, 4));
    EXPECT_GE(room({8}, in(3, 2)), thickOf(chains.panel) + thickOf(chains.stave) + in(1, 4));
    // A 3 in leg of two plies: half the block, and what each ply loses, out of 8/4.
    const Length ply = (in(3) + thickOf(chains.block)) / 2 + thickOf(chains.ply);
    EXPECT_GE(room({8}, ply), in(1, 4));
}

INSTANTIATE_TEST_SUITE_P(Shops, Preset, testing::Values(&inchShop, &metricShop),
                         [](const auto& preset) {
                             return preset.param == &inchShop ? "inches" : "millimetres";
                         });

TEST(InchPreset, addsWhatTheTradeAdds) {
    const Shop shop = inchShop();
    Length along;
    Length across;
    for (const StageAllowance& stage : shop.chains.oneBoard) {
        if (stage.stage != Stage::PartMultiple) {
            along += stage.along;
            across += stage.across;
        }
    }
    EXPECT_EQ(along, in(2));     // 1 in an end: common practice, no source
    EXPECT_EQ(across, in(1, 4)); // published advice for a rough blank
    EXPECT_EQ(shop.machines.rip.kerf, in(1, 8));
    EXPECT_EQ(shop.offcuts, (OffcutRule{in(16), in(2), in(3, 4), 30})); // common practice
}

TEST(MetricPreset, usesRoundMetricNumbers) {
    const auto isRound = [](Length length) {
        return length % Length::micrometres(100) == Length();
    };
    const Shop shop = metricShop();
    const Chains& chains = shop.chains;
    for (const MillingChain* chain :
         {&chains.oneBoard, &chains.panel, &chains.stave, &chains.block, &chains.ply}) {
        EXPECT_TRUE(std::all_of(chain->begin(), chain->end(), [&](const StageAllowance& stage) {
            return isRound(stage.along) && isRound(stage.across) && isRound(stage.thick);
        }));
    }
    EXPECT_TRUE(isRound(shop.cleaning) && isRound(shop.panelSlack));
    EXPECT_EQ(shop.machines.jointerWidth, Length::millimetres(260));
    EXPECT_EQ(shop.machines.rip.kerf, Length::micrometres(3'200));
}

} // namespace
} // namespace stavewright
