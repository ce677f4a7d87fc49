#include "core/midjob/Words.h"

#include <set>

#include "core/base/ListedText.h"
#include "core/midjob/PlanRest.h"
#include "core/units/QuantityText.h"
#include "core/units/SaidLength.h"

namespace stavewright::midjob {

std::string namesOf(const Document& document, const std::vector<BlankPurpose>& these,
                    std::size_t most) {
    std::vector<std::string> names;
    names.reserve(these.size());
    for (const BlankPurpose& purpose : these) {
        names.push_back(labelOf(document, purpose));
    }
    return listed(names, most);
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

namespace {

/// `each(layout, strip)` for every blank of the part, or stave of the panel.
template <class Each>
void forBlanksOf(const Plan& plan, const BlankPurpose& wanted, Each each) {
    for (const BoardLayout& layout : plan.boards) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    BlankPurpose whole = blank.purpose;
                    whole.stave = wanted.stave == 0 ? 0 : whole.stave;
                    if (whole == wanted) {
                        each(layout, strip);
                    }
                }
            }
        }
    }
}

/// Marks of the boards that the blank, or the panel, comes from.
std::set<std::string> boardsOf(const Document& document, const Plan& plan,
                               const BlankPurpose& wanted) {
    std::set<std::string> boards;
    forBlanksOf(plan, wanted, [&](const BoardLayout& layout, const Strip& /*strip*/) {
        if (const Board* board = findBoard(document, layout.board)) {
            boards.insert(board->mark);
        }
    });
    return boards;
}

std::multiset<StripId> stripsOf(const Plan& plan, const BlankPurpose& wanted) {
    std::multiset<StripId> strips;
    forBlanksOf(plan, wanted, [&](const BoardLayout& /*layout*/, const Strip& strip) {
        strips.insert(strip.id);
    });
    return strips;
}

} // namespace

std::string placesOf(const Document& before, const Plan& plan,
                     const std::vector<BlankPurpose>& these, std::size_t most) {
    std::string text;
    std::size_t said = 0;
    for (const BlankPurpose& wanted : these) {
        const std::set<std::string> boards = boardsOf(before, plan, wanted);
        if (boards.empty()) {
            continue;
        }
        if (said == most) {
            return text + " and others";
        }
        ++said;
        text += text.empty() ? "" : ", ";
        text += labelOf(before, wanted);
        const std::multiset<StripId> strips = stripsOf(plan, wanted);
        if (before.plan && stripsOf(*before.plan, wanted) == strips) {
            text += strips.size() == 1 ? " shifted in its strip" : " shifted in its strips";
            continue;
        }
        if (boards.size() > 2) { // a panel
            std::set<std::string> fresh = boards;
            for (const std::string& mark :
                 before.plan ? boardsOf(before, *before.plan, wanted) : std::set<std::string>()) {
                fresh.erase(mark);
            }
            text += fresh.size() == 1 ? " with wood from board " + *fresh.begin()
                                      : " from other staves";
            continue;
        }
        if (boards.size() == 1 && before.plan && boardsOf(before, *before.plan, wanted) == boards) {
            text += " elsewhere on board " + *boards.begin();
            continue;
        }
        text += (boards.size() == 1 ? " from board " : " from boards ") +
                listed({boards.begin(), boards.end()});
    }
    return text;
}

std::string said(const Document& document, Length length) {
    return saidLength(length, {document.info.units, document.info.inchDenominator, true});
}

std::string saidReading(const Document& document, Length reading) {
    return stavewright::saidReading(reading,
                                    {document.info.units, document.info.inchDenominator, true});
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
