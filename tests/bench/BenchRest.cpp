// How long the rest of a 24-board job takes to a first audited answer after one move by hand; and
// how long the settling of a mishap takes. Each move is told as soon as it is measured, the table
// comes last; nothing is asserted about time.
//
//   bench_rest [--moves N] [--seconds S] [--seed N]

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <random>

#include "core/audit/Audit.h"
#include "core/hand/Drag.h"
#include "core/hand/HandEdits.h"
#include "core/hand/PlanTree.h"
#include "core/midjob/Mishaps.h"
#include "core/midjob/PlanRest.h"
#include "tests/bench/PlannedJob.h"
#include "tests/tools/BlanksOf.h"
#include "tests/tools/samples/Samples.h"

using namespace stavewright;

namespace {

struct Options {
    int moves = 10;
    double seconds = 1; ///< for each planning of the rest
    std::uint64_t seed = 1;
};

struct Times {
    std::vector<double> keeping, keepingWhole, anew, mishaps;
    int placedAtOnce = 0; ///< by the first answer that keeps places
    int placed = 0;       ///< in the end
    int passed = 0;       ///< of all first answers: those the audit passes
    int answers = 0;
    int freed = 0;
};

/// One rest planned; milliseconds to the first answer that passes the audit, nothing without any.
std::optional<double> plan(const Document& job, midjob::RestMode mode, const Options& options,
                           Times& times) {
    const auto start = std::chrono::steady_clock::now();
    std::optional<double> first;
    std::optional<Plan> shown;
    const OnBetterPlan better = [&](const Plan& plan) {
        if (!first) {
            first = bench::milliseconds(start);
            shown = plan;
        }
    };
    const PlanOptions each{.seed = options.seed, .seconds = options.seconds, .threads = 2};
    const Result<midjob::RestOutcome> rest = midjob::planRest(job, mode, each, {}, better);
    if (!rest) {
        std::printf("  %s\n", describe(rest.error()).c_str());
        return std::nullopt;
    }
    ++times.answers;
    times.passed += shown && audit(job, *shown).passed() ? 1 : 0;
    if (mode == midjob::RestMode::KeepPlaces) {
        times.keepingWhole.push_back(bench::milliseconds(start));
        times.placedAtOnce += shown && shown->unplaced.empty() ? 1 : 0;
        times.placed += rest.value().outcome.plan.unplaced.empty() ? 1 : 0;
        times.freed += rest.value().boardsFreed;
    }
    return first;
}

/// The blank taken to a legal place on another board and locked there, or, where there is none,
/// laid in the tray.
std::optional<Document> moved(const Document& job, BlankId blank) {
    Document after = job;
    const Result<hand::Drag> drag = hand::Drag::lift(job, blank);
    for (std::size_t i = 0; drag && i < job.boards.size(); ++i) {
        const hand::Laying& origin = *drag.value().origin();
        const BoardId board = job.boards[i].id;
        const auto place = drag.value().nearest(board, {}, origin.pose);
        if (!place || board == origin.board) {
            continue;
        }
        const Result<Edit> edit = drag.value().drop(*place);
        if (edit && apply(after, edit.value())) {
            const Result<Edit> lock = hand::setLocked(after, blank, true);
            return lock && apply(after, lock.value()) ? std::optional(after) : std::nullopt;
        }
    }
    const Result<Edit> edit = hand::backToTray(after, blank);
    return edit && apply(after, edit.value()) ? std::optional(after) : std::nullopt;
}

void measure(const char* name, const Document& sample, int times, const Options& options) {
    const std::optional<Document> planned = bench::planned(bench::enlarged(sample, 24, times), 5);
    if (!planned) {
        return;
    }
    const Document& job = *planned;
    const std::vector<BlankId> blanks = plan_tools::blanksOf(*job.plan);
    std::printf("%s: %zu boards, %zu blanks, %zu without a place\n", name, job.boards.size(),
                blanks.size(), job.plan->unplaced.size());
    std::mt19937_64 random(options.seed);
    Times all;
    for (int i = 0; i < options.moves; ++i) {
        const BlankId blank = blanks[random() % blanks.size()];
        Document changed = job;
        if (i % 2 == 0) {
            const Result<Edit> edit = hand::backToTray(changed, blank);
            if (!edit || !apply(changed, edit.value())) {
                continue;
            }
        } else if (std::optional<Document> there = moved(job, blank)) {
            changed = std::move(*there);
        }
        const auto keeping = plan(changed, midjob::RestMode::KeepPlaces, options, all);
        const auto anew = plan(changed, midjob::RestMode::FromScratch, options, all);
        std::printf("  move %d, %s: first answer after %.1f ms keeping places, %.1f ms anew\n",
                    i + 1, i % 2 == 0 ? "into the tray" : "to another board and locked",
                    keeping.value_or(-1), anew.value_or(-1));
        if (keeping) {
            all.keeping.push_back(*keeping);
        }
        if (anew) {
            all.anew.push_back(*anew);
        }
        const auto start = std::chrono::steady_clock::now();
        if (midjob::spoiled(job, blanks[random() % blanks.size()], {})) {
            all.mishaps.push_back(bench::milliseconds(start));
        }
        std::fflush(stdout);
    }
    std::printf("  %d of %d first answers pass the audit; keeping places, all has a place at once "
                "in %d, in the end in %d of %zu, %d boards let go\n",
                all.passed, all.answers, all.placedAtOnce, all.placed, all.keepingWhole.size(),
                all.freed);
    bench::printTimes("keeping places: first audited answer", all.keeping);
    bench::printTimes("keeping places: to the end", all.keepingWhole);
    bench::printTimes("anew: first audited answer", all.anew);
    bench::printTimes("a blank spoiled and all settled again", all.mishaps);
    std::fflush(stdout);
}

} // namespace

int main(int argc, char** argv) {
    Options options;
    for (int i = 1; i + 1 < argc; i += 2) {
        if (std::strcmp(argv[i], "--moves") == 0) {
            options.moves = std::atoi(argv[i + 1]);
        } else if (std::strcmp(argv[i], "--seconds") == 0) {
            options.seconds = std::atof(argv[i + 1]);
        } else if (std::strcmp(argv[i], "--seed") == 0) {
            options.seed = static_cast<std::uint64_t>(std::atoll(argv[i + 1]));
        } else {
            std::fprintf(stderr, "There is no option %s; there are --moves, --seconds, --seed.\n",
                         argv[i]);
            return 2;
        }
    }
    measure("Kitchen table", samples::kitchenTable(), 1, options);
    measure("Kitchen tables, as many as the rack gives", samples::kitchenTable(), 3, options);
    measure("Linen chests", samples::linenChest(), 3, options);
    return 0;
}
