// A tally typed or pasted goes on the rack in one step; what cannot be read is kept, marked and
// explained.

#include <QAbstractItemModelTester>
#include <QClipboard>
#include <QComboBox>
#include <QFile>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QSpinBox>
#include <QTemporaryDir>

#include "core/lumber/BoardShape.h"
#include "core/tally/TallyBoards.h"
#include "tests/ui/places/PlaceTests.h"
#include "ui/entry/EntryView.h"
#include "ui/lumber/ColumnBar.h"
#include "ui/lumber/LumberView.h"
#include "ui/lumber/QuickEntry.h"
#include "ui/lumber/TallyGrid.h"

namespace stavewright::testing_places {

namespace {

using namespace ui;

class QuickEntryTest : public QObject {
    Q_OBJECT
  private slots:
    void init();
    void cleanup();
    void thirtyBoardsPastedGoOnTheRackInOneStep();
    void aTallyIsTypedByKeyboardAlone();
    void badCellsAreKeptMarkedAndExplained();
    void columnsCanBeChangedAfterThePaste();
    void twelveMoreLikeThis();
    void theTallyHasItsOwnUndo();
    void aTableIsReadFromAFileAndWrittenAgain();
    void theModelKeepsTheRulesOfModels();
    void sumsFollowEveryCell();

  private:
    QString sums() { return m_view->findChild<QLabel*>("tallySums")->text(); }

