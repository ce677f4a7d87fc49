#pragma once
// What one crosscut leaves of a board, seen in its own frame: u along the straightened edge, v
// across.
//
//   SectionShape shape(model, x0, x1);
//   if (shape.isUsable()) { Nm top = shape.clearTop(u0, u1); ... }
//
// Everything rounds to the safe side: in a turned frame a blank keeps `turnedMargin` from the
// outline and from the crosscuts, because its corners are rounded once more on their way back to
// the board frame. In a parallel frame nothing is rounded and flush is flush.

#include <vector>

#include "core/cutting/BoardModel.h"

namespace stavewright::cutting {

inline constexpr Nm turnedMargin = 1'000;
/// About the skew of the crosscuts of a section in a turned frame.
inline constexpr Nm turnedRoom = 100'000;

class SectionShape {
  public:
    SectionShape(const BoardModel& model, Nm x0, Nm x1);

    [[nodiscard]] Nm x0() const { return m_x0; }
    [[nodiscard]] Nm x1() const { return m_x1; }
    [[nodiscard]] const Frame& frame() const { return m_frame; }
    [[nodiscard]] bool isParallel() const { return m_frame.isParallel(); }
    /// Blanks lie in [uLow, uHigh]; the skew of the crosscuts is counted over the whole width.
    [[nodiscard]] Nm uLow() const { return m_uLow; }
    [[nodiscard]] Nm uHigh() const { return m_uHigh; }
    /// Highest v of the far edge anywhere in the section; no blank reaches above it.
    [[nodiscard]] Nm vTop() const { return m_vTop; }
    /// Greatest width of the section as it meets a machine, square to the board.
    [[nodiscard]] Nm fullWidth() const { return m_fullWidth; }
    /// Highest v that is inside the outline for all of [u0, u1].
    [[nodiscard]] Nm clearTop(Nm u0, Nm u1) const;

    /// Length of a section whose blanks end at `last`: in a turned frame it is longer by about the
    /// skew of its crosscuts.
    [[nodiscard]] Nm lengthFor(Nm last) const { return last + (isParallel() ? 0 : turnedRoom); }

    /// A piece of a defect's region in the section frame.
    [[nodiscard]] Spot toLocal(const Spot& board) const;

  private:
    Nm m_x0;
    Nm m_x1;
    Frame m_frame;
    double m_cos = 1;
    double m_sin = 0;
    Nm m_uLow = 0;
    Nm m_uHigh = 0;
    Nm m_vTop = 0;
    Nm m_fullWidth = 0;
    std::vector<Spot> m_far; ///< far edge in the section frame, by ascending u
};

/// How far past x0 the far crosscut must stand for a blank of this length: the length itself in a
/// parallel frame, in a turned one a little more for the skew.
[[nodiscard]] Nm spanFrom(const BoardModel& model, Nm x0, Nm length, Nm end);
/// The same with the far crosscut given: how far before x1 the section begins.
[[nodiscard]] Nm spanUpTo(const BoardModel& model, Nm x1, Nm length, Nm begin);

} // namespace stavewright::cutting
