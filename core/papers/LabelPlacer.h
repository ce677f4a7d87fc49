#pragma once
// Keeps account of what a drawing's labels already cover, so that no two lie on one another.

#include <algorithm>
#include <vector>

#include "core/geometry/Shapes.h"

namespace stavewright::papers {

class LabelPlacer {
  public:
    explicit LabelPlacer(Length air)
        : m_air(air) {}

    [[nodiscard]] bool isFree(const Rect& box) const {
        const Rect wide{box.x0 - m_air, box.y0 - m_air, box.x1 + m_air, box.y1 + m_air};
        return std::none_of(m_taken.begin(), m_taken.end(),
                            [&](const Rect& other) { return wide.overlaps(other); });
    }
    void take(const Rect& box) { m_taken.push_back(box); }

  private:
    Length m_air;
    std::vector<Rect> m_taken;
};

} // namespace stavewright::papers
