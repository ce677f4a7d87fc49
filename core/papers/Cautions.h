#pragma once
// What to beware of, and only what this plan raises: a page of every caution there is would not be
// read.

#include <string>
#include <vector>

#include "core/papers/CutSteps.h"

namespace stavewright::papers {

/// Stretches of a board that nobody has looked at, as orders: turn over, look, then cut.
[[nodiscard]] std::vector<std::string> lookFirst(const Document& document, const BoardCuts& cuts);

/// What a caution is read at.
enum class Step { Crosscut, RoughRip, Facing, Rip, StripCrosscut };

struct Caution {
    Step at = Step::Crosscut;
    std::string text;
};

/// Cautions that cutting this board raises, each for the step where it applies.
[[nodiscard]] std::vector<Caution> boardCautions(const Document& document, const BoardCuts& cuts);

/// A piece so short is not held by hand at the crosscut saw.
[[nodiscard]] bool isShortAtTheCrosscut(Length length);
/// "hold them with a clamp, never by hand near the blade": of short pieces.
[[nodiscard]] std::string howToHoldShortPieces();

/// What to know before filling; printed where a board has fills.
[[nodiscard]] std::string fillCaution();

/// Cautions of the job as a whole, for the first page.
[[nodiscard]] std::vector<std::string> jobCautions(const Document& document);

} // namespace stavewright::papers
