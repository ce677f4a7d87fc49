#pragma once
// The headless commands. Each returns the exit code and prints what a person, or with --json a
// program, needs to know; results go to standard output, complaints to standard error.

#include "app/CommandLine.h"

namespace stavewright::app {

enum ExitCode : int {
    exitGood = 0,
    exitSomeUnplaced = 1,
    exitBadInput = 2,
    exitCannotWrite = 3,
    exitAuditFailed = 4
};

[[nodiscard]] int exitCodeOf(const Error& error);

int runPlan(const PlanCommand& command);
int runCheck(const CheckCommand& command);
int runPapers(const PapersCommand& command);
int runKnots(const KnotsCommand& command);
int runArrange(const ArrangeCommand& command);

} // namespace stavewright::app
