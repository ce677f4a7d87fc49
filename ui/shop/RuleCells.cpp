#include "ui/shop/RuleCells.h"

#include <QCoreApplication>

#include "ui/entry/Cells.h"
#include "ui/entry/Reading.h"
#include "ui/session/DocumentSession.h"
#include "ui/shop/ShopFacts.h"
#include "ui/widgets/LengthWords.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("RuleCells", text); }

constexpr int kinds = static_cast<int>(allDefectKinds.size());
constexpr int firstHalo = 1 + kinds;
constexpr int mostHundredths = 1'000;

QStringList haloWords() {
    return {tr("clear wood along, % of the knot"), tr("clear wood across, % of the knot"),
            tr("least clear wood along"), tr("least clear wood across")};
}

QString rowName(int row) {
    if (row == 0) {
        return tr("name of the set");
    }
    if (row < firstHalo) {
        return words(nameOf(allDefectKinds[static_cast<std::size_t>(row - 1)]));
    }
    return haloWords()[row - firstHalo];
}

using Change = std::function<Edit(const std::function<void(RuleSet&)>&)>;

EntryCell haloCell(const RuleSet& set, int which, const LengthStyle& style, const Change& change) {
    if (which < 2) {
        int Halo::*share = which == 0 ? &Halo::alongHundredths : &Halo::acrossHundredths;
        return countCell(set.halo.*share, 0, mostHundredths,
                         [change, share](int typed) -> Result<Edit> {
                             return change([&](RuleSet& s) { s.halo.*share = typed; });
                         });
    }
    Length Halo::*least = which == 2 ? &Halo::leastAlong : &Halo::leastAcross;
    return lengthCell(set.halo.*least, style, [change, least](Length typed) -> Result<Edit> {
        return change([&](RuleSet& s) { s.halo.*least = typed; });
    });
}

} // namespace

std::size_t ruleRows() { return static_cast<std::size_t>(firstHalo) + 4; }

std::vector<EntryTitle> ruleTitles(const Shop& shop) {
    std::vector<EntryTitle> titles = {{tr("Defect"), {}}};
    for (const RuleSet& set : shop.ruleSets) {
        titles.push_back({words(set.name), {}});
    }
    return titles;
}

QString ruleText(const DefectRule& rule, const LengthStyle& style) {
    if (rule.verdict == Verdict::Forbidden) {
        return tr("no");
    }
    const QString size = rule.largest ? tr("to %1").arg(tapeText(*rule.largest, style)) : tr("any");
    return rule.verdict == Verdict::AllowedIfFilled ? tr("fill %1").arg(size) : size;
}

Result<DefectRule> readRule(const QString& typed, const LengthStyle& style) {
    QString text = typed.trimmed().toLower();
    if (text == tr("no")) {
        return DefectRule{Verdict::Forbidden, std::nullopt};
    }
    DefectRule rule{Verdict::Allowed, std::nullopt};
    if (text.startsWith(tr("fill"))) {
        rule.verdict = Verdict::AllowedIfFilled;
        text = text.mid(tr("fill").size()).trimmed();
    }
    if (text == tr("any") || (text.isEmpty() && rule.verdict == Verdict::AllowedIfFilled)) {
        return rule;
    }
    if (text.startsWith(tr("to") + " ")) {
        text = text.mid(tr("to").size()).trimmed();
    }
    const Result<Length> largest = readLength(text, style);
    if (!largest) {
        return wrong(tr("“%1” is no rule; write no, any, a largest size such as 1/2, fill, or fill "
                        "to 1/2.")
                         .arg(typed.trimmed()));
    }
    rule.largest = largest.value();
    return rule;
}

EntryCell ruleCell(const DocumentSession& session, int row, int column) {
    const Shop& shop = session.document().shop;
    EntryCell cell;
    if (column == 0) {
        cell.text = rowName(row);
        return cell;
    }
    const std::size_t at = static_cast<std::size_t>(column) - 1;
    if (at >= shop.ruleSets.size()) {
        return cell;
    }
    const RuleSet& set = shop.ruleSets[at];
    const LengthStyle style = finest(session.lengthStyle());
    const Change change = [shop, at](const std::function<void(RuleSet&)>& alter) {
        Shop changed = shop;
        alter(changed.ruleSets[at]);
        return replacing(std::move(changed));
    };
    if (row == 0) {
        cell = textCell(set.name, [change](std::string typed) -> Result<Edit> {
            return change([&](RuleSet& s) { s.name = typed; });
        });
    } else if (row < firstHalo) {
        const std::size_t kind = static_cast<std::size_t>(row) - 1;
        cell.text = ruleText(set.rules[kind], style);
        if (const std::optional<Length>& largest = set.rules[kind].largest) {
            cell.tip = exactTip(*largest, style);
            if (!cell.tip.isEmpty()) { // opens with what it is, so that leaving it changes nothing
                cell.opensWith = QString(cell.text).replace(tapeText(*largest, style),
                                                            lengthText(*largest, style));
            }
        }
        cell.propose = [change, kind, style](const QString& typed) -> Result<Edit> {
            const Result<DefectRule> rule = readRule(typed, style);
            if (!rule) {
                return rule.error();
            }
            return change([&](RuleSet& s) { s.rules[kind] = rule.value(); });
        };
    } else {
        cell = haloCell(set, row - firstHalo, style, change);
    }
    cell.step = tr("Rules %1: %2").arg(words(set.name), rowName(row));
    return cell;
}

} // namespace stavewright::ui
