#pragma once
// Builds patterns board by board: always the board that gives most of what is still wanted for its
// price. Values of kinds that are wanted no more are nothing; a pattern counts only what is still
// wanted.
//
//   Construction made = construct(search, values, openDemand, candidateBoards);

#include "core/cutting/Accounts.h"
#include "core/cutting/BoardPricing.h"

namespace stavewright::cutting {

/// The boards as the search sees them at one fineness.
struct Stock {
    const Context* context = nullptr;
    const Accounts* accounts = nullptr;
    std::vector<const BoardPricing*> menus; ///< by board
    /// The menus know all kinds, and these are many: each board is asked for a few of them at once.
    bool asksForFew = false;
    /// Where the menus know but a few kinds each: others that know them all, for what is left over.
    std::vector<const BoardPricing*> rough;
};

/// The same boards with menus that know all kinds, be it roughly.
[[nodiscard]] Stock knowingAllKinds(const Stock& stock);

struct Offer {
    Pattern pattern;
    Demand yield;
    Cost value = 0; ///< of what is wanted of it
};

/// What the wanted part of a yield is worth.
[[nodiscard]] Cost wantedValue(const Problem& problem, const Values& values, const Demand& yield,
                               const Demand& open);

/// How often a board is asked, the values of what it makes too much of lowered each time.
inline constexpr int timesAsked = 4;

/// Best pattern of a board found for a limited demand: priced without limits, then with the values
/// of what it makes too much of lowered; heuristic. `seen`, when given, takes what the menu tells
/// besides.
[[nodiscard]] Offer bestWithin(const Stock& stock, std::size_t board, const Values& values,
                               const Demand& open, const Interrupt& interrupt, std::int64_t& work,
                               int times = timesAsked, std::vector<SeenSections>* seen = nullptr);

struct Construction {
    std::vector<Pattern> patterns;
    Demand open; ///< what is left over
    std::int64_t work = 0;
};

/// Patterns completed: where panels do not come out even although the widths would do, more is made
/// from the boards that are left. `candidates` are boards that may be used besides those of the
/// patterns.
[[nodiscard]] Solution complete(const Stock& stock, const Values& values,
                                std::vector<Pattern> patterns,
                                const std::vector<std::size_t>& candidates,
                                const Interrupt& interrupt, std::int64_t& work);

/// Boards asked at a time: the one that is wanted, and those that will probably be wanted next.
/// What is made depends on `atOnce`, not on `threads`.
struct Asking {
    std::size_t atOnce = 1;
    int threads = 1;
    int times = timesAsked; ///< each
};

/// `known`, when given, holds an offer per board for the same values and demand.
[[nodiscard]] Construction construct(const Stock& stock, const Values& values, Demand open,
                                     const std::vector<std::size_t>& boards,
                                     const std::vector<Offer>* known, Asking asking,
                                     const Interrupt& interrupt);

} // namespace stavewright::cutting
