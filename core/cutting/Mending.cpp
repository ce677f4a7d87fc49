#include "core/cutting/Mending.h"

#include <algorithm>

#include "core/cutting/Draws.h"
#include "core/cutting/Workers.h"

namespace stavewright::cutting {

namespace {

/// Boards that are cut anew for one plan, and what that may take.
constexpr int mostCut = 40;
constexpr std::int64_t mostWork = 1'500'000;
/// How far off the prices are at which they are, in percent.
constexpr std::int64_t pricesOff = 30;
/// One time in so many a board is exchanged for one that is not in the plan.
constexpr std::size_t oneInExchanges = 4;

/// One plan on its way.
class Mended {
  public:
    Mended(const SearchState& state, std::vector<Pattern> plan, Random random)
        : m_state(&state)
        , m_random(random)
        , m_plan(std::move(plan))
        , m_values(state.flooredValues())
        , m_lacks(worthLacking()) {}

    void run() {
        for (int cut = 0; cut < mostCut && work < mostWork && m_lacks > 0 && !m_plan.empty() &&
                          !m_state->interrupt.isCalled();) {
            const std::vector<Pattern> before = m_plan;
            const std::size_t freed = std::min<std::size_t>(m_plan.size(), 1 + m_random.below(2));
            m_random.shuffle(m_plan);
            std::vector<std::size_t> boards;
            for (std::size_t i = 0; i < freed; ++i) {
                boards.push_back(static_cast<std::size_t>(m_plan.back().board));
                m_plan.pop_back();
            }
            if (m_random.below(oneInExchanges) == 0) {
                exchange(boards);
            }
            for (const std::size_t board : boards) {
                cutAnew(board);
                ++cut;
            }
            const Cost lacks = worthLacking();
            if (lacks <= m_lacks) {
                m_lacks = lacks;
            } else {
                m_plan = before;
            }
        }
    }

    [[nodiscard]] const std::vector<Pattern>& plan() const { return m_plan; }

    std::vector<Pattern> met;
    std::int64_t work = 0;

  private:
    [[nodiscard]] Demand open() const {
        Demand open = m_state->accounts->asked();
        for (const Pattern& pattern : m_plan) {
            open -= m_state->accounts->yieldOf(pattern);
        }
        return open;
    }
    [[nodiscard]] Cost worthLacking() const {
        Demand lacking = open();
        for (std::int64_t& of : lacking.open) {
            of = std::max<std::int64_t>(0, of);
        }
        return wantedValue(m_state->problem, m_values, lacking, lacking);
    }
    /// The last of them for one that costs no more and is not in the plan.
    void exchange(std::vector<std::size_t>& boards) {
        std::vector<std::size_t> others;
        const Cost price = m_state->boards[boards.back()]->price();
        for (std::size_t b = 0; b < m_state->boards.size(); ++b) {
            const bool isUsed = std::any_of(m_plan.begin(), m_plan.end(), [&](const Pattern& p) {
                return p.board == static_cast<int>(b);
            });
            if (!isUsed && std::find(boards.begin(), boards.end(), b) == boards.end() &&
                m_state->boards[b]->price() <= price) {
                others.push_back(b);
            }
        }
        if (!others.empty()) {
            boards.back() = others[m_random.below(others.size())];
        }
    }
    void cutAnew(std::size_t board) {
        const Values values = drawnPrices(m_values, pricesOff, m_random);
        Offer offer = m_state->bestFor(board, values, open(), m_random, work);
        if (!offer.pattern.sections.empty()) {
            met.push_back(offer.pattern);
            m_plan.push_back(std::move(offer.pattern));
        }
    }

    const SearchState* m_state;
    Random m_random;
    std::vector<Pattern> m_plan;
    Values m_values;
    Cost m_lacks;
};

} // namespace

void mend(SearchState& state, std::vector<std::vector<Pattern>> plans, std::uint64_t number) {
    std::vector<Mended> mended;
    for (std::size_t i = 0; i < plans.size(); ++i) {
        mended.emplace_back(
            state, std::move(plans[i]),
            Random(state.options.seed * 0xA24BAED4963EE407ULL + number * plans.size() + i));
    }
    const bool done = runItems(
        mended.size(), state.options.threads, [&](std::size_t i) { mended[i].run(); },
        state.interrupt);
    if (!done) {
        return;
    }
    for (Mended& each : mended) {
        state.work += each.work;
        for (Pattern& pattern : each.met) {
            state.learn(std::move(pattern));
        }
        state.offer(complete(state.stock, state.values, each.plan(), state.allBoards(),
                             state.interrupt, state.work));
    }
}

} // namespace stavewright::cutting
