#pragma once
// What the command line asks of the bench.

#include <optional>
#include <string>

namespace stavewright::cutting::bench {

struct BenchOptions {
    std::string suite = "racks";
    int boards = 24;
    int seeds = 0; ///< 0: the suite's own number
    int seedBase = 1;
    std::string instances;
    std::string family; ///< only this family; empty: all
    double seconds = 0; ///< 0: the suite's own limit
    int threads = 2;
    bool distances = true; ///< least distances between cuts, in families that ask for them
    bool json = false;

    [[nodiscard]] int seedsOr(int usual) const { return seeds > 0 ? seeds : usual; }
    [[nodiscard]] double secondsOr(double usual) const { return seconds > 0 ? seconds : usual; }
};

/// Nothing when the command line cannot be read.
[[nodiscard]] std::optional<BenchOptions> readOptions(int count, char** arguments);

/// How to call the bench.
[[nodiscard]] std::string usage();

} // namespace stavewright::cutting::bench
