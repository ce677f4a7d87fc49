#pragma once
// The table that racks, scale and jobs share: lumber of the engine beside both baselines.

#include "Measure.h"
#include "RowPrinter.h"

namespace stavewright::cutting::bench {

class LumberTable {
  public:
    explicit LumberTable(bool json);

    void print(const Measured& measured);
    void note(const std::string& text) { m_printer.note(text); }
    /// Says how much lumber was saved and how panels are made up over all rows; true when no row
    /// had a fault.
    [[nodiscard]] bool finish();

  private:
    RowPrinter m_printer;
    std::vector<double> m_gaps, m_savings, m_savingsCareful;
    PanelFigures m_panels;
};

} // namespace stavewright::cutting::bench
