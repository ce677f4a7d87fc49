#pragma once
// One section that a bound rests on, cut just so: the same strips with the same blanks in the same
// order, each at the lowest and nearest place where the board is really clear. A lattice takes
// places to be right to a step; where the steps add up, staves become narrower than foreseen, and
// a blank that has no room at all is left out.
//
//   SectionFit fit(context, model, wanted, x0, x1);
//   PlacedSection section = fit.cut();

#include <optional>
#include <vector>

#include "core/cutting/BoundSection.h"
#include "core/cutting/Facing.h"
#include "core/cutting/Obstacles.h"
#include "core/cutting/SectionMenu.h"

namespace stavewright::cutting {

class SectionFit {
  public:
    /// The strips of `wanted` in the section [x0, x1].
    SectionFit(const Context& context, const BoardModel& model, const BoundSection& wanted, Nm x0,
               Nm x1);

    /// Without strips where none has room.
    [[nodiscard]] const PlacedSection& cut() const { return m_section; }
    [[nodiscard]] std::size_t blanks() const { return m_blanks; }
    /// Length that its blanks take from x0 on, skew of the crosscuts included.
    [[nodiscard]] Nm lengthNeeded() const;

  private:
    [[nodiscard]] const Kind& kindOf(const BoundBlank& blank) const {
        return m_context->problem->kinds[blank.kind];
    }
    [[nodiscard]] bool needsRipping(const BoundSection& wanted) const;
    /// Calls visit(pose, places at which it just clears a defect) for the poses of a kind.
    template <class Visit>
    void visitPoses(std::size_t kind, const Visit& visit) const;
    /// Widths of the strip's blanks when it is no wider than `most`; none where they do not fit.
    [[nodiscard]] std::vector<Nm> widthsWithin(const BoundStrip& strip, Nm most) const;
    /// Where the low edge of a strip so wide may lie, `v` or above, from the lowest up.
    [[nodiscard]] std::vector<Nm> startsOf(const BoundStrip& strip, const std::vector<Nm>& widths,
                                           Nm width, Nm v) const;
    /// The strips from the lowest up, without those where no blank has room.
    [[nodiscard]] std::vector<PlacedStrip> stackOf(const std::vector<BoundStrip>& strips) const;
    /// Where it holds more blanks than any before.
    void take(std::vector<PlacedStrip>&& stack);
    /// One step narrower; false where its blanks do not allow it.
    [[nodiscard]] bool narrow(BoundStrip& strip) const;
    [[nodiscard]] PlacedStrip fitStrip(const BoundStrip& strip, Nm v) const;
    /// As many of the strip's blanks as there is room for between two rips.
    [[nodiscard]] PlacedStrip fitRow(const BoundStrip& strip, const std::vector<Nm>& widths, Nm v0,
                                     Nm v1) const;
    /// The cheapest place behind `from`, and of these the nearest.
    [[nodiscard]] std::optional<Placed> fitBlank(const BoundBlank& blank, Nm width, Nm from, Nm v0,
                                                 Nm v1) const;

    const Context* m_context;
    SectionShape m_shape;
    Facing m_facing;
    SectionPieces m_pieces;
    std::vector<std::vector<Nm>> m_clear; ///< by pose: places at which it just clears a defect
    PlacedSection m_section;
    std::size_t m_blanks = 0;
    Nm m_last = 0; ///< where the last blank ends
};

} // namespace stavewright::cutting
