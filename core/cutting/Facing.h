#pragma once
// How a section may go over jointer and planer, and which kinds reach their thickness so: whole as
// the crosscut leaves it, or rough-ripped into strips first.
//
//   Facing facing(context, model, shape);
//   facing.allows(kind, ripped, stripWidth);

#include <vector>

#include "core/cutting/SectionShape.h"

namespace stavewright::cutting {

struct Context;

class Facing {
  public:
    Facing(const Context& context, const BoardModel& model, const SectionShape& shape);

    /// Narrow enough for the jointer and long enough to be faced.
    [[nodiscard]] bool mayWhole() const { return m_mayWhole; }
    /// Some kind reaches its thickness only when the section is ripped first.
    [[nodiscard]] bool mayRipped() const { return m_mayRipped; }
    [[nodiscard]] bool whole(std::size_t kind) const { return m_whole[kind]; }
    /// Widest strip in which the kind still reaches its thickness; below 0: in none.
    [[nodiscard]] Nm widestRipped(std::size_t kind) const { return m_widestRipped[kind]; }
    [[nodiscard]] bool allows(std::size_t kind, bool ripped, Nm stripWidth) const {
        return ripped ? stripWidth <= m_widestRipped[kind] : m_whole[kind];
    }

  private:
    bool m_mayWhole = false;
    bool m_mayRipped = false;
    std::vector<bool> m_whole;
    std::vector<Nm> m_widestRipped;
};

} // namespace stavewright::cutting
