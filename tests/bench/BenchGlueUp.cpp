// How long arranging a panel takes and how good it gets.
//
//   bench_glueup [--long-runs N] [--only SEED] [--first SEED]
//
// Prints: 20 panels of 7 staves against every arrangement tried one by one, ten of 12 staves, and
// five of 20 staves against the best of N (50) runs ten times as long; seeds from the first (1) on.
// Lines at their edges are known as a photograph shows them. Asserts nothing about time.

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <iomanip>
#include <iostream>

#include "RandomPanels.h"
#include "core/glueup/Arrange.h"
#include "core/glueup/OrderSearch.h"

namespace {

using namespace stavewright::glueup;
using namespace stavewright::glueup::testing;

/// As the window asks for it.
constexpr ArrangeLimits asInTheWindow{.moves = 4'200'000, .seconds = 1.8};

/// By the wall, and of the processor alone: a machine that others use as well shows both.
class Clock {
  public:
    [[nodiscard]] double seconds() const {
        return std::chrono::duration<double>(std::chrono::steady_clock::now() - m_begin).count();
    }
    [[nodiscard]] double processor() const {
        return static_cast<double>(std::clock() - m_processor) / CLOCKS_PER_SEC;
    }
    friend std::ostream& operator<<(std::ostream& out, const Clock& clock) {
        return out << clock.seconds() << " s (processor " << clock.processor() << " s)";
    }

  private:
    std::chrono::steady_clock::time_point m_begin = std::chrono::steady_clock::now();
    std::clock_t m_processor = std::clock();
};

double points(Cost cost) { return static_cast<double>(cost) / 1e5; }

const char* words(Proved proved) { return proved == Proved::Best ? "proved best" : "best found"; }

void sevens(std::uint64_t first) {
    std::cout << "7 staves, every arrangement tried\n";
    int agree = 0;
    for (std::uint64_t seed = first; seed < first + 20; ++seed) {
        const ArrangeProblem problem =
            randomPanel(seed, {.staves = 7, .rulesForbidPoses = true, .photographed = true});
        const Clock clock;
        const Arrangement found = arrange(problem, {});
        const double seconds = clock.seconds();
        const Clock bruteClock;
        const Cost brute = bruteForce(Scoring(problem));
        agree += found.score.total == brute ? 1 : 0;
        std::cout << "  seed " << std::setw(2) << seed << "  " << std::setw(9)
                  << points(found.score.total) << "  tried " << std::setw(9) << points(brute)
                  << "  " << words(found.proved) << "  " << seconds << " s, trying all "
                  << bruteClock.seconds() << " s\n";
    }
    std::cout << "  equal: " << agree << " of 20\n";
}

void twelves(std::uint64_t first) {
    std::cout << "12 staves\n";
    for (std::uint64_t seed = first; seed < first + 10; ++seed) {
        const ArrangeProblem problem = randomPanel(seed, {.staves = 12, .photographed = true});
        const Clock clock;
        const Arrangement found = arrange(problem, {});
        std::cout << "  seed " << std::setw(2) << seed << "  " << std::setw(9)
                  << points(found.score.total) << "  " << words(found.proved) << "  " << clock
                  << '\n';
    }
}

void twenties(int longRuns, std::uint64_t first, std::uint64_t last) {
    std::cout << "20 staves, against the best of " << longRuns << " runs ten times as long\n";
    for (std::uint64_t seed = first; seed <= last; ++seed) {
        const ArrangeProblem problem = randomPanel(seed, {.staves = 20, .photographed = true});
        const Scoring scoring(problem);
        const Clock clock;
        const Arrangement found = arrange(problem, {}, asInTheWindow);
        const double seconds = clock.seconds();
        const double processor = clock.processor();
        Cost best = found.score.total;
        for (int run = 0; run < longRuns; ++run) {
            constexpr std::int64_t longRun = 14'000'000;
            const SearchLimits limits{1000 + static_cast<std::uint64_t>(run) * 17, longRun, 12};
            best = std::min(best, scoring.total(searchOrder(scoring, firstOrder(scoring), limits)));
        }
        std::cout << "  seed " << seed << "  " << std::setw(9) << points(found.score.total)
                  << "  best " << std::setw(9) << points(best) << "  "
                  << (points(found.score.total) / points(best) - 1) * 100 << " % above  " << seconds
                  << " s (processor " << processor << " s)\n"
                  << std::flush;
    }
}

} // namespace

int main(int argc, char** argv) {
    int longRuns = 50;
    std::uint64_t only = 0; // of the panels of 20; they take long
    std::uint64_t first = 1;
    for (int i = 1; i + 1 < argc; i += 2) {
        if (std::strcmp(argv[i], "--long-runs") == 0) {
            longRuns = std::atoi(argv[i + 1]);
        } else if (std::strcmp(argv[i], "--only") == 0) {
            only = std::strtoull(argv[i + 1], nullptr, 10);
        } else if (std::strcmp(argv[i], "--first") == 0) {
            first = std::strtoull(argv[i + 1], nullptr, 10);
        }
    }
    std::cout << std::fixed << std::setprecision(3);
    if (only > 0) {
        twenties(longRuns, only, only);
        return 0;
    }
    twelves(first);
    sevens(first);
    twenties(longRuns, first, first + 4);
    return 0;
}
