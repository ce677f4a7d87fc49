#pragma once
// What is written on the drawing of a panel: names and where the staves come from, the planing
// arrow, and what each knot is called. Nothing lies on a knot or on another label where there is
// room elsewhere.

#include <optional>
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
    bool writeKnot(const KnotLabel& knot, const std::vector<Rect>& areas);
    /// A line of text on a stave, in its middle unless something is in the way.
    struct Line {
        Rect area;
        Length baseline;
        Length above;
        Length below = Length::millimetres(1);
    };
    /// The first place, from `from` on by steps towards `end`, at which a box so wide and so high
    /// is free.
    [[nodiscard]] std::optional<Length> freePlace(Length from, Length end, Length wide,
                                                  const Stretch& high) const;
    /// Where the line begins: in the middle, else along one edge of the stave; at `from` where
    /// nothing is free.
    [[nodiscard]] Point placeOf(const Line& line, Length from, Length end, Length wide) const;

    Pen& m_pen;
    LabelPlacer m_placer;
};

} // namespace stavewright::papers
