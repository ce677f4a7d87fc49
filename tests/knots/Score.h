#pragma once
// How well found knots agree with the true ones.

#include <vector>

#include "tests/knots/KnotPicture.h"

namespace stavewright::knots {

struct FoundBox {
    Box box;
    double confidence = 0;
    double agreeing = 0; ///< as FoundKnot::agreeing, where it is known
    std::optional<DefectKind> kind = std::nullopt;
};

struct Score {
    int knots = 0; ///< true knots that count
    int hits = 0;  ///< of them found
    int wrong = 0; ///< found where no knot is
    Score& operator+=(const Score& other);
    [[nodiscard]] double recall() const { return knots == 0 ? 1 : double(hits) / knots; }
    [[nodiscard]] double precision() const {
        return hits + wrong == 0 ? 1 : double(hits) / (hits + wrong);
    }
};

enum class Verdict { Hit, Wrong, Neither };
/// For each of `found`, in its order. Surest first, each to the true knot it overlaps most, at
/// least by 0.3 (common by joint area). What lies on a mark that counts neither way is left out.
[[nodiscard]] std::vector<Verdict> judged(const std::vector<FoundBox>& found,
                                          const std::vector<TrueMark>& marks);
[[nodiscard]] Score scoreOf(const std::vector<FoundBox>& found, const std::vector<TrueMark>& marks,
                            double leastConfidence);

} // namespace stavewright::knots
