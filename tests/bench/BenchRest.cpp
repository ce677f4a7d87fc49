// How long the rest of a 24-board job takes to a first audited answer after one move by hand; and
// how long the settling of a mishap takes. Tables of times, nothing is asserted.

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <random>

#include "core/audit/Audit.h"
#include "core/hand/HandEdits.h"
#include "core/hand/PlanTree.h"
#include "core/midjob/Mishaps.h"
#include "core/midjob/PlanRest.h"
#include "tests/tools/samples/Samples.h"

using namespace stavewright;

namespace {

double milliseconds(std::chrono::steady_clock::time_point since) {
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - since)
        .count();
}

/// The sample's rack hung again until there are `boards`, its parts asked for half as often again.
Document enlarged(Document job, std::size_t boards) {
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
    return job;
}

void row(const char* what, std::vector<double> times) {
    if (times.empty()) {
        return;
    }
    std::sort(times.begin(), times.end());
    double sum = 0;
    for (const double time : times) {
        sum += time;
    }
    std::printf("  %-44s %4zu times  mean %7.1f ms  95 %% %7.1f ms  longest %7.1f ms\n", what,
                times.size(), sum / static_cast<double>(times.size()),
                times[times.size() * 95 / 100], times.back());
}

std::vector<BlankId> blanksOf(const Plan& plan) {
    std::vector<BlankId> ids;
    for (const BoardLayout& layout : plan.boards) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    ids.push_back(blank.id);
                }
            }
        }
    }
    return ids;
}

} // namespace

int main() {
    Document job = enlarged(samples::kitchenTable(), 24);
    Result<PlanOutcome> outcome = planJob(job, {.seed = 1, .seconds = 10, .work = 0, .threads = 2});
    if (!outcome) {
        std::fprintf(stderr, "%s\n", describe(outcome.error()).c_str());
        return 1;
    }
    job.plan = std::move(outcome.value().plan);
    job.nextId = std::max(job.nextId, largestId(*job.plan) + 1);
    const std::vector<BlankId> blanks = blanksOf(*job.plan);
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
        for (const midjob::RestMode mode :
             {midjob::RestMode::KeepPlaces, midjob::RestMode::FromScratch}) {
            const auto start = std::chrono::steady_clock::now();
            double first = 0;
            const OnBetterPlan better = [&](const Plan& plan) {
                if (first == 0 && audit(moved, plan).passed()) {
                    first = milliseconds(start);
                }
            };
            const Result<midjob::RestOutcome> rest = midjob::planRest(
                moved, mode, {.seed = 1, .seconds = 2, .work = 0, .threads = 2}, {}, better);
            if (!rest) {
                continue;
            }
            if (mode == midjob::RestMode::KeepPlaces) {
                keeping.push_back(first);
                whole.push_back(milliseconds(start));
                placedAtOnce += rest.value().outcome.plan.unplaced.empty() ? 1 : 0;
                freed += rest.value().boardsFreed;
            } else {
                anew.push_back(first);
            }
        }
        const auto start = std::chrono::steady_clock::now();
        if (midjob::spoiled(job, blanks[random() % blanks.size()], {})) {
            mishaps.push_back(milliseconds(start));
        }
    }
    std::printf("%zu boards, %zu blanks; %d moves into the tray; all placed again in %d of them, "
                "%d boards freed for it\n",
                job.boards.size(), blanks.size(), moves, placedAtOnce, freed);
    row("keeping places: first audited answer", keeping);
    row("keeping places: to the end (2 s allowed)", whole);
    row("anew: first audited answer", anew);
    row("a blank spoiled and all settled again", mishaps);
    return 0;
}
