#include "ui/shop/ShopFacts.h"

#include <QCoreApplication>

#include <array>

#include "core/document/Limits.h"
#include "ui/entry/Cells.h"
#include "ui/entry/Reading.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("ShopFacts", text); }

/// The saws in the order of the table.
Saw& sawOf(Machines& machines, std::size_t saw) {
    const std::array<Saw*, saws> all = {&machines.crosscut, &machines.rip, &machines.stripCrosscut,
                                        &machines.roughRip};
    return *all[saw];
}

QStringList sawWork() {
    return {tr("Crosscut"), tr("Rip"), tr("Second crosscut"), tr("Rough rip")};
}

QStringList sawTips() {
    return {tr("Boards into sections"), tr("Sections into strips"), tr("Strips into blanks"),
            tr("Sections into strips before the first facing")};
}

class FactMaker {
  public:
    explicit FactMaker(const DocumentSession& session)
        : m_style(finest(session.lengthStyle()))
        , m_shop(session.document().shop) {}

    /// `of` reaches the figure in a shop.
    void length(const QString& name, const QString& tip, const std::function<Length&(Shop&)>& of) {
        Shop copy = m_shop;
        m_facts.add(name, tip, lengthCell(of(copy), m_style, [shop = m_shop, of](Length typed) {
                        Shop changed = shop;
                        of(changed) = typed;
                        return Result<Edit>(replacing(std::move(changed)));
                    }));
    }

    void money(const QString& name, const QString& tip, Money Prices::*price) {
        EntryCell cell;
        cell.kind = EntryCell::Kind::Number;
        cell.text = moneyText(m_shop.prices.*price);
        cell.propose = [shop = m_shop, price](const QString& typed) -> Result<Edit> {
            const Result<Money> read = readMoney(typed);
            if (!read) {
                return read.error();
            }
            Shop changed = shop;
            changed.prices.*price = read.value();
            return replacing(std::move(changed));
        };
        m_facts.add(name, tip, std::move(cell));
    }

    void worth() {
        m_facts.add(tr("Worth of a kept offcut, %"), tr("Of its share of the board's price"),
                    countCell(m_shop.offcuts.worthPercent, 0, limits::worthPercent,
                              [shop = m_shop](int typed) {
                                  Shop changed = shop;
                                  changed.offcuts.worthPercent = typed;
                                  return Result<Edit>(replacing(std::move(changed)));
                              }));
    }

    void flatten() {
        m_facts.add(tr("Panels are flattened by"), {},
                    choiceCell(static_cast<int>(m_shop.flatten),
                               {tr("scraper and sander"), tr("planer"), tr("sled")},
                               [shop = m_shop](int typed) {
                                   Shop changed = shop;
                                   changed.flatten = static_cast<FlattenMethod>(typed);
                                   return Result<Edit>(replacing(std::move(changed)));
                               }));
    }

    std::vector<Fact> take() { return m_facts.take(); }

  private:
    LengthStyle m_style;
    const Shop& m_shop;
    FactList m_facts{tr("Shop")};
};

} // namespace

std::vector<EntryTitle> sawTitles() {
    return {{tr("Work"), {}},
            {tr("Saw"), {}},
            {tr("Kerf"), tr("What its cut takes away")},
            {tr("Deepest"), tr("Thickest stock in one pass")},
            {tr("Widest"), tr("Widest stock it crosscuts; any where it does not matter")}};
}

