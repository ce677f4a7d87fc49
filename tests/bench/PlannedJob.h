#pragma once
// Large planned jobs made of a sample, and a table of how long something took, for the benches of
// changes by hand and in the shop.

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <optional>
#include <vector>

#include "core/planning/Planner.h"

namespace stavewright::bench {

inline double milliseconds(std::chrono::steady_clock::time_point since) {
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - since)
        .count();
}

/// The job's rack hung again until there are `boards`, its parts asked for `times` over.
inline Document enlarged(Document job, std::size_t boards, int times) {
    const std::vector<Board> rack = job.boards;
    while (job.boards.size() < boards) {
        Board copy = rack[job.boards.size() % rack.size()];
        copy.id = job.takeId<BoardId>();
        copy.mark = "n" + std::to_string(job.boards.size() + 1);
        for (Defect& defect : copy.defects) {
            defect.id = job.takeId<DefectId>();
        }
        job.boards.push_back(std::move(copy));
    }
    for (Part& part : job.parts) {
        part.count *= times;
    }
    return job;
}

/// With its plan by these options; none, and why on stderr, when it cannot be planned.
inline std::optional<Document> plannedBy(Document job, const PlanOptions& options) {
    Result<PlanOutcome> outcome = planJob(job, options);
    if (!outcome) {
        std::fprintf(stderr, "%s\n", describe(outcome.error()).c_str());
        return std::nullopt;
    }
    job.plan = std::move(outcome.value().plan);
    job.nextId = std::max(job.nextId, largestId(*job.plan) + 1);
    return job;
}

/// After so many seconds.
inline std::optional<Document> planned(Document job, double seconds) {
    return plannedBy(std::move(job), {.seed = 1, .seconds = seconds, .work = 0, .threads = 2});
}

/// After so much work: the same plan on every machine.
inline std::optional<Document> plannedByWork(Document job, std::int64_t work) {
    return plannedBy(std::move(job), {.seed = 1, .seconds = 0, .work = work, .threads = 2});
}

/// A line of the table; times in milliseconds, nothing without any.
inline void printTimes(const char* what, std::vector<double> times) {
    if (times.empty()) {
        return;
    }
    std::sort(times.begin(), times.end());
    double sum = 0;
    for (const double time : times) {
        sum += time;
    }
    std::printf("  %-44s %7zu times  mean %8.2f ms  95 %% %8.2f ms  longest %8.2f ms\n", what,
                times.size(), sum / static_cast<double>(times.size()),
                times[times.size() * 95 / 100], times.back());
}

} // namespace stavewright::bench
