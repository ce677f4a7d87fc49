#pragma once
// Sections that pricing looked into on its way to a board's best pattern and that lose little
// against it. Worked out they are anyway; put together anew (SectionWalks.h) they make patterns
// that no prices ask for. Where boards are few these are what a plan lacks most.
//
//   MetSections met;
//   met.add(seen, threads, interrupt);
//   for (Pattern& section : met.takeNew()) ...

#include <cstdint>
#include <map>
#include <tuple>
#include <utility>
#include <vector>

#include "core/cutting/BoardPricing.h"

namespace stavewright::cutting {

class MetSections {
  public:
    /// Writes out those that are new; none when interrupted. While the menus that were asked stand.
    void add(const std::vector<SeenSections>& seen, int threads, const Interrupt& interrupt);
    /// Since the last time, each as a pattern of its own.
    [[nodiscard]] std::vector<Pattern> takeNew() { return std::exchange(m_new, {}); }

  private:
    /// Board, ends, whether it is rough-ripped first, and kinds: what lies in them may still
    /// differ.
    using Alike = std::tuple<std::size_t, Nm, Nm, bool, std::uint64_t>;
    std::map<Alike, int> m_known; ///< how many were written out
    std::vector<Pattern> m_new;
};

} // namespace stavewright::cutting
