// The rules by which zones are laid on blanks (DEVELOPERS.md, "Rules of the model"), worked out by
// hand; the planner's side and the audit's are each held against the same numbers.

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "AuditSample.h"
#include "BrokenPlan.h"
#include "core/audit/Needs.h"
#include "core/milling/BlankSpec.h"
#include "core/shop/Presets.h"

namespace stavewright::audit_sample {
namespace {

/// A zone as it lies on a blank so many inches wide.
struct Laid {
    BoardFace face = BoardFace::A;
    RuleSetId rules;
    Stretch along;
    Stretch across;
    friend bool operator==(const Laid&, const Laid&) = default;
};

std::ostream& operator<<(std::ostream& out, const Laid& laid) {
    const auto inches = [](Length length) {
        return static_cast<double>(length.inNanometres()) / 25'400'000.0;
    };
    return out << (laid.face == BoardFace::A ? 'A' : 'B') << " rules " << laid.rules.value
               << " along " << inches(laid.along.from) << ".." << inches(laid.along.to)
               << " across " << inches(laid.across.from) << ".." << inches(laid.across.to);
}

std::vector<Laid> laidByThePlanner(const Document& job, PartId part, Length width) {
    const auto specs = blankSpecs(job);
    EXPECT_TRUE(specs.ok());
    const BlankSpec* spec = specOf(specs.value(), {part, 1, 0, 0});
    std::vector<Laid> laid;
    for (const BlankZone& zone : spec->zones) {
        laid.push_back({zone.face, zone.rules, zone.along.in(spec->length), zone.across.in(width)});
    }
    return laid;
}

std::vector<Laid> laidByTheAudit(const Document& job, PartId part, Length width) {
    audit_detail::Report report(job);
    std::vector<Laid> laid;
    for (const audit_detail::Need& need : audit_detail::needsOf(job, Plan{}, report)) {
        if (need.part->id == part) {
            for (const audit_detail::NeededZone& zone : need.zones) {
                laid.push_back({zone.face, zone.rules->id, zone.along, zone.across.in(width)});
            }
        }
    }
    return laid;
}

void expectLaid(const Document& job, PartId part, Length width, const std::vector<Laid>& byHand) {
    EXPECT_THAT(laidByThePlanner(job, part, width), testing::UnorderedElementsAreArray(byHand));
    EXPECT_THAT(laidByTheAudit(job, part, width), testing::UnorderedElementsAreArray(byHand));
}

// The top: 30 x 12 in; panel 1 in longer and wider, staves 1 in longer still and 1/8 in wider than
// net. So a stave is 32 in long, the panel's ends lie 1 in inside it, and of a stave 4 in wide the
// net lines lie 1/16 in inside its rough edges.
const Stretch alongTop{in(1), in(31)};
const Stretch net{in(1, 16), in(63, 16)};
const Stretch nearBand{in(0), in(1, 16)};
const Stretch farBand{in(63, 16), in(4)};

/// Both bands on both faces, as every stave has them.
std::vector<Laid> withBands(std::vector<Laid> laid) {
    for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
        laid.push_back({face, presetRules::gluedEdge, alongTop, nearBand});
        laid.push_back({face, presetRules::gluedEdge, alongTop, farBand});
    }
    return laid;
}

TEST(ZoneRules, AStaveWithoutZonesHasDefaultsOverItsNetWidthAndBandsOfHalfTheJointing) {
    expectLaid(goodJob(), id::top, in(4),
               withBands({{BoardFace::A, presetRules::showFace, alongTop, net},
                          {BoardFace::B, presetRules::hiddenFace, alongTop, net}}));
}

TEST(ZoneRules, AZoneOfAPanelHoldsOverTheWholeNetWidthOfEveryStave) {
    // A zone on 2 in of the panel's width: any stave may come to lie there.
    Document job = goodJob();
    Zone zone{ZoneId{901}, "plate", ZoneRole::JoineryEnd, {}, presetRules::joint};
    zone.area.faces = ZoneFaces::B;
    zone.area.along.to = {Anchored::From::Low, in(5)};
    zone.area.across = {{Anchored::From::Low, in(3)}, {Anchored::From::Low, in(5)}};
    partOf(job, id::top).zones = {zone};
    expectLaid(job, id::top, in(4),
               withBands({{BoardFace::B, presetRules::joint, {in(1), in(6)}, net}}));
}

TEST(ZoneRules, TheBandsFollowTheStavesWidthAndTheJointing) {
    Document job = goodJob();
    job.shop.chains.stave[0].across = in(1, 4);
    const Stretch wideNet{in(1, 8), in(47, 8)};
    std::vector<Laid> byHand = {{BoardFace::A, presetRules::showFace, alongTop, wideNet},
                                {BoardFace::B, presetRules::hiddenFace, alongTop, wideNet}};
    for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
        byHand.push_back({face, presetRules::gluedEdge, alongTop, {in(0), in(1, 8)}});
        byHand.push_back({face, presetRules::gluedEdge, alongTop, {in(47, 8), in(6)}});
    }
    expectLaid(job, id::top, in(6), byHand);
}

