// Ten days at the bench through the real window, each of several steps: a believable override or
// mishap and what the maker does about it. Each day ends in an audited plan; then every step is
// undone in turn and done again, and the document as saved is the same to the byte each time.

#include <QComboBox>
#include <QLineEdit>
#include <QListView>
#include <QPushButton>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>

#include "core/hand/HandEdits.h"
#include "core/hand/SafeWindow.h"
#include "core/job/JobFile.h"
#include "tests/tools/BlanksOf.h"
#include "tests/tools/samples/Samples.h"
#include "tests/ui/TestJobs.h"
#include "tests/ui/Tests.h"
#include "ui/layout/LayoutView.h"
#include "ui/layout/PartsPanel.h"
#include "ui/layout/RackView.h"
#include "ui/midjob/ShopDialog.h"
#include "ui/midjob/ShopEvents.h"
#include "ui/session/DocumentSession.h"
#include "ui/session/PlanController.h"
#include "ui/widgets/LengthEdit.h"
#include "ui/widgets/Theme.h"
#include "ui/window/MainWindow.h"

namespace stavewright::testing_ui {

namespace {

using namespace ui;

constexpr int planTimeout = 60'000; // ms; far more than the counted work takes

class MakerDaysTest : public QObject {
    Q_OBJECT
  private slots:
    void init();
    void cleanup();
    void aBlankIsMovedLockedAndTheRestPlannedAnew();
    void aBoardStaysWhole();
    void theFirstCutLandsOffAndTheNextAreOnTheirMarks();
    void aKnotComesUpUnderThePlaner();
    void aCutBlankIsDropped();
    void aBoardIsRejectedAndTheRestKeepsItsPlaces();
    void aBoardIsKeptForAPart();
    void aCheckIsCutOffAndTheBoardHasMoved();
    void aBlankIsTurnedAndItsCutMoved();
    void aSectionIsLockedAndABlankComesBackFromTheTray();

  private:
    DocumentSession& session() { return m_window->session(); }
    PlanController& controller() { return m_window->controller(); }
    const Document& document() { return session().document(); }
    RackView& rack() { return m_window->layoutPlace().rack(); }
    ShopEvents& shop() { return m_window->layoutPlace().shop(); }
    std::vector<BlankId> blanks() { return plan_tools::blanksOf(*document().plan); }
    BoardId boardAt(std::size_t i) { return document().plan->boards[i].board; }
    BlankId firstBlankOf(BoardId board);
    void key(int key, Qt::KeyboardModifiers with = Qt::NoModifier);
    void selectBoard(BoardId id);
    void selectBlank(BlankId id);
    void command(CommandId id) { m_window->action(id)->trigger(); }
    ShopDialog* dialog() { return m_window->findChildren<ShopDialog*>().last(); }
    static void type(ShopDialog* dialog, const QString& field, Length length);
    static void take(ShopDialog* dialog, const QString& why = {});
    void planRest(CommandId how);
    /// What was just done is one undo step and has changed something.
    void did();
    /// All steps of the day undone and done again; the plan at its end is audited.
    void endDay();

