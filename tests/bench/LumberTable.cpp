#include "LumberTable.h"

#include <algorithm>
#include <iomanip>
#include <sstream>

namespace stavewright::cutting::bench {

LumberTable::LumberTable(bool json)
    : m_printer(json, {column::family(),
                       column::instance(12),
                       column::boards(),
                       column::value(2),
                       column::number("bound", &Row::bound, 2),
                       column::share("gap", &Row::gap),
                       column::share("gap bf", &Row::gapBoardFeet),
                       column::number("engine", &Row::touchedBoardFeet, 1),
                       column::number("greedy", &Row::greedy, 1),
                       column::number("careful", &Row::careful, 1),
                       column::share("saving", &Row::saving),
                       column::share("careful", &Row::savingCareful),
                       column::placed(),
                       column::number("first s", &Row::firstPlan, 3),
                       column::number("total s", &Row::total, 2),
                       column::number("to 3 %", &Row::toGoal, 2),
                       column::number("staves", &Row::stavesPerPanel, 1),
                       column::number("boards", &Row::boardsPerPanel, 1),
                       column::number("MB", &Row::peakMegabytes, 0),
                       column::audit()}) {}

void LumberTable::print(const Measured& measured) {
    const Row& row = measured.row;
    m_panels += measured.panels;
    m_printer.print(row);
    for (const auto& [from, to] : {std::pair{&row.gap, &m_gaps}, std::pair{&row.saving, &m_savings},
                                   std::pair{&row.savingCareful, &m_savingsCareful}}) {
        if (*from) {
            to->push_back(**from);
        }
    }
}

bool LumberTable::finish() {
    if (!m_gaps.empty()) {
        std::sort(m_gaps.begin(), m_gaps.end());
        m_printer.note("proved gap: median " + asPercent(m_gaps[m_gaps.size() / 2]) + ", worst " +
                       asPercent(m_gaps.back()));
    }
    if (!m_savings.empty() || !m_savingsCareful.empty()) {
        m_printer.note("less lumber than plain greedy: " + spread(m_savings) +
                       "; than careful maker: " + spread(m_savingsCareful));
    }
    if (m_panels.panels > 0) {
        std::ostringstream text;
        text << std::fixed << std::setprecision(2) << "panels: " << m_panels.panels
             << ", staves each " << static_cast<double>(m_panels.staves) / m_panels.panels
             << " (most " << m_panels.mostStaves << "), from boards "
             << static_cast<double>(m_panels.boards) / m_panels.panels << " (most "
             << m_panels.mostBoards << "), narrowest stave "
             << static_cast<double>(m_panels.narrowest) / 25.4e6 << " in net; "
             << m_panels.beyondLimits
             << " with more than a stave to 4 in of width (9 for a 36 in top) or one under 3 in";
        m_printer.note(text.str());
    }
    m_printer.finish();
    return m_printer.isSound();
}

} // namespace stavewright::cutting::bench
