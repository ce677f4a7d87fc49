// The place Shop rack in the real window: wood goes into the job and back by keys, undo takes the
// rack with it, and a job that is left unsaved leaves the rack as it was.

#include <QAction>
#include <QComboBox>
#include <QLineEdit>
#include <QPushButton>
#include <QSettings>
#include <QTableView>
#include <QTemporaryDir>
#include <QTest>

#include <map>
#include <random>

#include "core/job/JobFile.h"
#include "tests/ui/Tests.h"
#include "tests/unit/core/document/SampleDocument.h"
#include "tests/unit/core/panels/HandPanel.h"
#include "ui/session/DocumentSession.h"
#include "ui/shoprack/RackDesk.h"
#include "ui/shoprack/ShopRackView.h"
#include "ui/widgets/Banner.h"
#include "ui/window/MainWindow.h"

namespace stavewright::testing_ui {

namespace {

using namespace ui;
using rack::PieceState;

class ShopRackTest : public QObject {
    Q_OBJECT
  private slots:
    void init();
    void cleanup();
    void aBoardIsTakenAndUndoGivesItBack();
    void aBoardInAnotherJobIsRefused();
    void aWindowThatIsComeBackToShowsTheRackAsItIs();
    void offcutsOfADoneJobGoToTheRack();
    void searchFindsBySizeAndWords();
    void throwingOutCanBeTakenBack();
    void aJobLeftUnsavedLeavesTheRackAsItWas();
    void loansWhileTheJobIsBeingSaved();
    void picturesForLookingAt();

  private:
    [[nodiscard]] ShopRackView& place() const { return *m_window->findChild<ShopRackView*>(); }
    [[nodiscard]] const Document& job() const { return m_window->session().document(); }
    [[nodiscard]] rack::Rack otherProgram() const {
        return rack::Rack::open(m_window->rackDesk().file().toStdString()).value();
    }
    template <class Widget>
    [[nodiscard]] Widget* widget(const char* name) const {
        return place().findChild<Widget*>(name);
    }
    void press(const char* table, int key, Qt::KeyboardModifiers modifiers = {}) {
        auto* view = widget<QTableView>(table);
        view->setFocus();
        QTest::keyClick(view, static_cast<Qt::Key>(key), modifiers);
    }
    void putSomeWoodThere();

