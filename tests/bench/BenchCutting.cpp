// Measures the cutting engine against the two baselines on generated racks or on job files.
//
//   bench_cutting --suite racks [--boards N] [--seeds N] [--seed-base N] [--seconds S] [--json]
//   bench_cutting --suite jobs --instances DIR [--seconds S] [--json]
//
// Every solution, the baselines' too, passes the independent checker; a fault is printed and the
// exit code is 1. Lumber is the whole board feet of the boards touched, offcuts worth nothing.

#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <iomanip>
#include <iostream>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

#include "Baselines.h"
#include "JobInstances.h"
#include "Racks.h"
#include "SolutionChecker.h"
#include "core/cutting/Solve.h"

namespace {

using namespace stavewright::cutting;
using namespace stavewright::cutting::bench;
using namespace stavewright::cutting::testing;

struct BenchOptions {
    std::string suite = "racks";
    int boards = 24;
    int seeds = 8;
    int seedBase = 1;
    std::string instances;
    double seconds = 10;
    int threads = 2;
    bool json = false;
};

std::optional<BenchOptions> read(int count, char** arguments) {
    BenchOptions options;
    for (int i = 1; i < count; ++i) {
        const std::string name = arguments[i];
        if (name == "--json") {
            options.json = true;
            continue;
        }
        if (i + 1 >= count) {
            return std::nullopt;
        }
        const std::string value = arguments[++i];
        const auto whole = [&] { return std::max(1, std::atoi(value.c_str())); };
        if (name == "--suite") {
            options.suite = value;
        } else if (name == "--boards") {
            options.boards = whole();
        } else if (name == "--seeds") {
            options.seeds = whole();
        } else if (name == "--seed-base") {
            options.seedBase = whole();
        } else if (name == "--threads") {
            options.threads = whole();
        } else if (name == "--instances") {
            options.instances = value;
        } else if (name == "--seconds") {
            options.seconds = std::atof(value.c_str());
        } else {
            return std::nullopt;
        }
    }
    if (options.suite != "racks" && (options.suite != "jobs" || options.instances.empty())) {
        return std::nullopt;
    }
    return options;
}

struct Row {
    std::string family;
    std::string instance;
    int boards = 0;
    int seed = 0;
    Count engine, greedy, careful;
    int unplaced = 0, unplacedGreedy = 0, unplacedCareful = 0;
    double value = 0;
    double firstPlan = 0;
    double total = 0;
    double peakMegabytes = 0;
    std::vector<std::string> faults;

    [[nodiscard]] static double feet(const Count& count) {
        return static_cast<double>(count.touchedBoardFeetMillionths) / 1e6;
    }
    /// Share of the baseline's lumber that the engine saves; nothing where one of them left
    /// something unplaced, because then they did different jobs.
    [[nodiscard]] std::optional<double> saving(const Count& other, int otherUnplaced) const {
        if (otherUnplaced > 0 || unplaced > 0 || feet(other) <= 0) {
            return std::nullopt;
        }
        return 1 - feet(engine) / feet(other);
    }
};

int unplacedIn(const Solution& solution) {
    int sum = 0;
    for (const int count : solution.unplaced) {
        sum += count;
    }
    return sum;
}

Row measure(const Problem& problem, const BenchOptions& options, std::string family,
            std::string instance, int seed) {
    Row row;
    row.family = std::move(family);
    row.instance = std::move(instance);
    row.boards = static_cast<int>(problem.boards.size());
    row.seed = seed;
    const auto start = std::chrono::steady_clock::now();
    const auto spent = [&] {
        return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    };
    const Solution solution = solve(problem,
                                    {.seed = static_cast<std::uint64_t>(seed),
                                     .seconds = options.seconds,
                                     .work = 0,
                                     .threads = options.threads},
                                    {}, [&](const Solution&) {
                                        if (row.firstPlan == 0) {
                                            row.firstPlan = spent();
                                        }
                                    });
    row.total = spent();
    const Solution greedy = plainGreedy(problem);
    const Solution careful = carefulMaker(problem);
    for (const auto& [who, checked] : {std::pair{"engine", &solution}, std::pair{"greedy", &greedy},
                                       std::pair{"careful", &careful}}) {
        for (const std::string& fault : checkSolution(problem, *checked)) {
            row.faults.push_back(std::string(who) + ": " + fault);
        }
    }
    row.value = static_cast<double>(solution.value) / 10'000;
    row.engine = countSolution(problem, solution);
    row.greedy = countSolution(problem, greedy);
    row.careful = countSolution(problem, careful);
    row.unplaced = unplacedIn(solution);
    row.unplacedGreedy = unplacedIn(greedy);
    row.unplacedCareful = unplacedIn(careful);
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    row.peakMegabytes = static_cast<double>(usage.ru_maxrss) / 1024;
    return row;
}

std::string percent(const std::optional<double>& share) {
    if (!share) {
        return "-";
    }
    std::ostringstream text;
    text << std::fixed << std::setprecision(1) << *share * 100 << " %";
    return text.str();
}

void printTable(const Row& row) {
    std::cout << std::left << std::setw(10) << row.family << std::setw(14) << row.instance
              << std::right << std::fixed << std::setw(4) << row.boards << std::setw(10)
              << std::setprecision(2) << row.value << std::setw(9) << std::setprecision(1)
              << Row::feet(row.engine) << std::setw(9) << Row::feet(row.greedy) << std::setw(9)
              << Row::feet(row.careful) << std::setw(9)
              << percent(row.saving(row.greedy, row.unplacedGreedy)) << std::setw(9)
              << percent(row.saving(row.careful, row.unplacedCareful)) << std::setw(6)
              << row.unplaced << '/' << row.unplacedGreedy << '/' << row.unplacedCareful
              << std::setw(6) << row.engine.demanded << std::setw(9) << std::setprecision(3)
              << row.firstPlan << std::setw(8) << std::setprecision(2) << row.total << std::setw(8)
              << std::setprecision(0) << row.peakMegabytes << "  "
              << (row.faults.empty() ? "pass" : "FAIL") << '\n';
    for (const std::string& fault : row.faults) {
        std::cout << "    " << fault << '\n';
    }
    std::cout << std::flush;
}

void printJson(const Row& row, const std::string& suite, bool first) {
    const auto share = [](const std::optional<double>& value) {
        std::ostringstream text;
        text << std::setprecision(6);
        if (value) {
            text << *value;
        } else {
            text << "null";
        }
        return text.str();
    };
    std::cout << (first ? "[\n" : ",\n") << "  {\"suite\": \"" << suite << "\", \"family\": \""
              << row.family << "\", \"instance\": \"" << row.instance
              << "\", \"boards\": " << row.boards << ", \"seed\": " << row.seed
              << std::setprecision(10) << ", \"value\": " << row.value
              << ", \"bound\": null, \"gap\": null, \"gap_board_feet\": null"
              << ", \"touched_board_feet\": " << Row::feet(row.engine)
              << ", \"placed\": " << row.engine.demanded - row.unplaced
              << ", \"demanded\": " << row.engine.demanded << ", \"audit\": \""
              << (row.faults.empty() ? "pass" : "fail")
              << "\", \"greedy\": " << Row::feet(row.greedy)
              << ", \"careful\": " << Row::feet(row.careful)
              << ", \"saving\": " << share(row.saving(row.greedy, row.unplacedGreedy))
              << ", \"saving_careful\": " << share(row.saving(row.careful, row.unplacedCareful))
              << ", \"first_plan_s\": " << row.firstPlan << ", \"total_s\": " << row.total
              << ", \"peak_mb\": " << row.peakMegabytes
              << ", \"published\": null, \"reached\": null}";
}

std::string spread(std::vector<double> values) {
    if (values.empty()) {
        return "-";
    }
    std::sort(values.begin(), values.end());
    std::ostringstream text;
    text << "median " << percent(values[values.size() / 2]) << ", worst "
         << percent(values.front());
    return text.str();
}

} // namespace

