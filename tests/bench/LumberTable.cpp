#include "LumberTable.h"

#include <algorithm>

namespace stavewright::cutting::bench {

LumberTable::LumberTable(bool json)
    : m_printer(json,
                {column::family(), column::instance(12), column::boards(), column::value(2),
                 column::number("bound", &Row::bound, 2), column::share("gap", &Row::gap),
                 column::share("gap bf", &Row::gapBoardFeet),
                 column::number("engine", &Row::touchedBoardFeet, 1),
                 column::number("greedy", &Row::greedy, 1),
                 column::number("careful", &Row::careful, 1), column::share("saving", &Row::saving),
                 column::share("careful", &Row::savingCareful), column::placed(),
                 column::number("first s", &Row::firstPlan, 3),
                 column::number("total s", &Row::total, 2),
                 column::number("MB", &Row::peakMegabytes, 0), column::audit()}) {}

void LumberTable::print(const Row& row) {
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
    m_printer.finish();
    return m_printer.isSound();
}

} // namespace stavewright::cutting::bench
