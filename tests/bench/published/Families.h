#pragma once
// One adapter per family of published instances: it reads the folder, states each instance to the
// engine, and prints its value beside the published one.

#include <map>

#include "BenchOptions.h"
#include "RowPrinter.h"

namespace stavewright::cutting::bench {

/// Prints the rows of a family and counts what was reached.
class FamilyTable {
  public:
    FamilyTable(RowPrinter& printer, std::string family)
        : m_printer(&printer)
        , m_family(std::move(family)) {}

    /// `variant` parts the counts, e.g. by the number of stages. `distance` is what is lacking of
    /// the published value, as a share of it; nothing where there is no value to compare, because
    /// the time did not suffice or pieces were left out.
    void print(Row row, const std::string& variant, std::optional<double> distance);
    /// The counts.
    void finish();

  private:
    struct Count {
        int rows = 0;
        int reached = 0;
        int unfinished = 0;
        double distance = 0;
        double worst = 0;
    };
    RowPrinter* m_printer;
    std::string m_family;
    std::map<std::string, Count> m_counts;
};

/// False when the folder is not there or has nothing to read.
using FamilyRun = bool (*)(const std::string& folder, const BenchOptions& options,
                           FamilyTable& table);

/// One board with defects, unlimited copies (Afsharian, Niknejad, Waescher 2014).
bool runAfg2014(const std::string& folder, const BenchOptions& options, FamilyTable& table);
/// One board, unlimited copies, with and without turning.
bool runUnconstrained(const std::string& folder, const BenchOptions& options, FamilyTable& table);
/// One board, limited copies.
bool runG2kp(const std::string& folder, const BenchOptions& options, FamilyTable& table);
/// Crosscuts only, fewest bars.
bool runBpp1d(const std::string& folder, const BenchOptions& options, FamilyTable& table);
/// Furniture jobs, fewest boards.
bool runG2cspA(const std::string& folder, const BenchOptions& options, FamilyTable& table);
/// Ten generated classes, fewest boards (Berkey and Wang 1987; Martello and Vigo 1998).
bool runG2cspClass(const std::string& folder, const BenchOptions& options, FamilyTable& table);
/// Several equal boards, limited copies, most value.
bool runG2mkp(const std::string& folder, const BenchOptions& options, FamilyTable& table);
/// Boards of several sizes, limited stock, least area.
bool runHetero2d(const std::string& folder, const BenchOptions& options, FamilyTable& table);
/// Plates with defects used in order, least waste; the instances without an order of pieces
/// (ROADEF/EURO challenge 2018).
bool runRoadef2018(const std::string& folder, const BenchOptions& options, FamilyTable& table);

} // namespace stavewright::cutting::bench
