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

namespace {

struct Margin {
    Length along;
    Length across;
};

Margin marginOf(const RuleSet& rules, const Defect& defect) {
    if (!disturbsGrain(defect.kind)) {
        return {};
    }
    const Length size = sizeOf(defect);
    return {std::max(rules.halo.leastAlong, size * rules.halo.alongHundredths / 100),
            std::max(rules.halo.leastAcross, size * rules.halo.acrossHundredths / 100)};
}

} // namespace

Rect reachOf(const RuleSet& rules, const Defect& defect) {
    const Rect first = boundingBox(defect.onA ? defect.onA->outline : defect.onB->outline);
    const Rect second = boundingBox(defect.onB ? defect.onB->outline : defect.onA->outline);
    const Margin margin = marginOf(rules, defect);
    return {std::min(first.x0, second.x0) - margin.along,
            std::min(first.y0, second.y0) - margin.across,
            std::max(first.x1, second.x1) + margin.along,
            std::max(first.y1, second.y1) + margin.across};
}

std::optional<Polygon> judgedRegion(const RuleSet& rules, const Defect& defect, const Board& board,
                                    BoardFace face, Length finished) {
    const Length removed = std::max(Length(), board.thinnest - finished) / 2;
    const Length depth = face == BoardFace::A ? removed : board.thinnest - removed;
    std::optional<Polygon> outline = outlineAtDepth(defect, board.thinnest, depth);
    const Margin margin = marginOf(rules, defect);
    if (!outline || (margin.along == Length() && margin.across == Length())) {
        return outline;
    }
    return grown(*outline, margin.along, margin.across);
}

} // namespace stavewright::planning
