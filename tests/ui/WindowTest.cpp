#include <QAction>
#include <QFile>
#include <QMessageBox>
#include <QPushButton>
#include <QScrollBar>
#include <QSettings>
#include <QTableView>
#include <QTemporaryDir>
#include <QTest>
#include <QTimer>
#include <QTreeView>

#include "core/job/JobFile.h"
#include "core/shop/Presets.h"
#include "tests/ui/TestJobs.h"
#include "tests/ui/Tests.h"
#include "ui/layout/BoardItem.h"
#include "ui/layout/LayoutView.h"
#include "ui/layout/LegendStrip.h"
#include "ui/layout/PartsPanel.h"
#include "ui/layout/PlanStrip.h"
#include "ui/layout/RackView.h"
#include "ui/layout/VerdictBar.h"
#include "ui/lumber/LumberView.h"
#include "ui/lumber/QuickEntry.h"
#include "ui/papers/PageColumn.h"
#include "ui/papers/PageScroll.h"
#include "ui/papers/PapersView.h"
#include "ui/session/DocumentSession.h"
#include "ui/session/PlanController.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/Words.h"
#include "ui/window/MainWindow.h"

namespace stavewright::testing_ui {

namespace {

using namespace ui;

constexpr int planTimeout = 60'000; // ms; far more than the counted work takes

QByteArray bytesOf(const QString& path) {
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

class WindowTest : public QObject {
    Q_OBJECT
  private slots:
    void init();
    void cleanup();
    void opensAJobAndDrawsEveryBoard();
    void aFileRefusedAtTheStartIsNamedOverTheSample();
    void pagesFitTheWidthWhenThePlanComesAfterThePlaceWasSeen();
    void aFileThatCannotBeReadKeepsThePresentJob();
    void plansAndTakesThePlanAsOneStep();
    void selectsInListAndDrawing();
    void walksTheBlanksByKeyboard();
    void switchesUnitsThroughAnEdit();
    void savesAndReopensByteForByte();
    void stopsAndKeepsWhileTheWindowAnswers();
    void discardLeavesTheJobAsItWas();
    void offersAPlanComputedForAnOlderState();
    void zoomHoldsTheWoodUnderThePointer();
    void faceBMirrorsTheBoards();
    void aTallyThatIsNotOnTheRackIsNotLostByClosing();
    void asksBeforeUnsavedWorkIsLost();
    void theEmptyRackLeadsToTheLumber();
    void aNewJobGoesOnInTheUnitOfTheOneBefore();
    void theJobIsNamedInTheShop();
    void writingAndPrintingShowThePages();
    void theVerdictLeadsToTheFindings();
    void nothingIsCutOffAtTheFootOfANarrowWindow();
    void theSumOfABlankIsToldDimensionByDimension();

  private:
    void plan();
    BlankId firstBlank() const;
    DocumentSession& session() { return m_window->session(); }
    RackView& rack() { return m_window->layoutPlace().rack(); }
    QTreeView& tree() { return *m_window->layoutPlace().parts().tree(); }

    std::unique_ptr<QTemporaryDir> m_folder;
    QString m_file;
    std::unique_ptr<MainWindow> m_window;
};

void WindowTest::init() {
    QSettings().clear();
    QSettings().setValue("view/appearance", static_cast<int>(Appearance::Light));
    m_folder = std::make_unique<QTemporaryDir>();
    m_file = m_folder->filePath("side-table.stavejob");
    QVERIFY(writeJob(sample::sideTable(), m_file.toStdString()).ok());
    m_window = std::make_unique<MainWindow>();
    m_window->resize(1280, 800);
    QVERIFY(m_window->openFile(m_file));
    m_window->show();
    QVERIFY(QTest::qWaitForWindowExposed(m_window.get()));
    m_window->controller().setOptions(quickOptions());
}

void WindowTest::cleanup() {
    m_window.reset();
    m_folder.reset();
}

void WindowTest::plan() {
    m_window->action(CommandId::Plan)->trigger();
    QVERIFY(m_window->controller().isRunning());
    QTRY_VERIFY_WITH_TIMEOUT(!m_window->controller().isRunning(), planTimeout);
    QVERIFY2(session().document().plan.has_value(), qPrintable(m_window->banner().sentence()));
}

BlankId WindowTest::firstBlank() const {
    for (const BoardItem* item : m_window->layoutPlace().rack().rack().boards()) {
        if (!item->picture().blanks.empty()) {
            return item->picture().blanks.front().id;
        }
    }
    return {};
}

void WindowTest::opensAJobAndDrawsEveryBoard() {
    QCOMPARE(rack().rack().boards().size(), session().document().boards.size());
    QVERIFY(m_window->windowTitle().contains("Side table"));
    QVERIFY(!m_window->isWindowModified());
    for (const Board& board : session().document().boards) {
        const QRectF box = rack().rack().boxOf(board.id);
        QVERIFY(std::abs(box.width() - lengthOf(board).toMillimetres()) < 0.01);
    }
    // Wood is drawn where the board hangs.
    const BoardId second = session().document().boards[1].id;
    const QPoint at = rack().mapFromScene(rack().rack().boxOf(second).center());
    const QImage picture = rack().viewport()->grab().toImage();
    QVERIFY(picture.pixelColor(at) != lightColours().ground);
    QCOMPARE(picture.pixelColor(picture.width() - 2, picture.height() - 2), lightColours().ground);
    m_window->action(CommandId::FitAll)->trigger();
    QCOMPARE(rack().verticalScrollBar()->maximum(), rack().verticalScrollBar()->minimum());
}

void WindowTest::aFileRefusedAtTheStartIsNamedOverTheSample() {
    MainWindow window;
    QVERIFY(!window.openFile("/no/such/place/bench.stavejob"));
    window.show();
    QVERIFY(QTest::qWaitForWindowExposed(&window));
    QVERIFY2(window.banner().sentence().contains("bench.stavejob"),
             qPrintable(window.banner().sentence()));
}

void WindowTest::pagesFitTheWidthWhenThePlanComesAfterThePlaceWasSeen() {
    m_window->action(CommandId::PlacePapers)->trigger();
    auto* papers = m_window->findChild<PapersView*>();
    QVERIFY(!papers->hindrance().isEmpty());
    plan(); // goes to the rack
    m_window->action(CommandId::PlacePapers)->trigger();
    QCoreApplication::processEvents();
    QVERIFY(!papers->pages().empty());
    QVERIFY(papers->scroll().column().width() <= papers->scroll().width());
}

void WindowTest::aFileThatCannotBeReadKeepsThePresentJob() {
    const Document before = session().document();
    QFile bad(m_folder->filePath("bad.stavejob"));
    QVERIFY(bad.open(QIODevice::WriteOnly));
    bad.write("{ \"format\": ");
    bad.close();
    QVERIFY(!m_window->openFile(bad.fileName()));
    QVERIFY(m_window->banner().sentence().contains("bad.stavejob"));
    QVERIFY(session().document() == before);
    QCOMPARE(session().path(), m_file);
}

void WindowTest::plansAndTakesThePlanAsOneStep() {
    const Document before = session().document();
    plan();
    QCOMPARE(session().undoStack().count(), 1);
    QVERIFY(session().auditReport().passed());
    QVERIFY(m_window->verdict().text().contains("Audit clean"));
    const Document after = session().document();
    QVERIFY(after.nextId > largestId(*after.plan));
    m_window->action(CommandId::Undo)->trigger();
    QVERIFY(session().document() == before);
    QVERIFY(m_window->verdict().text().contains("No plan"));
    m_window->action(CommandId::Redo)->trigger();
    QVERIFY(session().document() == after);
}

namespace {

/// The list names every part that a blank gives ("R3, R4"), the drawing the first of them.
bool namesFirst(const QString& listed, const QString& drawn) {
    return listed == drawn || listed.startsWith(drawn + ", ") || listed.startsWith(drawn + " to ");
}

} // namespace

void WindowTest::selectsInListAndDrawing() {
    plan();
    const BlankId blank = firstBlank();
    QVERIFY(blank.isSet());
    QTest::mouseClick(rack().viewport(), Qt::LeftButton, Qt::NoModifier,
                      rack().viewportPointOf(blank));
    QVERIFY(session().selection().blank == blank);
    const QModelIndex shown = tree().currentIndex();
    QVERIFY(shown.isValid());
    const QString mark = shown.siblingAtColumn(0).data().toString();
    for (const BoardItem* item : rack().rack().boards()) {
        for (const BlankPicture& picture : item->picture().blanks) {
            if (picture.id == blank) {
                QVERIFY2(namesFirst(mark, picture.mark), qPrintable(mark));
            }
        }
    }
    // And from the list: the last blank of the last part that has one.
    QModelIndex wanted;
    for (int row = 0; row < tree().model()->rowCount(); ++row) {
        const QModelIndex part = tree().model()->index(row, 0);
        const int children = tree().model()->rowCount(part);
        if (children > 0) {
            wanted = tree().model()->index(children - 1, 0, part);
        }
    }
    QVERIFY(wanted.isValid());
    tree().scrollTo(wanted);
    QTest::mouseClick(tree().viewport(), Qt::LeftButton, Qt::NoModifier,
                      tree().visualRect(wanted).center());
    QVERIFY(session().selection().blank.has_value());
    QVERIFY(session().selection().board.has_value());
    const QString selectedMark = wanted.data().toString();
    bool found = false;
    for (const BoardItem* item : rack().rack().boards()) {
        for (const BlankPicture& picture : item->picture().blanks) {
            if (picture.id == *session().selection().blank) {
                QVERIFY2(namesFirst(selectedMark, picture.mark), qPrintable(selectedMark));
                QVERIFY(item->picture().board.id == *session().selection().board);
                found = true;
            }
        }
    }
    QVERIFY(found);
}

void WindowTest::walksTheBlanksByKeyboard() {
    plan();
    std::size_t all = 0;
    for (const BoardItem* item : rack().rack().boards()) {
        all += item->picture().blanks.size();
    }
    QVERIFY(all > 1);
    rack().setFocus();
    std::vector<BlankId> seen;
    for (std::size_t i = 0; i < all; ++i) {
        QTest::keyClick(&rack(), Qt::Key_Tab);
        QVERIFY(session().selection().blank.has_value());
        seen.push_back(*session().selection().blank);
    }
    std::sort(seen.begin(), seen.end());
    QVERIFY(std::adjacent_find(seen.begin(), seen.end()) == seen.end());
    QTest::keyClick(&rack(), Qt::Key_Escape);
    QVERIFY(session().selection() == Selection{});
}

void WindowTest::switchesUnitsThroughAnEdit() {
    const QString inches = rack().rack().boards().front()->picture().facts;
    m_window->action(CommandId::UnitsMillimetres)->trigger();
    QVERIFY(session().document().info.units == UnitSystem::Millimetres);
    QVERIFY(rack().rack().boards().front()->picture().facts != inches);
    QVERIFY(m_window->isWindowModified());
    m_window->action(CommandId::Undo)->trigger();
    QCOMPARE(rack().rack().boards().front()->picture().facts, inches);
    QVERIFY(m_window->action(CommandId::UnitsInches)->isChecked());
    QVERIFY(!m_window->isWindowModified());
}

void WindowTest::savesAndReopensByteForByte() {
    plan();
    const QString first = m_folder->filePath("first.stavejob");
    QVERIFY(m_window->saveTo(first));
    QVERIFY(!m_window->isWindowModified());
    const Document saved = session().document();
    QVERIFY(m_window->openFile(first));
    QVERIFY(session().document() == saved);
    const QString second = m_folder->filePath("second.stavejob");
    QVERIFY(m_window->saveTo(second));
    QVERIFY(!bytesOf(first).isEmpty());
    QCOMPARE(bytesOf(second), bytesOf(first));
    // A target that cannot be written is said, and the file stays.
    QVERIFY(!m_window->saveTo(m_folder->path() + "/no such folder/job.stavejob"));
    QVERIFY(!m_window->banner().sentence().isEmpty());
    QCOMPARE(session().path(), second);
}

void WindowTest::stopsAndKeepsWhileTheWindowAnswers() {
    PlanOptions options = quickOptions();
    options.work = 0;
    options.seconds = 60;
    m_window->controller().setOptions(options);
    m_window->action(CommandId::Plan)->trigger();
    // While it runs the event loop turns: a timer keeps beating.
    int beats = 0;
    QTimer beat;
    connect(&beat, &QTimer::timeout, [&] { ++beats; });
    beat.start(20);
    QTRY_VERIFY_WITH_TIMEOUT(m_window->controller().preview().has_value() ||
                                 !m_window->controller().isRunning(),
                             planTimeout);
    if (m_window->controller()
            .isRunning()) { // a small job may be proved best before anyone can stop it
        QTest::mouseClick(m_window->layoutPlace().planStrip().stopButton(), Qt::LeftButton);
        QTRY_VERIFY_WITH_TIMEOUT(!m_window->controller().isRunning(), 5000);
    }
    QVERIFY(beats > 0);
    QVERIFY(session().document().plan.has_value());
    QCOMPARE(session().undoStack().count(), 1);
    QVERIFY(session().auditReport().passed());
}

void WindowTest::discardLeavesTheJobAsItWas() {
    const Document before = session().document();
    PlanOptions options = quickOptions();
    options.work = 0;
    options.seconds = 60;
    m_window->controller().setOptions(options);
    m_window->action(CommandId::Plan)->trigger();
    m_window->action(CommandId::DiscardPlanning)->trigger();
    QVERIFY(!m_window->controller().isRunning()); // at once
    QVERIFY(session().document() == before);
    QCOMPARE(session().undoStack().count(), 0);
    m_window->controller().setOptions(quickOptions());
    plan(); // the next run is not disturbed by the one that winds down
}

void WindowTest::offersAPlanComputedForAnOlderState() {
    m_window->action(CommandId::Plan)->trigger();
    Board extra = sample::makeThickBoard();
    extra.id = BoardId{session().document().nextId};
    extra.mark = "3";
    extra.defects.clear();
    EditSequence steps;
    steps.edits = {Edit{InsertBoard{2, extra}}, Edit{SetNextId{extra.id.value + 1}}};
    QVERIFY(session().edit("Add board 3", Edit{steps}));
    QTRY_VERIFY_WITH_TIMEOUT(!m_window->controller().isRunning(), planTimeout);
    QVERIFY(!session().document().plan.has_value());
    QVERIFY2(m_window->controller().hasOffer(), qPrintable(m_window->banner().sentence()));
    QVERIFY(m_window->banner().sentence().contains("older state"));
    m_window->controller().takeOffer();
    QVERIFY(session().document().plan.has_value());
    QVERIFY(session().auditReport().passed());
    QCOMPARE(session().undoStack().count(), 2);
}

void WindowTest::zoomHoldsTheWoodUnderThePointer() {
    // Enough boards that the rack is higher than the view, and the pointer on one in its middle.
    Document tall = sample::sideTable();
    for (int i = 0; i < 14; ++i) {
        Board board = sample::makeThickBoard();
        board.id = BoardId{tall.nextId++};
        board.mark = "B" + std::to_string(i);
        board.defects.clear();
        tall.boards.push_back(board);
    }
    session().adopt(std::move(tall), {});
    const BoardItem* board = rack().rack().boards()[8];
    rack().verticalScrollBar()->setValue(rack().verticalScrollBar()->maximum() / 2);
    const QPoint at = rack().mapFromScene(rack().rack().boxOf(board->picture().board.id).center());
    const auto woodAt = [&](QPoint point) {
        return board->boardToItem().inverted().map(board->mapFromScene(rack().mapToScene(point)));
    };
    const QPointF before = woodAt(at);
    for (int turn = 0; turn < 4; ++turn) {
        QWheelEvent wheel(at, rack().viewport()->mapToGlobal(at), {}, {0, 120}, Qt::NoButton,
                          Qt::NoModifier, Qt::NoScrollPhase, false);
        QApplication::sendEvent(rack().viewport(), &wheel);
    }
    const double onePixel = 2.5 / rack().rack().scale();
    QVERIFY(std::abs(woodAt(at).x() - before.x()) < onePixel);
    QVERIFY(std::abs(woodAt(at).y() - before.y()) < onePixel);
}

void WindowTest::faceBMirrorsTheBoards() {
    const BoardItem* board = rack().rack().boards().front();
    const QTransform faceA = board->boardToItem();
    m_window->action(CommandId::TurnFace)->trigger();
    QVERIFY(rack().face() == BoardFace::B);
    const QTransform faceB = board->boardToItem();
    QCOMPARE(faceB.m22(), -faceA.m22());
    QCOMPARE(faceB.m11(), faceA.m11()); // the datum end stays left
    QCOMPARE(board->boardBox().height(),
             faceA.mapRect(board->picture().outline.boundingRect()).height());
    QVERIFY(m_window->action(CommandId::TurnFace)->isChecked());
}

void WindowTest::aTallyThatIsNotOnTheRackIsNotLostByClosing() {
    auto* lumber = m_window->findChild<LumberView*>();
    lumber->typeTally();
    lumber->quickEntry().paste("Mark\tLength\tWidth\n77\tsoon\t8\n");
    bool asked = false;
    QTimer::singleShot(0, [&asked] {
        if (auto* box = qobject_cast<QMessageBox*>(QApplication::activeModalWidget())) {
            asked = true;
            box->reject();
        }
    });
    QVERIFY(!m_window->close());
    QVERIFY(asked);
    QVERIFY(m_window->isVisible());
    QVERIFY(lumber->quickEntry().isVisible());
    QVERIFY(lumber->quickEntry().holdsRows());
}

void WindowTest::asksBeforeUnsavedWorkIsLost() {
    m_window->action(CommandId::UnitsMillimetres)->trigger();
    QVERIFY(session().isModified());
    bool asked = false;
    const auto answer = [&asked](const QString& button) {
        QTimer::singleShot(0, [&asked, button] {
            auto* box = qobject_cast<QMessageBox*>(QApplication::activeModalWidget());
            if (box == nullptr) {
                return;
            }
            asked = true;
            for (QAbstractButton* candidate : box->buttons()) {
                if (candidate->text() == button) {
                    candidate->click();
                }
            }
        });
    };
    answer("Cancel");
    QVERIFY(!m_window->close());
    QVERIFY(asked);
    QVERIFY(m_window->isVisible());
    asked = false;
    answer("Save");
    QVERIFY(m_window->close());
    QVERIFY(asked);
    const Result<Document> saved = readJob(m_file.toStdString());
    QVERIFY(saved.ok());
    QVERIFY(saved.value().info.units == UnitSystem::Millimetres);
}

void WindowTest::theEmptyRackLeadsToTheLumber() {
    m_window->action(CommandId::NewJob)->trigger();
    auto* button = m_window->findChild<QPushButton*>("layoutEmptyButton");
    QVERIFY(button != nullptr && button->isVisible());
    button->click();
    QVERIFY(m_window->findChild<QWidget*>("lumberPlace")->isVisible());
    QVERIFY(m_window->findChild<QPushButton*>("lumberEmptyButton")->isVisible());
}

void WindowTest::aNewJobGoesOnInTheUnitOfTheOneBefore() {
    for (const UnitSystem units : {UnitSystem::Inches, UnitSystem::Millimetres}) {
        Document before = sample::sideTable();
        before.info.units = units;
        before.info.client = "somebody else";
        session().adopt(before, {});
        m_window->action(CommandId::NewJob)->trigger();
        const Document& begun = session().document();
        QVERIFY(begun.parts.empty() && begun.boards.empty());
        QVERIFY(begun.info.units == units);
        QVERIFY(begun.info.client.empty());
        QVERIFY(begun.shop == (units == UnitSystem::Inches ? inchShop() : metricShop()));
    }
}

void WindowTest::theJobIsNamedInTheShop() {
    const Document before = session().document();
    QAbstractItemModel* facts = m_window->findChild<QTableView*>("jobFacts")->model();
    QVERIFY(facts->setData(facts->index(0, 1), "Bench for the porch", Qt::EditRole));
    QVERIFY(m_window->windowTitle().startsWith("Bench for the porch"));
    QVERIFY(facts->setData(facts->index(3, 1), "1/32", Qt::EditRole));
    QCOMPARE(session().document().info.inchDenominator, 32);
    QVERIFY(!facts->setData(facts->index(3, 1), "1/7", Qt::EditRole));
    m_window->action(CommandId::Undo)->trigger();
    m_window->action(CommandId::Undo)->trigger();
    QVERIFY(session().document() == before);
    QVERIFY(m_window->windowTitle().startsWith("Side table"));
}

void WindowTest::writingAndPrintingShowThePages() {
    QVERIFY(!m_window->action(CommandId::Print)->isEnabled());
    plan();
    for (const CommandId id : {CommandId::ExportPdf, CommandId::Print}) {
        m_window->action(CommandId::PlaceLayout)->trigger();
        bool asked = false;
        QTimer::singleShot(0, [&asked] {
            if (auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget())) {
                asked = true;
                dialog->reject();
            }
        });
        m_window->action(id)->trigger();
        QVERIFY(asked);
        QVERIFY(m_window->findChild<PapersView*>()->isVisible());
    }
}

void WindowTest::theVerdictLeadsToTheFindings() {
    plan();
    Selection selection;
    selection.blank = firstBlank();
    session().select(selection);
    m_window->action(CommandId::PlacePapers)->trigger();
    QVERIFY(!m_window->layoutPlace().isVisible());
    QTest::mouseClick(&m_window->verdict(), Qt::LeftButton, {}, {20, 10});
    QVERIFY(m_window->layoutPlace().isVisible());
    QVERIFY(!session().selection().blank.has_value());
}

void WindowTest::nothingIsCutOffAtTheFootOfANarrowWindow() {
    plan();
    const VerdictBar& bar = m_window->verdict();
    QVERIFY(bar.widthFor(VerdictBar::Wording::Brief) < bar.widthFor(VerdictBar::Wording::Full));
    QVERIFY(bar.widthFor(VerdictBar::Wording::Brief) <= m_window->minimumWidth());
    QCOMPARE(bar.toolTip(), bar.text());
    auto* legend = m_window->findChild<LegendStrip*>();
    legend->resize(1500, 60);
    const int oneRow = legend->sizeHint().height();
    legend->resize(160, 60);
    QVERIFY(legend->sizeHint().height() > oneRow);
}

void WindowTest::theSumOfABlankIsToldDimensionByDimension() {
    plan();
    Selection selection;
    selection.blank = firstBlank();
    session().select(selection);
    int heads = 0;
    const auto labels = m_window->layoutPlace().findChildren<FractionLabel*>();
    for (const FractionLabel* label : labels) {
        heads += label->text() == "is then" ? 1 : 0;
    }
    QCOMPARE(heads, 3); // length, width, thickness, once each
}

} // namespace

std::unique_ptr<QObject> makeWindowTest() { return std::make_unique<WindowTest>(); }

} // namespace stavewright::testing_ui

#include "WindowTest.moc"
