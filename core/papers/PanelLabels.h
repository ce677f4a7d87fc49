#pragma once
// What is written on the drawing of a panel: names and where the staves come from, the planing
// arrow, and what each knot is called. Nothing lies on a knot or on another label where there is
// room elsewhere.

#include <string>
#include <vector>

#include "core/papers/LabelPlacer.h"
#include "core/papers/Pen.h"

namespace stavewright::papers {

/// A stave as it is drawn, on paper.
struct StaveLabel {
    Rect area;
    std::string name;  ///< "1  T1-3"
    std::string comes; ///< "board 4, end for end"
    int planing = 0;   ///< +1 towards the right, -1 towards the left, 0 not noted
};

struct KnotLabel {
    Rect knot;
    std::string text; ///< its letter, or its chalk mark where it is to be filled
};

class PanelLabels {
  public:
    explicit PanelLabels(Pen& pen)
        : m_pen(pen)
        , m_placer(Length()) {}

    void write(const std::vector<StaveLabel>& staves, const std::vector<KnotLabel>& knots);

  private:
    void writeStave(const StaveLabel& stave);
    void writeKnot(const KnotLabel& knot);
    /// The first place, from `from` on by steps in the direction, at which a box so wide and so
    /// high round `middle` is free; `from` itself where none is before `end`.
    [[nodiscard]] Length freePlace(Length from, Length end, Length wide, const Stretch& high) const;

    Pen& m_pen;
    LabelPlacer m_placer;
};

} // namespace stavewright::papers