int main(int argumentCount, char** arguments) {
    // One thread in the linear algebra underneath, so that the same seed repeats.
    setenv("OPENBLAS_NUM_THREADS", "1", 1);
    const std::optional<BenchOptions> options = read(argumentCount, arguments);
    if (!options) {
        std::cerr
            << "usage: bench_cutting --suite racks|jobs [--boards N] [--seeds N] [--seed-base N] "
               "[--instances DIR] [--seconds S] [--threads N] [--json]\n";
        return 2;
    }
    if (!options->json) {
        std::cout << "positions: defects' edges, ends and lengths in a row; no grid\n"
                  << "family    instance     boards   value   engine   greedy  careful   saving  "
                     "careful  unplaced  of   first   total      MB  check\n";
    }
    std::vector<double> savings;
    std::vector<double> savingsCareful;
    bool first = true;
    bool sound = true;
    const auto run = [&](const Problem& problem, const std::string& family,
                         const std::string& instance, int seed) {
        const Row row = measure(problem, *options, family, instance, seed);
        options->json ? printJson(row, options->suite, first) : printTable(row);
        first = false;
        sound = sound && row.faults.empty();
        if (const auto saving = row.saving(row.greedy, row.unplacedGreedy)) {
            savings.push_back(*saving);
        }
        if (const auto saving = row.saving(row.careful, row.unplacedCareful)) {
            savingsCareful.push_back(*saving);
        }
    };
    if (options->suite == "racks") {
        for (const JobFamily family : allFamilies) {
            for (int s = 0; s < options->seeds; ++s) {
                const int seed = options->seedBase + s;
                const bool metric = seed % 2 == 0;
                const Problem problem = makeRack({.family = family,
                                                  .boards = options->boards,
                                                  .seed = static_cast<std::uint64_t>(seed),
                                                  .metric = metric});
                run(problem, nameOf(family), std::to_string(seed) + (metric ? " (mm)" : " (inch)"),
                    seed);
            }
        }
    } else {
        const auto jobs = loadJobs(options->instances);
        if (!jobs) {
            std::cerr << stavewright::describe(jobs.error()) << '\n';
            return 2;
        }
        for (const JobInstance& job : jobs.value()) {
            run(job.problem, "job", job.name, options->seedBase);
        }
    }
    if (options->json) {
        std::cout << (first ? "[" : "\n") << "]\n";
    } else {
        std::cout << "less lumber than plain greedy: " << spread(savings)
                  << "; than careful maker: " << spread(savingsCareful) << '\n';
    }
    return sound ? 0 : 1;
}
