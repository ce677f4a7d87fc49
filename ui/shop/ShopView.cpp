#include "ui/shop/ShopView.h"

#include <QHeaderView>
#include <QSplitter>

#include <algorithm>

#include "core/layout/GluePresets.h"
#include "core/shop/Presets.h"
#include "ui/entry/EntryModel.h"
#include "ui/entry/EntryView.h"
#include "ui/entry/PlaceParts.h"
#include "ui/entry/Reading.h"
#include "ui/session/DocumentSession.h"
#include "ui/shop/ChainCells.h"
#include "ui/shop/JobFacts.h"
#include "ui/shop/PanelFacts.h"
#include "ui/shop/RuleCells.h"
#include "ui/shop/ShopFacts.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/Words.h"
#include "ui/widgets/WrapLayout.h"

namespace stavewright::ui {

ShopView::ShopView(DocumentSession& session, QWidget* parent)
    : QWidget(parent)
    , m_session(session)
    , m_banner(new Banner(this))
    , m_title(new QLabel(this)) {
    setObjectName("shopPlace");
    auto* top = new WrapLayout;
    top->setContentsMargins(12, 6, 12, 6);
    top->setSpacing(8);
    m_title->setObjectName("shopTitle");
    auto* inch =
        smallButton("takeInchShop", tr("Take the inch shop again"),
                    tr("All figures of a shop with inch machines; undo brings yours back"), this);
    auto* metric = smallButton("takeMetricShop", tr("Take the metric shop again"),
                               tr("All figures of a shop with metric machines; undo brings yours "
                                  "back"),
                               this);
    top->addWidget(m_title);
    top->addWidget(inch);
    top->addWidget(metric);
    connect(inch, &QPushButton::clicked, this, &ShopView::takeInchShop);
    connect(metric, &QPushButton::clicked, this, &ShopView::takeMetricShop);

    auto* left = new SideColumn("shopMachines", tr("Saws, machines, offcuts and prices"));
    addFacts(left, tr("This job"), "jobFacts", [this] { return jobFacts(m_session); });
    addSaws(left);
    addFacts(left, tr("Machines"), "machineFacts", [this] { return machineFacts(m_session); });
    addFacts(left, tr("Practice"), "practiceFacts", [this] { return practiceFacts(m_session); });
    addFacts(left, tr("Offcuts and prices"), "priceFacts",
             [this] { return offcutAndPriceFacts(m_session); });
    addFacts(left, tr("Panels"), "panelFacts", [this] { return panelFacts(m_session); });
    left->column()->addStretch(1);
    auto* right = new SideColumn("shopRules", tr("Rules, and what each stage takes"));
    addRules(right);
    addChains(right);
    right->column()->addStretch(1);
    auto* split = new QSplitter(Qt::Horizontal, this);
    split->setObjectName("shopSplit");
    split->setChildrenCollapsible(false);
    split->addWidget(left);
    split->addWidget(right);
    split->setStretchFactor(0, 2);
    split->setStretchFactor(1, 3);
    split->setSizes({480, 800});
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(m_banner);
    layout->addLayout(top);
    layout->addWidget(split, 1);
    connect(&m_session, &DocumentSession::changed, this, [this](const EditScope& scope) {
        if (scope.shop || scope.info) { // measuring the rows again takes its time
            refresh();
        }
    });
    connect(&m_session, &DocumentSession::adopted, this, &ShopView::refresh);
    refresh();
}

void ShopView::addSaws(SideColumn* column) {
    auto* model = new EntryModel(
        m_session, sawTitles(), [] { return saws; },
        [this](int row, int at) { return sawCell(m_session, static_cast<std::size_t>(row), at); },
        this);
    auto* view = new EntryView("saws", tr("Saws and kerfs"), model, column->sheet());
    view->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    view->fitColumns();
    view->wrapWords();
    m_models.push_back(model);
    column->column()->addWidget(heading(tr("Saws and kerfs"), column->sheet()));
    column->column()->addWidget(view);
}

void ShopView::addFacts(SideColumn* column, const QString& title, const char* name,
                        const std::function<std::vector<Fact>()>& facts) {
    auto* model = new FactModel(m_session, facts, this);
    auto* view = new EntryView(name, title, model, column->sheet());
    view->showAsFacts();
    m_facts.push_back(model);
    column->column()->addWidget(heading(title, column->sheet()));
    column->column()->addWidget(view);
}

void ShopView::addChains(SideColumn* column) {
    for (const ChainOfShop& chain : chainsOfShop()) {
        auto* model = new EntryModel(
            m_session, stageTitles(),
            [this, chain] { return (m_session.document().shop.chains.*chain.chain).size(); },
            [this, chain](int row, int at) {
                return stageCell(m_session, chain.chain, static_cast<std::size_t>(row), at);
            },
            this);
        auto* view = new EntryView(chain.name, chain.title, model, column->sheet());
        view->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
        view->horizontalHeader()->setStretchLastSection(true);
        view->fitColumns();
        auto* row = new QHBoxLayout;
        auto* add = smallButton(QString(chain.name) + "Add", tr("Add stage"), {}, column->sheet());
        auto* remove =
            smallButton(QString(chain.name) + "Remove", tr("Remove"), {}, column->sheet());
        row->addWidget(heading(chain.title, column->sheet()), 1);
        row->addWidget(add);
        row->addWidget(remove);
        connect(add, &QPushButton::clicked, this, [this, chain] {
            Shop shop = m_session.document().shop;
            (shop.chains.*chain.chain).push_back({});
            change(tr("Shop: one more stage"), std::move(shop));
        });
        connect(remove, &QPushButton::clicked, this, [this, chain, view] {
            Shop shop = m_session.document().shop;
            MillingChain& stages = shop.chains.*chain.chain;
            const int at = view->currentIndex().row();
            if (at >= 0 && static_cast<std::size_t>(at) < stages.size()) {
                stages.erase(stages.begin() + at);
                change(tr("Shop: one stage less"), std::move(shop));
            }
        });
        m_models.push_back(model);
        column->column()->addLayout(row);
        column->column()->addWidget(view);
    }
}

void ShopView::addRules(SideColumn* column) {
    auto* row = new WrapLayout;
    auto* add = smallButton("addRuleSet", tr("Add rule set"), tr("A copy of the one in use"),
                            column->sheet());
    auto* remove = smallButton("removeRuleSet", tr("Remove"), tr("The set of the current column"),
                               column->sheet());
    m_rulesTitle = heading({}, column->sheet());
    row->addWidget(m_rulesTitle);
    row->addWidget(add);
    row->addWidget(remove);
    connect(add, &QPushButton::clicked, this, &ShopView::addRuleSet);
    connect(remove, &QPushButton::clicked, this, &ShopView::removeRuleSet);
    m_ruleBox = new QWidget(column->sheet());
    auto* box = new QVBoxLayout(m_ruleBox);
    box->setContentsMargins(0, 0, 0, 0);
    column->column()->addLayout(row);
    column->column()->addWidget(m_ruleBox);
    rebuildRules();
}

/// The columns are the rule sets, so another number of them is another table.
void ShopView::rebuildRules() {
    if (m_rules != nullptr) {
        m_rules->hide();
        m_rules->deleteLater();
        m_ruleModel->deleteLater();
    }
    const Shop& shop = m_session.document().shop;
    m_ruleColumns = shop.ruleSets.size();
    m_ruleModel = new EntryModel(
        m_session, ruleTitles(shop), [] { return ruleRows(); },
        [this](int row, int column) { return ruleCell(m_session, row, column); }, this);
    m_rules = new EntryView("rules", tr("Rules by kind of defect"), m_ruleModel, m_ruleBox);
    m_rules->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    m_rules->horizontalHeader()->hide(); // the first row holds the names, to be typed over
    m_rules->setSelectionBehavior(QAbstractItemView::SelectItems);
    m_rules->wrapWords();
    m_rules->fitColumns();
    m_ruleBox->layout()->addWidget(m_rules);
}

void ShopView::addRuleSet() {
    Shop shop = m_session.document().shop;
    const int column = std::max(1, m_rules->currentIndex().column());
    RuleSet set =
        shop.ruleSets.empty() ? RuleSet() : shop.ruleSets[static_cast<std::size_t>(column) - 1];
    set.id = RuleSetId{m_session.document().nextId};
    set.name = tr("new rules").toStdString();
    shop.ruleSets.push_back(std::move(set));
    change(tr("Add rule set"), std::move(shop));
}

void ShopView::removeRuleSet() {
    Shop shop = m_session.document().shop;
    const int column = m_rules->currentIndex().column();
    if (column >= 1 && static_cast<std::size_t>(column) <= shop.ruleSets.size()) {
        shop.ruleSets.erase(shop.ruleSets.begin() + (column - 1));
        change(tr("Remove rule set"), std::move(shop)); // refused while a zone names it
    }
}

void ShopView::takeInchShop() { take(inchShop(), UnitSystem::Inches); }

void ShopView::takeMetricShop() { take(metricShop(), UnitSystem::Millimetres); }

void ShopView::take(Shop shop, UnitSystem units) {
    // Rule sets of the maker's own stay: zones of the piece may name them.
    for (const RuleSet& own : m_session.document().shop.ruleSets) {
        if (own.id.value > presetRules::last) {
            shop.ruleSets.push_back(own);
        }
    }
    const QString step = tr("Take the preset %1").arg(words(shop.name));
    GlueUp glueUp = m_session.document().glueUp;
    const GlueSettings was = glueUp.settings;
    glueUp.settings = glueSettingsFor(units);
    glueUp.settings.weights = was.weights; // what looks well and where the piece will stand is
    glueUp.settings.moistureTenths = was.moistureTenths; // no matter of the shop's units
    glueUp.settings.moistureInUseTenths = was.moistureInUseTenths;
    change(step, Edit{EditSequence{
                     {replacing(std::move(shop)), Edit{ReplaceGlueUp{std::move(glueUp)}}}}});
}

void ShopView::change(const QString& step, Shop shop) { change(step, replacing(std::move(shop))); }

void ShopView::change(const QString& step, const Edit& edit) {
    if (const Status fits = allowed(m_session.document(), edit); !fits) {
        m_banner->showMessage(Sign::Cross, words(fits.error().message));
        return;
    }
    m_session.edit(step, edit);
}

void ShopView::refresh() {
    const Shop& shop = m_session.document().shop;
    m_title->setText(tr("This job's shop, begun as: %1").arg(words(shop.name)));
    if (shop.ruleSets.size() != m_ruleColumns) {
        rebuildRules();
    }
    const LengthStyle style = m_session.lengthStyle();
    const QString largest = lengthText(
        style.units == UnitSystem::Inches ? Length::inches(1, 2) : Length::millimetres(12), style);
    m_rulesTitle->setText(
        tr("Rules: what a zone tolerates (no, any, to %1, fill to %1)").arg(largest));
    m_ruleModel->refresh();
    for (EntryModel* model : m_models) {
        model->refresh();
    }
    for (FactModel* model : m_facts) {
        model->refreshFacts();
    }
}

} // namespace stavewright::ui