    std::unique_ptr<DocumentSession> m_session;
    std::unique_ptr<LumberView> m_view;
};

void QuickEntryTest::init() {
    m_session = std::make_unique<DocumentSession>();
    m_session->adopt(emptyJob(), {});
    m_view = std::make_unique<LumberView>(*m_session);
    m_view->resize(1280, 760);
    m_view->show();
    m_view->activateWindow();
    QVERIFY(QTest::qWaitForWindowActive(m_view.get()));
}

void QuickEntryTest::cleanup() {
    m_view.reset();
    m_session.reset();
}

void QuickEntryTest::thirtyBoardsPastedGoOnTheRackInOneStep() {
    QString text = "Length (ft)\tBoard\tWidth\tThickness\n"; // any order, feet and inches mixed
    for (int i = 1; i <= 30; ++i) {
        text += QString("%1\tB%2\t%3 1/2\t%4/4\n")
                    .arg(8 + i % 5)
                    .arg(i)
                    .arg(6 + i % 4)
                    .arg(i % 2 == 0 ? 8 : 4);
    }
    const Document before = m_session->document();
    QApplication::clipboard()->setText(text);
    press(Qt::Key_V, Qt::ControlModifier); // on the empty rack
    QVERIFY(m_view->quickEntry().isVisible());
    QCOMPARE(m_view->quickEntry().model().read().sums.boards, std::size_t{30});
    press(Qt::Key_Return, Qt::ControlModifier);
    QCOMPARE(m_session->document().boards.size(), std::size_t{30});
    QVERIFY(!m_view->quickEntry().isVisible());
    const Board& first = m_session->document().boards[0];
    QCOMPARE(first.mark, std::string("B1"));
    QCOMPARE(lengthOf(first), Length::inches(9 * 12));
    QCOMPARE(widthOf(first), Length::inches(15, 2));
    QVERIFY(validate(m_session->document()).ok());
    QCOMPARE(m_session->undoStack().count(), 1);
    QVERIFY(undoesAndRedoes(*m_session, before));
}

void QuickEntryTest::aTallyIsTypedByKeyboardAlone() {
    press(Qt::Key_R, Qt::ControlModifier);
    type("7");
    press(Qt::Key_Tab);
    type("8");
    press(Qt::Key_Tab);
    type("96 1/2");
    press(Qt::Key_Tab);
    type("8 1/4");
    press(Qt::Key_Tab);
    type("7 3/4");
    press(Qt::Key_Tab);
    type("1 15/16");
    press(Qt::Key_Tab);
    type("9.50");
    press(Qt::Key_Return);
    // The next begins where this one began; what is left empty is as above.
    QCOMPARE(m_view->quickEntry().grid().currentIndex().column(), 0);
    press(Qt::Key_Tab);
    press(Qt::Key_Tab);
    type("90");
    press(Qt::Key_Tab);
    type("7");
    press(Qt::Key_Return);
    press(Qt::Key_Return, Qt::ControlModifier);
    const std::vector<Board>& boards = m_session->document().boards;
    QCOMPARE(boards.size(), std::size_t{2});
    QCOMPARE(boards[0].thinnest, Length::inches(31, 16));
    QCOMPARE(boards[1].mark, std::string("8"));
    QCOMPARE(boards[1].quarter.quarters, 8);
    QCOMPARE(boards[1].pricePerBoardFoot, Money::cents(950));
}

void QuickEntryTest::badCellsAreKeptMarkedAndExplained() {
    m_view->typeTally();
    m_view->quickEntry().paste(
        "Mark\tLength\tWidth\n1\t96\t8\n2\tabout 90\t8\n3\t90\t\n1\t80\t7\n");
    auto* wrong = m_view->findChild<QListWidget*>("tallyWrong");
    QCOMPARE(wrong->count(), 4); // the mark 1 twice, one length, one width
    for (int i = 0; i < wrong->count(); ++i) {
        QVERIFY2(wrong->item(i)->text().endsWith('.'), qPrintable(wrong->item(i)->text()));
    }
    m_view->quickEntry().paste("Mark\tLength\tWidth\n9\t96\t8\n");
    m_view->quickEntry().putInJob();
    QCOMPARE(m_session->document().boards.size(), std::size_t{1}); // only the last is good
    QVERIFY(m_view->quickEntry().isVisible());
    const TallyModel& model = m_view->quickEntry().model();
    QCOMPARE(model.rows().size(), std::size_t{4});
    QCOMPARE(model.rows()[1].at(TallyField::Length), std::string("about 90")); // as typed
    // F8 goes from wrong cell to wrong cell; mended, the rows go after.
    press(Qt::Key_F8);
    QVERIFY(!m_view->quickEntry()
                 .model()
                 .read()
                 .rows[static_cast<std::size_t>(m_view->quickEntry().grid().currentIndex().row())]
                 .at(TallyModel::fieldOf(m_view->quickEntry().grid().currentIndex().column()))
                 .wrong.empty());
    TallyModel& typed = m_view->quickEntry().model();
    const auto mend = [&](int row, TallyField field, const char* text) {
        typed.setData(typed.index(row, TallyModel::columnOf(field)), text, Qt::EditRole);
    };
    mend(1, TallyField::Length, "90");
    mend(2, TallyField::Width, "7");
    mend(3, TallyField::Mark, "4");
    QCOMPARE(typed.read().waiting, std::size_t{0});
    m_view->quickEntry().putInJob();
    QCOMPARE(m_session->document().boards.size(), std::size_t{5});
    QCOMPARE(m_session->undoStack().count(), 2);
}

void QuickEntryTest::columnsCanBeChangedAfterThePaste() {
    m_view->typeTally();
    QuickEntry& quick = m_view->quickEntry();
    quick.paste("7\t96\t8\t6\n8\t90\t7\t6\n"); // 6: a far width? it was the moisture
    QVERIFY(quick.findChild<ColumnBar*>("columnBar")->isVisible());
    auto* choice = quick.findChild<QComboBox*>("columnChoice3");
    const int moisture = choice->findData(static_cast<int>(TallyField::Moisture));
    choice->setCurrentIndex(moisture);
    emit choice->activated(moisture);
    QCOMPARE(quick.model().rows().size(), std::size_t{2});
    QCOMPARE(quick.model().rows()[0].at(TallyField::Moisture), std::string("6"));
    QCOMPARE(quick.model().rows()[0].at(TallyField::FarWidth), std::string());
    quick.putInJob();
    QCOMPARE(m_session->document().boards[0].moistureTenths.value_or(0), std::int64_t{60});
}

void QuickEntryTest::twelveMoreLikeThis() {
    press(Qt::Key_R, Qt::ControlModifier);
    press(Qt::Key_Tab);
    type("5");
    press(Qt::Key_Tab);
    type("96");
    press(Qt::Key_Tab);
    type("8");
    press(Qt::Key_D, Qt::ControlModifier); // what is being typed counts
    type("12");
    press(Qt::Key_Return);
    QCOMPARE(m_view->quickEntry().model().rows().size(), std::size_t{13});
    press(Qt::Key_Return, Qt::ControlModifier);
    QCOMPARE(m_session->document().boards.size(), std::size_t{13});
    QCOMPARE(m_session->document().boards.back().mark, std::string("13"));
    QCOMPARE(m_session->document().boards.back().quarter.quarters, 5);
}

void QuickEntryTest::theTallyHasItsOwnUndo() {
    m_view->addBoard();
    QVERIFY(m_session->undoStack().canUndo());
    m_view->tally().finishEntry();
    const Document before = m_session->document();
    m_view->typeTally();
    type("7");
    press(Qt::Key_Return);
    QCOMPARE(m_view->quickEntry().model().rows().size(), std::size_t{1});
    press(Qt::Key_Z, Qt::ControlModifier);
    QCOMPARE(m_view->quickEntry().model().rows().size(), std::size_t{0});
    press(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
    QCOMPARE(m_view->quickEntry().model().rows().size(), std::size_t{1});
    QVERIFY(m_session->document() == before);
    // Back to the rack and here again: what was typed is still there.
    press(Qt::Key_Escape);
    QVERIFY(!m_view->quickEntry().isVisible());
    m_view->typeTally();
    QCOMPARE(m_view->quickEntry().model().rows().size(), std::size_t{1});
}

void QuickEntryTest::aTableIsReadFromAFileAndWrittenAgain() {
    const QTemporaryDir folder;
    const auto write = [&](const QString& name, const QByteArray& bytes) {
        QFile file(folder.filePath(name));
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write(bytes);
    };
    write("a.csv", "Mark;Length (mm);Width (mm)\r\n7;2400;210\r\n8;2 m;190\r\n");
    m_view->typeTally();
    QuickEntry& quick = m_view->quickEntry();
    QVERIFY(quick.readTable(folder.filePath("a.csv")).isEmpty());
    quick.putInJob();
    QCOMPARE(m_session->document().boards.size(), std::size_t{2});
    QCOMPARE(lengthOf(m_session->document().boards[0]), Length::millimetres(2400));
    for (const UnitSystem units : {UnitSystem::Inches, UnitSystem::Millimetres}) {
        const std::string csv = csvOf(m_session->document().boards, units);
        write("b.csv", QByteArray::fromStdString(csv));
        DocumentSession other;
        other.adopt(emptyJob(), {});
        QuickEntry again(other);
        QVERIFY(again.readTable(folder.filePath("b.csv")).isEmpty());
        again.putInJob();
        QVERIFY(other.document().boards == m_session->document().boards);
    }
    write("c.csv", QByteArray("\x89PNG\0\0\0", 7));
    for (const char* bad : {"c.csv", "missing.csv", ""}) {
        const QString why = quick.readTable(folder.filePath(bad));
        QVERIFY2(why.endsWith('.'), qPrintable(why));
    }
    QVERIFY(!quick.holdsRows());
}

void QuickEntryTest::theModelKeepsTheRulesOfModels() {
    QuickEntry& quick = m_view->quickEntry();
    const QAbstractItemModelTester tester(&quick.model(),
                                          QAbstractItemModelTester::FailureReportingMode::QtTest);
    m_view->typeTally();
    quick.paste("7\t8/4\t96\t8\n8\t8/4\t90\t7\n");
    quick.moreLikeThis(3);
    quick.model().undoStack().undo();
    quick.model().undoStack().undo();
    quick.model().undoStack().redo();
    quick.putInJob();
}

void QuickEntryTest::sumsFollowEveryCell() {
    m_view->typeTally();
    QuickEntry& quick = m_view->quickEntry();
    quick.paste("1\t8/4\t129\t6 7/16\n"); // 10 by the rule, 11.53 by its size: see the core's tests
    QVERIFY2(sums().contains("10.00 bd ft by the tally rule"), qPrintable(sums()));
    QVERIFY2(sums().contains("11.53 bd ft by exact size"), qPrintable(sums()));
    quick.model().setData(quick.model().index(0, TallyModel::columnOf(TallyField::Rough)), "4",
                          Qt::EditRole);
    QVERIFY2(sums().contains("5.00 bd ft by the tally rule"), qPrintable(sums()));
}

} // namespace

std::unique_ptr<QObject> makeQuickEntryTest() { return std::make_unique<QuickEntryTest>(); }

} // namespace stavewright::testing_places

#include "QuickEntryTest.moc"
