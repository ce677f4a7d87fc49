#pragma once
// How grain runs through a board: along its two edges (taper and crook), a little uneven, and round
// knots.
//
// A line is named by its height: 0 at the near edge, 1 at the far edge. At every x the height on
// the board is an increasing function of that name, so no two lines meet.

#include <cstdint>

#include "core/drawing/Clip.h"

namespace stavewright::drawing {

class GrainFlow {
  public:
    GrainFlow(const Curve& outline, const std::vector<Curve>& knots, std::uint64_t seed);

    /// From end to end of the board; heights a little below 0 and above 1 are allowed.
    [[nodiscard]] Curve line(double height) const;

  private:
    /// A parabola y(x) fitted to an edge: c0 + c1 u + c2 u^2, u from -1 to 1 along the board.
    struct Edge {
        double c0 = 0;
        double c1 = 0;
        double c2 = 0;
        [[nodiscard]] double at(double u) const { return c0 + u * (c1 + u * c2); }
    };
    struct Wave {
        double size = 0;
        double turns = 0; ///< per board length, in radians of u
        double phase = 0;
    };
    /// A knot in the frame of x and height.
    struct Knot {
        double x = 0;
        double height = 0;
        double halfLength = 0; ///< along x
        double half = 0;       ///< in height
    };

    void fitEdges(const Curve& outline);
    void placeKnots(const std::vector<Curve>& knots);
    void chooseColumns(const Curve& outline);
    [[nodiscard]] double alongOf(double x) const; ///< u
    [[nodiscard]] double waved(double height, double u) const;
    [[nodiscard]] double heightOf(const Spot& spot) const;

    double m_lowX = 0;
    double m_highX = 0;
    Edge m_near;
    Edge m_far;
    std::vector<Wave> m_waves;
    std::vector<Knot> m_knots; ///< the widest last, so that it has the last word
    std::vector<double> m_columns;
};

} // namespace stavewright::drawing
