// What the audit of a planned job costs, which the window pays at every edit.
//
//   bench_audit JOB...
//
// Prints one line a job; asserts nothing about time.

#include <algorithm>
#include <chrono>
#include <iomanip>
#include <iostream>
#include <vector>

#include "core/audit/Audit.h"
#include "core/job/JobFile.h"
#include "core/planning/Planner.h"

namespace {

using namespace stavewright;

constexpr int rounds = 15;

double milliseconds(const Document& document) {
    const auto begin = std::chrono::steady_clock::now();
    const AuditReport report = audit(document);
    const auto end = std::chrono::steady_clock::now();
    if (!report.passed()) {
        std::cerr << "the plan does not pass its audit\n";
    }
    return std::chrono::duration<double, std::milli>(end - begin).count();
}

int bench(const std::string& path) {
    Result<Document> read = readJob(path);
    if (!read) {
        std::cerr << describe(read.error()) << '\n';
        return 2;
    }
    Document document = std::move(read).value();
    PlanOptions options;
    options.seconds = 3;
    const Result<PlanOutcome> planned = planJob(document, options);
    if (!planned) {
        std::cerr << describe(planned.error()) << '\n';
        return 1;
    }
    document.plan = planned.value().plan;
    std::vector<double> times;
    for (int i = 0; i < rounds; ++i) {
        times.push_back(milliseconds(document));
    }
    std::sort(times.begin(), times.end());
    std::cout << std::fixed << std::setprecision(2) << path << ": " << document.boards.size()
              << " boards, " << document.plan->totals.placed << " blanks, audit "
              << times[rounds / 2] << " ms (median), " << times.back() << " ms (slowest of "
              << rounds << ")\n";
    return 0;
}

} // namespace

int main(int count, char** arguments) {
    int code = count < 2 ? 2 : 0;
    for (int i = 1; i < count; ++i) {
        code = std::max(code, bench(arguments[i]));
    }
    return code;
}
