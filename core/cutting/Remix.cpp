#include "core/cutting/Remix.h"

#include <algorithm>
#include <cmath>

#include "core/cutting/Random.h"

namespace stavewright::cutting {

namespace {

/// Boards that are emptied at once, at most.
constexpr std::size_t mostFreed = 5;
/// Boards not in use that are considered for one filling.
constexpr std::size_t mostFresh = 7;
/// Plans told.
constexpr std::size_t mostPlans = 3;
/// A plan so much dearer, in parts of its cost, is still gone on with now and then at the start.
constexpr double warmth = 0.004;
/// Of a plan above the ceiling.
constexpr double farTooDear = 1e18;

class Remixing {
  public:
    Remixing(const SectionStore& store, const Problem& problem, const Accounts& accounts,
             const RemixWish& wish, std::uint64_t seed)
        : m_store(&store)
        , m_problem(&problem)
        , m_accounts(&accounts)
        , m_wish(&wish)
        , m_random(seed)
        , m_boards(store.boards())
        , m_made(store.kinds(), 0) {
        for (std::size_t i = 0; i < wish.from.size(); ++i) {
            Use& use = m_boards[wish.columns[i].board];
            use.isUsed = true;
            use.given = static_cast<int>(i);
            use.yield = wish.columns[i].yield.open;
            use.cost = wish.columns[i].cost;
            addYield(use, 1);
            m_paid += use.cost;
        }
        m_scale = warmth * static_cast<double>(m_paid);
        m_cost = m_best = costNow() + costOfPanels();
    }

    Remixed run(int rounds, const Interrupt& interrupt) {
        for (int round = 0; round < rounds && !interrupt.isCalled(); ++round) {
            const double left = 1 - static_cast<double>(round) / rounds;
            step(left * m_scale);
            // From the best again, now and then.
            if (round % 400 == 399) {
                restart();
            }
        }
        Remixed remixed;
        std::stable_sort(m_found.begin(), m_found.end(),
                         [](const Found& a, const Found& b) { return a.cost < b.cost; });
        for (std::size_t i = 0; i < std::min(mostPlans, m_found.size()); ++i) {
            remixed.plans.push_back(patternsOf(m_found[i].boards));
        }
        remixed.work = m_scratch.steps / 16;
        return remixed;
    }

  private:
    struct Use {
        bool isUsed = false;
        int given = -1; ///< pattern of the plan begun with; else the sections hold
        std::vector<std::uint32_t> sections;
        std::vector<std::int64_t> yield;
        Cost cost = 0; ///< the board's too
    };
    struct Found {
        double cost;
        std::vector<Use> boards;
    };
    struct Candidate {
        std::size_t board;
        SectionChain chain;
        std::vector<std::int64_t> yield;
        double score = 0; ///< of the chain, or no less than that of any while there is none
        double by = 1;    ///< drawn; scores are off by it
        int age = -1;     ///< round that the chain was put together for
    };

    void addYield(const Use& use, int sign) {
        for (std::size_t k = 0; k < m_made.size(); ++k) {
            m_made[k] += sign * use.yield[k];
        }
    }

    /// Of a blank, or of a nanometre of net width.
    [[nodiscard]] double costOfMissing(std::size_t k) const {
        const Kind& kind = m_problem->kinds[k];
        const double penalty =
            static_cast<double>(kind.penaltyUnplaced) /
            (kind.isPool ? static_cast<double>(std::max<Nm>(1, kind.netWanted)) : 1);
        return hasCeiling() ? std::min(penalty, worthOf(k)) : penalty;
    }
    [[nodiscard]] double worthOf(std::size_t k) const {
        return m_problem->kinds[k].isPool ? static_cast<double>(m_wish->values.perMetre[k]) /
                                                static_cast<double>(nanometresPerMetre)
                                          : static_cast<double>(m_wish->values.each[k]);
    }

    [[nodiscard]] bool hasCeiling() const { return m_wish->ceiling > 0; }
    [[nodiscard]] bool isTooDear(Cost paid) const { return hasCeiling() && paid > m_wish->ceiling; }

    [[nodiscard]] double costNow() const {
        if (isTooDear(m_paid)) {
            return farTooDear;
        }
        double cost = hasCeiling() ? 0 : static_cast<double>(m_paid);
        for (std::size_t k = 0; k < m_made.size(); ++k) {
            const std::int64_t missing = m_wish->open.open[k] - m_made[k];
            if (missing > 0) {
                cost += costOfMissing(k) * static_cast<double>(missing);
            }
        }
        return cost;
    }

