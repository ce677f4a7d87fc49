#include "ui/shop/ChainCells.h"

#include <QCoreApplication>

#include <algorithm>

#include "core/job/Words.h"
#include "ui/entry/Cells.h"
#include "ui/entry/Reading.h"
#include "ui/session/DocumentSession.h"
#include "ui/shop/ShopFacts.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("ChainCells", text); }

QStringList stageWords() {
    QStringList all;
    for (const auto& [word, stage] : job::Words<Stage>::all) {
        all << words(word);
    }
    return all;
}

} // namespace

std::vector<ChainOfShop> chainsOfShop() {
    return {{"chainOneBoard", tr("One board: finished part back to blank"), &Chains::oneBoard},
            {"chainPanel", tr("Panel: finished panel back to glued-up panel"), &Chains::panel},
            {"chainStave", tr("Stave: net stave back to blank"), &Chains::stave},
            {"chainBlock", tr("Block: finished block back to glued-up block"), &Chains::block},
            {"chainPly", tr("Ply: net ply back to blank"), &Chains::ply}};
}

std::vector<EntryTitle> stageTitles() {
    return {{tr("Stage"), {}},
            {tr("Along"), tr("What it takes along the grain, both ends together")},
            {tr("Across"), tr("What it takes across, both edges together")},
            {tr("Thick"), tr("What it takes off the thickness, both faces together")},
            {tr("Why"), tr("Shown in the sum of every size")}};
}

EntryCell stageCell(const DocumentSession& session, MillingChain Chains::*chain, std::size_t stage,
                    int column) {
    const Shop& shop = session.document().shop;
    if (stage >= (shop.chains.*chain).size()) {
        return {};
    }
    const StageAllowance& shown = (shop.chains.*chain)[stage];
    const LengthStyle style = finest(session.lengthStyle());
    const auto change = [shop, chain, stage](const std::function<void(StageAllowance&)>& set) {
        Shop changed = shop;
        set((changed.chains.*chain)[stage]);
        return replacing(std::move(changed));
    };
    EntryCell cell;
    if (column == 0) {
        const auto& all = job::Words<Stage>::all;
        const auto now = std::find_if(std::begin(all), std::end(all),
                                      [&](const auto& each) { return each.second == shown.stage; });
        cell =
            choiceCell(static_cast<int>(now - std::begin(all)), stageWords(),
                       [change](int typed) -> Result<Edit> {
                           return change([&](StageAllowance& a) {
                               a.stage =
                                   job::Words<Stage>::all[static_cast<std::size_t>(typed)].second;
                           });
                       });
    } else if (column == 4) {
        cell = textCell(shown.why, [change](std::string typed) -> Result<Edit> {
            return change([&](StageAllowance& a) { a.why = typed; });
        });
        cell.tip = cell.text;
    } else {
        Length StageAllowance::*figure = column == 1   ? &StageAllowance::along
                                         : column == 2 ? &StageAllowance::across
                                                       : &StageAllowance::thick;
        cell = lengthCell(shown.*figure, style, [change, figure](Length typed) -> Result<Edit> {
            return change([&](StageAllowance& a) { a.*figure = typed; });
        });
    }
    cell.step = tr("Shop: allowance of %1").arg(words(job::wordOf(shown.stage)));
    return cell;
}

} // namespace stavewright::ui
