#include "core/photo/KnotModel.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <thread>

namespace stavewright::photo {

namespace {

constexpr std::size_t firstTrees = 24;
constexpr float hopeless = -100;
// A window below this score stands for nothing.
constexpr float leastScore = 0.5F;
// Around a window above this one it is worth looking closely.
constexpr float promising = -0.5F;

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
FoundKnot settled(const Scored& best, const std::vector<Scored>& all, float agreement) {
    FoundKnot knot;
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
    knot.agreeing = static_cast<float>(std::log(sum));
    knot.score = best.score + agreement * knot.agreeing;
    return knot;
}

/// The windows of one size: every second one each way first, then those next to a promising one.
class SizeSearch {
  public:
    SizeSearch(const GrainGrid& grid, const KnotModel& model, const detail::WindowSize& size)
        : m_grid(grid)
        , m_model(model)
        , m_raster(grid, size)
        , m_columns(m_raster.columns / 2 + 1)
        , m_promising(static_cast<std::size_t>(m_columns) *
                      static_cast<std::size_t>(m_raster.rows / 2 + 1)) {}

    std::vector<Scored> run() {
        for (int row = 0; row < m_raster.rows; row += 2) {
            for (int column = 0; column < m_raster.columns; column += 2) {
                m_promising[place(column / 2, row / 2)] = look(column, row) > promising;
            }
        }
        for (int row = 0; row < m_raster.rows; ++row) {
            for (int column = row % 2 == 0 ? 1 : 0; column < m_raster.columns;
                 column += row % 2 == 0 ? 2 : 1) {
                if (isNearPromising(column, row)) {
                    look(column, row);
                }
            }
        }
        return std::move(m_found);
    }

  private:
    [[nodiscard]] std::size_t place(int column, int row) const {
        return static_cast<std::size_t>(row) * static_cast<std::size_t>(m_columns) +
               static_cast<std::size_t>(column);
    }
    [[nodiscard]] bool isNearPromising(int column, int row) const {
        for (const int y : {row / 2, (row + 1) / 2}) {
            for (const int x : {column / 2, (column + 1) / 2}) {
                if (2 * x < m_raster.columns && 2 * y < m_raster.rows && m_promising[place(x, y)]) {
                    return true;
                }
            }
        }
        return false;
    }
    float look(int column, int row) {
        const Window window = m_raster.at(column, row);
        if (!detail::liesOnWood(m_grid, window) || !worthMeasuring(m_grid, window)) {
            return hopeless;
        }
        const float score = m_model.quickScore(measure(m_grid, window));
        if (score > leastScore) {
            m_found.push_back({window, score});
        }
        return score;
    }

    const GrainGrid& m_grid;
    const KnotModel& m_model;
    detail::WindowRaster m_raster;
    int m_columns;
    std::vector<bool> m_promising;
    std::vector<Scored> m_found;
};

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

DefectKind KindModel::kindOf(const Measures& measures) const {
    if (hole.score(measures) > hole.even) {
        return DefectKind::KnotHole;
    }
    return loose.score(measures) > loose.even ? DefectKind::LooseKnot : DefectKind::SoundKnot;
}

Window windowOf(const FoundKnot& knot) {
    const auto whole = [](double at) { return static_cast<int>(std::lround(at)); };
    const Window window{whole(knot.x0), whole(knot.y0), whole(knot.x1), whole(knot.y1)};
    return {window.x0, window.y0, std::max(window.x0 + 1, window.x1),
            std::max(window.y0 + 1, window.y1)};
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
            ofSize[i] = SizeSearch(grid, model, sizes[i]).run();
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
    // However many agree, they cannot lift a score by more than this.
    const float mostLift =
        std::max(0.F, model.agreement * std::log(static_cast<float>(found.size() + 1)));
    for (const Scored& candidate : found) {
        if (model.confidence(candidate.score + mostLift) < leastConfidence) {
            break;
        }
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
        const FoundKnot knot = settled(best, found, model.agreement);
        if (model.confidence(knot.score) >= leastConfidence) {
            knots.push_back(knot);
        }
    }
    std::stable_sort(knots.begin(), knots.end(),
                     [](const FoundKnot& a, const FoundKnot& b) { return a.score > b.score; });
    return knots;
}

} // namespace stavewright::photo
