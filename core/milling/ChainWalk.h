#pragma once
// A piece on its way back from its finished size: every stage adds what it takes, and every
// addition leaves a line of "why this size?". The last line of each dimension ends at the piece's
// present size.
//
//   ChainWalk walk(Length::inches(24), Length::inches(3), Length::inches(1));
//   walk.through(shop.chains.oneBoard);

#include <array>
#include <string>
#include <vector>

#include "core/milling/BlankSpec.h"

namespace stavewright {

class ChainWalk {
  public:
    /// Begins with the finished size, one line for each dimension.
    ChainWalk(Length length, Length width, Length thickness);

    /// Takes the walk through every stage of the chain but PartMultiple, which is charged between
    /// parts and not to the piece as a whole.
    void through(const MillingChain& chain);
    /// Sets one dimension to `size` for a reason that is no stage, e.g. "one of 2 plies".
    void resize(Dimension dimension, Length size, std::string text);

    [[nodiscard]] Length length() const { return m_size[0]; }
    [[nodiscard]] Length width() const { return m_size[1]; }
    [[nodiscard]] Length thickness() const { return m_size[2]; }
    [[nodiscard]] const std::vector<SumLine>& sums() const { return m_sums; }

  private:
    void add(Dimension dimension, Length amount, std::string text);

    std::array<Length, 3> m_size;
    std::vector<SumLine> m_sums;
};

/// What is done to the piece at this stage: "trim the panel square".
[[nodiscard]] const char* workOf(Stage stage);

/// What the chain adds across in all, PartMultiple left out.
[[nodiscard]] Length acrossOf(const MillingChain& chain);

/// The gap that parts of one multiple need between them beside the saw's kerf: the chain's
/// PartMultiple stages along the grain.
[[nodiscard]] Length gapInMultiple(const MillingChain& chain);

} // namespace stavewright
