#include "core/audit/Checks.h"

namespace stavewright::audit_detail {

void checkPlaning(const Case& opened, Report& report) {
    const Shop& shop = opened.document.shop;
    const Words& words = report.words();
    for (const PlacedBlank& placed : opened.blanks) {
        // What is cut already is cut.
        if (!placed.sound || !placed.need || placed.blank->state != CutState::Planned) {
            continue;
        }
        // A part that is made thinner because warp leaves no more is not blamed for that.
        const Length needed = placed.need->thicknessOfWanted + shop.cleaning;
        const Length over = placed.board->thinnest - needed;
        if (over <= shop.mostPlanedAway) {
            continue;
        }
        report.fail(FindingKind::TooMuchPlanedAway, about(placed),
                    words.blank(placed.blank->purpose) + " comes from " +
                        words.board(placed.board->id) + ", " +
                        words.length(placed.board->thinnest) + " thick; its milling needs " +
                        words.length(needed) + ", so " + words.length(over) +
                        " would be planed away for nothing. The shop allows " +
                        words.length(shop.mostPlanedAway) + '.');
    }
}

} // namespace stavewright::audit_detail
