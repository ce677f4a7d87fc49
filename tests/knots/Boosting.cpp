#include "tests/knots/Boosting.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace stavewright::knots {

namespace {

using photo::KnotModel;
using photo::KnotTree;
using photo::measureCount;

constexpr std::size_t bins = 48;
// Each tree may ask about so many of the measures only: many trees then see the same thing in
// different ways, which holds better on boards that were not learned from.
constexpr std::size_t measuresOfATree = 40;
// Examples that weigh less than this share of the mean are passed over while a tree is made.
constexpr double lightest = 0.03;

/// Every measure in bins of about equal count.
struct Binned {
    std::vector<std::array<float, bins>> edges; ///< of each measure; [b] is the lower end
    std::vector<std::vector<std::uint8_t>> of;  ///< of each measure, of each example

    explicit Binned(const std::vector<Example>& examples)
        : edges(measureCount)
        , of(measureCount, std::vector<std::uint8_t>(examples.size())) {
        // Some of them are enough to tell where the bins should end.
        const std::size_t every = examples.size() / 20000 + 1;
        std::vector<float> values((examples.size() + every - 1) / every);
        for (std::size_t m = 0; m < measureCount; ++m) {
            for (std::size_t i = 0; i < values.size(); ++i) {
                values[i] = examples[i * every].measures[m];
            }
            std::sort(values.begin(), values.end());
            for (std::size_t b = 0; b < bins; ++b) {
                edges[m][b] = values[b * values.size() / bins];
            }
            for (std::size_t i = 0; i < examples.size(); ++i) {
                const auto above =
                    std::upper_bound(edges[m].begin() + 1, edges[m].end(), examples[i].measures[m]);
                of[m][i] = static_cast<std::uint8_t>(above - edges[m].begin() - 1);
            }
        }
    }
};

struct Sum {
    double weight = 0;
    double toKnot = 0; ///< weight times +1 or -1
    [[nodiscard]] double gain() const { return weight <= 0 ? 0 : toKnot * toKnot / weight; }
    [[nodiscard]] float mean() const {
        // Held back a little where there is little to go by.
        return static_cast<float>(toKnot / (weight + 1e-3));
    }
};

struct Question {
    std::size_t measure = 0;
    std::size_t bin = 1; ///< answer "below" for bins before
    double gain = -1;
    Sum below;
    Sum above;
};

/// Examples with what they weigh.
struct Members {
    std::vector<std::uint32_t> example;
    std::vector<float> weight;
    std::vector<float> toKnot;
    void add(std::uint32_t i, double w, bool knot) {
        example.push_back(i);
        weight.push_back(static_cast<float>(w));
        toKnot.push_back(static_cast<float>(knot ? w : -w));
    }
};

Question bestQuestion(const Binned& binned, const Members& members,
                      const std::vector<std::size_t>& measures) {
    Sum all;
    for (std::size_t j = 0; j < members.example.size(); ++j) {
        all.weight += static_cast<double>(members.weight[j]);
        all.toKnot += static_cast<double>(members.toKnot[j]);
    }
    Question best;
    best.above = all;
    for (const std::size_t m : measures) {
        std::array<float, bins> weight{};
        std::array<float, bins> toKnot{};
        const std::vector<std::uint8_t>& bin = binned.of[m];
        for (std::size_t j = 0; j < members.example.size(); ++j) {
            const std::size_t b = bin[members.example[j]];
            weight[b] += members.weight[j];
            toKnot[b] += members.toKnot[j];
        }
        Sum below;
        for (std::size_t b = 1; b < bins; ++b) {
            below.weight += static_cast<double>(weight[b - 1]);
            below.toKnot += static_cast<double>(toKnot[b - 1]);
            const Sum above{all.weight - below.weight, all.toKnot - below.toKnot};
            // No answer for a handful of examples alone.
            if (below.weight < 2e-3 || above.weight < 2e-3 ||
                binned.edges[m][b] <= binned.edges[m][b - 1]) {
                continue;
            }
            const double gain = below.gain() + above.gain() - all.gain();
            if (gain > best.gain + 1e-15) {
                best = {m, b, gain, below, above};
            }
        }
    }
    return best;
}

std::vector<std::size_t> someMeasures(std::uint32_t& state) {
    std::vector<std::size_t> measures(measureCount);
    std::iota(measures.begin(), measures.end(), 0U);
    for (std::size_t i = 0; i < measuresOfATree; ++i) {
        state = state * 1664525U + 1013904223U;
        std::swap(measures[i], measures[i + (state >> 8) % (measureCount - i)]);
    }
    measures.resize(measuresOfATree);
    return measures;
}

} // namespace

KnotModel boosted(const std::vector<Example>& examples, int trees, double pace) {
    const Binned binned(examples);
    std::vector<double> weight(examples.size());
    double knots = 0;
    double wood = 0;
    for (const Example& example : examples) {
        (example.knot ? knots : wood) += example.weight;
    }
    for (std::size_t i = 0; i < examples.size(); ++i) {
        weight[i] = 0.5 * examples[i].weight / (examples[i].knot ? knots : wood);
    }
    KnotModel model;
    std::uint32_t chance = 1;
    for (int t = 0; t < trees; ++t) {
        const std::vector<std::size_t> measures = someMeasures(chance);
        Members all;
        for (std::size_t i = 0; i < examples.size(); ++i) {
            if (weight[i] * static_cast<double>(examples.size()) > lightest) {
                all.add(static_cast<std::uint32_t>(i), weight[i], examples[i].knot);
            }
        }
        const Question root = bestQuestion(binned, all, measures);
        std::array<Members, 2> half;
        for (const std::uint32_t i : all.example) {
            half[binned.of[root.measure][i] < root.bin ? 0 : 1].add(i, weight[i], examples[i].knot);
        }
        const std::array<Question, 2> second = {bestQuestion(binned, half[0], measures),
                                                bestQuestion(binned, half[1], measures)};
        KnotTree tree;
        const auto set = [&](std::size_t k, const Question& q) {
            tree.measure[k] = static_cast<std::uint8_t>(q.measure);
            tree.below[k] = binned.edges[q.measure][q.bin];
        };
        set(0, root);
        set(1, second[0]);
        set(2, second[1]);
        const auto paced = [&](const Sum& sum) { return static_cast<float>(pace) * sum.mean(); };
        tree.says = {paced(second[0].below), paced(second[0].above), paced(second[1].below),
                     paced(second[1].above)};
        std::array<std::array<double, 4>, 2> by{}; // of wood and of knots, for each answer
        for (std::size_t k = 0; k < 4; ++k) {
            by[0][k] = std::exp(static_cast<double>(tree.says[k]));
            by[1][k] = 1 / by[0][k];
        }
        const auto& first = binned.of[root.measure];
        double total = 0;
        for (std::size_t i = 0; i < examples.size(); ++i) {
            const std::size_t side = first[i] < root.bin ? 0 : 1;
            const std::size_t over = binned.of[second[side].measure][i] < second[side].bin ? 0 : 1;
            weight[i] *= by[examples[i].knot ? 1 : 0][2 * side + over];
            total += weight[i];
        }
        for (double& w : weight) {
            w /= total;
        }
        model.trees.push_back(tree);
    }
    return model;
}

} // namespace stavewright::knots
