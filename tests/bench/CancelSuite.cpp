// How long does a search take to end once it is told to stop? Stopped at random moments, from the
// first instant on. The processor's time is told beside the clock's, because the clock also counts
// whatever else the machine does.

#include <algorithm>
#include <atomic>
#include <chrono>
#include <ctime>
#include <thread>

#include "Measure.h"
#include "Racks.h"
#include "RowPrinter.h"
#include "SolutionChecker.h"
#include "Suites.h"
#include "core/cutting/Random.h"
#include "core/cutting/Solve.h"

namespace stavewright::cutting::bench {

namespace {

using Clock = std::chrono::steady_clock;

double processorSeconds() {
    timespec spent{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &spent);
    return static_cast<double>(spent.tv_sec) + static_cast<double>(spent.tv_nsec) / 1e9;
}

struct Stopped {
    Solution solution;
    double clock = 0;
    double processor = 0;
};

Stopped stopAfter(const Problem& problem, double seconds, int threads, int seed) {
    Stopped stopped;
    std::stop_source source;
    Progress progress;
    progress.stop = source.get_token();
    std::atomic<bool> isOver = false;
    Clock::time_point ended;
    std::thread search([&] {
        stopped.solution = solve(
            problem,
            {.seed = static_cast<std::uint64_t>(seed), .seconds = 0, .work = 0, .threads = threads},
            progress);
        ended = Clock::now();
        isOver = true;
    });
    std::this_thread::sleep_for(std::chrono::duration<double>(seconds));
    const bool tooLate = isOver;
    const auto asked = Clock::now();
    const double before = processorSeconds();
    source.request_stop();
    search.join();
    stopped.processor = tooLate ? 0 : processorSeconds() - before;
    stopped.clock = tooLate ? 0 : std::chrono::duration<double>(ended - asked).count();
    return stopped;
}

std::string milliseconds(std::vector<double> seconds) {
    if (seconds.empty()) {
        return "-";
    }
    std::sort(seconds.begin(), seconds.end());
    const auto at = [&](std::size_t percent) {
        const double found = seconds[(seconds.size() - 1) * percent / 100];
        return std::to_string(static_cast<int>(found * 1000 + 0.5));
    };
    return "median " + at(50) + ", 95 % " + at(95) + ", worst " + at(100) + " ms";
}

} // namespace

bool runCancel(const BenchOptions& options) {
    RowPrinter printer(options.json,
                       {column::family(), column::instance(8), column::boards(),
                        column::number("asked s", &Row::toGoal, 2), column::value(1, "clock ms"),
                        column::number("processor ms", &Row::published, 1), column::placed(),
                        column::audit()});
    std::vector<double> byClock;
    std::vector<double> byProcessor;
    Random dice(static_cast<std::uint64_t>(options.seedBase));
    const double longest = options.secondsOr(6);
    for (int s = 0; s < options.seedsOr(100); ++s) {
        const int seed = options.seedBase + s;
        const testing::JobFamily family =
            testing::allFamilies[static_cast<std::size_t>(s) % std::size(testing::allFamilies)];
        if (!options.family.empty() && options.family != nameOf(family)) {
            continue;
        }
        const Problem problem = testing::makeRack({.family = family,
                                                   .boards = options.boards,
                                                   .seed = static_cast<std::uint64_t>(seed),
                                                   .metric = seed % 2 == 0});
        const double moment = longest * static_cast<double>(dice.below(10'000)) / 10'000;
        const Stopped stopped = stopAfter(problem, moment, options.threads, seed);
        byClock.push_back(stopped.clock);
        byProcessor.push_back(stopped.processor);
        Row row;
        row.suite = "cancel";
        row.family = nameOf(family);
        row.instance = std::to_string(seed);
        row.boards = options.boards;
        row.seed = seed;
        row.toGoal = moment;
        row.value = stopped.clock * 1000;
        row.published = stopped.processor * 1000;
        row.audited = true;
        row.faults = testing::checkSolution(problem, stopped.solution);
        row.demanded = testing::countSolution(problem, stopped.solution).demanded;
        row.placed = *row.demanded - unplacedIn(stopped.solution);
        printer.print(row);
    }
    printer.note("from the stop to the end of the search: by the clock " + milliseconds(byClock) +
                 "; of the processor, all threads, " + milliseconds(byProcessor));
    printer.finish();
    return printer.isSound();
}

} // namespace stavewright::cutting::bench
