#pragma once
// How far a piece has come in the shop. A piece that is still one with others has come as far as
// the wood they share: a section faced whole is milled when one of its blanks is, and so is a strip
// that was ripped off before. What is cut later from such wood need not be milled again, and finds
// it planed as thin as it is.

#include <algorithm>
#include <optional>

#include "core/layout/Plan.h"

namespace stavewright {

/// A strip that was rough-ripped first is ripped before it is milled, so ripped says nothing there.
[[nodiscard]] inline bool isMilled(FirstFacing facing, const Blank& blank) {
    return blank.state >= CutState::Milled &&
           (facing == FirstFacing::Whole || blank.state != CutState::Ripped);
}

/// The wood that the strip is part of, or the strip itself, is milled.
[[nodiscard]] inline bool isMilled(const Section& section, const Strip& strip) {
    const auto holdsMilled = [&section](const Strip& each) {
        return std::any_of(each.blanks.begin(), each.blanks.end(), [&section](const Blank& blank) {
            return isMilled(section.facing, blank);
        });
    };
    return section.state >= CutState::Milled ||
           (section.facing == FirstFacing::Whole
                ? std::any_of(section.strips.begin(), section.strips.end(), holdsMilled)
                : strip.milled || holdsMilled(strip));
}

/// To which thickness the wood of the strip is planed; nothing where it is not milled or nobody
/// noted it.
[[nodiscard]] inline std::optional<Length> planedTo(const Section& section, const Strip& strip) {
    if (!isMilled(section, strip)) {
        return std::nullopt;
    }
    return section.facing == FirstFacing::Whole ? section.planedTo : strip.planedTo;
}

/// With its section cut it is crosscut at least.
[[nodiscard]] inline CutState stateOf(const Section& section, const Blank& blank) {
    if (section.state == CutState::Planned) {
        return blank.state;
    }
    for (const Strip& strip : section.strips) {
        const bool isIts = std::any_of(strip.blanks.begin(), strip.blanks.end(),
                                       [&blank](const Blank& each) { return each.id == blank.id; });
        if (isIts && isMilled(section, strip)) {
            return std::max(blank.state, CutState::Milled);
        }
    }
    return std::max(blank.state, CutState::Cut);
}

} // namespace stavewright
