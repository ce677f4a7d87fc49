#include "tests/knots/Boosting.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace stavewright::knots {

namespace {

using photo::KnotModel;
using photo::KnotTree;
using photo::measureCount;

constexpr std::size_t bins = 48;

/// Every measure in bins of about equal count.
struct Binned {
    std::vector<std::array<float, bins>> edges; ///< of each measure; [b] is the lower end
    std::vector<std::array<std::uint8_t, measureCount>> of; ///< of each example

    explicit Binned(const std::vector<Example>& examples)
        : edges(measureCount)
        , of(examples.size()) {
        std::vector<float> values(examples.size());
        for (std::size_t m = 0; m < measureCount; ++m) {
            for (std::size_t i = 0; i < examples.size(); ++i) {
                values[i] = examples[i].measures[m];
            }
            std::sort(values.begin(), values.end());
            for (std::size_t b = 0; b < bins; ++b) {
                edges[m][b] = values[b * values.size() / bins];
            }
            for (std::size_t i = 0; i < examples.size(); ++i) {
                const auto above =
                    std::upper_bound(edges[m].begin() + 1, edges[m].end(), examples[i].measures[m]);
                of[i][m] = static_cast<std::uint8_t>(above - edges[m].begin() - 1);
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

Question bestQuestion(const Binned& binned, const std::vector<std::uint32_t>& members,
                      const std::vector<double>& weight, const std::vector<Example>& examples) {
    std::vector<std::array<Sum, bins>> table(measureCount);
    Sum all;
    for (const std::uint32_t i : members) {
        const double w = weight[i];
        const double k = examples[i].knot ? w : -w;
        all.weight += w;
        all.toKnot += k;
        for (std::size_t m = 0; m < measureCount; ++m) {
            Sum& sum = table[m][binned.of[i][m]];
            sum.weight += w;
            sum.toKnot += k;
        }
    }
    Question best;
    best.above = all;
    for (std::size_t m = 0; m < measureCount; ++m) {
        Sum below;
        for (std::size_t b = 1; b < bins; ++b) {
            below.weight += table[m][b - 1].weight;
            below.toKnot += table[m][b - 1].toKnot;
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
    std::vector<std::uint32_t> all(examples.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
        all[i] = static_cast<std::uint32_t>(i);
    }
    KnotModel model;
    for (int t = 0; t < trees; ++t) {
        const Question root = bestQuestion(binned, all, weight, examples);
        std::array<std::vector<std::uint32_t>, 2> half;
        for (const std::uint32_t i : all) {
            half[binned.of[i][root.measure] < root.bin ? 0 : 1].push_back(i);
        }
        const std::array<Question, 2> second = {bestQuestion(binned, half[0], weight, examples),
                                                bestQuestion(binned, half[1], weight, examples)};
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
        double total = 0;
        for (std::size_t i = 0; i < examples.size(); ++i) {
            const double says = tree.answer(examples[i].measures);
            weight[i] *= std::exp(examples[i].knot ? -says : says);
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
