#include <QAbstractItemModelTester>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollBar>

#include "core/job/JobFile.h"
#include "tests/ui/places/PlaceTests.h"
#include "ui/entry/EntryModel.h"
#include "ui/entry/EntryView.h"
#include "ui/piece/ChainRows.h"
#include "ui/piece/PartCells.h"
#include "ui/piece/PartSheet.h"
#include "ui/piece/PieceView.h"
#include "ui/widgets/FractionText.h"

namespace stavewright::testing_places {

namespace {

using namespace ui;

class PiecePlaceTest : public QObject {
    Q_OBJECT
  private slots:
    void init();
    void cleanup();
    void theModelsKeepTheRulesOfModels();
    void everyCellIsReadBack();
    void theChainEndsAtTheBlank();
    void typingOverADefaultZoneWritesTheDefaultsOut();
    void aSizeLeansOnAnotherPart();
    void aPartThatIsLeanedOnIsNotRemoved();
    void clickOnAFaceSelectsItsZone();
    void aRowOfTheZonesIsShownInTheDrawing();
    void theWordsOfAStageStandInFull();
    void noTableIsScrolledSidewaysAt1280();
    void namesStayWholeInANarrowWindow();
    void marksOfAGroupMayStandWithCommas();
    void aNoteIsSeenWholeInASmallTable();

  private:
    EntryModel* model(const char* name) {
        return qobject_cast<EntryModel*>(m_view->findChild<EntryView*>(name)->model());
    }
    void openSample();