    /// What it costs that widths which do in sum do not come out even.
    [[nodiscard]] double costOfPanels() {
        double cost = 0;
        for (std::size_t k = 0; k < m_made.size(); ++k) {
            const Kind& kind = m_problem->kinds[k];
            if (!kind.isPool || m_wish->open.open[k] <= 0) {
                continue;
            }
            m_nets.clear();
            for (std::size_t b = 0; b < m_boards.size(); ++b) {
                const Use& use = m_boards[b];
                if (use.given >= 0) {
                    const Pattern& pattern = m_wish->from[static_cast<std::size_t>(use.given)];
                    const std::vector<Nm> nets = m_accounts->netsOf({&pattern, 1}, k);
                    m_nets.insert(m_nets.end(), nets.begin(), nets.end());
                } else if (use.isUsed) {
                    m_store->addNets(b, use.sections, k, m_nets);
                }
            }
            const std::int64_t inSum = std::max<std::int64_t>(0, m_wish->open.open[k] - m_made[k]);
            const Nm missing =
                widthMissing(kind, m_nets, m_accounts->begun(k)).value_or(inSum) - inSum;
            cost += costOfMissing(k) * static_cast<double>(std::max<Nm>(0, missing));
        }
        return cost;
    }

    void empty(std::size_t board) {
        addYield(m_boards[board], -1);
        m_paid -= m_boards[board].cost;
        m_before.emplace_back(board, std::move(m_boards[board]));
        m_boards[board] = {};
    }

    void step(double warm) {
        m_before.clear();
        const std::vector<std::int64_t> made = m_made;
        const Cost paid = m_paid;
        std::vector<std::size_t> used;
        std::vector<std::size_t> fresh;
        for (std::size_t b = 0; b < m_boards.size(); ++b) {
            (m_boards[b].isUsed ? used : fresh).push_back(b);
        }
        m_random.shuffle(used);
        m_random.shuffle(fresh);
        fresh.resize(std::min(fresh.size(), mostFresh));
        used.resize(std::min(used.size(), 1 + m_random.below(mostFreed)));
        for (const std::size_t b : used) {
            empty(b);
        }
        fresh.insert(fresh.end(), used.begin(), used.end());
        fill(fresh);
        dropSpare();
        double cost = costNow();
        const double luck = static_cast<double>(1 + m_random.below(1'000'000)) / 1'000'000;
        const double most = m_cost - warm * std::log(luck);
        if (cost <= most) {
            cost += costOfPanels();
        }
        if (cost > most) {
            // A board that was changed twice gets back what it had first.
            for (auto old = m_before.rbegin(); old != m_before.rend(); ++old) {
                m_boards[old->first] = std::move(old->second);
            }
            m_made = made;
            m_paid = paid;
            return;
        }
        m_cost = cost;
        if (cost < m_best - 0.5) {
            m_best = cost;
            m_found.push_back({cost, m_boards});
            if (m_found.size() > mostPlans) {
                m_found.erase(m_found.begin());
            }
        }
    }

    void restart() {
        if (m_found.empty()) {
            return;
        }
        m_boards = m_found.back().boards;
        m_made.assign(m_made.size(), 0);
        m_paid = 0;
        for (const Use& use : m_boards) {
            if (use.isUsed) {
                addYield(use, 1);
                m_paid += use.cost;
            }
        }
        m_cost = costNow() + costOfPanels();
    }

    /// Wishes for what is lacking, at prices that are a little off.
    [[nodiscard]] SectionStore::Wish wishNow() {
        SectionStore::Wish wish;
        const std::int64_t off = m_random.between(0, 25);
        for (std::size_t k = 0; k < m_made.size(); ++k) {
            const Kind& kind = m_problem->kinds[k];
            const double by = static_cast<double>(m_random.between(100 - off, 100 + off)) / 100;
            wish.open.push_back(std::max<std::int64_t>(0, m_wish->asked.open[k] - m_made[k]));
            wish.worth.push_back(by * worthOf(k));
            wish.perStave.push_back(
                kind.isPool ? std::min(0.0, static_cast<double>(m_wish->values.each[k])) : 0);
        }
        return wish;
    }

