// Every job file of a folder, against both baselines.

#include <iostream>

#include "JobInstances.h"
#include "LumberTable.h"
#include "Measure.h"
#include "Suites.h"

namespace stavewright::cutting::bench {

bool runJobs(const BenchOptions& options) {
    const auto jobs = loadJobs(options.instances);
    if (!jobs) {
        std::cerr << stavewright::describe(jobs.error()) << '\n';
        return false;
    }
    LumberTable table(options.json);
    for (const JobInstance& job : jobs.value()) {
        Measured measured =
            measureSolve(job.problem, options, options.secondsOr(10), options.seedBase);
        addBoardFeetGap(job.problem, options, options.secondsOr(10), measured);
        addBaselines(job.problem, measured);
        measured.row.suite = "jobs";
        measured.row.family = "job";
        measured.row.instance = job.name;
        table.print(measured);
    }
    return table.finish();
}

} // namespace stavewright::cutting::bench
