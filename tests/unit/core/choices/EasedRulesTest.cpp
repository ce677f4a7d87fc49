#include "core/choices/EasedRules.h"

#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright::choices {
namespace {

using namespace small_job;

const RuleSet& preset(const Shop& shop, RuleSetId id) { return *findRuleSet(shop, id); }

TEST(EasedRules, TheNextSizeIsTheNextRoundOne) {
    EXPECT_EQ(nextSize(in(3, 8), UnitSystem::Inches), in(1, 2));
    EXPECT_EQ(nextSize(in(1, 2), UnitSystem::Inches), in(3, 4));
    EXPECT_EQ(nextSize(Length(), UnitSystem::Inches), in(1, 4));
    EXPECT_EQ(nextSize(in(4), UnitSystem::Inches), std::nullopt);
    EXPECT_EQ(nextSize(Length::millimetres(10), UnitSystem::Millimetres), Length::millimetres(12));
}

TEST(EasedRules, RaiseOneKindOfKnotByOneSize) {
    const Shop shop = inchShop();
    const JobInfo info;
    const std::vector<EasedRules> show =
        easedRules(preset(shop, presetRules::showFace), info); // sound up to 3/8 in
    ASSERT_EQ(show.size(), 2U);
    EXPECT_EQ(show[0].words, "allowing sound knots up to 1/2\"");
    EXPECT_EQ(show[0].rules.ruleFor(DefectKind::SoundKnot).largest, in(1, 2));
    EXPECT_EQ(show[0].rules.ruleFor(DefectKind::KnotHole),
              preset(shop, presetRules::showFace).ruleFor(DefectKind::KnotHole));
    EXPECT_EQ(show[1].words, "allowing filled knots up to 1/4\"");
    EXPECT_EQ(show[1].rules.ruleFor(DefectKind::KnotHole).verdict, Verdict::AllowedIfFilled);
    // Sound knots of any size are allowed in a hidden face, open ones filled up to 2 1/2 in.
    const std::vector<EasedRules> hidden = easedRules(preset(shop, presetRules::hiddenFace), info);
    ASSERT_EQ(hidden.size(), 1U);
    EXPECT_EQ(hidden[0].words, "allowing filled knots up to 3\"");
}

TEST(EasedRules, AreLooserThanWhatTheyEase) {
    const Shop shop = inchShop();
    for (const RuleSet& rules : shop.ruleSets) {
        for (const EasedRules& eased : easedRules(rules, {})) {
            EXPECT_TRUE(isLooser(eased.rules, rules)) << eased.words << " of " << rules.name;
            EXPECT_FALSE(isLooser(rules, eased.rules)) << eased.words << " of " << rules.name;
        }
        EXPECT_FALSE(isLooser(rules, rules));
    }
    EXPECT_TRUE(
        isLooser(preset(shop, presetRules::showFaceFilled), preset(shop, presetRules::showFace)));
}

TEST(EasedRules, AMarginThatGrowsIsNotLooser) {
    const Shop shop = inchShop();
    RuleSet wider = preset(shop, presetRules::showFaceFilled);
    wider.halo.leastAlong = in(1);
    EXPECT_FALSE(isLooser(wider, preset(shop, presetRules::showFace)));
}

TEST(EasedRules, BecomeOneEditThatCanBeTakenBack) {
    Document job = oneBar();
    const Document before = job;
    const RuleSet eased = easedRules(preset(job.shop, presetRules::hiddenFace), job.info)[0].rules;
    const Edit edit = withRules(job, job.parts[0], 1, eased); // face B, a default
    const Result<Edit> back = apply(job, edit);
    ASSERT_TRUE(back.ok());
    EXPECT_TRUE(validate(job).ok());
    ASSERT_EQ(job.parts[0].zones.size(), 2U);
    EXPECT_EQ(job.parts[0].zones[0].rules, presetRules::showFace);
    const RuleSet* given = findRuleSet(job.shop, job.parts[0].zones[1].rules);
    ASSERT_NE(given, nullptr);
    EXPECT_EQ(given->rules, eased.rules);
    // Once more for another part: the set is there already.
    const std::size_t sets = job.shop.ruleSets.size();
    ASSERT_TRUE(apply(job, withRules(job, job.parts[0], 1, eased)).ok());
    EXPECT_EQ(job.shop.ruleSets.size(), sets);
    ASSERT_TRUE(apply(job, back.value()).ok());
    EXPECT_EQ(job, before);
}

} // namespace
} // namespace stavewright::choices
