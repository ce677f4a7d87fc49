#pragma once
// What an event comes to, in words.

#include <string>
#include <vector>

#include "core/document/Document.h"

namespace stavewright::midjob {

/// "R1, R2 and S4"; of more than `most` the rest as a number.
[[nodiscard]] std::string namesOf(const Document& document, const std::vector<BlankPurpose>& these,
                                  std::size_t most = 6);
/// "The job costs $4.10 more and uses 3.2 bd ft more lumber."; empty where nothing changes.
[[nodiscard]] std::string costSentence(const Document& document, Money more, BoardFeet lumber);
/// "R1 from board 7, S2 elsewhere on board 3, C1 shifted in its strip": where the plan has them
/// now; those it has not are left out.
[[nodiscard]] std::string placesOf(const Document& before, const Plan& plan,
                                   const std::vector<BlankPurpose>& these, std::size_t most = 4);
[[nodiscard]] std::string said(const Document& document, Length length);
/// Off the tape.
[[nodiscard]] std::string saidReading(const Document& document, Length reading);

} // namespace stavewright::midjob
