// How long one move of the pointer takes while a blank or a cut is dragged in a large job: a table
// of times, nothing is asserted.

#include <chrono>
#include <cstdio>
#include <random>

#include "core/geometry/PolygonOps.h"
#include "core/hand/CutDrag.h"
#include "core/hand/Drag.h"
#include "tests/bench/PlannedJob.h"
#include "tests/tools/BlanksOf.h"
#include "tests/tools/samples/Samples.h"

using namespace stavewright;

namespace {

void measure(const Document& job) {
    const std::vector<BlankId> blanks = plan_tools::blanksOf(*job.plan);
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
        lifts.push_back(bench::milliseconds(start));
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
                (m == 0 ? first : later).push_back(bench::milliseconds(start));
                legal += held.isLegal ? 1 : 0;
                if (held.isLegal && k == 0) {
                    start = std::chrono::steady_clock::now();
                    const Result<Edit> edit = drag.value().drop(held.laying);
                    drops.push_back(bench::milliseconds(start));
                }
            }
        }
    }
    std::printf("%zu boards, %zu blanks, %zu defects; %d places legal\n", job.boards.size(),
                blanks.size(), defects, legal);
    bench::printTimes("lift", lifts);
    bench::printTimes("first move over a board", first);
    bench::printTimes("every further move", later);
    bench::printTimes("drop", drops);
}

void measureCuts(const Document& job) {
    std::mt19937_64 random(2);
    std::vector<double> takes, moves, drops;
    int legal = 0;
    for (int i = 0; i < 60; ++i) {
        const BoardId board = job.plan->boards[random() % job.plan->boards.size()].board;
        std::vector<hand::CutRef> cuts = hand::cutsOn(job, board);
        std::erase_if(cuts, [](const hand::CutRef& cut) { return cut.blank.has_value(); });
        if (cuts.empty()) {
            continue;
        }
        const hand::CutRef cut = cuts[random() % cuts.size()];
        auto start = std::chrono::steady_clock::now();
        const Result<hand::CutDrag> drag = hand::CutDrag::take(job, board, cut);
        takes.push_back(bench::milliseconds(start));
        if (!drag) {
            continue;
        }
        for (int m = 0; m < 40; ++m) {
            const Length off = Length::millimetres(static_cast<std::int64_t>(random() % 300) - 150);
            start = std::chrono::steady_clock::now();
            const auto held = drag.value().at(drag.value().mark() + off, Length::millimetres(6));
            moves.push_back(bench::milliseconds(start));
            legal += held.isLegal ? 1 : 0;
            if (held.isLegal && m < 3) {
                start = std::chrono::steady_clock::now();
                const Result<Edit> edit = drag.value().drop(held.where);
                drops.push_back(bench::milliseconds(start));
            }
        }
    }
    std::printf("cuts: %zu taken, %d places legal\n", takes.size(), legal);
    bench::printTimes("take a cut", takes);
    bench::printTimes("every move of it", moves);
    bench::printTimes("drop", drops);
}

} // namespace

int main() {
    const std::optional<Document> job =
        bench::planned(bench::enlarged(samples::readingRoom(), 60, 5), 20);
    if (!job) {
        return 1;
    }
    measure(*job);
    measureCuts(*job);
    return 0;
}