    std::vector<std::string> m_saved; ///< the document after each step, as saved
    std::unique_ptr<QTemporaryDir> m_folder;
    std::unique_ptr<MainWindow> m_window;
    static Document s_job; ///< planned once
};

Document MakerDaysTest::s_job;

void MakerDaysTest::init() {
    if (s_job.boards.empty()) {
        s_job = samples::kitchenTable();
        Result<PlanOutcome> outcome =
            planJob(s_job, {.seed = 2, .seconds = 0, .work = 300, .threads = 1});
        QVERIFY(outcome.ok());
        s_job.plan = outcome.value().plan;
        s_job.nextId = std::max(s_job.nextId, largestId(*s_job.plan) + 1);
        QVERIFY(audit(s_job).passed());
    }
    QSettings().clear();
    QSettings().setValue("view/appearance", static_cast<int>(Appearance::Light));
    m_folder = std::make_unique<QTemporaryDir>();
    const QString file = m_folder->filePath("kitchen-table.stavejob");
    QVERIFY(writeJob(s_job, file.toStdString()).ok());
    m_window = std::make_unique<MainWindow>();
    m_window->resize(1280, 800);
    QVERIFY(m_window->openFile(file));
    m_window->show();
    QVERIFY(QTest::qWaitForWindowExposed(m_window.get()));
    controller().setOptions(quickOptions());
    command(CommandId::PlaceLayout);
    m_saved = {toJson(document())};
}

void MakerDaysTest::cleanup() {
    m_window.reset();
    m_folder.reset();
}

BlankId MakerDaysTest::firstBlankOf(BoardId board) {
    Plan only;
    only.boards = {*hand::layoutOf(*document().plan, board)};
    return plan_tools::blanksOf(only).front();
}

void MakerDaysTest::key(int key, Qt::KeyboardModifiers with) {
    QTest::keyClick(&rack(), static_cast<Qt::Key>(key), with);
}

void MakerDaysTest::selectBoard(BoardId id) {
    Selection selection;
    selection.board = id;
    session().select(selection);
}

void MakerDaysTest::selectBlank(BlankId id) {
    Selection selection;
    selection.blank = id;
    session().select(selection);
}

void MakerDaysTest::type(ShopDialog* dialog, const QString& field, Length length) {
    auto* edit = dialog->findChild<LengthEdit*>(field);
    QVERIFY(edit != nullptr);
    edit->field()->setFocus();
    edit->field()->selectAll();
    QTest::keyClicks(edit->field(), QString::number(length.toInches(), 'f', 4) + "\"");
}

void MakerDaysTest::take(ShopDialog* dialog, const QString& why) {
    if (!why.isEmpty()) {
        dialog->findChild<QLineEdit*>("why")->setText(why);
    }
    auto* button = dialog->findChild<QPushButton*>("takeButton");
    QTRY_VERIFY(button->isEnabled());
    QTest::mouseClick(button, Qt::LeftButton);
}

void MakerDaysTest::planRest(CommandId how) {
    const Document before = document();
    command(how);
    QTRY_VERIFY_WITH_TIMEOUT(!controller().isRunning(), planTimeout);
    QVERIFY(document() == before); // only shown
    if (controller().rest()) {     // nothing better may be found
        controller().takeRest();
    }
}

void MakerDaysTest::did() {
    QCOMPARE(session().undoStack().count(), static_cast<int>(m_saved.size()));
    m_saved.push_back(toJson(document()));
    QVERIFY(m_saved.back() != m_saved[m_saved.size() - 2]);
}

void MakerDaysTest::endDay() {
    QVERIFY(m_saved.size() > 2);
    QVERIFY2(session().auditReport().passed(),
             session().auditReport().findings.empty()
                 ? ""
                 : session().auditReport().findings.front().sentence.c_str());
    for (std::size_t step = m_saved.size() - 1; step > 0; --step) {
        command(CommandId::Undo);
        QVERIFY2(toJson(document()) == m_saved[step - 1], "undone, it is another document");
    }
    QVERIFY(document() == s_job);
    for (std::size_t step = 1; step < m_saved.size(); ++step) {
        command(CommandId::Redo);
        QVERIFY2(toJson(document()) == m_saved[step], "done again, it is another document");
    }
    QVERIFY(session().auditReport().passed());
}

void MakerDaysTest::aBlankIsMovedLockedAndTheRestPlannedAnew() {
    for (const BlankId id : blanks()) {
        selectBlank(id);
        key(Qt::Key_M);
        key(Qt::Key_PageDown);
        if (rack().hand().isHolding() && !rack().hand().held()->isLegal) {
            key(Qt::Key_N); // here or on the next board that has a place
        }
        const bool isGood = rack().hand().isHolding() && rack().hand().held()->isLegal &&
                            rack().hand().held()->laying.board !=
                                boardAt(hand::placeOf(*document().plan, id)->board);
        key(isGood ? Qt::Key_Return : Qt::Key_Escape);
        if (!isGood) {
            continue;
        }
        did();
        selectBlank(id);
        key(Qt::Key_K);
        did();
        const auto lies = [&] {
            return hand::blankAt(*document().plan, *hand::placeOf(*document().plan, id));
        };
        const Blank locked = lies();
        planRest(CommandId::PlanRestAnew);
        did();
        QVERIFY(lies() == locked);
        endDay();
        return;
    }
    QFAIL("no blank of the sample has a place on another board");
}

void MakerDaysTest::aBoardStaysWhole() {
    const BoardId board = boardAt(document().plan->boards.size() - 1);
    const Result<Edit> whole = hand::keepWhole(document(), board, true);
    QVERIFY(whole.ok());
    QVERIFY(session().edit("Keep a board whole", whole.value()));
    did();
    QVERIFY(!document().plan->unplaced.empty());
    planRest(CommandId::PlanRestKeeping);
    did();
    QVERIFY(document().plan->unplaced.empty());
    QVERIFY(hand::layoutOf(*document().plan, board) == nullptr);
    endDay();
}

void MakerDaysTest::theFirstCutLandsOffAndTheNextAreOnTheirMarks() {
    const BoardId board = boardAt(0);
    selectBoard(board);
    const hand::CutRef first = hand::cutsOn(document(), board).front();
    const auto window = hand::SafeWindows(document()).windowOf(board, first);
    QVERIFY(window);
    command(CommandId::CutMade);
    type(dialog(), "where", window->window.to);
    take(dialog(), "the stop slipped");
    did();
    for (int cut = 0; cut < 3 && !hand::cutsOn(document(), board).empty(); ++cut) {
        selectBoard(board);
        command(CommandId::CutMade);
        take(dialog());
        did();
    }
    selectBoard(board);
    command(CommandId::AllCutsMade);
    take(dialog());
    did();
    QVERIFY(hand::cutsOn(document(), board).empty());
    QVERIFY(document().plan->unplaced.empty());
    endDay();
}

void MakerDaysTest::aKnotComesUpUnderThePlaner() {
    const BoardId board = boardAt(1);
    selectBoard(board);
    command(CommandId::AllCutsMade);
    take(dialog());
    did();
    const BlankId blank = firstBlankOf(board);
    selectBlank(blank);
    const Rect wood = hand::blankAt(*document().plan, *hand::placeOf(*document().plan, blank)).rect;
    command(CommandId::KnotFound);
    dialog()->findChild<QComboBox*>("kind")->setCurrentIndex(
        static_cast<int>(DefectKind::KnotHole));
    type(dialog(), "along", wood.length() / 4);
    type(dialog(), "across", wood.width() / 4);
    type(dialog(), "length", wood.length() / 2);
    type(dialog(), "width", wood.width() / 2);
    take(dialog(), "under the planer");
    did();
    QVERIFY(document().log.back().what.find("Lost") != std::string::npos);
    planRest(CommandId::PlanRestKeeping);
    if (session().undoStack().count() == static_cast<int>(m_saved.size())) {
        did(); // it was worth something
    }
    endDay();
}

void MakerDaysTest::aCutBlankIsDropped() {
    const BoardId board = boardAt(0);
    const BlankId blank = firstBlankOf(board);
    selectBlank(blank);
    command(CommandId::NextState);
    did();
    selectBlank(blank);
    command(CommandId::NextState);
    did();
    selectBlank(blank);
    command(CommandId::BlankSpoiled);
    take(dialog(), "dropped on its end");
    did();
    QVERIFY(!hand::placeOf(*document().plan, blank));
    endDay();
}

void MakerDaysTest::aBoardIsRejectedAndTheRestKeepsItsPlaces() {
    const BoardId board = boardAt(2);
    selectBoard(board);
    command(CommandId::BoardRejected);
    take(dialog(), "it smells of mould");
    did();
    QVERIFY(hand::layoutOf(*document().plan, board) == nullptr);
    planRest(CommandId::PlanRestAnew);
    did();
    QVERIFY(hand::layoutOf(*document().plan, board) == nullptr);
    endDay();
}

void MakerDaysTest::aBoardIsKeptForAPart() {
    const BoardId board = boardAt(document().plan->boards.size() - 1);
    shop().keepBoard(board);
    type(dialog(), "from", Length());
    take(dialog());
    did();
    planRest(CommandId::PlanRestAnew);
    did();
    const PartId part = document().boardRules.front().part;
    if (const BoardLayout* layout = hand::layoutOf(*document().plan, board)) {
        Plan only;
        only.boards = {*layout};
        for (const BlankId id : plan_tools::blanksOf(only)) {
            QVERIFY(hand::blankAt(only, *hand::placeOf(only, id)).purpose.part == part);
        }
    }
    endDay();
}

void MakerDaysTest::aCheckIsCutOffAndTheBoardHasMoved() {
    const BoardId board = boardAt(0);
    selectBoard(board);
    command(CommandId::FreshEnd);
    type(dialog(), "where", Length::inches(4));
    take(dialog(), "a check ran on");
    did();
    selectBoard(board);
    command(CommandId::WarpAgain);
    type(dialog(), "bow", Length::inches(1, 4));
    take(dialog());
    did();
    QCOMPARE(findBoard(document(), board)->warp.bow, Length::inches(1, 4));
    planRest(CommandId::PlanRestKeeping);
    if (session().undoStack().count() == static_cast<int>(m_saved.size())) {
        did();
    }
    endDay();
}

void MakerDaysTest::aBlankIsTurnedAndItsCutMoved() {
    const auto turned = [&](BlankId id) {
        selectBlank(id);
        key(Qt::Key_E);
        const bool isDone = !rack().hand().isHolding(); // else it is not legal that way
        key(Qt::Key_Escape);
        return isDone;
    };
    const std::vector<BlankId> all = blanks();
    QVERIFY(std::any_of(all.begin(), all.end(), turned));
    did();
    const auto moved = [&](BlankId id, int way) {
        selectBlank(id);
        key(Qt::Key_C);
        if (!rack().cuts().isHolding()) {
            return false;
        }
        key(way);
        const bool isLegal = rack().cuts().held()->isLegal;
        key(isLegal ? Qt::Key_Return : Qt::Key_Escape);
        return isLegal;
    };
    QVERIFY(std::any_of(all.begin(), all.end(), [&](BlankId id) {
        return moved(id, Qt::Key_Right) || moved(id, Qt::Key_Left);
    }));
    did();
    endDay();
}

void MakerDaysTest::aSectionIsLockedAndABlankComesBackFromTheTray() {
    const Section section = document().plan->boards.front().sections.front();
    const Result<Edit> lock = hand::setLocked(document(), section.id, true);
    QVERIFY(lock.ok());
    QVERIFY(session().edit("Lock a section", lock.value()));
    did();
    const Section locked = document().plan->boards.front().sections.front();
    const BlankId blank = blanks().back();
    selectBlank(blank);
    key(Qt::Key_Delete);
    did();
    QListView* tray = m_window->layoutPlace().parts().tray();
    emit tray->activated(tray->model()->index(0, 0));
    QVERIFY(rack().hand().isHolding());
    if (!rack().hand().held()->isLegal) {
        key(Qt::Key_N);
    }
    QVERIFY(rack().hand().held()->isLegal);
    key(Qt::Key_Return);
    did();
    planRest(CommandId::PlanRestAnew);
    did();
    QVERIFY(document().plan->boards.front().sections.front() == locked);
    endDay();
}

} // namespace

std::unique_ptr<QObject> makeMakerDaysTest() { return std::make_unique<MakerDaysTest>(); }

} // namespace stavewright::testing_ui

#include "MakerDaysTest.moc"
