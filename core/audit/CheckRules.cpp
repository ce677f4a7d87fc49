#include "core/audit/Checks.h"

namespace stavewright::audit_detail {

namespace {

/// A blank whose end only rounds into the stretch does not lie in it.
bool reachesInto(const PlacedBlank& placed, const Stretch& along) {
    const Length allowed = placed.section->frame.isParallel() ? Length() : polygonTolerance;
    return placed.box.x0 + allowed < along.to && along.from + allowed < placed.box.x1;
}

void check(const PlacedBlank& placed, const BoardRule& rule, Report& report) {
    const Words& words = report.words();
    const PartId part = placed.blank->purpose.part;
    const bool isFor = rule.kind == BoardRule::Kind::KeptFor;
    const bool concerns = isFor ? rule.part != part : rule.part == part;
    if (rule.board != placed.board->id || !concerns ||
        (rule.along && !reachesInto(placed, *rule.along))) {
        return;
    }
    std::string where = words.board(rule.board);
    if (rule.along) {
        where +=
            " between " + words.length(rule.along->from) + " and " + words.length(rule.along->to);
    }
    report.fail(FindingKind::AgainstBoardRule, about(placed),
                words.blank(placed.blank->purpose) + " lies on " + where +
                    (isFor ? ", which is kept for part " + words.part(rule.part) + "."
                           : ", which part " + words.part(rule.part) + " is kept off."));
}

} // namespace

void checkRules(const Case& opened, Report& report) {
    for (const PlacedBlank& placed : opened.blanks) {
        // What is cut already is cut.
        if (!placed.sound || placed.blank->state != CutState::Planned) {
            continue;
        }
        for (const BoardRule& rule : opened.document.boardRules) {
            check(placed, rule, report);
        }
    }
}

} // namespace stavewright::audit_detail