EntryCell sawCell(const DocumentSession& session, std::size_t saw, int column) {
    const Shop& shop = session.document().shop;
    Machines machines = shop.machines;
    const Saw& shown = sawOf(machines, saw);
    const LengthStyle style = finest(session.lengthStyle());
    EntryCell cell;
    if (column == 0) {
        cell.text = sawWork()[static_cast<int>(saw)];
        cell.tip = sawTips()[static_cast<int>(saw)];
        return cell;
    }
    if (column == 1) {
        cell = textCell(shown.name, [shop, saw](std::string typed) {
            Shop changed = shop;
            sawOf(changed.machines, saw).name = std::move(typed);
            return Result<Edit>(replacing(std::move(changed)));
        });
        cell.tip = words(shown.name);
    } else {
        Length Saw::*figure = column == 2 ? &Saw::kerf : column == 3 ? &Saw::deepest : &Saw::widest;
        cell = lengthCell(shown.*figure, style, [shop, saw, figure](Length typed) {
            Shop changed = shop;
            sawOf(changed.machines, saw).*figure = typed;
            return Result<Edit>(replacing(std::move(changed)));
        });
    }
    if (column == 4 && shown.widest == Length()) {
        cell.text = tr("any"); // nothing is asked of its width
        cell.opensWith = "0";
    }
    if (column == 4) {
        const auto propose = cell.propose;
        cell.propose = [propose](const QString& typed) {
            const QString words = typed.trimmed();
            const bool any = words.isEmpty() || words.compare(tr("any"), Qt::CaseInsensitive) == 0;
            return propose(any ? QString("0") : typed);
        };
        cell.reading = {}; // "any" is no length
    }
    cell.step = tr("Shop: %1").arg(sawWork()[static_cast<int>(saw)].toLower());
    return cell;
}

std::vector<Fact> machineFacts(const DocumentSession& session) {
    FactMaker make(session);
    const auto machine = [&make](const QString& name, const QString& tip,
                                 Length Machines::*figure) {
        make.length(name, tip, [figure](Shop& shop) -> Length& { return shop.machines.*figure; });
    };
    machine(tr("Jointer width"), {}, &Machines::jointerWidth);
    machine(tr("Shortest for the jointer"), {}, &Machines::jointerLeastLength);
    machine(tr("Planer width"), {}, &Machines::planerWidth);
    machine(tr("Shortest for the planer"), {}, &Machines::planerLeastLength);
    machine(tr("Thinnest for the planer"), {}, &Machines::planerLeastThickness);
    machine(tr("Longest board handled"),
            tr("Longer ones are crosscut first where they lie; no blank may be longer"),
            &Machines::longestBoard);
    machine(tr("Narrowest rip"), tr("Nothing narrower is ripped"), &Machines::narrowestRip);
    machine(tr("Rip with care below"), tr("Narrower rips carry a caution"), &Machines::cautionRip);
    return make.take();
}

std::vector<Fact> practiceFacts(const DocumentSession& session) {
    FactMaker make(session);
    make.flatten();
    make.length(tr("Cleaning at the first facing"),
                tr("Thickness two cleaning passes take, both faces together"),
                [](Shop& shop) -> Length& { return shop.cleaning; });
    make.length(tr("Most to plane away"),
                tr("Boards thicker than a blank's milling needs by more than this do not give it"),
                [](Shop& shop) -> Length& { return shop.mostPlanedAway; });
    make.length(tr("Raw end trim"), tr("At a board end that carries no other mark"),
                [](Shop& shop) -> Length& { return shop.rawEnd; });
    make.length(tr("Step of stave widths"), {},
                [](Shop& shop) -> Length& { return shop.widthStep; });
    make.length(tr("Slack of a panel"), tr("Most that its staves may exceed what is asked"),
                [](Shop& shop) -> Length& { return shop.panelSlack; });
    return make.take();
}

std::vector<Fact> offcutAndPriceFacts(const DocumentSession& session) {
    FactMaker make(session);
    make.length(tr("Offcuts kept from length"), {},
                [](Shop& shop) -> Length& { return shop.offcuts.leastLength; });
    make.length(tr("Offcuts kept from width"), {},
                [](Shop& shop) -> Length& { return shop.offcuts.leastWidth; });
    make.length(tr("Offcuts kept from thickness"), {},
                [](Shop& shop) -> Length& { return shop.offcuts.leastThickness; });
    make.worth();
    make.money(tr("Price of one fill"), tr("Time and resin"), &Prices::fillEach);
    make.money(tr("Price of one crosscut"), tr("Time"), &Prices::crosscut);
    make.money(tr("Price of one rip"), tr("Time"), &Prices::rip);
    make.money(tr("A knot on a show face"), tr("What it counts against a plan"),
               &Prices::knotOnShow);
    make.money(tr("A match group on two boards"),
               tr("What each board beyond the first counts against a plan"), &Prices::groupApart);
    return make.take();
}

} // namespace stavewright::ui
