// How long the rest of a 24-board job takes to a first audited answer after one move by hand; and
// how long the settling of a mishap takes. Tables of times, nothing is asserted.

#include <chrono>
#include <cstdio>
#include <random>

#include "core/audit/Audit.h"
#include "core/hand/HandEdits.h"
#include "core/hand/PlanTree.h"
#include "core/midjob/Mishaps.h"
#include "core/midjob/PlanRest.h"
#include "tests/bench/PlannedJob.h"
#include "tests/tools/BlanksOf.h"
#include "tests/tools/samples/Samples.h"

using namespace stavewright;

int main() {
    std::fprintf(stderr, "planning the job for 10 s\n");
    const std::optional<Document> planned =
        bench::planned(bench::enlarged(samples::kitchenTable(), 24, 1), 10);
    if (!planned) {
        return 1;
    }
    const Document& job = *planned;
    const std::vector<BlankId> blanks = plan_tools::blanksOf(*job.plan);
    std::mt19937_64 random(1);
    std::vector<double> keeping, anew, whole, mishaps;
    int placedAtOnce = 0, moves = 0, freed = 0;
    for (int i = 0; i < 20; ++i) {
        Document moved = job;
        const Result<Edit> edit = hand::backToTray(moved, blanks[random() % blanks.size()]);
        if (!edit || !apply(moved, edit.value())) {
            continue;
        }
        ++moves;
        std::fprintf(stderr, "move %d of 20, up to 4 s\n", moves);
        for (const midjob::RestMode mode :
             {midjob::RestMode::KeepPlaces, midjob::RestMode::FromScratch}) {
            const auto start = std::chrono::steady_clock::now();
            double first = 0;
            const OnBetterPlan better = [&](const Plan& plan) {
                if (first == 0 && audit(moved, plan).passed()) {
                    first = bench::milliseconds(start);
                }
            };
            const Result<midjob::RestOutcome> rest = midjob::planRest(
                moved, mode, {.seed = 1, .seconds = 2, .work = 0, .threads = 2}, {}, better);
            if (!rest) {
                continue;
            }
            if (mode == midjob::RestMode::KeepPlaces) {
                keeping.push_back(first);
                whole.push_back(bench::milliseconds(start));
                placedAtOnce += rest.value().outcome.plan.unplaced.empty() ? 1 : 0;
                freed += rest.value().boardsFreed;
            } else {
                anew.push_back(first);
            }
        }
        const auto start = std::chrono::steady_clock::now();
        if (midjob::spoiled(job, blanks[random() % blanks.size()], {})) {
            mishaps.push_back(bench::milliseconds(start));
        }
    }
    std::printf("%zu boards, %zu blanks; %d moves into the tray; all placed again in %d of them, "
                "%d boards freed for it\n",
                job.boards.size(), blanks.size(), moves, placedAtOnce, freed);
    bench::printTimes("keeping places: first audited answer", keeping);
    bench::printTimes("keeping places: to the end (2 s allowed)", whole);
    bench::printTimes("anew: first audited answer", anew);
    bench::printTimes("a blank spoiled and all settled again", mishaps);
    return 0;
}
