// What each place of a part tolerates. Common practice, no source, for the verdicts by kind; shaped
// by published advice on filling, gluing and jointing knotty wood. In the four words of that
// practice: leave it -> Allowed; fill it, then use it -> AllowedIfFilled; only if the client wants
// character -> Allowed in "Show face, knots filled" and Forbidden elsewhere; avoid -> Forbidden.

#include "core/shop/PresetParts.h"
#include "core/shop/Presets.h"

namespace stavewright::preset_parts {

namespace {

DefectRule leave() { return {Verdict::Allowed, std::nullopt}; }
DefectRule leaveUpTo(Length largest) { return {Verdict::Allowed, largest}; }
DefectRule fill() { return {Verdict::AllowedIfFilled, std::nullopt}; }
DefectRule fillUpTo(Length largest) { return {Verdict::AllowedIfFilled, largest}; }

/// Everything that is not named stays forbidden: split, shake, pith, wane and "other" everywhere.
class RuleSetMaker {
  public:
    RuleSetMaker(RuleSetId id, std::string name) {
        m_rules.id = id;
        m_rules.name = std::move(name);
    }
    RuleSetMaker& let(std::initializer_list<DefectKind> kinds, DefectRule rule) {
        for (const DefectKind kind : kinds) {
            m_rules.rules[static_cast<std::size_t>(kind)] = rule;
        }
        return *this;
    }
    /// The disturbed grain round a knot: one diameter along, half a diameter across on each side
    /// (common practice, no source; no reliable ratio is published). Wanted where wood is glued or
    /// joined: strips marked right up to the knot gave more yield and more failed glue joints
    /// (published, an extension specialist's column).
    RuleSetMaker& withHalo(Length leastAlong) {
        m_rules.halo = {100, 50, leastAlong, Length()};
        return *this;
    }
    [[nodiscard]] RuleSet done() const { return m_rules; }

  private:
    RuleSet m_rules;
};

constexpr std::initializer_list<DefectKind> openKnots = {
    DefectKind::LooseKnot, DefectKind::KnotHole, DefectKind::BarkPocket};
constexpr std::initializer_list<DefectKind> colourAndPinholes = {
    DefectKind::Sapwood, DefectKind::Stain, DefectKind::WormHoles};

} // namespace

std::vector<RuleSet> ruleSetsOf(const RuleSizes& sizes) {
    return {
        RuleSetMaker(presetRules::showFace, "Show face, clean")
            .let({DefectKind::SoundKnot}, leaveUpTo(sizes.cleanShow))
            .done(),
        RuleSetMaker(presetRules::showFaceFilled, "Show face, knots filled")
            .let({DefectKind::SoundKnot}, leaveUpTo(sizes.characterShow))
            .let(openKnots, fillUpTo(sizes.filledShow))
            .let({DefectKind::Check}, fillUpTo(sizes.filledCheck))
            .let({DefectKind::WormHoles}, fill())
            .let({DefectKind::Sapwood, DefectKind::Stain}, leave())
            .done(),
        RuleSetMaker(presetRules::hiddenFace, "Hidden face")
            .let({DefectKind::SoundKnot, DefectKind::Check}, leave())
            .let(openKnots, fillUpTo(sizes.filledHidden))
            .let(colourAndPinholes, leave())
            .done(),
        RuleSetMaker(presetRules::joint, "Joint")
            .let(colourAndPinholes, leave())
            .withHalo(sizes.haloLeast)
            .done(),
        RuleSetMaker(presetRules::gluedEdge, "Glued edge")
            .let({DefectKind::SoundKnot}, leaveUpTo(sizes.pinKnot))
            .let(colourAndPinholes, leave())
            .withHalo(sizes.haloLeast)
            .done(),
        RuleSetMaker(presetRules::glueFace, "Glue face between plies")
            .let({DefectKind::SoundKnot, DefectKind::Check}, leave())
            .let(openKnots, fillUpTo(sizes.filledHidden))
            .let(colourAndPinholes, leave())
            .done(),
        RuleSetMaker(presetRules::profiledEdge, "Profiled edge")
            .let({DefectKind::Stain}, leave())
            .done(),
    };
}

} // namespace stavewright::preset_parts
