#include <QAbstractItemModelTester>
#include <QPushButton>

#include "tests/ui/places/PlaceTests.h"
#include "ui/entry/EntryModel.h"
#include "ui/entry/EntryView.h"
#include "ui/shop/RuleCells.h"
#include "ui/shop/ShopView.h"

namespace stavewright::testing_places {

namespace {

using namespace ui;

class ShopPlaceTest : public QObject {
    Q_OBJECT
  private slots:
    void rulesAreReadBack();
    void everyCellIsReadBackAndTheModelsKeepTheRules();
    void aPresetIsTakenAndUndone();
    void aRuleSetInUseIsNotRemoved();
    void aSawWithoutALimitSaysSo();
    void whatPanelsTakeForGrantedIsTyped();
};

void ShopPlaceTest::whatPanelsTakeForGrantedIsTyped() {
    DocumentSession session;
    session.adopt(emptyJob(), {});
    const Document before = session.document();
    ShopView view(session);
    auto* facts = qobject_cast<EntryModel*>(view.findChild<EntryView*>("panelFacts")->model());
    const auto settings = [&] { return session.document().glueUp.settings; };
    QVERIFY(facts->setData(facts->index(1, 1), "7.5", Qt::EditRole));
    QCOMPARE(settings().moistureInUseTenths, 75);
    QVERIFY(facts->setData(facts->index(2, 1), "6", Qt::EditRole));
    QCOMPARE(settings().ringRadius, Length::inches(6));
    QVERIFY(facts->setData(facts->index(7, 1), "0", Qt::EditRole));
    QCOMPARE(settings().caul, Length());
    QVERIFY(!facts->setData(facts->index(1, 1), "", Qt::EditRole));
    for (int step = 0; step < 3; ++step) {
        session.undoStack().undo();
    }
    QVERIFY(session.document() == before);
}

void ShopPlaceTest::aSawWithoutALimitSaysSo() {
    DocumentSession session;
    session.adopt(emptyJob(), {});
    ShopView view(session);
    auto* saws = qobject_cast<EntryModel*>(view.findChild<EntryView*>("saws")->model());
    const QModelIndex widest = saws->index(0, 4);
    const auto limit = [&] { return session.document().shop.machines.crosscut.widest; };
    QVERIFY(saws->setData(widest, "10", Qt::EditRole));
    QCOMPARE(limit(), Length::inches(10));
    for (const char* none : {"any", "", "0"}) {
        QVERIFY(saws->setData(widest, "10", Qt::EditRole));
        QVERIFY2(saws->setData(widest, none, Qt::EditRole), none);
        QCOMPARE(limit(), Length());
        QCOMPARE(saws->data(widest, Qt::DisplayRole).toString(), QString("any"));
    }
}

void ShopPlaceTest::rulesAreReadBack() {
    const LengthStyle style{UnitSystem::Inches, 16, false};
    for (const Verdict verdict : {Verdict::Allowed, Verdict::AllowedIfFilled, Verdict::Forbidden}) {
        for (const std::optional<Length> largest :
             {std::optional<Length>(), std::optional(Length::inches(3, 8))}) {
            DefectRule rule{verdict, largest};
            if (verdict == Verdict::Forbidden) {
                rule.largest.reset(); // a size means nothing to what is forbidden anyway
            }
            QCOMPARE(readRule(ruleText(rule, style), style).value(), rule);
        }
    }
    QCOMPARE(readRule("1/2", style).value().largest, std::optional(Length::inches(1, 2)));
    QVERIFY(!readRule("maybe", style));
}

void ShopPlaceTest::everyCellIsReadBackAndTheModelsKeepTheRules() {
    DocumentSession session;
    session.adopt(emptyJob(), {});
    ShopView view(session);
    view.show();
    int typed = 0;
    for (EntryView* table : view.findChildren<EntryView*>()) {
        auto* model = qobject_cast<EntryModel*>(table->model());
        const QAbstractItemModelTester tester(
            model, QAbstractItemModelTester::FailureReportingMode::QtTest);
        for (int row = 0; row < model->rowCount(); ++row) {
            for (int column = 0; column < model->columnCount(); ++column) {
                const EntryCell cell = model->cellAt(model->index(row, column));
                if (!cell.propose) {
                    continue;
                }
                ++typed;
                const Result<Edit> edit = cell.propose(cell.typed());
                const QString where = table->objectName() + ": " + cell.text;
                QVERIFY2(edit.ok(), qPrintable(where));
                QVERIFY2(allowed(session.document(), edit.value()).ok(), qPrintable(where));
                if (!cell.typed().startsWith(QString::fromUtf8("≈"))) {
                    Document after = session.document();
                    QVERIFY(apply(after, edit.value()).ok());
                    QVERIFY2(after == session.document(), qPrintable(where));
                }
            }
        }
    }
    QVERIFY(typed > 150);
}

void ShopPlaceTest::aPresetIsTakenAndUndone() {
    DocumentSession session;
    session.adopt(emptyJob(), {});
    ShopView view(session);
    view.findChild<QPushButton*>("addRuleSet")->click();
    GlueUp glueUp;
    glueUp.settings.moistureInUseTenths = 75;
    QVERIFY(session.edit("Heated less", Edit{ReplaceGlueUp{glueUp}}));
    const Document before = session.document();
    QCOMPARE(before.shop.ruleSets.size(), inchShop().ruleSets.size() + 1);
    view.findChild<QPushButton*>("takeMetricShop")->click();
    QCOMPARE(session.document().shop.machines, metricShop().machines);
    QCOMPARE(session.document().glueUp.settings.caul, Length::millimetres(20));
    QCOMPARE(session.document().glueUp.settings.moistureInUseTenths, 75); // its wood stays
    QCOMPARE(session.document().shop.ruleSets.size(), before.shop.ruleSets.size());
    session.undoStack().undo();
    QVERIFY(session.document() == before);
}

void ShopPlaceTest::aRuleSetInUseIsNotRemoved() {
    Document document = emptyJob();
    Part part;
    part.id = PartId{document.nextId++};
    part.mark = "A";
    part.species = "white_oak";
    part.length.base = Length::inches(24);
    part.width.base = Length::inches(3);
    part.thickness.base = Length::inches(1);
    part.zones.push_back({ZoneId{document.nextId++},
                          "face",
                          ZoneRole::ShowFace,
                          {},
                          document.shop.ruleSets.front().id});
    document.parts.push_back(part);
    QVERIFY(validate(document).ok());
    DocumentSession session;
    session.adopt(document, {});
    ShopView view(session);
    auto* rules = view.findChild<EntryView*>("rules");
    rules->setCurrentIndex(rules->model()->index(1, 1));
    view.findChild<QPushButton*>("removeRuleSet")->click();
    QVERIFY(session.document() == document);
}

} // namespace

std::unique_ptr<QObject> makeShopPlaceTest() { return std::make_unique<ShopPlaceTest>(); }

} // namespace stavewright::testing_places

#include "ShopPlaceTest.moc"
