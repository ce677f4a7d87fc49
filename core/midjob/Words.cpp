#include "core/midjob/Words.h"

#include "core/midjob/PlanRest.h"
#include "core/units/QuantityText.h"
#include "core/units/SaidLength.h"

namespace stavewright::midjob {

std::string namesOf(const Document& document, const std::vector<BlankPurpose>& these,
                    std::size_t most) {
    std::string text;
    const std::size_t shown = std::min(these.size(), most);
    for (std::size_t i = 0; i < shown; ++i) {
        const bool isLast = i + 1 == shown && shown == these.size() && shown > 1;
        text += i == 0 ? "" : isLast ? " and " : ", ";
        text += labelOf(document, these[i]);
    }
    if (shown < these.size()) {
        text += " and " + std::to_string(these.size() - shown) + " more";
    }
    return text;
}

std::string costSentence(const Document& document, Money more, BoardFeet lumber) {
    const auto moreOrLess = [](auto value) {
        return value > decltype(value){} ? " more" : " less";
    };
    std::string text;
    if (more != Money()) {
        const Money amount = more < Money() ? -more : more;
        text = "The job costs " + formatMoney(amount, document.info.currency) + moreOrLess(more);
    }
    if (lumber != BoardFeet()) {
        const BoardFeet amount = lumber < BoardFeet() ? BoardFeet() - lumber : lumber;
        text += text.empty() ? "The job uses " : " and uses ";
        text += lumberText(amount, document.info.units) + moreOrLess(lumber) + " lumber";
    }
    return text.empty() ? text : text + ".";
}

std::string said(const Document& document, Length length) {
    return saidLength(length, {document.info.units, document.info.inchDenominator, true});
}

std::string sentenceOf(const Document& document, const Moved& moved) {
    std::string text =
        std::to_string(moved.stays) + (moved.stays == 1 ? " blank stays" : " blanks stay");
    if (!moved.moved.empty()) {
        text += "; moved: " + namesOf(document, moved.moved, 12);
    }
    if (!moved.gained.empty()) {
        text += "; placed now: " + namesOf(document, moved.gained, 12);
    }
    if (!moved.lost.empty()) {
        text += "; without a place: " + namesOf(document, moved.lost, 12);
    }
    text += ".";
    const std::string cost = costSentence(document, moved.costsMore, moved.lumberMore);
    return text + " " + (cost.empty() ? "It costs the same." : cost);
}

} // namespace stavewright::midjob
