// Sessions at the bench through the real window: each a believable mishap or override, ended in an
// audited plan, each step undone and done again to the identical document.

#include <QCheckBox>
#include <QComboBox>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QTableWidget>
#include <QTest>
#include <QTreeView>

#include "core/hand/Drag.h"
#include "core/hand/HandEdits.h"
#include "core/hand/PlanTree.h"
#include "core/midjob/MadeCuts.h"
#include "tests/tools/BlanksOf.h"
#include "tests/tools/samples/Samples.h"
#include "tests/ui/PlannedWindow.h"
#include "tests/ui/TestJobs.h"
#include "tests/ui/Tests.h"

#include "ui/layout/PartsPanel.h"
#include "ui/layout/RestPanel.h"
#include "ui/session/PlanController.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/LengthEdit.h"

namespace stavewright::testing_ui {

namespace {

using namespace ui;

PlanController::BestKnown asKnown(const Plan& plan) {
    return {plan.totals.cost, plan.totals.lumberUsed};
}

class ShopTest : public PlannedWindow {
    Q_OBJECT
  private slots:
    void init();
    void cleanup();
    void aCutLandsOff();
    void whatCannotBeReadIsNotTaken();
    void aCutBeyondItsWindowSaysWhatIsLost();
    void theBestThatWasKnownComesBackWithUndo();
    void fieldsStayWhereTheyAreWhileTyping();
    void theListOfPartsStaysWhereItIsScrolled();
    void theSidePanelStaysWhereItIsScrolled();
    void aFreshEndIsTakenOff();
    void aFreshEndBeginsWhereTheEndIsOff();
    void aKnotComesUpInAMilledBlank();
    void aKnotIsFoundOnABoard();
    void aKnotInALockedBlankNamesTheLock();
    void aBlankIsDropped();
    void aBoardIsRejected();
    void warpIsMeasuredAgain();
    void aBlankGoesThroughItsStates();
    void theRestIsPlannedKeepingPlaces();
    void aRestThatKeepsItsPlacesIsSaid();
    void aRestThatIsNoBetterIsNotOffered();
    void handWorkPutsAPlanAwayThatIsOnlyShown();
    void handWorkGoesOnBesideASearch();
    void theRestIsPlannedAnewAndLeft();
    void editingGoesOnWhileTheRestIsPlanned();
    void aBoardIsKeptForAPart();
    void aSectionIsLockedAndStays();
    void aCutIsMovedByItsReading();
    void aBadReadingIsRefusedInTheDialog();

  private:
    BoardId firstBoard() { return boardAt(0); }
    BlankId firstBlank() { return blanksOn(firstBoard()).front(); }
    /// Some blank, by hand, onto a board that the plan leaves.
    void moveToAFreshBoard();

