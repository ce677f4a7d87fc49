#include "core/cutting/Proving.h"

#include <algorithm>
#include <iterator>

#include "core/cutting/SectionsToCut.h"

namespace stavewright::cutting {

namespace {

/// Rounds of asking for the bound.
constexpr int roundsOfProof = 1;
/// The same over whole boards.
constexpr int roundsWhole = 1;
/// Of few boards from the second time on. Of many, so many choices cost nearly the same that ruling
/// out some of them proves next to nothing; but what is met at their prices makes other plans.
constexpr std::size_t fewBoards = 16;

} // namespace

bool Proving::prove(SearchState& state, int times, Made& all) {
    for (; m_learned < state.columns.size(); ++m_learned) {
        m_prover.learn(state.columns.column(m_learned));
    }
    // What a bound rests on is tried in earnest: what a menu lacks shows there.
    std::vector<Made> made(state.menus.size());
    const auto tryChain = [&](std::size_t b, const Values& prices, const BoardBound& bound,
                              const BoundChain& chain, std::int64_t& work) {
        std::vector<Column> columns;
        const auto take = [&](Pattern pattern) {
            if (!pattern.sections.empty() && !state.interrupt.isCalled()) {
                columns.push_back(state.columnOf(pattern));
                made[b].emplace_back(std::move(pattern), columns.back());
            }
        };
        state.menus[b]->cap(bound.ceilings());
        if (chain.isWorkedOut) { // else too many sections still seem to be among the best
            state.menus[b]->refine(prices, state.interrupt, work);
        }
        for (const std::vector<BoundSection>& sections : {chain.sections, chain.shortest}) {
            if (!sections.empty()) {
                take(chainAsCut(state.context, *state.boards[b], sections));
                state.menus[b]->widen(sectionsToCut(state.context, *state.boards[b], prices,
                                                    sections, state.interrupt, work));
            }
        }
        take(state.menus[b]->cut(prices, state.menus[b]->best(prices, state.interrupt, work)));
        return columns;
    };
    bool done = m_prover.raise(roundsOfProof, tryChain, state.interrupt, state.work);
    if (done && times > (state.menus.size() <= fewBoards ? 0 : 1) && !isFarFromTold()) {
        done = m_prover.raiseWhole(roundsWhole, tryChain, state.interrupt, state.work);
    }
    state.bound = std::max(state.bound, m_prover.bound());
    for (Made& ofBoard : made) {
        all.insert(all.end(), std::make_move_iterator(ofBoard.begin()),
                   std::make_move_iterator(ofBoard.end()));
    }
    return done;
}

void Proving::take(SearchState& state, Made&& made) {
    for (auto& [pattern, column] : made) {
        state.columns.add(std::move(pattern), std::move(column));
    }
    m_learned = state.columns.size(); // the prover made the new ones
}

} // namespace stavewright::cutting
