// Measures the cutting engine.
//
//   bench_cutting --suite racks [--boards N] [--seeds N] [--seed-base N] [--seconds S] [--json]
//   bench_cutting --suite widths [--boards N] [--seeds N] [--seconds S]
//   bench_cutting --suite cancel [--boards N] [--seeds N] [--seconds S]
//   bench_cutting --suite scale [--seeds N] [--seconds S]
//   bench_cutting --suite exact [--seeds N]
//   bench_cutting --suite jobs --instances DIR
//   bench_cutting --suite published --instances DIR [--family NAME]
//
// Every solution, the baselines' too, passes the independent checker; a fault is printed and the
// exit code is 1. Lumber is the whole board feet of the boards touched, offcuts worth nothing.

#include <cstdlib>
#include <iostream>
#include <map>
#include <string>

#include "Suites.h"
#include "core/base/Heap.h"

int main(int argumentCount, char** arguments) {
    using namespace stavewright::cutting::bench;
    // One thread in the linear algebra underneath, so that the same seed repeats.
    setenv("OPENBLAS_NUM_THREADS", "1", 1);
    stavewright::keepMemoryForSolvers();
    const std::map<std::string, bool (*)(const BenchOptions&)> suites = {
        {"racks", runRacks}, {"widths", runWidths},      {"kinds", runKinds},
        {"scale", runScale}, {"cancel", runCancel},      {"exact", runExact},
        {"jobs", runJobs},   {"published", runPublished}};
    const auto options = readOptions(argumentCount, arguments);
    const auto suite = options ? suites.find(options->suite) : suites.end();
    if (suite == suites.end()) {
        std::cerr << usage();
        return 2;
    }
    return suite->second(*options) ? 0 : 1;
}
