#include "ui/shop/ChainCells.h"

#include <QCoreApplication>

#include "core/job/Words.h"
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
        cell.text = words(job::wordOf(shown.stage));
        cell.choices = stageWords();
        cell.propose = [change](const QString& typed) -> Result<Edit> {
            const Result<int> read = readChoice(typed, stageWords());
            if (!read) {
                return read.error();
            }
            return change(
                [&](StageAllowance& a) { a.stage = job::Words<Stage>::all[read.value()].second; });
        };
    } else if (column == 4) {
        cell.text = words(shown.why);
        cell.tip = cell.text;
        cell.propose = [change](const QString& typed) -> Result<Edit> {
            return change([&](StageAllowance& a) { a.why = typed.trimmed().toStdString(); });
        };
    } else {
        Length StageAllowance::*figure = column == 1   ? &StageAllowance::along
                                         : column == 2 ? &StageAllowance::across
                                                       : &StageAllowance::thick;
        cell.kind = EntryCell::Kind::Number;
        cell.text = lengthText(shown.*figure, style);
        cell.reading = [style](const QString& typed) { return lengthReading(typed, style); };
        cell.propose = [change, style, figure](const QString& typed) -> Result<Edit> {
            const Result<Length> read = readLength(typed, style);
            if (!read) {
                return read.error();
            }
            return change([&](StageAllowance& a) { a.*figure = read.value(); });
        };
    }
    cell.step = tr("Shop: allowance of %1").arg(words(job::wordOf(shown.stage)));
    return cell;
}

} // namespace stavewright::ui
