#pragma once
// One pass upwards over strips that are stacked across a section: what stacks are worth at most,
// but not which strips they hold. Far quicker than SectionStack where that is all one asks.
//
//   pass.reset(rules);
//   while (pass.row() + 1 < rules.rows) {
//       Cost start = pass.step();
//       pass.place(end, carries, start + gain);   // the strips of that row
//   }
//   Cost most = pass.best();

#include <array>

#include "core/cutting/StackRules.h"

namespace stavewright::cutting {

class StackPass {
  public:
    static constexpr int mostCarries = 2;

    void reset(const StackRules& rules);
    [[nodiscard]] int row() const { return m_footing.row(); }
    /// To the next row; what a strip there may stand on.
    Cost step();
    /// The same of a row that was stepped to.
    [[nodiscard]] Cost startAt(int v) const { return m_start[static_cast<std::size_t>(v)]; }
    /// Best stacks by the cell in which they end, of those whose strip on top carries so many more.
    [[nodiscard]] Cost* reached(int carries) {
        return m_reached[static_cast<std::size_t>(carries)].data();
    }
    void place(int end, int carries, Cost value) {
        Cost& here = reached(carries)[end];
        here = value > here ? value : here;
    }
    /// Once all rows were stepped to.
    [[nodiscard]] Cost best() const;

  private:
    struct Worth {
        Cost value = 0;
    };
    [[nodiscard]] Cost touching(int end) const;

    StackRules m_rules;
    StackFooting<Worth> m_footing;
    std::array<std::vector<Cost>, mostCarries + 1> m_reached;
    std::vector<Cost> m_start; ///< by row
};

} // namespace stavewright::cutting
