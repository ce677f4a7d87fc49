#include "PanelFigures.h"

#include <algorithm>
#include <map>
#include <set>

#include "Racks.h"

namespace stavewright::cutting::bench {

namespace {

constexpr Nm widthPerStave = 4 * testing::inch;
constexpr Nm leastNet = 3 * testing::inch;

struct Panel {
    int staves = 0;
    Nm net = 0;
    Nm narrowest = 0;
    std::set<int> boards;
};

} // namespace

PanelFigures& PanelFigures::operator+=(const PanelFigures& other) {
    narrowest = panels == 0         ? other.narrowest
                : other.panels == 0 ? narrowest
                                    : std::min(narrowest, other.narrowest);
    panels += other.panels;
    staves += other.staves;
    boards += other.boards;
    mostStaves = std::max(mostStaves, other.mostStaves);
    mostBoards = std::max(mostBoards, other.mostBoards);
    beyondLimits += other.beyondLimits;
    return *this;
}

PanelFigures panelFigures(const Problem& problem, const Solution& solution) {
    std::map<std::pair<int, int>, Panel> found; // by kind and number
    for (const Pattern& pattern : solution.patterns) {
        for (const PlacedSection& section : pattern.sections) {
            for (const PlacedStrip& strip : section.strips) {
                for (const Placed& placed : strip.blanks) {
                    const Kind& kind = problem.kinds[static_cast<std::size_t>(placed.kind)];
                    if (!kind.isPool) {
                        continue;
                    }
                    const Nm net = placed.rect.width().inNanometres() - kind.jointAllowance;
                    Panel& panel = found[{placed.kind, placed.panel}];
                    panel.narrowest = panel.staves == 0 ? net : std::min(panel.narrowest, net);
                    ++panel.staves;
                    panel.net += net;
                    panel.boards.insert(pattern.board);
                }
            }
        }
    }
    PanelFigures figures;
    for (const auto& [key, panel] : found) {
        if (panel.net < problem.kinds[static_cast<std::size_t>(key.first)].netWanted) {
            continue;
        }
        const auto boards = static_cast<int>(panel.boards.size());
        const Nm most = (panel.net + widthPerStave - 1) / widthPerStave;
        // Metric racks are laid out anew in round millimetres: 75 stand for 3 in.
        const bool tooNarrow = panel.narrowest < leastNet - 2 * testing::millimetre;
        figures += {1,
                    panel.staves,
                    boards,
                    panel.staves,
                    boards,
                    panel.narrowest,
                    panel.staves > most || tooNarrow ? 1 : 0};
    }
    return figures;
}

} // namespace stavewright::cutting::bench
