#pragma once
// The words the sheets use, in one place, with the job's way of writing lengths.

#include <string>

#include "core/document/Document.h"

namespace stavewright::papers {

[[nodiscard]] LengthStyle styleOf(const JobInfo& info);
/// A length as the job writes it, to its nearest step: "27 1/2", "698.5".
[[nodiscard]] std::string lengthText(const JobInfo& info, Length length);
/// A reading, as far as a tape can be read.
[[nodiscard]] std::string tapeText(const JobInfo& info, Length length);
/// For a caliper and for sums that have to add up: down to 1/64 in, or a tenth of a millimetre.
[[nodiscard]] std::string exactText(const JobInfo& info, Length length);
/// A size that a fence or a stop is set to, as the job writes lengths.
[[nodiscard]] std::string settingText(const JobInfo& info, Length length);
/// "27 1/2 × 3 1/8", as settings
[[nodiscard]] std::string sizeText(const JobInfo& info, Length length, Length width);
[[nodiscard]] std::string sizeText(const JobInfo& info, Length length, Length width,
                                   Length thickness);
/// "as it lies", "end for end", "face over", "end for end, face over"
[[nodiscard]] std::string poseWords(const Pose& pose);
/// "White oak", or the key when the species table does not know it.
[[nodiscard]] std::string speciesName(const std::string& key);
[[nodiscard]] std::string quarterText(Quarter quarter);
/// "Fill K3": never the mark alone, which could be a part's as well.
[[nodiscard]] std::string fillName(const Defect& defect);
/// "1 blank", "3 blanks"
[[nodiscard]] std::string counted(std::int64_t count, const std::string& one,
                                  const std::string& many);

} // namespace stavewright::papers
