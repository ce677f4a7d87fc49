#pragma once
// What was found about the sections of one lattice under the prices asked before. While no blank is
// worth more now than it was then, no section is either: what is known bounds the next answer.
//
//   LatticeKnown::Asked asked = known.before(problem, values);
//   known.keep(problem, values, std::move(asked));

#include <cstdint>
#include <mutex>
#include <utility>
#include <vector>

#include "core/cutting/Values.h"

namespace stavewright::cutting {

/// Of one lattice. What is answered depends on what was asked before, in which order.
class LatticeKnown {
  public:
    /// How what a section is worth at most is known.
    enum class How : char { byArea, byBlock, exactly };
    struct Asked {
        std::vector<Cost> most; ///< by length of the section, then cell; empty: nothing is known
        std::vector<How> how;
        std::int64_t work = 0; ///< that it took under the same prices
    };
    [[nodiscard]] Asked before(const Problem& problem, const Values& values) const;
    void keep(const Problem& problem, const Values& values, Asked asked);

  private:
    static constexpr std::size_t mostKept = 4;
    mutable std::mutex m_mutex;
    std::vector<std::pair<Values, Asked>> m_asked; ///< each worth no more than the one before
};

} // namespace stavewright::cutting
