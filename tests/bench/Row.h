#pragma once
// One line of any suite: what was solved, how well, how long it took. What a suite does not measure
// stays empty and prints as "-" (null in JSON).

#include <optional>
#include <string>
#include <vector>

namespace stavewright::cutting::bench {

struct Row {
    std::string suite;
    std::string family;
    std::string instance;
    int boards = 0;
    int seed = 0;
    double value = 0;
    std::optional<double> bound;
    std::optional<double> gap;          ///< share of the value
    std::optional<double> gapBoardFeet; ///< share of the board feet
    std::optional<double> touchedBoardFeet;
    std::optional<int> placed, demanded;
    bool audited = false;                  ///< the independent checker looked at it
    std::vector<std::string> faults;       ///< what it found
    std::optional<double> greedy, careful; ///< board feet of the baselines
    std::optional<double> saving, savingCareful;
    std::optional<double> firstPlan, total; ///< seconds
    std::optional<double> peakMegabytes;
    std::optional<double> stavesPerPanel, boardsPerPanel; ///< averages
    std::optional<double> toGoal;    ///< seconds until plan and bound were close enough
    std::optional<double> published; ///< the value to be reached
    std::optional<bool> reached;
};

[[nodiscard]] std::string asPercent(const std::optional<double>& share);
/// The median and the least, as percentages.
[[nodiscard]] std::string spread(std::vector<double> shares);

} // namespace stavewright::cutting::bench
