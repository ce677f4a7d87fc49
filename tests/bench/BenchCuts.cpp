// Many random sets of cuts inside their safe windows, and cuts one mark of the tape outside: how
// many of them were not as said; and how long the windows of a whole job take to work out.
// `bench_cuts 1000 11` (sets, seed).

#include <chrono>
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

void timeWindows(const Document& job) {
    const auto start = std::chrono::steady_clock::now();
    const hand::SafeWindows windows(job);
    std::map<hand::CutKind, int> kinds;
    std::size_t cuts = 0;
    for (const BoardLayout& layout : job.plan->boards) {
        cuts += hand::cutsOn(job, layout.board).size();
        for (const hand::CutWindow& window : windows.onBoard(layout.board)) {
            ++kinds[window.cut.kind()];
        }
    }
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    std::printf("%s: %zu boards cut, %zu cuts left, windows of %d crosscuts, %d rips, %d second "
                "crosscuts in %.2f s\n",
                job.info.title.c_str(), job.plan->boards.size(), cuts,
                kinds[hand::CutKind::Crosscut], kinds[hand::CutKind::Rip],
                kinds[hand::CutKind::Second], took.count());
}

} // namespace

int main(int argc, char** argv) {
    cut_sets::Wish wish;
    wish.sets = argc > 1 ? std::max(1, std::atoi(argv[1])) : 1000;
    wish.seed = argc > 2 ? static_cast<std::uint64_t>(std::atoll(argv[2])) : wish.seed;
    wish.judged = wish.sets / 10;
    const std::vector<Document> jobs = {planned(samples::hallShelf()),
                                        planned(samples::kitchenTable()),
                                        planned(samples::linenChest())};
    for (const Document& job : jobs) {
        timeWindows(job);
    }
    const cut_sets::Counted counted = cut_sets::cutAtRandom(jobs, wish);
    std::printf("%d sets of cuts, %d cuts inside their windows: %d parts lost, %d sets refused by "
                "the audit\n",
                counted.sets, counted.cuts, counted.losses, counted.unclean);
    std::printf("%d cuts one mark outside: %d lost nothing; %d blanks said to be lost looked for "
                "everywhere, %d came out all the same\n",
                counted.outside, counted.harmless, counted.judged, counted.comeOut);
    std::printf("%d strips with several blanks, of which some are said to be lost, tried in every "
                "order: in %d one more came out\n",
                counted.strips, counted.more);
    for (const std::string& trouble : counted.troubles) {
        std::printf("  %s\n", trouble.c_str());
    }
    return 0;
}
