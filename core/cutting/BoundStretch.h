#pragma once
// One free stretch of a board with the lattices that its bound looks at sections with. Where the
// near edge bends, a lattice leaves the more slack the more kinds of sections share it: short ones
// have one of their own, and so have those that begin and end near each other.

#include <map>
#include <memory>
#include <vector>

#include "core/cutting/EdgeSlack.h"
#include "core/cutting/LengthWorth.h"
#include "core/cutting/SectionBound.h"
#include "core/cutting/UsableWood.h"

namespace stavewright::cutting {

class BoundStretch {
  public:
    /// Of no use where the interrupt was called meanwhile; null: it never is.
    BoundStretch(const Context& context, const BoardModel& model, const Stretch& stretch,
                 const Interrupt* interrupt = nullptr);

    /// Sections up to a length.
    struct Layer {
        Layer(const Context& context, const BoardModel& model, const Stretch& stretch,
              LatticeStep step, EdgeSlack slack, Nm longest)
            : lattice(context, model, stretch, step, std::move(slack))
            , rows(lattice)
            , longestCells(static_cast<int>(longest / step.along)) {}
        Lattice lattice;
        RowBound rows;
        int longestCells;
        StripRows strips;
    };
    /// Sections that begin in one group of cells and end in another.
    struct Group {
        Group(const Context& context, const BoardModel& model, const Stretch& stretch,
              LatticeStep step, const SectionSpan& span, int firstCell)
            : lattice(context, model, stretch, step, EdgeSlack(model, span, context.narrowest))
            , first(firstCell) {}
        Lattice lattice;
        StripRows strips;
        int first; ///< cell of the whole lattice that it begins with
    };

    [[nodiscard]] const Context& context() const { return *m_context; }
    [[nodiscard]] const BoardModel& model() const { return *m_model; }
    /// Of all sections.
    [[nodiscard]] const Lattice& lattice() const { return m_layers.back()->lattice; }
    [[nodiscard]] std::size_t layers() const { return m_layers.size(); }
    [[nodiscard]] Layer& layer(std::size_t index) { return *m_layers[index]; }
    [[nodiscard]] std::size_t layerFor(const SectionRange& range) const;
    /// The group that all sections of a range are of; null where there is none, or no need.
    [[nodiscard]] Group* groupOf(const SectionRange& range);

    [[nodiscard]] int cells() const { return m_cells; }
    [[nodiscard]] int lastEnd() const { return m_lastEnd; }
    /// Cells of the ranges that one begins with, each way; no section begins and ends in one.
    [[nodiscard]] int rangeCells() const { return m_rangeCells; }
    /// Cells of the shortest section that holds a blank, and of one that holds two in a row.
    [[nodiscard]] int shortest() const { return m_shortest; }
    [[nodiscard]] int twoShortest() const { return m_twoShortest; }
    /// Of lattice().
    [[nodiscard]] const UsableWood& usable() const { return m_usable; }
    [[nodiscard]] const std::vector<ClearLine>& lines() const { return m_lines; }

  private:
    const Context* m_context;
    const BoardModel* m_model;
    std::vector<std::unique_ptr<Layer>> m_layers;                   ///< by ascending length
    std::map<std::pair<int, int>, std::unique_ptr<Group>> m_groups; ///< met so far
    int m_cells = 0, m_lastEnd = 0;
    int m_rangeCells = 1;
    int m_shortest = 0, m_twoShortest = 0;
    UsableWood m_usable;
    std::vector<ClearLine> m_lines;
};

/// The step along that suits the lengths of a problem: a quarter of an inch or more, losing little
/// of them when they are rounded down to it. A bound holds whatever the step; finer ones are slower
/// by more than they are nearer.
[[nodiscard]] Nm stepAlong(const Problem& problem);

} // namespace stavewright::cutting