    /// Always the board that gives most of what is still wanted for its price, or nearly.
    void fill(const std::vector<std::size_t>& boards) {
        SectionStore::Wish wish = wishNow();
        std::vector<Candidate> candidates;
        const std::int64_t noise = m_random.between(0, 8);
        for (const std::size_t b : boards) {
            candidates.push_back({b, {}, {}});
            Candidate& candidate = candidates.back();
            candidate.by = static_cast<double>(m_random.between(100 - noise, 100)) / 100;
            candidate.score = scoreOf(candidate, m_store->most(b, wish, m_scratch));
        }
        for (int round = 0;; ++round) {
            const bool isMet = std::all_of(wish.open.begin(), wish.open.end(),
                                           [](std::int64_t open) { return open <= 0; });
            if (isMet) {
                return;
            }
            while (!candidates.empty()) {
                const auto top = std::max_element(
                    candidates.begin(), candidates.end(),
                    [](const Candidate& a, const Candidate& b) { return a.score < b.score; });
                if (top->age == round) {
                    break;
                }
                refresh(*top, wish);
                top->age = round;
                if (top->score <= 0) {
                    candidates.erase(top);
                }
            }
            if (candidates.empty()) {
                return;
            }
            const auto top = std::max_element(
                candidates.begin(), candidates.end(),
                [](const Candidate& a, const Candidate& b) { return a.score < b.score; });
            if (isTooDear(m_paid + costOf(*top))) {
                candidates.erase(top);
                continue;
            }
            Use& use = m_boards[top->board];
            m_before.emplace_back(top->board, use);
            use.isUsed = true;
            use.given = -1;
            use.cost = costOf(*top);
            use.yield = std::move(top->yield);
            use.sections = std::move(top->chain.sections);
            addYield(use, 1);
            m_paid += use.cost;
            for (std::size_t k = 0; k < wish.open.size(); ++k) {
                wish.open[k] = std::max<std::int64_t>(0, wish.open[k] - use.yield[k]);
            }
            candidates.erase(top);
        }
    }

    [[nodiscard]] double scoreOf(const Candidate& candidate, double worth) const {
        const Cost price = m_store->model(candidate.board).price();
        return candidate.by * worth / static_cast<double>(std::max<Cost>(1, price));
    }

    void refresh(Candidate& candidate, const SectionStore::Wish& wish) {
        candidate.chain = m_store->best(candidate.board, wish, m_scratch);
        if (candidate.chain.sections.empty()) {
            candidate.score = 0;
            return;
        }
        candidate.yield = m_store->yieldOf(candidate.board, candidate.chain.sections);
        candidate.score = scoreOf(candidate, candidate.chain.value);
    }

    [[nodiscard]] Cost costOf(const Candidate& candidate) const {
        return m_store->costOf(candidate.board, candidate.chain.sections) +
               m_store->model(candidate.board).price();
    }

    /// Boards that nobody would miss, the dearest first.
    void dropSpare() {
        while (true) {
            std::size_t most = m_boards.size();
            for (std::size_t b = 0; b < m_boards.size(); ++b) {
                const Use& use = m_boards[b];
                if (!use.isUsed || use.cost <= 0 ||
                    (most < m_boards.size() && use.cost <= m_boards[most].cost)) {
                    continue;
                }
                bool isSpare = true;
                for (std::size_t k = 0; k < m_made.size() && isSpare; ++k) {
                    isSpare =
                        use.yield[k] == 0 || m_made[k] - use.yield[k] >= m_wish->asked.open[k];
                }
                if (isSpare) {
                    most = b;
                }
            }
            if (most == m_boards.size()) {
                return;
            }
            empty(most);
        }
    }

    [[nodiscard]] std::vector<Pattern> patternsOf(const std::vector<Use>& boards) const {
        std::vector<Pattern> patterns;
        for (std::size_t b = 0; b < boards.size(); ++b) {
            if (boards[b].isUsed) {
                patterns.push_back(boards[b].given >= 0
                                       ? m_wish->from[static_cast<std::size_t>(boards[b].given)]
                                       : m_store->patternOf(b, boards[b].sections));
            }
        }
        return patterns;
    }

    const SectionStore* m_store;
    const Problem* m_problem;
    const Accounts* m_accounts;
    const RemixWish* m_wish;
    Random m_random;
    SectionStore::Scratch m_scratch;
    std::vector<Use> m_boards;
    std::vector<std::int64_t> m_made; ///< by kind, of all boards
    std::vector<Nm> m_nets;
    Cost m_paid = 0; ///< for boards, fills and cuts
    double m_cost = 0;
    double m_best = 0;
    double m_scale = 0; ///< how much dearer is still gone on with at the start
    std::vector<std::pair<std::size_t, Use>> m_before; ///< what the step has changed
    std::vector<Found> m_found;                        ///< each cheaper than the one before
};

} // namespace

Remixed remix(const SectionStore& store, const Problem& problem, const Accounts& accounts,
              const RemixWish& wish, std::uint64_t seed, int rounds, const Interrupt& interrupt) {
    return Remixing(store, problem, accounts, wish, seed).run(rounds, interrupt);
}

} // namespace stavewright::cutting