    QStringList m_told;
};

void ShopTest::init() {
    open({samples::kitchenTable, 1, 300});
    m_told.clear();
    connect(&shop(), &ShopEvents::told, this,
            [this](const QString& sentence) { m_told << sentence; });
}

void ShopTest::cleanup() { close(); }

void ShopTest::moveToAFreshBoard() {
    for (const BlankId id : blanks()) {
        const Result<hand::Drag> drag = hand::Drag::lift(document(), id);
        for (const Board& board : document().boards) {
            if (!drag || hand::layoutOf(*document().plan, board.id)) {
                continue;
            }
            const auto place =
                drag.value().nearest(board.id, {Length::inches(2), Length::inches(1)}, {});
            const Result<Edit> edit = place ? drag.value().drop(*place)
                                            : Result<Edit>(Error{ErrorCode::BadInput, "", {}});
            if (edit && session().edit("Move it", edit.value())) {
                expectAudited();
                return;
            }
        }
    }
    QFAIL("no blank of the sample finds a place on another board");
}

void ShopTest::aCutLandsOff() {
    selectBoard(firstBoard());
    const Document before = document();
    const hand::SafeWindows windows(document());
    const hand::CutRef cut = hand::cutsOn(document(), firstBoard()).front();
    const auto window = windows.windowOf(firstBoard(), cut);
    QVERIFY(window);
    command(CommandId::CutMade);
    ShopDialog* shown = dialog();
    QVERIFY(shown != nullptr);
    type(shown, "where", QString::number(window->window.to.toInches(), 'f', 4) + "\"");
    shown->findChild<QLineEdit*>("why")->setText("the stop slipped");
    take(shown);
    expectOneStep(before, 0);
    QCOMPARE(document().log.back().why, std::string("the stop slipped"));
    QCOMPARE(m_told.size(), 1);
    QVERIFY(!m_told.front().contains("Lost"));
    const std::vector<hand::CutRef> left = hand::cutsOn(document(), firstBoard());
    QVERIFY(std::find(left.begin(), left.end(), cut) == left.end());
}

void ShopTest::whatCannotBeReadIsNotTaken() {
    const Document before = document();
    shop().cutMade(firstBoard(), hand::cutsOn(before, firstBoard()).front());
    ShopDialog* shown = dialog();
    QVERIFY(shown != nullptr);
    auto* button = shown->findChild<QPushButton*>("takeButton");
    QTRY_VERIFY(button->isEnabled());
    type(shown, "where", QString("abc"));
    QTRY_VERIFY(!button->isEnabled());
    QTest::keyClick(shown->findChild<LengthEdit*>("where")->field(), Qt::Key_Return);
    QTest::qWait(300); // longer than the dialog waits before it works things out
    QVERIFY(shown->isVisible());
    QVERIFY(!button->isEnabled());
    QCOMPARE(document(), before);
    type(shown, "where", Length::inches(1)); // whatever stood there before, it can be read again
    QTRY_VERIFY(button->isEnabled());
    shown->reject();
}

void ShopTest::aCutBeyondItsWindowSaysWhatIsLost() {
    const Document before = document();
    const hand::SafeWindows windows(before);
    for (const BoardLayout& layout : before.plan->boards) {
        for (const hand::CutWindow& window : windows.onBoard(layout.board)) {
            if (window.openBelow || window.lostBelow.empty() || window.cut.strip) {
                continue;
            }
            shop().cutMade(layout.board, window.cut);
            ShopDialog* shown = dialog();
            QVERIFY(shown != nullptr);
            type(shown, "where",
                 QString::number((window.window.from - Length::inches(1, 16)).toInches(), 'f', 4) +
                     "\"");
            // Whatever it says later, nothing in it is squeezed.
            auto* asides = shown->findChild<QLineEdit*>("why");
            QTRY_VERIFY(shown->findChildren<FractionLabel*>().size() > 4);
            QApplication::processEvents();
            QVERIFY(asides->height() >= asides->sizeHint().height());
            for (const FractionLabel* label : shown->findChildren<FractionLabel*>()) {
                QVERIFY2(!label->isVisible() ||
                             label->height() >= label->heightForWidth(label->width()),
                         qPrintable(label->text()));
            }
            take(shown);
            expectOneStep(before, 0);
            QVERIFY(controller().bestKnown() == asKnown(*document().plan)); // the old one is past
            QVERIFY2(m_told.front().contains("Lost"), qPrintable(m_told.front()));
            QVERIFY(m_told.front().contains("bd ft"));
            QVERIFY(m_told.front().contains("$"));
            return;
        }
    }
    QFAIL("no cut of the sample has anything to lose");
}

void ShopTest::theBestThatWasKnownComesBackWithUndo() {
    const std::optional<PlanController::BestKnown> known = controller().bestKnown();
    QVERIFY(known.has_value());
    moveToAFreshBoard();
    QVERIFY(document().plan->totals.cost > known->cost);
    QVERIFY(controller().bestKnown() == known);
    shop().stateReached(firstBlank(), CutState::Milled); // from here on nothing better is known
    const PlanController::BestKnown since = asKnown(*document().plan);
    QVERIFY(controller().bestKnown() == since);
    command(CommandId::Undo);
    QVERIFY(controller().bestKnown() == known);
    command(CommandId::Redo);
    QVERIFY(controller().bestKnown() == since);
    command(CommandId::Undo);
    command(CommandId::Undo);
    QVERIFY(controller().bestKnown() == known);
}

void ShopTest::fieldsStayWhereTheyAreWhileTyping() {
    const hand::CutRef cut = hand::cutsOn(document(), firstBoard()).front();
    const Length mark = *hand::markOf(document(), firstBoard(), cut);
    shop().cutMade(firstBoard(), cut);
    ShopDialog* shown = dialog();
    QVERIFY(shown != nullptr);
    auto* edit = shown->findChild<LengthEdit*>("where");
    auto* why = shown->findChild<QLineEdit*>("why");
    auto* outcome = shown->findChild<FractionLabel*>("outcome");
    QTRY_VERIFY(!outcome->text().isEmpty());
    const auto places = [&] {
        return std::pair(edit->mapTo(shown, QPoint()), why->mapTo(shown, QPoint()));
    };
    const auto before = places();
    int height = shown->height();
    // Off the board, just off the mark, and so far off that something is lost.
    for (const Length where : {Length::inches(9999), mark + Length::inches(1, 16),
                               mark + Length::inches(20), Length::inches(9999)}) {
        const QString was = outcome->text();
        type(shown, "where", where);
        QTRY_VERIFY(outcome->text() != was);
        QCOMPARE(places(), before);
        QVERIFY(shown->height() >= height);
        QVERIFY(outcome->height() >= outcome->heightForWidth(outcome->width()));
        height = shown->height();
    }
    shown->reject();
}

void ShopTest::theListOfPartsStaysWhereItIsScrolled() {
    QTreeView& list = *window().layoutPlace().parts().tree();
    QScrollBar& bar = *list.verticalScrollBar();
    const BlankId blank = firstBlank();
    selectBlank(blank);
    for (const int place : {bar.maximum() / 2, bar.maximum()}) {
        QVERIFY(place > 0);
        bar.setValue(place);
        const QString seen = list.indexAt({1, 1}).data().toString();
        shop().nextState();
        QCOMPARE(bar.value(), place);
        QCOMPARE(list.indexAt({1, 1}).data().toString(), seen);
        QVERIFY(session().selection().blank == blank);
        QVERIFY(list.currentIndex().isValid());
        QVERIFY(list.selectionModel()->isSelected(list.currentIndex()));
    }
}

void ShopTest::theSidePanelStaysWhereItIsScrolled() {
    const auto& panel = *window().findChild<QScrollArea*>("selectionPanel");
    const QScrollBar& bar = *panel.verticalScrollBar();
    const BlankId blank = firstBlank();
    window().resize(window().width(), 560);
    selectBlank(blank);
    QCoreApplication::processEvents();
    QVERIFY(bar.maximum() > 0);
    QCOMPARE(bar.value(), 0);
    for (FractionLabel* link : panel.findChildren<FractionLabel*>()) {
        if (link->isVisible() && link->text() == "It is crosscut") {
            link->setFocus(); // as a click does
            emit link->clicked();
            break;
        }
    }
    QVERIFY(blankOf(blank).state != CutState::Planned);
    QCoreApplication::processEvents();
    QCOMPARE(bar.value(), 0);
}

void ShopTest::aFreshEndIsTakenOff() {
    selectBoard(firstBoard());
    const Document before = document();
    command(CommandId::FreshEnd);
    ShopDialog* shown = dialog();
    // What is typed at once goes into the reading, not into the choice before it.
    QVERIFY(shown->focusWidget() == shown->findChild<LengthEdit*>("where")->field());
    type(shown, "where", "5");
    take(shown);
    expectOneStep(before, 0);
    QCOMPARE(findBoard(document(), firstBoard())->trimAtDatum, Length::inches(5));
}

void ShopTest::aFreshEndBeginsWhereTheEndIsOff() {
    Board raw = *findBoard(document(), firstBoard());
    raw.trimAtDatum = Length::inches(2);
    raw.trimAtFar = Length::inches(3);
    QVERIFY(session().edit("Trim", Edit{ReplaceBoard{raw}}));
    selectBoard(firstBoard());
    command(CommandId::FreshEnd);
    ShopDialog* shown = dialog();
    const auto* where = shown->findChild<LengthEdit*>("where");
    auto* end = shown->findChild<QComboBox*>("end");
    QCOMPARE(where->value(), raw.trimAtDatum);
    end->setCurrentIndex(1);
    QCOMPARE(where->value(), lengthOf(raw) - raw.trimAtFar);
    end->setCurrentIndex(0);
    QCOMPARE(where->value(), raw.trimAtDatum);
    shown->reject();
}

void ShopTest::aKnotComesUpInAMilledBlank() {
    selectBoard(firstBoard());
    command(CommandId::AllCutsMade);
    take(dialog());
    const BlankId blank = firstBlank();
    selectBlank(blank);
    shop().stateReached(blank, CutState::Milled);
    const Document before = document();
    const int steps = session().undoStack().count();
    command(CommandId::KnotFound);
    ShopDialog* shown = window().findChildren<ShopDialog*>().last();
    shown->findChild<QComboBox*>("kind")->setCurrentIndex(static_cast<int>(DefectKind::KnotHole));
    const Rect wood = hand::blankAt(*document().plan, *hand::placeOf(*document().plan, blank)).rect;
    const auto typed = [](Length value) {
        return QString::number(value.toInches(), 'f', 4) + "\"";
    };
    type(shown, "along", typed(wood.length() / 4));
    type(shown, "across", typed(wood.width() / 4));
    type(shown, "length", typed(wood.length() / 2));
    type(shown, "width", typed(wood.width() / 2));
    take(shown);
    expectOneStep(before, steps);
    QVERIFY2(m_told.last().contains("Lost"), qPrintable(m_told.last()));
    // Everything else that is cut lies where it lay.
    for (const Section& section : document().plan->boards.front().sections) {
        for (const Strip& strip : section.strips) {
            for (const Blank& each : strip.blanks) {
                if (each.state != CutState::Planned) {
                    const auto was = hand::placeOf(*before.plan, each.id);
                    QVERIFY(was);
                    QVERIFY(hand::blankAt(*before.plan, *was) == each);
                }
            }
        }
    }
}

void ShopTest::aKnotIsFoundOnABoard() {
    selectBoard(firstBoard());
    const Document before = document();
    command(CommandId::KnotFound);
    ShopDialog* shown = dialog();
    shown->findChild<QComboBox*>("kind")->setCurrentIndex(static_cast<int>(DefectKind::LooseKnot));
    type(shown, "along", "20");
    type(shown, "across", "2");
    type(shown, "length", "1 1/2");
    type(shown, "width", "1");
    take(shown);
    expectOneStep(before, 0);
    QCOMPARE(findBoard(document(), firstBoard())->defects.size(),
             findBoard(before, firstBoard())->defects.size() + 1);
}

void ShopTest::aKnotInALockedBlankNamesTheLock() {
    const BlankId blank = firstBlank();
    selectBlank(blank);
    key(Qt::Key_K);
    const Document locked = document();
    QVERIFY(blankOf(blank).locked);
    const Rect wood = blankOf(blank).rect;
    command(CommandId::KnotFound);
    ShopDialog* shown = dialog();
    QVERIFY(shown != nullptr);
    auto* unlock = shown->findChild<QCheckBox*>("unlock");
    QVERIFY(!unlock->isVisible());
    shown->findChild<QComboBox*>("kind")->setCurrentIndex(static_cast<int>(DefectKind::KnotHole));
    shown->findChild<QCheckBox*>("through")->setChecked(true);
    type(shown, "along", wood.length() / 4);
    type(shown, "across", wood.width() / 4);
    type(shown, "length", wood.length() / 2);
    type(shown, "width", wood.width() / 2);
    const auto* outcome = shown->findChild<FractionLabel*>("outcome");
    QTRY_VERIFY2(outcome->text().contains("is locked and would not stay"),
                 qPrintable(outcome->text()));
    QVERIFY(!shown->findChild<QPushButton*>("takeButton")->isEnabled());
    QVERIFY(document() == locked);
    QVERIFY(unlock->isVisible());
    QTest::mouseClick(unlock, Qt::LeftButton, {}, QPoint(8, unlock->height() / 2));
    QTRY_VERIFY2(outcome->text().contains("is taken off"), qPrintable(outcome->text()));
    take(shown);
    expectOneStep(locked, 1);
}

void ShopTest::aBlankIsDropped() {
    selectBlank(firstBlank());
    const Document before = document();
    command(CommandId::BlankSpoiled);
    ShopDialog* shown = dialog();
    shown->findChild<QLineEdit*>("why")->setText("dropped on its end");
    // Which cuts this takes as made is said before it is taken, and stands in the log.
    const auto* outcome = shown->findChild<FractionLabel*>("outcome");
    QTRY_VERIFY2(outcome->text().contains("This takes as made on"), qPrintable(outcome->text()));
    take(shown);
    QVERIFY(document().log.back().what.find("This takes as made on") != std::string::npos);
    const Banner* banner = &window().banner();
    QVERIFY2(banner->sentence().contains("is spoiled"), qPrintable(banner->sentence()));
    command(CommandId::Undo); // taken back it has not happened, and nothing is said of it
    QVERIFY2(banner->sentence().isEmpty(), qPrintable(banner->sentence()));
    command(CommandId::Redo);
    expectOneStep(before, 0);
    QCOMPARE(document().log.back().why, std::string("dropped on its end"));
}

void ShopTest::aBoardIsRejected() {
    const BoardId board = document().plan->boards.back().board;
    selectBoard(board);
    const Document before = document();
    command(CommandId::BoardRejected);
    take(dialog());
    expectOneStep(before, 0);
    QVERIFY(findBoard(document(), board)->setAside);
    QVERIFY(hand::layoutOf(*document().plan, board) == nullptr);
}

void ShopTest::warpIsMeasuredAgain() {
    selectBoard(firstBoard());
    const Document before = document();
    command(CommandId::WarpAgain);
    ShopDialog* shown = dialog();
    type(shown, "bow", "3/8");
    take(shown);
    expectOneStep(before, 0);
    QCOMPARE(findBoard(document(), firstBoard())->warp.bow, Length::inches(3, 8));
}

void ShopTest::aBlankGoesThroughItsStates() {
    const BlankId blank = firstBlank();
    selectBlank(blank);
    for (int i = 0; i < 3; ++i) {
        const Document before = document();
        command(CommandId::NextState);
        expectOneStep(before, i);
    }
    const auto place = hand::placeOf(*document().plan, blank);
    QCOMPARE(hand::blankAt(*document().plan, *place).state, CutState::Ripped);
    command(CommandId::JobLog);
    auto* table = window().findChild<QTableWidget*>("logTable");
    QVERIFY(table != nullptr);
    QCOMPARE(table->rowCount(), static_cast<int>(document().log.size()));
    QVERIFY(table->item(0, 1)->text().contains("ripped"));
}

void ShopTest::theRestIsPlannedKeepingPlaces() {
    selectBlank(firstBlank());
    QTest::keyClick(&window().layoutPlace().rack(), Qt::Key_Delete); // into the tray
    QCOMPARE(document().plan->unplaced.size(), std::size_t{1});
    const Document before = document();
    command(CommandId::PlanRestKeeping);
    QTRY_VERIFY_WITH_TIMEOUT(controller().rest().has_value(), planTimeout);
    QVERIFY(document() == before); // only shown
    auto* panel = window().findChild<RestPanel*>();
    QVERIFY(panel->isVisible());
    QVERIFY2(panel->sentence().contains("stay"), qPrintable(panel->sentence()));
    QTest::mouseClick(panel->findChild<QPushButton*>("lookAtRestButton"), Qt::LeftButton);
    QVERIFY(!controller().isLookingAtRest());
    QTest::mouseClick(panel->findChild<QPushButton*>("takeRestButton"), Qt::LeftButton);
    QVERIFY(!panel->isVisible());
    expectOneStep(before, 1);
    QVERIFY(document().plan->unplaced.empty());
}

void ShopTest::aRestThatKeepsItsPlacesIsSaid() {
    const Document before = document();
    QString said;
    connect(&controller(), &PlanController::refused, this,
            [&said](const QString& sentence) { said = sentence; });
    command(CommandId::PlanRestKeeping);
    QTRY_VERIFY_WITH_TIMEOUT(!controller().isRunning(), planTimeout);
    QVERIFY(!controller().rest());
    QVERIFY2(said.contains("keeps it"), qPrintable(said));
    QVERIFY(document() == before);
    disconnect(&controller(), nullptr, this, nullptr);
}

void ShopTest::aRestThatIsNoBetterIsNotOffered() {
    QString said;
    connect(&controller(), &PlanController::refused, this,
            [&said](const QString& sentence) { said = sentence; });
    // What is found once is not found again as something better, however like blanks lie in it.
    for (int i = 0; i < 2; ++i) {
        command(CommandId::PlanRestAgain);
        QTRY_VERIFY_WITH_TIMEOUT(!controller().isRunning(), planTimeout);
        if (!controller().rest()) {
            break;
        }
        QVERIFY(controller().rest()->moved.costsMore < Money());
        controller().takeRest();
    }
    const Document before = document();
    said.clear();
    command(CommandId::PlanRestAgain);
    QTRY_VERIFY_WITH_TIMEOUT(!controller().isRunning(), planTimeout);
    QVERIFY(!controller().rest());
    QVERIFY2(said.contains("Nothing better was found"), qPrintable(said));
    QVERIFY(document() == before);
    disconnect(&controller(), nullptr, this, nullptr);
}

/// A blank that lies alike in both plans is lifted at once; one that lies elsewhere is shown where
/// it lies in the job's own.
void ShopTest::handWorkPutsAPlanAwayThatIsOnlyShown() {
    const std::vector<BlankId> all = blanks();
    selectBlank(all.front());
    QTest::keyClick(&rack(), Qt::Key_Delete);
    command(CommandId::PlanRestKeeping);
    QTRY_VERIFY_WITH_TIMEOUT(controller().rest().has_value(), planTimeout);
    QVERIFY(controller().isLookingAtRest());
    QCOMPARE(controller().previewTitle(), QString("The rest planned, keeping places"));
    selectBlank(all.back());
    QTest::keyClick(&rack(), Qt::Key_M);
    QVERIFY(rack().hand().isHolding());
    QVERIFY(!controller().isLookingAtRest());
    QTest::keyClick(&rack(), Qt::Key_Escape);
    auto* panel = window().findChild<RestPanel*>();
    QVERIFY(panel->isVisible());
    QTest::mouseClick(panel->findChild<QPushButton*>("lookAtRestButton"), Qt::LeftButton);
    QVERIFY(controller().isLookingAtRest()); // asked for again

    // The one from the tray lies nowhere in the job's own plan.
    BlankId only;
    for (const BlankId id : plan_tools::blanksOf(*controller().preview())) {
        only = hand::placeOf(*document().plan, id) ? only : id;
    }
    QVERIFY(only.isSet());
    Selection selection;
    selection.blank = only;
    session().select(selection);
    QString answer;
    connect(&rack(), &RackView::answered, this, [&answer](const QString& text) { answer = text; });
    QTest::keyClick(&rack(), Qt::Key_M);
    QVERIFY(!rack().hand().isHolding());
    QVERIFY2(answer.contains("put away") && answer.contains("not in it"), qPrintable(answer));
    disconnect(&rack(), nullptr, this, nullptr);

    // A change of the job's plan lets the other go, and says how it comes again.
    const Document before = document();
    selectBlank(all.back());
    QTest::keyClick(&rack(), Qt::Key_K);
    expectOneStep(before, 1);
    QVERIFY(!controller().rest());
    QVERIFY(!panel->isVisible());
    QVERIFY(window().banner().sentence().contains("planned again"));
    // Called as in the menu, by button and panel alike.
    bool isNamed = false;
    for (const QPushButton* button : window().banner().findChildren<QPushButton*>()) {
        isNamed = isNamed || button->text() == "Plan the rest, keeping places";
    }
    QVERIFY(isNamed);
    const auto* again = window().findChild<QAction*>("plan");
    QCOMPARE(QString(again->text()).remove('&').toLower(), QString("plan again"));
}

void ShopTest::handWorkGoesOnBesideASearch() {
    PlanOptions options = quickOptions();
    options.work = 0;
    options.seconds = 60;
    options.seed = 5;
    controller().setOptions(options);
    const BoardId board = firstBoard();
    const Document before = document();
    command(CommandId::Plan);
    QTRY_VERIFY_WITH_TIMEOUT(controller().preview() || !controller().isRunning(), planTimeout);
    if (!controller().isRunning()) {
        QSKIP("the search ended before anything could be done beside it");
    }
    selectBoard(board);
    rack().press(Qt::Key_K);
    QVERIFY(!controller().preview()); // the boards show what was locked
    QVERIFY(controller().isAway());
    expectOneStep(before, 0);
    auto* look = window().findChild<QPushButton*>("lookAtBestButton");
    if (controller().isRunning()) {
        QVERIFY(look->isVisible());
        QTest::mouseClick(look, Qt::LeftButton);
        QVERIFY(controller().preview().has_value());
        QTest::mouseClick(look, Qt::LeftButton);
        QVERIFY(!controller().preview());
        controller().stopAndKeep();
    }
    QTRY_VERIFY_WITH_TIMEOUT(!controller().isRunning(), planTimeout);
    // What was locked meanwhile has not moved, whatever was found.
    const BoardLayout locked = *hand::layoutOf(*document().plan, board);
    QVERIFY(locked.locked);
    if (controller().hasOffer()) {
        controller().takeOffer();
    }
    QVERIFY(*hand::layoutOf(*document().plan, board) == locked);
}

void ShopTest::theRestIsPlannedAnewAndLeft() {
    selectBlank(firstBlank());
    QTest::keyClick(&rack(), Qt::Key_Delete);
    const Document before = document();
    command(CommandId::PlanRestAgain);
    QTRY_VERIFY_WITH_TIMEOUT(controller().rest().has_value(), planTimeout);
    auto* panel = window().findChild<RestPanel*>();
    QTest::keyClick(panel, Qt::Key_Escape);
    QVERIFY(!panel->isVisible());
    QVERIFY(document() == before);
    QCOMPARE(session().undoStack().count(), 1);
}

void ShopTest::editingGoesOnWhileTheRestIsPlanned() {
    PlanOptions options = quickOptions();
    options.work = 50'000;
    controller().setOptions(options);
    const BlankId blank = firstBlank();
    command(CommandId::PlanRestAgain);
    QVERIFY(controller().isRunning());
    selectBlank(blank);
    QTest::keyClick(&window().layoutPlace().rack(), Qt::Key_K); // lock it meanwhile
    QVERIFY(hand::blankAt(*document().plan, *hand::placeOf(*document().plan, blank)).locked);
    controller().stopAndKeep();
    QTRY_VERIFY_WITH_TIMEOUT(!controller().isRunning(), planTimeout);
    QVERIFY(session().auditReport().passed());
}

void ShopTest::aBoardIsKeptForAPart() {
    const Document before = document();
    const BoardId board = before.plan->boards.back().board;
    shop().keepBoard(board);
    ShopDialog* shown = dialog();
    type(shown, "from", "0");
    take(shown);
    QCOMPARE(document().boardRules.size(), std::size_t{1});
    QCOMPARE(document().boardRules.front().board, board);
    session().undoStack().undo();
    QVERIFY(document() == before);
    session().undoStack().redo();
    command(CommandId::PlanRestAgain);
    QTRY_VERIFY_WITH_TIMEOUT(!controller().isRunning(), planTimeout);
    controller().takeRest(); // unless what lies there may stay and nothing better was found
    QVERIFY(session().auditReport().passed());
}

void ShopTest::aSectionIsLockedAndStays() {
    const SectionId section = document().plan->boards.front().sections.front().id;
    const Result<Edit> edit = hand::setLocked(document(), section, true);
    QVERIFY(edit.ok());
    QVERIFY(session().edit("Lock a section", edit.value()));
    const Section locked = document().plan->boards.front().sections.front();
    selectBlank(blanks().back());
    QTest::keyClick(&rack(), Qt::Key_Delete); // else nothing better may be found
    command(CommandId::PlanRestAgain);
    QTRY_VERIFY_WITH_TIMEOUT(controller().rest().has_value(), planTimeout);
    controller().takeRest();
    QVERIFY(document().plan->boards.front().sections.front() == locked);
    QVERIFY(session().auditReport().passed());
}

void ShopTest::aCutIsMovedByItsReading() {
    const Document before = document();
    const BoardId board = firstBoard();
    for (const hand::CutRef& cut : hand::cutsOn(before, board)) {
        if (cut.strip || cut.high) {
            continue;
        }
        const Length mark = *hand::markOf(before, board, cut);
        shop().moveCut(board, cut);
        ShopDialog* shown = dialog();
        type(shown, "where",
             QString::number((mark - Length::inches(1, 16)).toInches(), 'f', 4) + "\"");
        QTest::qWait(300);
        if (!shown->findChild<QPushButton*>("takeButton")->isEnabled()) {
            shown->reject();
            continue;
        }
        take(shown);
        expectOneStep(before, 0);
        return;
    }
    QSKIP("no crosscut of the first board may be moved by itself");
}

void ShopTest::aBadReadingIsRefusedInTheDialog() {
    selectBoard(firstBoard());
    const Document before = document();
    command(CommandId::FreshEnd);
    ShopDialog* shown = dialog();
    type(shown, "where", "9999");
    QTRY_VERIFY(!shown->findChild<QPushButton*>("takeButton")->isEnabled());
    shown->reject();
    QVERIFY(document() == before);
}

} // namespace

std::unique_ptr<QObject> makeShopTest() { return std::make_unique<ShopTest>(); }

} // namespace stavewright::testing_ui

#include "ShopTest.moc"
