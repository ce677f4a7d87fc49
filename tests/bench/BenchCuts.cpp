// Many random sets of cuts inside their safe windows, and cuts one mark of the tape outside: how
// many of them were not as said. `bench_cuts 1000` (sets).

#include <cstdio>
#include <cstdlib>

#include "core/planning/Planner.h"
#include "tests/tools/samples/Samples.h"
#include "tests/unit/core/hand/CutSets.h"

using namespace stavewright;

namespace {

Document planned(Document job) {
    Result<PlanOutcome> outcome =
        planJob(job, {.seed = 1, .seconds = 0, .work = 3'000, .threads = 1});
    if (!outcome) {
        std::fprintf(stderr, "%s\n", describe(outcome.error()).c_str());
        std::exit(1);
    }
    job.plan = std::move(outcome.value().plan);
    job.nextId = std::max(job.nextId, largestId(*job.plan) + 1);
    return job;
}

} // namespace

int main(int argc, char** argv) {
    cut_sets::Wish wish;
    wish.sets = argc > 1 ? std::max(1, std::atoi(argv[1])) : 1000;
    wish.judged = wish.sets / 10;
    const cut_sets::Counted counted =
        cut_sets::cutAtRandom({planned(samples::hallShelf()), planned(samples::kitchenTable()),
                               planned(samples::linenChest())},
                              wish);
    std::printf("%d sets of cuts, %d cuts inside their windows: %d parts lost, %d sets refused by "
                "the audit\n",
                counted.sets, counted.cuts, counted.losses, counted.unclean);
    std::printf("%d cuts one mark outside: %d lost nothing; %d blanks said to be lost looked for "
                "everywhere, %d came out all the same\n",
                counted.outside, counted.harmless, counted.judged, counted.comeOut);
    for (const std::string& trouble : counted.troubles) {
        std::printf("  %s\n", trouble.c_str());
    }
    return 0;
}
