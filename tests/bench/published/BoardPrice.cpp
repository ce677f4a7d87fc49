#include "BoardPrice.h"

#include "core/cutting/BoardMenu.h"
#include "core/cutting/ClearBoard.h"
#include "core/cutting/PlaceMenu.h"

namespace stavewright::cutting::bench {

std::optional<std::int64_t> bestPrice(const Sheet& sheet, Stages stages, double seconds) {
    const Problem problem = problemOf(sheet, 1, 0, stages);
    Values values;
    for (const Kind& kind : problem.kinds) {
        values.each.push_back(kind.penaltyUnplaced);
        values.perMetre.push_back(0);
    }
    const Context context(problem);
    const BoardModel model(problem, 0);
    std::int64_t work = 0;
    if (const auto clear = ClearBoard::of(context, model)) {
        std::vector<Cost> prices;
        for (const ClearItem& item : clear->items()) {
            prices.push_back(values.each[static_cast<std::size_t>(item.kind)]);
        }
        return ClearTables(*clear, std::move(prices), work).value() / valueUnit;
    }
    const Interrupt interrupt({}, seconds);
    std::unique_ptr<BoardPricing> pricing = PlaceMenu::of(context, model);
    if (!pricing) {
        pricing = std::make_unique<BoardMenu>(context, model, Fineness::fine());
    }
    const BoardChoice choice = pricing->best(values, interrupt, work);
    if (interrupt.isCalled()) {
        return std::nullopt;
    }
    return choice.value / valueUnit;
}

} // namespace stavewright::cutting::bench
