#include "core/planning/DefectRuling.h"

#include <algorithm>

#include "core/geometry/PolygonOps.h"

namespace stavewright::planning {

Ruling rulingFor(const RuleSet& rules, const Defect& defect) {
    const DefectRule& rule = rules.ruleFor(defect.kind);
    if (rule.verdict == Verdict::Forbidden || (rule.largest && sizeOf(defect) > *rule.largest)) {
        return Ruling::Forbidden;
    }
    return rule.verdict == Verdict::Allowed ? Ruling::Free : Ruling::Fill;
}

bool disturbsGrain(DefectKind kind) {
    return kind == DefectKind::SoundKnot || kind == DefectKind::LooseKnot ||
           kind == DefectKind::KnotHole || kind == DefectKind::BarkPocket;
}

std::optional<Polygon> judgedRegion(const RuleSet& rules, const Defect& defect, const Board& board,
                                    BoardFace face, Length finished) {
    const Length removed = std::max(Length(), board.thinnest - finished) / 2;
    const Length depth = face == BoardFace::A ? removed : board.thinnest - removed;
    std::optional<Polygon> outline = outlineAtDepth(defect, board.thinnest, depth);
    if (!outline || !disturbsGrain(defect.kind)) {
        return outline;
    }
    const Length size = sizeOf(defect);
    const Length along = std::max(rules.halo.leastAlong, size * rules.halo.alongHundredths / 100);
    const Length across =
        std::max(rules.halo.leastAcross, size * rules.halo.acrossHundredths / 100);
    if (along == Length() && across == Length()) {
        return outline;
    }
    return grown(*outline, along, across);
}

} // namespace stavewright::planning