    std::unique_ptr<DocumentSession> m_session;
    std::unique_ptr<PieceView> m_view;
};

void PiecePlaceTest::init() {
    m_session = std::make_unique<DocumentSession>();
    m_session->adopt(emptyJob(), {});
    m_view = std::make_unique<PieceView>(*m_session);
    m_view->resize(1280, 760);
    m_view->show();
    m_view->activateWindow();
}

void PiecePlaceTest::cleanup() {
    m_view.reset();
    m_session.reset();
}

void PiecePlaceTest::openSample() {
    Result<Document> read = readJob(STAVEWRIGHT_SAMPLES_DIR "/kitchen-table.stavejob");
    QVERIFY(read.ok());
    m_session->adopt(std::move(read).value(), {});
}

void PiecePlaceTest::theModelsKeepTheRulesOfModels() {
    std::vector<std::unique_ptr<QAbstractItemModelTester>> testers;
    for (const char* name : {"parts", "zones", "joints", "groups", "makeUp", "chain"}) {
        testers.push_back(std::make_unique<QAbstractItemModelTester>(
            model(name), QAbstractItemModelTester::FailureReportingMode::QtTest));
    }
    openSample();
    for (const Part& part : m_session->document().parts) {
        Selection selection;
        selection.part = part.id;
        m_session->select(selection);
    }
    m_view->addPart();
    while (m_session->undoStack().canUndo()) {
        m_session->undoStack().undo();
    }
}

void PiecePlaceTest::everyCellIsReadBack() {
    openSample();
    for (const Part& part : m_session->document().parts) {
        Selection selection;
        selection.part = part.id;
        m_session->select(selection);
        for (const char* name : {"parts", "zones", "joints", "groups", "makeUp"}) {
            EntryModel* table = model(name);
            for (int row = 0; row < table->rowCount(); ++row) {
                for (int column = 0; column < table->columnCount(); ++column) {
                    const EntryCell cell = table->cellAt(table->index(row, column));
                    if (!cell.propose) {
                        continue;
                    }
                    const Result<Edit> edit = cell.propose(cell.text);
                    const QString where =
                        QString("%1 %2/%3: %4").arg(name).arg(row).arg(column).arg(cell.text);
                    QVERIFY2(edit.ok(), qPrintable(where));
                    QVERIFY2(allowed(m_session->document(), edit.value()).ok(), qPrintable(where));
                }
            }
        }
    }
}

void PiecePlaceTest::noTableIsScrolledSidewaysAt1280() {
    openSample();
    QCoreApplication::processEvents();
    for (const char* name : {"parts", "zones", "chain"}) {
        QCOMPARE(m_view->findChild<EntryView*>(name)->horizontalScrollBar()->maximum(), 0);
    }
}

void PiecePlaceTest::namesStayWholeInANarrowWindow() {
    openSample();
    m_view->resize(1000, 640);
    QApplication::processEvents();
    const auto* parts = m_view->findChild<EntryView*>("parts");
    QVERIFY(parts->horizontalScrollBar()->maximum() > 0); // scrolled all the same
    for (const PartColumn column : {PartColumn::Name, PartColumn::Group, PartColumn::Species}) {
        const int at = static_cast<int>(column); // of the sample; longer species are cut off
        QVERIFY2(parts->columnWidth(at) >= parts->widthFor(at), qPrintable(QString::number(at)));
    }
}

void PiecePlaceTest::marksOfAGroupMayStandWithCommas() {
    openSample();
    const EntryCell cell = model("groups")->cellAt(model("groups")->index(0, 2));
    for (const char* typed : {"R E", "R, E", "R,E", "R , E"}) {
        const Result<Edit> edit = cell.propose(typed);
        QVERIFY2(edit.ok(), typed);
        const auto* groups = std::get_if<ReplaceGroups>(&edit.value().change);
        QVERIFY(groups != nullptr);
        QCOMPARE(groups->groups.front().parts.size(), std::size_t(2));
    }
    QVERIFY(!cell.propose("R, Q9").ok());
}

void PiecePlaceTest::aNoteIsSeenWholeInASmallTable() {
    openSample();
    std::vector<MatchGroup> two = m_session->document().groups;
    two.push_back(two.front());
    two.back().id = GroupId{m_session->document().nextId};
    QVERIFY(m_session->edit("Add a group", Edit{ReplaceGroups{two}}));
    QCoreApplication::processEvents();
    auto* groups = m_view->findChild<EntryView*>("groups");
    groups->setFocus();
    groups->setCurrentIndex(groups->model()->index(1, 2));
    groups->edit(groups->currentIndex());
    auto* editor = groups->findChild<QLineEdit*>("cellEditor");
    QVERIFY(editor != nullptr);
    QTest::keyClicks(editor, "Q9");
    auto* note = m_view->findChild<QFrame*>("cellNote");
    QVERIFY(note != nullptr);
    QVERIFY(note->isVisible());
    QVERIFY(note->parentWidget()->rect().contains(note->geometry()));
}

void PiecePlaceTest::theChainEndsAtTheBlank() {
    openSample();
    for (const Part& part : m_session->document().parts) {
        const Result<BlankSpec> spec = firstSpecOf(m_session->document(), part.id);
        QVERIFY(spec.ok());
        const std::vector<ChainRow> rows = chainRows(spec.value().sums);
        QVERIFY(rows.size() > 2);
        QCOMPARE(rows.back().after[0], spec.value().length);
        QCOMPARE(rows.back().after[1], spec.value().width);
        QCOMPARE(rows.back().after[2], spec.value().thicknessWanted);
    }
}

void PiecePlaceTest::typingOverADefaultZoneWritesTheDefaultsOut() {
    m_view->addPart();
    const Document before = m_session->document();
    EntryModel* zones = model("zones");
    QCOMPARE(zones->rowCount(), 2);
    QVERIFY(zones->setData(zones->index(1, 0), "underside", Qt::EditRole));
    const std::vector<Zone>& own = m_session->document().parts[0].zones;
    QCOMPARE(own.size(), std::size_t{2});
    QCOMPARE(own[1].name, std::string("underside"));
    QVERIFY(validate(m_session->document()).ok());
    m_session->undoStack().undo();
    QVERIFY(m_session->document() == before);
}

void PiecePlaceTest::aSizeLeansOnAnotherPart() {
    m_view->addPart();
    m_view->addPart();
    EntryModel* facts = model("makeUp");
    int leans = -1;
    for (int row = 0; row < facts->rowCount(); ++row) {
        if (facts->index(row, 0).data().toString() == "Length leans on") {
            leans = row;
        }
    }
    QVERIFY(leans >= 0);
    const Length alone =
        resolvedSize(m_session->document(), m_session->document().parts[1], Dimension::Length)
            .value();
    QVERIFY(!facts->setData(facts->index(leans, 1), "-Z thickness", Qt::EditRole));
    QVERIFY(facts->setData(facts->index(leans, 1), "-A thickness", Qt::EditRole));
    const Document& document = m_session->document();
    QCOMPARE(resolvedSize(document, document.parts[1], Dimension::Length).value(),
             alone - document.parts[0].thickness.base);
}

void PiecePlaceTest::aPartThatIsLeanedOnIsNotRemoved() {
    aSizeLeansOnAnotherPart();
    Selection selection;
    selection.part = m_session->document().parts[0].id;
    m_session->select(selection);
    const Document before = m_session->document();
    m_view->findChild<QPushButton*>("removePart")->click();
    QVERIFY(m_session->document() == before);
}

void PiecePlaceTest::clickOnAFaceSelectsItsZone() {
    m_view->addPart();
    PartSheet& sheet = m_view->sheet();
    const QPointF onB = sheet.faceBox(BoardFace::B).center();
    QCOMPARE(sheet.zoneAt(onB), std::optional<int>(1));
    QTest::mouseClick(&sheet, Qt::LeftButton, {}, onB.toPoint());
    QCOMPARE(m_view->zones().currentIndex().row(), 1);
}

void PiecePlaceTest::aRowOfTheZonesIsShownInTheDrawing() {
    m_view->addPart();
    const auto picture = [this] { return m_view->sheet().grab().toImage(); };
    m_view->zones().setCurrentIndex(m_view->zones().model()->index(0, 0));
    const QImage first = picture();
    m_view->zones().setCurrentIndex(m_view->zones().model()->index(1, 0));
    QVERIFY(picture() != first);
}

/// What a stage does is said in full, on two lines where one is too short.
void PiecePlaceTest::theWordsOfAStageStandInFull() {
    openSample();
    m_view->resize(1280, 700);
    auto* chain = m_view->findChild<EntryView*>("chain");
    QVERIFY(chain->model()->rowCount() > 5);
    for (int row = 0; row < chain->model()->rowCount(); ++row) {
        const QModelIndex index = chain->model()->index(row, 0);
        const double needed = wrappedFractionTextHeight(index.data().toString(), chain->font(),
                                                        chain->columnWidth(0) - 8);
        QVERIFY2(needed <= chain->rowHeight(row), qPrintable(index.data().toString()));
    }
}

} // namespace

std::unique_ptr<QObject> makePiecePlaceTest() { return std::make_unique<PiecePlaceTest>(); }

} // namespace stavewright::testing_places

#include "PiecePlaceTest.moc"
