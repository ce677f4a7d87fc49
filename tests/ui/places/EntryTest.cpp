#include <QAbstractItemModelTester>

#include "tests/ui/places/PlaceTests.h"
#include "ui/entry/CellEditor.h"
#include "ui/entry/EntryModel.h"
#include "ui/entry/EntryView.h"
#include "ui/entry/Reading.h"
#include "ui/lumber/BoardSteps.h"
#include "ui/lumber/DefectCells.h"
#include "ui/lumber/TallyCells.h"
#include "ui/piece/ZoneCells.h"

namespace stavewright::testing_places {

namespace {

using namespace ui;

class EntryTest : public QObject {
    Q_OBJECT
  private slots:
    void readsQuartersAsTheTradeWritesThem();
    void readsSpeciesByNameKeyAndUniquePart();
    void readsKindsByLetterAndName();
    void readsPlacesFromEitherEnd();
    void aModelOverTheDocumentKeepsTheRulesOfModels();
    void whatIsTypedAtOnceAfterAClickIsNotLost();
    void aTextThatCannotBeTakenStaysAndIsExplained();
    void escapeGivesTheTypingUp();
};

void EntryTest::readsQuartersAsTheTradeWritesThem() {
    QCOMPARE(readQuarter("8/4").value().quarters, 8);
    QCOMPARE(readQuarter(" 5 ").value().quarters, 5);
    QVERIFY(!readQuarter("7/4"));
    QVERIFY(!readQuarter("thick"));
}

void EntryTest::readsSpeciesByNameKeyAndUniquePart() {
    QCOMPARE(readSpecies("white_oak").value(), std::string("white_oak"));
    QCOMPARE(readSpecies("White Oak").value(), std::string("white_oak"));
    QCOMPARE(readSpecies("cherry").value(), std::string("black_cherry"));
    QVERIFY(!readSpecies("oak")); // several
    QVERIFY(!readSpecies("plastic"));
}

void EntryTest::readsKindsByLetterAndName() {
    for (const DefectKind kind : allDefectKinds) {
        QCOMPARE(readKind(QString(QChar::fromLatin1(letterOf(kind))).toLower()).value(), kind);
        QCOMPARE(readKind(kindText(kind)).value(), kind);
    }
    QCOMPARE(readKind("knot h").value(), DefectKind::KnotHole);
    QVERIFY(!readKind("q"));
}

void EntryTest::readsPlacesFromEitherEnd() {
    const LengthStyle style{UnitSystem::Inches, 16, false};
    for (const Anchored& anchored : {Anchored{Anchored::From::Low, Length::inches(7, 2)},
                                     Anchored{Anchored::From::High, Length()},
                                     Anchored{Anchored::From::High, Length::inches(-7, 2)}}) {
        QCOMPARE(readAnchored(anchoredText(anchored, style), style).value(), anchored);
    }
    QVERIFY(!readAnchored("beginning", style));
}

void EntryTest::aModelOverTheDocumentKeepsTheRulesOfModels() {
    DocumentSession session;
    session.adopt(emptyJob(), {});
    EntryModel model(
        session, tallyTitles(UnitSystem::Inches), [&] { return session.document().boards.size(); },
        [&](int row, int column) {
            return tallyCell(session, session.document().boards[static_cast<std::size_t>(row)],
                             static_cast<TallyColumn>(column));
        });
    const QAbstractItemModelTester tester(&model,
                                          QAbstractItemModelTester::FailureReportingMode::QtTest);
    connect(&session, &DocumentSession::changed, &model, [&] { model.refresh(); });
    for (std::size_t i = 0; i < 3; ++i) {
        QVERIFY(session.edit("Add", Edit{InsertBoard{i, newBoard(session.document())}}));
    }
    QCOMPARE(model.rowCount(), 3);
    QVERIFY(model.setData(model.index(1, 3), "10' 6\"", Qt::EditRole));
    QCOMPARE(lengthOf(session.document().boards[1]), Length::inches(126));
    QVERIFY(!model.setData(model.index(1, 0), "1", Qt::EditRole)); // the mark of another board
    QVERIFY(session.edit("Remove", removal(session.document(), session.document().boards[1].id)));
    QCOMPARE(model.rowCount(), 2);
}

struct OneTable {
    OneTable()
        : model(
              session, tallyTitles(UnitSystem::Inches),
              [this] { return session.document().boards.size(); },
              [this](int row, int column) {
                  return tallyCell(session,
                                   session.document().boards[static_cast<std::size_t>(row)],
                                   static_cast<TallyColumn>(column));
              })
        , view("tally", "Tally", &model) {
        session.adopt(emptyJob(), {});
        QObject::connect(&session, &DocumentSession::changed, &model, [this] { model.refresh(); });
        session.edit("Add", Edit{InsertBoard{0, newBoard(session.document())}});
        view.resize(800, 200);
        view.show();
        view.activateWindow();
        active = QTest::qWaitForWindowActive(&view);
        view.setFocus();
    }
    CellEditor* editor() { return view.viewport()->findChild<CellEditor*>(); }

