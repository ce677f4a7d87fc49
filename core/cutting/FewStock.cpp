#include "core/cutting/FewStock.h"

#include "core/cutting/BoardMenu.h"

namespace stavewright::cutting {

FewStock::FewStock(const SearchState& state, const std::vector<std::size_t>& boards,
                   const Values& values, const Demand& open, Random& random, std::int64_t& work) {
    const std::vector<double> worth = worthOpen(state.problem, values, open.open);
    m_stock.context = &state.context;
    m_stock.accounts = state.accounts.get();
    m_stock.menus.resize(state.boards.size(), nullptr);
    m_stock.rough = state.stock.rough;
    for (const std::size_t board : boards) {
        m_kinds.push_back(std::make_unique<FewKinds>(
            state.problem,
            drawKinds(state.problem, worthOn(state.problem, *state.boards[board], worth), random)));
        m_menus.push_back(std::make_unique<BoardMenu>(m_kinds.back()->context, *state.boards[board],
                                                      Fineness::quick()));
        m_stock.menus[board] = m_menus.back().get();
        work += m_menus.back()->preparation();
    }
}

} // namespace stavewright::cutting
