#pragma once
// The place "Shop": everything the sums and the plan take from the shop, shown and open to change:
// saws, machines, what each stage takes, offcuts, prices, and the rules by kind of defect. The two
// shops to begin with can be taken again at any time; undo brings back what was there.

#include <QWidget>

#include <vector>

#include "core/document/Edit.h"

class QLabel;

namespace stavewright::ui {

class Banner;
class DocumentSession;
class EntryModel;
class EntryView;
class FactModel;
class SideColumn;

class ShopView : public QWidget {
    Q_OBJECT
  public:
    explicit ShopView(DocumentSession& session, QWidget* parent = nullptr);

  public slots:
    void takeInchShop();
    void takeMetricShop();

  private:
    void addSaws(SideColumn* column);
    void addFacts(SideColumn* column, const QString& title, const char* name,
                  const std::function<std::vector<struct Fact>()>& facts);
    void addChains(SideColumn* column);
    void addRules(SideColumn* column);
    void rebuildRules();
    void addRuleSet();
    void removeRuleSet();
    void take(Shop shop, UnitSystem units);
    void change(const QString& step, Shop shop);
    void change(const QString& step, const Edit& edit);
    void refresh();

    DocumentSession& m_session;
    Banner* m_banner;
    QLabel* m_title;
    std::vector<EntryModel*> m_models;
    std::vector<FactModel*> m_facts;
    QWidget* m_ruleBox = nullptr;
    EntryModel* m_ruleModel = nullptr;
    EntryView* m_rules = nullptr;
    QLabel* m_rulesTitle = nullptr;
    std::size_t m_ruleColumns = 0;
};

} // namespace stavewright::ui
