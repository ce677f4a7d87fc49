#include "core/photo/KnotModel.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <thread>

namespace stavewright::photo {

namespace {

constexpr std::size_t firstTrees = 24;
constexpr float hopeless = -100;

struct Scored {
    Window window;
    float score;
};

double areaOf(const Window& w) { return static_cast<double>(w.x1 - w.x0) * (w.y1 - w.y0); }

double common(const Window& a, const Window& b) {
    const double w = std::min(a.x1, b.x1) - std::max(a.x0, b.x0);
    const double h = std::min(a.y1, b.y1) - std::max(a.y0, b.y0);
    return w > 0 && h > 0 ? w * h : 0;
}

/// The same knot, or a part of it.
bool sameKnot(const Window& a, const Window& b) {
    return overlapOf(a, b) > 0.25 || common(a, b) > 0.45 * std::min(areaOf(a), areaOf(b));
}

/// Between all windows that agree with the best, weighed by how sure they are.
FoundKnot settled(const Scored& best, const std::vector<Scored>& all) {
    FoundKnot knot{0, 0, 0, 0, best.score};
    double sum = 0;
    for (const Scored& other : all) {
        if (overlapOf(best.window, other.window) > 0.5) {
            const double weight = std::exp(static_cast<double>(other.score - best.score));
            knot.x0 += weight * other.window.x0;
            knot.y0 += weight * other.window.y0;
            knot.x1 += weight * other.window.x1;
            knot.y1 += weight * other.window.y1;
            sum += weight;
        }
    }
    knot.x0 /= sum;
    knot.y0 /= sum;
    knot.x1 /= sum;
    knot.y1 /= sum;
    return knot;
}

} // namespace

float KnotModel::score(const Measures& measures) const {
    float sum = 0;
    for (const KnotTree& tree : trees) {
        sum += tree.answer(measures);
    }
    return sum;
}

float KnotModel::quickScore(const Measures& measures) const {
    float sum = 0;
    const std::size_t first = std::min(firstTrees, trees.size());
    for (std::size_t i = 0; i < first; ++i) {
        sum += trees[i].answer(measures);
    }
    if (sum < -2) {
        return hopeless;
    }
    for (std::size_t i = first; i < trees.size(); ++i) {
        sum += trees[i].answer(measures);
    }
    return sum;
}

double KnotModel::confidence(float score) const {
    return 1 / (1 + std::exp(-static_cast<double>(slope * (score - even))));
}

std::vector<FoundKnot> searchKnots(const GrainGrid& grid, const KnotModel& model,
                                   double leastConfidence) {
    // Two threads share the sizes; what they find is put together in the order of the sizes, so
    // that it does not matter who was first.
    const std::vector<detail::WindowSize> sizes = detail::windowSizes(grid);
    std::vector<std::vector<Scored>> ofSize(sizes.size());
    std::atomic<std::size_t> next = 0;
    const auto work = [&] {
        for (std::size_t i = next++; i < sizes.size(); i = next++) {
            forEachWindow(grid, sizes[i], [&](const Window& window) {
                if (!worthMeasuring(grid, window)) {
                    return;
                }
                const float score = model.quickScore(measure(grid, window));
                if (model.confidence(score) >= leastConfidence) {
                    ofSize[i].push_back({window, score});
                }
            });
        }
    };
    {
        const std::jthread helper(work);
        work();
    }
    std::vector<Scored> found;
    for (const std::vector<Scored>& items : ofSize) {
        found.insert(found.end(), items.begin(), items.end());
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const Scored& a, const Scored& b) { return a.score > b.score; });
    std::vector<Scored> kept;
    for (const Scored& candidate : found) {
        const bool known = std::any_of(kept.begin(), kept.end(), [&](const Scored& k) {
            return sameKnot(k.window, candidate.window);
        });
        if (!known) {
            kept.push_back(candidate);
        }
    }
    std::vector<FoundKnot> knots;
    knots.reserve(kept.size());
    for (const Scored& best : kept) {
        knots.push_back(settled(best, found));
    }
    return knots;
}

} // namespace stavewright::photo
