// Eleven days at the bench through the real window, each of several steps: a believable override or
// mishap and what the maker does about it. Each day ends in an audited plan; then every step is
// undone in turn and done again, and the document as saved is the same to the byte each time.

#include <QComboBox>
#include <QListView>
#include <QTest>

#include <algorithm>
#include <map>

#include "core/hand/PlanTree.h"
#include "core/hand/SafeWindow.h"
#include "core/job/JobFile.h"
#include "tests/tools/samples/Samples.h"
#include "tests/ui/PlannedWindow.h"
#include "tests/ui/Tests.h"
#include "ui/layout/PartsPanel.h"

namespace stavewright::testing_ui {

namespace {

using namespace ui;

class MakerDaysTest : public PlannedWindow {
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
    void aPartIsKeptOffABoardAndTheRestKeepsItsPlaces();
    void aCheckIsCutOffAndTheBoardHasMoved();
    void aBlankIsTurnedAndItsCutMoved();
    void aSectionIsLockedAndABlankComesBackFromTheTray();

  private:
    void planRest(CommandId how);
    void didIfPlanned();
    /// What was just done is one undo step and has changed something.
    void did();
    /// All steps of the day undone and done again; the plan at its end is audited.
    void endDay();

    std::vector<std::string> m_saved; ///< the document after each step, as saved
};

void MakerDaysTest::init() {
    open({samples::kitchenTable, 2, 300});
    m_saved = {toJson(document())};
}

void MakerDaysTest::cleanup() { close(); }

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

/// Where nothing better is found everything stays, without a step.
void MakerDaysTest::didIfPlanned() {
    if (session().undoStack().count() == static_cast<int>(m_saved.size())) {
        did();
    }
}

void MakerDaysTest::endDay() {
    QVERIFY(m_saved.size() > 1);
    expectAudited();
    for (std::size_t step = m_saved.size() - 1; step > 0; --step) {
        command(CommandId::Undo);
        QVERIFY2(toJson(document()) == m_saved[step - 1], "undone, it is another document");
    }
    QVERIFY(document() == opened());
    for (std::size_t step = 1; step < m_saved.size(); ++step) {
        command(CommandId::Redo);
        QVERIFY2(toJson(document()) == m_saved[step], "done again, it is another document");
    }
    expectAudited();
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
        const Blank locked = blankOf(id);
        planRest(CommandId::PlanRestAgain);
        didIfPlanned();
        QVERIFY(blankOf(id) == locked);
        endDay();
        return;
    }
    QFAIL("no blank of the sample has a place on another board");
}

void MakerDaysTest::aBoardStaysWhole() {
    const BoardId board = boardAt(document().plan->boards.size() - 1);
    selectBoard(board);
    clickLink("Set it aside: nothing is cut from it");
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
    const BlankId blank = blanksOn(board).front();
    selectBlank(blank);
    const Rect wood = blankOf(blank).rect;
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
    const BlankId blank = blanksOn(board).front();
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
    planRest(CommandId::PlanRestAgain);
    didIfPlanned();
    QVERIFY(hand::layoutOf(*document().plan, board) == nullptr);
    endDay();
}

void MakerDaysTest::aBoardIsKeptForAPart() {
    const BoardId board = boardAt(document().plan->boards.size() - 1);
    selectBoard(board);
    clickLink("Keep it for a part, or a part off it...");
    type(dialog(), "from", Length());
    take(dialog());
    did();
    planRest(CommandId::PlanRestAgain);
    didIfPlanned();
    QCOMPARE(document().boardRules.size(), std::size_t{1});
    const PartId part = document().boardRules.front().part;
    for (const BlankId id : blanksOn(board)) {
        QVERIFY(blankOf(id).purpose.part == part);
    }
    endDay();
}

void MakerDaysTest::aPartIsKeptOffABoardAndTheRestKeepsItsPlaces() {
    const BoardId board = boardAt(0);
    const PartId part = blankOf(blanksOn(board).front()).purpose.part;
    const std::vector<Part>& parts = document().parts;
    const auto at =
        std::find_if(parts.begin(), parts.end(), [&](const Part& each) { return each.id == part; });
    selectBoard(board);
    clickLink("Keep it for a part, or a part off it...");
    dialog()->findChild<QComboBox*>("kind")->setCurrentIndex(1);
    dialog()->findChild<QComboBox*>("part")->setCurrentIndex(static_cast<int>(at - parts.begin()));
    take(dialog());
    did();
    QVERIFY(!session().auditReport().passed()); // blanks of it lie there
    std::map<BlankId, Blank> elsewhere;
    for (const BlankId id : blanks()) {
        if (boardAt(hand::placeOf(*document().plan, id)->board) != board) {
            elsewhere.emplace(id, blankOf(id));
        }
    }
    planRest(CommandId::PlanRestKeeping);
    did();
    QVERIFY(document().plan->unplaced.empty());
    for (const BlankId id : blanksOn(board)) {
        QVERIFY(blankOf(id).purpose.part != part);
    }
    const std::vector<BlankId> now = blanks();
    const auto stays = std::count_if(elsewhere.begin(), elsewhere.end(), [&](const auto& each) {
        return std::find(now.begin(), now.end(), each.first) != now.end() &&
               blankOf(each.first).rect == each.second.rect;
    });
    QVERIFY(stays > 0);
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
    didIfPlanned();
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
    selectBlank(blanksOn(boardAt(0)).front());
    clickLink("Lock its section");
    did();
    QVERIFY(document().plan->boards.front().sections.front().locked);
    const Section locked = document().plan->boards.front().sections.front();
    const BlankId blank = blanks().back();
    selectBlank(blank);
    key(Qt::Key_Delete);
    did();
    QListView* tray = window().layoutPlace().parts().tray();
    emit tray->activated(tray->model()->index(0, 0));
    QVERIFY(rack().hand().isHolding());
    if (!rack().hand().held()->isLegal) {
        key(Qt::Key_N);
    }
    QVERIFY(rack().hand().held()->isLegal);
    key(Qt::Key_Return);
    did();
    planRest(CommandId::PlanRestAgain);
    didIfPlanned();
    QVERIFY(document().plan->boards.front().sections.front() == locked);
    endDay();
}

} // namespace

std::unique_ptr<QObject> makeMakerDaysTest() { return std::make_unique<MakerDaysTest>(); }

} // namespace stavewright::testing_ui

#include "MakerDaysTest.moc"