    DocumentSession session;
    EntryModel model;
    EntryView view;
    bool active = false;
};

void EntryTest::whatIsTypedAtOnceAfterAClickIsNotLost() {
    OneTable table;
    QVERIFY(table.active);
    table.session.edit("Add", Edit{InsertBoard{1, newBoard(table.session.document())}});
    const QModelIndex length = table.model.index(0, static_cast<int>(TallyColumn::Length));
    const QPoint there = table.view.visualRect(length).center();
    for (const char* typed : {"9", "8"}) { // the second time the row is chosen already
        QTest::mouseClick(table.view.viewport(), Qt::LeftButton, {}, there);
        QTest::keyClicks(&table.view, typed);
        if (table.editor() != nullptr) {
            QTest::keyClick(table.editor(), Qt::Key_Return);
        }
        QTRY_VERIFY(table.editor() == nullptr); // the entry is taken behind the key
        QCOMPARE(lengthOf(table.session.document().boards[0]),
                 Length::inches(QString(typed).toInt()));
        QCOMPARE(table.view.currentIndex().row(), 0);
    }
}

void EntryTest::aTextThatCannotBeTakenStaysAndIsExplained() {
    OneTable table;
    QVERIFY(table.active);
    const Document before = table.session.document();
    table.view.setCurrentIndex(table.model.index(0, static_cast<int>(TallyColumn::Length)));
    press(Qt::Key_Return);
    QVERIFY(table.editor() != nullptr);
    type("12 bananas");
    press(Qt::Key_Return);
    QVERIFY(table.editor() != nullptr);
    QCOMPARE(table.editor()->text(), QString("12 bananas"));
    QVERIFY2(table.editor()->objection().size() > 10, qPrintable(table.editor()->objection()));
    QVERIFY(table.session.document() == before);
    press(Qt::Key_Tab); // neither does Tab let it go
    QVERIFY(table.editor() != nullptr);
    QCOMPARE(table.editor()->text(), QString("12 bananas"));
    // What the text alone does not show: the job would not bear it.
    table.editor()->selectAll();
    type("9000'");
    press(Qt::Key_Return);
    QVERIFY(table.editor() != nullptr);
    QVERIFY(table.session.document() == before);
    table.editor()->selectAll();
    type("120");
    press(Qt::Key_Return);
    QTRY_VERIFY(table.editor() == nullptr);
    QCOMPARE(lengthOf(table.session.document().boards[0]), Length::inches(120));
}

void EntryTest::escapeGivesTheTypingUp() {
    OneTable table;
    QVERIFY(table.active);
    const Document before = table.session.document();
    table.view.setCurrentIndex(table.model.index(0, static_cast<int>(TallyColumn::Quarter)));
    press(Qt::Key_Return);
    type("nonsense");
    press(Qt::Key_Return);
    QVERIFY(table.editor() != nullptr);
    press(Qt::Key_Escape);
    QTRY_VERIFY(table.editor() == nullptr);
    QVERIFY(table.session.document() == before);
}

} // namespace

std::unique_ptr<QObject> makeEntryTest() { return std::make_unique<EntryTest>(); }

} // namespace stavewright::testing_places

#include "EntryTest.moc"
