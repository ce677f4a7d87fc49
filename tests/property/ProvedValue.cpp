#include "tests/property/ProvedValue.h"

#include <algorithm>
#include <random>

#include "core/cutting/SmallJob.h"

namespace stavewright::cutting::property {

namespace {

constexpr std::int64_t mostWorkPerBoard = 500'000;
constexpr int nodes = 500;

} // namespace

Engine::Engine(const Problem& wanted)
    : problem(&wanted)
    , context(wanted) {
    for (std::size_t b = 0; b < wanted.boards.size(); ++b) {
        models.push_back(std::make_unique<BoardModel>(wanted, static_cast<int>(b)));
    }
    accounts = std::make_unique<Accounts>(context, plainModels());
}

std::vector<const BoardModel*> Engine::plainModels() const {
    std::vector<const BoardModel*> plain;
    plain.reserve(models.size());
    for (const auto& model : models) {
        plain.push_back(model.get());
    }
    return plain;
}

std::optional<Cost> Engine::bestValue() const {
    std::int64_t work = 0;
    const auto plan = solveSmall(context, plainModels(), accounts->demand(), mostWorkPerBoard, 1,
                                 Interrupt({}, 0), work);
    return plan ? std::optional(plan->value) : std::nullopt;
}

Cost Engine::bound(int prices, std::uint64_t seed, int looks) const {
    JobBound job(context, *accounts, plainModels());
    const Interrupt never({}, 0);
    for (int turn = 0; turn < prices; ++turn) {
        const Values values =
            job.allowed(anyPrices(*problem, seed * 97 + static_cast<std::uint64_t>(turn)));
        std::vector<Cost> most;
        for (const auto& model : models) {
            std::int64_t work = 0;
            most.push_back(BoardBound(context, *model).most(values, {0, looks}, never, work));
        }
        job.add(values, std::move(most));
    }
    return std::max(job.linear().value_or(0), job.whole(nodes, never).least);
}

Values anyPrices(const Problem& problem, std::uint64_t seed) {
    std::mt19937_64 engine(seed);
    double cost = 0;
    double area = 0;
    for (std::size_t b = 0; b < problem.boards.size(); ++b) {
        cost += static_cast<double>(problem.boards[b].cost);
        area += BoardModel(problem, static_cast<int>(b)).outlineArea();
    }
    const double whole = static_cast<double>(1 + engine() % 24) / 10; // what all prices share
    Values values;
    for (const Kind& kind : problem.kinds) {
        const double times = whole * static_cast<double>(engine() % 14) / 10;
        const double perWidth = times * cost / area * static_cast<double>(kind.length);
        if (!kind.isPool) {
            values.each.push_back(static_cast<Cost>(perWidth * static_cast<double>(kind.width)));
            values.perMetre.push_back(0);
            continue;
        }
        // A stave costs something of itself, or is worth something, or neither.
        const double share = static_cast<double>(static_cast<int>(engine() % 3) - 1) / 8;
        values.each.push_back(
            static_cast<Cost>(share * perWidth * static_cast<double>(kind.width)));
        values.perMetre.push_back(
            static_cast<Cost>(perWidth * static_cast<double>(nanometresPerMetre)));
    }
    return values;
}

} // namespace stavewright::cutting::property