    std::unique_ptr<QTemporaryDir> m_folder;
    std::unique_ptr<MainWindow> m_window;
};

void ShopRackTest::putSomeWoodThere() {
    rack::Rack rack = otherProgram();
    Board first = sample::makeThinBoard();
    first.mark = "A";
    Board second = sample::makeThickBoard();
    second.mark = "B";
    Board third = sample::makeThickBoard();
    third.mark = "1"; // as a board of the job is marked
    third.species = "black_cherry";
    QVERIFY(rack.change({rack::PutNew{first}, rack::PutNew{second}, rack::PutNew{third}},
                        {"Winter delivery", 1'772'000'000})
                .ok());
}

void ShopRackTest::init() {
    QSettings().clear();
    m_folder = std::make_unique<QTemporaryDir>();
    RackDesk::rememberFile(m_folder->path() + "/shop/shop.staverack");
    m_window = std::make_unique<MainWindow>();
    m_window->show();
    m_window->activateWindow(); // keys of a place are those of the active window
    QVERIFY(QTest::qWaitForWindowActive(m_window.get()));
    m_window->session().adopt(hand_panel::job(), {});
    QVERIFY(m_window->rackDesk().file().startsWith(m_folder->path()));
    putSomeWoodThere();
    m_window->action(CommandId::PlaceShopRack)->trigger();
    QVERIFY(place().isVisible());
    QCOMPARE(place().shown().size(), std::size_t(3));
}

void ShopRackTest::cleanup() {
    m_window.reset();
    m_folder.reset();
}

void ShopRackTest::aBoardIsTakenAndUndoGivesItBack() {
    const Document before = job();
    // Black cherry comes first; its mark is taken in this job.
    widget<QTableView>("rackPieces")->selectRow(0);
    press("rackPieces", Qt::Key_Return);
    QVERIFY2(job().boards.size() > before.boards.size(),
             qPrintable(place().findChild<Banner*>()->sentence()));
    QCOMPARE(job().boards.size(), before.boards.size() + 1);
    QCOMPARE(job().boards.back().mark, std::string("R3"));
    QVERIFY(place().findChild<Banner*>()->sentence().contains("chalk that on it"));
    QCOMPARE(otherProgram().piece(3).value().state, PieceState::InJob);
    QCOMPARE(place().shown().size(), std::size_t(2));
    const Document after = job();
    m_window->action(CommandId::Undo)->trigger();
    QVERIFY(job() == before);
    QCOMPARE(otherProgram().piece(3).value().state, PieceState::OnRack);
    QCOMPARE(place().shown().size(), std::size_t(3));
    m_window->action(CommandId::Redo)->trigger();
    QVERIFY(job() == after);
    QCOMPARE(otherProgram().piece(3).value().state, PieceState::InJob);
    // And back by hand: whole, because the plan does not cut it.
    auto* boards = widget<QTableView>("rackJobBoards");
    boards->selectRow(static_cast<int>(job().boards.size()) - 1);
    press("rackJobBoards", Qt::Key_Return);
    QCOMPARE(job().boards.size(), before.boards.size());
    QCOMPARE(otherProgram().piece(3).value().state, PieceState::OnRack);
    m_window->action(CommandId::Undo)->trigger();
    QVERIFY(job() == after);
    QCOMPARE(otherProgram().piece(3).value().state, PieceState::InJob);
}

void ShopRackTest::aBoardInAnotherJobIsRefused() {
    widget<QTableView>("rackPieces")->selectRow(1);
    const std::int64_t number = place().shown()[1].number;
    // Another program takes it while the list stands here.
    QVERIFY(otherProgram().change({rack::Take{number}}, {"Hall table", 1'772'000'000}).ok());
    const Document before = job();
    press("rackPieces", Qt::Key_Return);
    QVERIFY(job() == before);
    const QString sentence = place().findChild<Banner*>()->sentence();
    QVERIFY2(sentence.contains("Hall table"), qPrintable(sentence));
    QCOMPARE(m_window->session().undoStack().count(), 0);
    QCOMPARE(place().shown().size(), std::size_t(2)); // and it is listed no more
    // A step that was undone is not made again once another job has the board.
    QVERIFY(otherProgram().change({rack::Release{number}}, {"", 1'772'000'000}).ok());
    QVERIFY(m_window->rackDesk().take({number}));
    m_window->action(CommandId::Undo)->trigger();
    QVERIFY(otherProgram().change({rack::Take{number}}, {"Linen chest", 1'772'000'000}).ok());
    m_window->action(CommandId::Redo)->trigger();
    QVERIFY(job() == before);
    QVERIFY(m_window->banner().sentence().contains("Linen chest"));
    QCOMPARE(m_window->session().undoStack().count(), 0);
}

void ShopRackTest::aWindowThatIsComeBackToShowsTheRackAsItIs() {
    const std::int64_t number = place().shown()[1].number;
    QWidget other;
    other.show();
    other.activateWindow();
    QVERIFY(QTest::qWaitForWindowActive(&other));
    QVERIFY(otherProgram().change({rack::Take{number}}, {"Hall table", 1'772'000'000}).ok());
    QCOMPARE(place().shown().size(), std::size_t(3));
    m_window->activateWindow();
    QVERIFY(QTest::qWaitForWindowActive(m_window.get()));
    QCOMPARE(place().shown().size(), std::size_t(2));
}

void ShopRackTest::offcutsOfADoneJobGoToTheRack() {
    // The hand-made panel with its offcuts marked.
    Document marked = hand_panel::job();
    std::int64_t nextId = marked.nextId;
    markOffcuts(marked, *marked.plan, nextId);
    marked.nextId = nextId;
    marked.plan->totals = totalsOf(marked, *marked.plan).value();
    m_window->session().adopt(marked, {});
    const Document before = job();
    const auto findings = m_window->session().auditReport().failures();
    QVERIFY(widget<QPushButton>("rackReturn")->isEnabled());
    widget<QPushButton>("rackReturn")->click();
    QVERIFY(job().plan->boards[0].locked);
    QVERIFY(job().boards[0].rackLink.has_value());
    QCOMPARE(m_window->session().auditReport().failures(), findings);
    std::size_t offcuts = 0;
    for (const rack::Piece& piece : place().shown()) {
        offcuts += piece.kind == rack::PieceKind::Offcut ? 1U : 0U;
    }
    QVERIFY(offcuts > 0);
    QVERIFY(!widget<QPushButton>("rackReturn")->isEnabled());
    m_window->action(CommandId::Undo)->trigger();
    QVERIFY(job() == before);
    QCOMPARE(place().shown().size(), std::size_t(3));
    m_window->action(CommandId::Redo)->trigger();
    QCOMPARE(place().shown().size(), 3 + offcuts);
}

void ShopRackTest::searchFindsBySizeAndWords() {
    auto* text = widget<QLineEdit>("rackText");
    QTest::keyClick(&place(), Qt::Key_F, Qt::ControlModifier);
    QVERIFY(text->hasFocus());
    QTest::keyClicks(text, "cherry");
    QCOMPARE(place().shown().size(), std::size_t(1));
    QTest::keyClick(text, Qt::Key_Return); // to the list
    QVERIFY(widget<QTableView>("rackPieces")->hasFocus());
    text->clear();
    widget<QLineEdit>("rackLength")->setText("90");
    QCOMPARE(place().shown().size(), std::size_t(1)); // the 8 ft board
    widget<QLineEdit>("rackLength")->setText("ninety");
    QVERIFY(place().shown().size() > 0); // what cannot be read does not count, and is said
    widget<QLineEdit>("rackLength")->clear();
    auto* quarter = widget<QComboBox>("rackQuarter");
    quarter->setCurrentIndex(quarter->findText("8/4"));
    QCOMPARE(place().shown().size(), std::size_t(2));
}

void ShopRackTest::throwingOutCanBeTakenBack() {
    widget<QTableView>("rackPieces")->selectRow(0);
    press("rackPieces", Qt::Key_Delete);
    QCOMPARE(place().shown().size(), std::size_t(2));
    QVERIFY(m_window->rackDesk().takeBackLast());
    QCOMPARE(place().shown().size(), std::size_t(3));
}

void ShopRackTest::aJobLeftUnsavedLeavesTheRackAsItWas() {
    QVERIFY(m_window->rackDesk().take({1}));
    QVERIFY(m_window->saveTo(m_folder->path() + "/job.stavejob"));
    QVERIFY(m_window->rackDesk().take({2}));
    m_window->session().adopt(hand_panel::job(), {});                   // the job is left
    QCOMPARE(otherProgram().piece(1).value().state, PieceState::InJob); // it stands in the file
    QCOMPARE(otherProgram().piece(2).value().state, PieceState::OnRack);
    QVERIFY(m_window->openFile(m_folder->path() + "/job.stavejob"));
    QCOMPARE(job().boards.back().rackLink->piece, std::int64_t(1));
    QVERIFY(m_window->rackDesk().putOnRack({job().boards.back().id}));
    QCOMPARE(otherProgram().piece(1).value().state, PieceState::OnRack);
}

/// Wood is taken, edited, put back, undone and done again at any moment of a saving; then the job
/// is left. Each piece is either in the job that the file holds or on the rack, and once.
void ShopRackTest::loansWhileTheJobIsBeingSaved() {
    std::mt19937 random(7);
    const QString path = m_folder->path() + "/job.stavejob";
    DocumentSession& session = m_window->session();
    int saves = 0;
    int inFiles = 0;
    for (int round = 0; round < 16; ++round) {
        QFile::remove(path);
        session.adopt(hand_panel::job(), path);
        QString did;
        for (int step = 0; step < 12; ++step) {
            const std::vector<rack::Piece> there = m_window->rackDesk().find({});
            std::vector<Board> lent = job().boards;
            std::erase_if(lent, [](const Board& board) { return !board.rackLink; });
            switch (random() % 7) {
            case 0:
            case 1:
                if (!there.empty()) {
                    const std::int64_t number = there[random() % there.size()].number;
                    QVERIFY(m_window->rackDesk().take({number}));
                    did += "take " + QString::number(number) + "; ";
                }
                break;
            case 2:
                if (!lent.empty()) {
                    QVERIFY(m_window->rackDesk().putOnRack({lent[random() % lent.size()].id}));
                    did += "put back; ";
                }
                break;
            case 3:
                if (!lent.empty()) {
                    Board edited = lent[random() % lent.size()];
                    edited.moistureTenths = 60 + static_cast<int>(random() % 40);
                    QVERIFY(session.edit("Moisture", {ReplaceBoard{edited}}));
                    did += "edit; ";
                }
                break;
            case 4:
                session.undoStack().undo();
                did += "undo; ";
                break;
            case 5:
                session.undoStack().redo();
                did += "redo; ";
                break;
            default:
                m_window->action(CommandId::SaveJob)->trigger(); // goes on in the background
                ++saves;
                did += "save; ";
            }
            if (random() % 3 == 0) {
                QTest::qWait(static_cast<int>(random() % 4));
                did += "wait; ";
            }
        }
        // Another job is opened, perhaps while the file is still being written.
        session.adopt(hand_panel::job(), {});
        std::map<std::int64_t, int> inFile;
        if (QFile::exists(path)) {
            const Result<Document> read = readJob(path.toStdString());
            QVERIFY(read.ok());
            for (const Board& board : read.value().boards) {
                if (board.rackLink) {
                    ++inFile[board.rackLink->piece];
                    ++inFiles;
                    const rack::Piece piece = otherProgram().piece(board.rackLink->piece).value();
                    QVERIFY2(piece.state == PieceState::InJob, qPrintable(did));
                    QVERIFY2(piece.loan == board.rackLink->loan, qPrintable(did));
                }
            }
        }
        for (const std::int64_t number : {1, 2, 3}) {
            const rack::Piece piece = otherProgram().piece(number).value();
            QVERIFY2(inFile[number] == (piece.state == PieceState::InJob ? 1 : 0), qPrintable(did));
            if (piece.state == PieceState::InJob) { // for the next round
                QVERIFY(otherProgram().change({rack::Release{number}}, {"", 1}).ok());
            }
        }
    }
    QVERIFY(saves > 10);
    QVERIFY(inFiles > 5);
}

/// Set STAVEWRIGHT_PICTURES to a folder to get them.
void ShopRackTest::picturesForLookingAt() {
    const QString folder = qEnvironmentVariable("STAVEWRIGHT_PICTURES");
    if (folder.isEmpty()) {
        QSKIP("no folder for pictures was given");
    }
    m_window->resize(1280, 800);
    Document marked = hand_panel::job();
    std::int64_t nextId = marked.nextId;
    markOffcuts(marked, *marked.plan, nextId);
    marked.nextId = nextId;
    m_window->session().adopt(marked, {});
    widget<QPushButton>("rackReturn")->click();
    widget<QTableView>("rackPieces")->selectRow(1);
    QTest::qWait(50);
    m_window->grab().save(folder + "/shoprack-light.png");
    m_window->action(CommandId::AppearanceDark)->trigger();
    QTest::qWait(50);
    m_window->grab().save(folder + "/shoprack-dark.png");
    m_window->action(CommandId::AppearanceLight)->trigger();
}

} // namespace

std::unique_ptr<QObject> makeShopRackTest() { return std::make_unique<ShopRackTest>(); }

} // namespace stavewright::testing_ui

#include "ShopRackTest.moc"
