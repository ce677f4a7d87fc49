// How long one move of the pointer takes while a blank is dragged over a large job: a table of
// times, nothing is asserted.

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <random>

#include "core/geometry/PolygonOps.h"
#include "core/hand/Drag.h"
#include "core/planning/Planner.h"
#include "tests/tools/samples/Samples.h"

using namespace stavewright;

namespace {

double milliseconds(std::chrono::steady_clock::time_point since) {
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - since)
        .count();
}

/// The sample's rack hung again until there are `boards`, its parts asked for `times` over.
Document enlarged(Document job, std::size_t boards, int times) {
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

void measure(const Document& job) {
    std::vector<BlankId> blanks;
    for (const BoardLayout& layout : job.plan->boards) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    blanks.push_back(blank.id);
                }
            }
        }
    }
    std::size_t defects = 0;
    for (const Board& board : job.boards) {
        defects += board.defects.size();
    }
    std::mt19937_64 random(1);
    std::vector<double> lifts, first, later, drops;
    int legal = 0;
    for (int i = 0; i < 40; ++i) {
        auto start = std::chrono::steady_clock::now();
        const Result<hand::Drag> drag = hand::Drag::lift(job, blanks[random() % blanks.size()]);
        lifts.push_back(milliseconds(start));
        if (!drag) {
            continue;
        }
        for (int k = 0; k < 30; ++k) {
            const Board& board = job.boards[random() % job.boards.size()];
            const Rect box = boundingBox(board.outline);
            for (int m = 0; m < 5; ++m) {
                const auto share = [&] { return static_cast<std::int64_t>(random() % 100); };
                const Point corner{box.x0 + box.length() * share() / 100,
                                   box.y0 + box.width() * share() / 100};
                start = std::chrono::steady_clock::now();
                const auto held = drag.value().at(board.id, corner, {}, Length::millimetres(6));
                (m == 0 ? first : later).push_back(milliseconds(start));
                legal += held.isLegal ? 1 : 0;
                if (held.isLegal && k == 0) {
                    start = std::chrono::steady_clock::now();
                    const Result<Edit> edit = drag.value().drop(held.laying);
                    drops.push_back(milliseconds(start));
                }
            }
        }
    }
    const auto row = [](const char* what, std::vector<double> times) {
        if (times.empty()) {
            return;
        }
        std::sort(times.begin(), times.end());
        double sum = 0;
        for (const double time : times) {
            sum += time;
        }
        std::printf("  %-28s %7zu times  mean %7.2f ms  95 %% %7.2f ms  longest %7.2f ms\n", what,
                    times.size(), sum / static_cast<double>(times.size()),
                    times[times.size() * 95 / 100], times.back());
    };
    std::printf("%zu boards, %zu blanks, %zu defects; %d places legal\n", job.boards.size(),
                blanks.size(), defects, legal);
    row("lift", lifts);
    row("first move over a board", first);
    row("every further move", later);
    row("drop", drops);
}

} // namespace

int main() {
    Document job = enlarged(samples::readingRoom(), 60, 5);
    Result<PlanOutcome> outcome = planJob(job, {.seed = 1, .seconds = 20, .work = 0, .threads = 2});
    if (!outcome) {
        std::fprintf(stderr, "%s\n", describe(outcome.error()).c_str());
        return 1;
    }
    job.plan = std::move(outcome.value().plan);
    job.nextId = std::max(job.nextId, largestId(*job.plan) + 1);
    measure(job);
    return 0;
}
