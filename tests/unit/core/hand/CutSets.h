#pragma once
// Random sets of cuts, each inside its safe window with the earlier ones as they fell. The test
// makes a few of them, bench_cuts a thousand.

#include <functional>
#include <string>
#include <vector>

#include "core/hand/SafeWindow.h"

namespace stavewright::cut_sets {

struct Counted {
    int sets = 0;
    int cuts = 0;
    int losses = 0;   ///< parts lost by a cut inside its window
    int unclean = 0;  ///< sets that the audit refuses afterwards
    int outside = 0;  ///< cuts tried one mark of the tape outside
    int harmless = 0; ///< of those, with nothing lost after all, or nothing said
    int judged = 0;   ///< blanks said to be lost that were looked for everywhere
    int comeOut = 0;  ///< of those, that come out all the same
    int strips = 0;   ///< with several blanks, of which some are said to be lost
    int more = 0;     ///< of those, where one more comes out than was said
    std::vector<std::string> troubles;
};

struct Wish {
    int sets = 5;
    std::uint64_t seed = 11;
    int judged = 6; ///< lost blanks to look for everywhere; slow
};

/// The jobs have plans that pass the audit.
Counted cutAtRandom(const std::vector<Document>& jobs, const Wish& wish);

/// Whether the blank comes out of its strip anywhere at all: every position along, cut to every
/// length down to its finished one, along either edge; by the audit alone. Nothing lies over what
/// the saw took, u in the section's frame.
bool comesOutAnyhow(const Document& job, BoardLayout layout, const Blank& blank, SectionId section,
                    StripId strip, std::optional<Stretch> sawn);

/// Whether all these blanks come out of the strip together, in any order, each as above. Of at most
/// four.
bool comeOutTogether(const Document& job, const BoardLayout& layout,
                     const std::vector<Blank>& blanks, SectionId section, StripId strip,
                     std::optional<Stretch> sawn);

} // namespace stavewright::cut_sets
