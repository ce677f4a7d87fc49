#pragma once
// How far the wood in a section may lie from where a lattice takes it to be. A section's edge is
// the lowest line parallel to the chord of the near edge that lies nowhere below it, a lattice
// follows the near edge itself; so much must be allowed for if no place is to be missed.
//
//   EdgeSlack slack(model, stretch, longest, narrowest);
//   Nm up = slack.upOver(x0, x1);

#include <vector>

#include "core/cutting/BoardModel.h"

namespace stavewright::cutting {

/// Sections that begin and end between these places.
struct SectionSpan {
    Nm firstBegin = 0, lastBegin = 0;
    Nm firstEnd = 0, lastEnd = 0;
};

class EdgeSlack {
  public:
    /// None: for lattices that only guess.
    EdgeSlack() = default;
    /// Of all sections of `stretch` up to `longest` long that hold blanks at least `narrowest`
    /// wide.
    EdgeSlack(const BoardModel& model, const Stretch& stretch, Nm longest, Nm narrowest);
    /// Of the sections of a span alone.
    EdgeSlack(const BoardModel& model, const SectionSpan& span, Nm narrowest);

    [[nodiscard]] bool isNone() const { return m_spans.empty() && m_right == 0; }
    /// Along: a point lies up to so much farther, or nearer, than the lattice says.
    [[nodiscard]] Nm right() const { return m_right; }
    [[nodiscard]] Nm left() const { return m_left; }
    /// That a section can be along its edge than along x.
    [[nodiscard]] Nm longer() const { return m_longer; }
    /// Highest that the edge of a section stands above the near edge anywhere in [x0, x1].
    [[nodiscard]] Nm upOver(double x0, double x1) const;
    /// So high it stands there at least, wherever a section has it.
    [[nodiscard]] Nm sureOver(double x0, double x1) const;

    /// Heights at both ends of something.
    struct Ends {
        double left = 0, right = 0;
        /// `part` of the way from left to right.
        [[nodiscard]] double at(double part) const { return left + part * (right - left); }
    };
    struct Lines {
        Ends lowest, highest;
    };
    /// Two straight lines from x0 to x1 between which the edge of every section stands above the
    /// near edge, whatever the near edge bends there.
    [[nodiscard]] Lines over(double x0, double x1) const;

  private:
    /// The edge of the sections that begin and end in one square of places.
    struct Line {
        double from, to;  ///< of the widest of them
        double slope, at; ///< height at x: at + slope * x
    };
    /// Between two places at which lines begin or end: the lines that are lowest and those that are
    /// highest anywhere in it.
    struct Span {
        double from, to;
        std::vector<Ends> lowest, highest;
    };
    /// The slopes of the near edge in [from, to]; false when it is parallel to the board.
    bool measure(const BoardModel& model, double from, double to, double length, Nm narrowest,
                 double apart);
    /// The line of the sections that begin at x0 and end at x1, or up to a place earlier or later.
    [[nodiscard]] Line lineOf(double x0, double x1) const;
    /// The first that reaches to x0 or beyond.
    [[nodiscard]] std::vector<Span>::const_iterator spanAt(double x0) const;
    void findSpans(const std::vector<Line>& lines);
    /// What something bends at most, of this length, when it is measured from the near edge.
    [[nodiscard]] double bendOf(double length) const;
    /// The same as over() where the near edge is straight: lines that end on the way are drawn on.
    [[nodiscard]] Lines drawnOver(double x0, double x1) const;
    template <class Visit>
    void visitPlaces(double x0, double x1, const Visit& visit) const;

    EdgeChain m_near;
    std::vector<Span> m_spans; ///< by place
    double m_margin = 0;       ///< between the lines of one square
    double m_slopeRange = 0;
    Nm m_right = 0, m_left = 0, m_longer = 0;
};

} // namespace stavewright::cutting
