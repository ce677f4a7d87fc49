#include "core/cutting/FewKinds.h"

#include <algorithm>

namespace stavewright::cutting {

namespace {

/// Kinds that are priced together; up to `most` there is no choice to make.
constexpr std::size_t together = 10;
constexpr std::size_t most = 12;
/// The least share of a draw that a kind has, in parts of an equal one: short and narrow blanks
/// fill what the large ones leave.
constexpr double leastShare = 0.5;

std::size_t wantedKinds(const Problem& problem) {
    return static_cast<std::size_t>(
        std::count_if(problem.kinds.begin(), problem.kinds.end(),
                      [](const Kind& kind) { return kind.demand > 0; }));
}

Problem asking(const Problem& all, const std::vector<std::size_t>& kinds) {
    Problem problem;
    problem.kinds = all.kinds;
    problem.limits = all.limits;
    for (Kind& kind : problem.kinds) {
        kind.demand = 0;
    }
    for (const std::size_t k : kinds) {
        problem.kinds[k].demand = all.kinds[k].demand;
    }
    return problem;
}

/// How likely each is drawn, so that they come to `count` in all and none is above 1.
std::vector<double> likelihoods(std::vector<double> weights, std::size_t count) {
    std::vector<bool> isSure(weights.size(), false);
    for (bool isDone = false; !isDone;) {
        double sum = 0;
        auto left = static_cast<double>(count);
        for (std::size_t i = 0; i < weights.size(); ++i) {
            (isSure[i] ? left : sum) += isSure[i] ? -1 : weights[i];
        }
        isDone = true;
        for (std::size_t i = 0; i < weights.size(); ++i) {
            if (!isSure[i] && weights[i] * left >= sum) {
                isSure[i] = true;
                isDone = false;
            }
        }
        if (isDone) {
            for (std::size_t i = 0; i < weights.size(); ++i) {
                weights[i] = isSure[i] ? 1 : weights[i] * left / sum;
            }
        }
    }
    return weights;
}

} // namespace

bool areMany(const Problem& problem) { return wantedKinds(problem) > most; }

std::vector<std::size_t> drawKinds(const Problem& problem, const std::vector<double>& worth,
                                   Random& random) {
    std::vector<std::size_t> drawn;
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        if (worth[k] > 0) {
            drawn.push_back(k);
        }
    }
    if (drawn.size() <= most) {
        return drawn;
    }
    std::stable_sort(drawn.begin(), drawn.end(), [&](std::size_t a, std::size_t b) {
        return problem.kinds[a].length < problem.kinds[b].length;
    });
    double sum = 0;
    for (const std::size_t k : drawn) {
        sum += worth[k];
    }
    const double least = leastShare * sum / static_cast<double>(drawn.size());
    std::vector<double> weights;
    weights.reserve(drawn.size());
    for (const std::size_t k : drawn) {
        weights.push_back(std::max(worth[k], least));
    }
    // At equal steps along the lengths, from a place drawn at random.
    const std::vector<double> likely = likelihoods(std::move(weights), together);
    double next = static_cast<double>(random.below(1'000)) / 1'000;
    double passed = 0;
    std::vector<std::size_t> kinds;
    for (std::size_t i = 0; i < drawn.size(); ++i) {
        passed += likely[i];
        if (passed > next) {
            kinds.push_back(drawn[i]);
            next += 1;
        }
    }
    std::sort(kinds.begin(), kinds.end());
    return kinds;
}

std::vector<double> worthOpen(const Problem& problem, const Values& values,
                              const std::vector<std::int64_t>& open) {
    std::vector<double> worth;
    worth.reserve(problem.kinds.size());
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const double each = problem.kinds[k].isPool ? static_cast<double>(values.perMetre[k]) /
                                                          static_cast<double>(nanometresPerMetre)
                                                    : static_cast<double>(values.each[k]);
        worth.push_back(each * static_cast<double>(std::max<std::int64_t>(0, open[k])));
    }
    return worth;
}

std::vector<double> worthOn(const Problem& problem, const BoardModel& model,
                            std::vector<double> worth) {
    Nm longest = 0;
    for (const Stretch& stretch : model.freeStretches()) {
        longest = std::max(longest, stretch.length().inNanometres());
    }
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Kind& kind = problem.kinds[k];
        if (!suits(kind, model.board()) || kind.length > longest ||
            kind.width > model.size().widest) {
            worth[k] = 0;
        }
    }
    return worth;
}

std::vector<std::size_t> kindsWorthIt(const Problem& problem, const Values& values) {
    std::vector<std::size_t> kinds;
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Kind& kind = problem.kinds[k];
        if (values.of(kind, k, kind.isPool ? kind.widest : kind.width) > 0) {
            kinds.push_back(k);
        }
    }
    return kinds;
}

Values only(const Values& values, const std::vector<std::size_t>& kinds) {
    Values few;
    few.each.assign(values.each.size(), 0);
    few.perMetre.assign(values.perMetre.size(), 0);
    for (const std::size_t k : kinds) {
        few.each[k] = values.each[k];
        few.perMetre[k] = values.perMetre[k];
    }
    return few;
}

FewKinds::FewKinds(const Problem& all, const std::vector<std::size_t>& kinds)
    : problem(asking(all, kinds))
    , context(problem) {}

} // namespace stavewright::cutting