// The rail: 24 x 3 in in a blank of 26 x 3 1/4 in.
TEST(ZoneRules, OneZoneOfAPartsOwnTakesThePlaceOfTheDefaults) {
    Document job = goodJob();
    Zone end{ZoneId{901}, "pocket end", ZoneRole::JoineryEnd, {}, presetRules::joint};
    end.area.faces = ZoneFaces::A;
    end.area.along.to = {Anchored::From::Low, in(3)};
    partOf(job, id::rail).zones = {end};
    expectLaid(job, id::rail, in(13, 4),
               {{BoardFace::A, presetRules::joint, {in(1), in(4)}, {in(1, 8), in(25, 8)}}});
}

TEST(ZoneRules, AJointAddsToTheDefaults) {
    Document job = goodJob();
    partOf(job, id::rail).zones.clear();
    Joint joint;
    joint.id = JointId{902};
    joint.name = "rail to leg";
    joint.rules = presetRules::joint;
    JointSide side;
    side.part = id::rail;
    side.area.faces = ZoneFaces::B;
    side.area.along.from = {Anchored::From::High, in(-2)};
    joint.sides = {side};
    job.joints = {joint};
    const Stretch along{in(1), in(25)};
    const Stretch across{in(1, 8), in(25, 8)};
    expectLaid(job, id::rail, in(13, 4),
               {{BoardFace::A, presetRules::showFace, along, across},
                {BoardFace::B, presetRules::hiddenFace, along, across},
                {BoardFace::B, presetRules::joint, {in(23), in(25)}, across}});
}

/// The failures when a knot hole 1/2 in large stands with its middle at this place of the first
/// stave, which lies from 1/4 to 3 5/8 in across on board 7. Halo of the glued edge: half a
/// diameter across, so the hole counts 1/2 in from its middle there.
std::size_t failuresWithAHoleAt(Length y) {
    Document job = goodJob();
    // Faces that fill holes, so that the edges alone are judged.
    for (RuleSet& rules : job.shop.ruleSets) {
        if (rules.id == presetRules::showFace || rules.id == presetRules::hiddenFace) {
            rules.rules[static_cast<std::size_t>(DefectKind::KnotHole)] = {Verdict::AllowedIfFilled,
                                                                           std::nullopt};
        }
    }
    boardOf(job, id::board7)
        .defects.push_back(
            roundDefect(DefectId{309}, "K9", DefectKind::KnotHole, {in(20), y}, in(1, 2)));
    claimWhatIsCounted(job);
    return audit(job).failures();
}

// Net line at 1/4 + 1/16 in; the hole with its halo may touch it, 5 micrometres over is too much.
// The mark is drawn round the true circle, so it reaches a little further than half its size.
TEST(ZoneRules, AHaloMayTouchTheNetLineOfAStave) {
    const Polygon drawn = ellipsePolygon({in(0), in(0)}, in(1, 2), in(1, 2));
    const Length beyond = boundingBox(drawn).y1 - in(1, 4);
    const Length touching = in(1, 4) + in(1, 16) + in(1, 2) + beyond;
    EXPECT_EQ(failuresWithAHoleAt(touching), 0U);
    EXPECT_EQ(failuresWithAHoleAt(touching - Length::micrometres(5)), 1U);
}

} // namespace
} // namespace stavewright::audit_sample
