#pragma once
// A few of a job's kinds at a time. What pricing a board takes grows with about the cube of the
// number of kinds, but a board holds a dozen blanks, and a dozen kinds of various lengths fill it
// as well as a hundred do. So where the kinds are many each board is asked for some of them, drawn
// anew from time to time, and the programme that mixes the patterns sees to it that all are made.
// Bounds know nothing of this: they are of all kinds.
//
//   if (areMany(problem)) { FewKinds few(problem, drawKinds(problem, worth, random)); }

#include "core/cutting/Random.h"
#include "core/cutting/SectionMenu.h"

namespace stavewright::cutting {

/// More kinds are wanted than are priced together.
[[nodiscard]] bool areMany(const Problem& problem);

/// At random, rather those that are worth much in all, of lengths as various as they are. `worth`,
/// by kind: 0 or less is not drawn. As many as are priced together, or as there are; ascending.
[[nodiscard]] std::vector<std::size_t> drawKinds(const Problem& problem,
                                                 const std::vector<double>& worth, Random& random);

/// What each kind is worth in all, as far as it is open.
[[nodiscard]] std::vector<double> worthOpen(const Problem& problem, const Values& values,
                                            const std::vector<std::int64_t>& open);
/// The same for one board: what it cannot give is worth nothing.
[[nodiscard]] std::vector<double> worthOn(const Problem& problem, const BoardModel& model,
                                          std::vector<double> worth);
/// Those that are worth something, each.
[[nodiscard]] std::vector<std::size_t> kindsWorthIt(const Problem& problem, const Values& values);

/// Values of the drawn kinds alone; the others are worth nothing.
[[nodiscard]] Values only(const Values& values, const std::vector<std::size_t>& kinds);

/// The same job, asking for these kinds alone; they keep their numbers. Without boards, which
/// pricing knows as models.
struct FewKinds {
    FewKinds(const Problem& all, const std::vector<std::size_t>& kinds);
    FewKinds(const FewKinds&) = delete;
    FewKinds& operator=(const FewKinds&) = delete;

    Problem problem;
    Context context; ///< of it
};

} // namespace stavewright::cutting
