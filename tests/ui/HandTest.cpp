// Blanks moved by hand through the real window: with the pointer, by keys, out of the tray and
// back. Every step undoes and redoes to the identical document, and what is laid down passes the
// audit.

#include <QListView>
#include <QMenu>
#include <QPushButton>
#include <QTest>
#include <QTreeView>

#include <cstdlib>
#include <memory>

#include "core/hand/HandEdits.h"
#include "core/hand/OneBoard.h"
#include "core/hand/PlanTree.h"
#include "tests/tools/samples/Samples.h"
#include "tests/ui/HandWindow.h"
#include "tests/ui/Tests.h"
#include "ui/layout/BoardItem.h"
#include "ui/layout/LegendStrip.h"
#include "ui/layout/PartsPanel.h"
#include "ui/layout/TapeRuler.h"
#include "ui/midjob/ShopEvents.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/LengthEdit.h"
#include "ui/widgets/ReadingPrompt.h"
#include "ui/widgets/Words.h"

#include <QLineEdit>

namespace stavewright::testing_ui {

namespace {

using namespace ui;

class HandTest : public HandWindow {
    Q_OBJECT
  private slots:
    void init();
    void cleanup();
    void dragsABlankAlongItsBoard();
    void holdingCtrlLetsNoMarkDrawIt();
    void escapePutsItBackExactly();
    void aPlaceThatIsNotLegalOffersTheNearest();
    void aBlankGoesToTheTrayAndBackByKeys();
    void itsMenuWantsPartsFromOneBoard();
    void aBlankLetGoOverTheTrayLiesInIt();
    void keysMoveItByMarksOfTheTape();
    void aReadingIsTyped();
    void turnsAndTakesItBack();
    void twoChangePlaces();
    void aLockHoldsThroughPlanning();
    void aLockOnABoardShowsOnItsBlanks();
    void answersStayUntilThePointerGoesOn();
    void keysSayWhatToSelect();
    void aMessageMovesNothing();
    void aReadingThatIsDroppedPutsTheBlankBack();
    void theMenuOffersWhatFitsABoardThatThePlanLeaves();
    void aDragThatEndsWhereItBeganLeavesNoStep();
    void undoPutsBackWhatIsInTheHand();
    void theListsFollowWhatIsLaidDown();
};

void HandTest::init() { openShelf(); }

void HandTest::cleanup() { close(); }

void HandTest::dragsABlankAlongItsBoard() {
    for (const BlankId id : blanks()) {
        const std::optional<hand::Laying> goal = elsewhere(id);
        if (!goal) {
            continue;
        }
        selectBlank(id);
        const Document before = document();
        const int steps = session().undoStack().index();
        const Rect box = boxOf(id);
        const Point corner = toOuter(goal->bed.frame, Point{goal->along, goal->bed.across.from});
        // Taken 20 mm from its corner, it is let go where the same spot lies at the goal.
        const QPointF grip(20, box.width().toMillimetres() / 2);
        const QPoint from =
            pixelOf(boardOf(id), QPointF(box.x0.toMillimetres(), box.y0.toMillimetres()) + grip);
        const QPoint to = pixelOf(
            goal->board, QPointF(corner.x.toMillimetres(), corner.y.toMillimetres()) + grip);
        if (!rack().viewport()->rect().contains(from) || !rack().viewport()->rect().contains(to)) {
            continue;
        }
        QTest::mousePress(rack().viewport(), Qt::LeftButton, {}, from);
        pointerTo((from + to) / 2);
        QVERIFY2(rack().hand().isHolding(), qPrintable(m_hint));
        pointerTo(to);
        if (!rack().hand().held()->isLegal) { // a pixel is coarser than a mark of the tape
            key(Qt::Key_N);
        }
        QVERIFY2(rack().hand().held()->isLegal, qPrintable(m_hint));
        QVERIFY(document() == before); // nothing changes while it is in the hand
        QTest::mouseRelease(rack().viewport(), Qt::LeftButton, {}, to);
        QVERIFY(!rack().hand().isHolding());
        expectOneStep(before, steps);
        QVERIFY(boardOf(id) == goal->board);
        return;
    }
    QFAIL("no blank of the sample has another place");
}

void HandTest::undoPutsBackWhatIsInTheHand() {
    selectBlank(blanks().front());
    rack().toggleLock();
    rack().toggleLock(); // two steps, and the blank is free again
    const Document before = document();
    const int steps = session().undoStack().index();
    selectBlank(blanks().front());
    rack().pickUp();
    QVERIFY2(rack().hand().isHolding(), qPrintable(m_hint));
    command(CommandId::Undo);
    QVERIFY(!rack().hand().isHolding());
    QCOMPARE(session().undoStack().index(), steps);
    QVERIFY(document() == before);
    command(CommandId::Undo); // nothing in the hand: the step before
    QCOMPARE(session().undoStack().index(), steps - 1);
}

void HandTest::holdingCtrlLetsNoMarkDrawIt() {
    for (const BlankId id : blanks()) {
        selectBlank(id);
        const Rect box = boxOf(id);
        const QPoint from = pixelOf(
            boardOf(id), {box.x0.toMillimetres() + 20, (box.y0 + box.width() / 2).toMillimetres()});
        if (!rack().viewport()->rect().contains(from)) {
            continue;
        }
        QTest::mousePress(rack().viewport(), Qt::LeftButton, {}, from);
        pointerTo(from + QPoint(9, 0));
        for (int by = -8; by <= 8; ++by) {
            pointerTo(from + QPoint(by, 0));
            if (!rack().hand().isHolding() || !rack().hand().held()->snap) {
                continue;
            }
            const hand::Laying drawn = rack().hand().held()->laying;
            // The pointer stands still: the key alone does it.
            QTest::keyPress(&rack(), Qt::Key_Control);
            QVERIFY(!rack().hand().held()->snap);
            QTest::keyRelease(&rack(), Qt::Key_Control);
            QVERIFY(rack().hand().held()->snap);
            QCOMPARE(rack().hand().held()->laying.along, drawn.along);
            // What keys have moved stays where they left it.
            key(Qt::Key_Right);
            const hand::Laying nudged = rack().hand().held()->laying;
            QTest::keyPress(&rack(), Qt::Key_Control);
            QTest::keyRelease(&rack(), Qt::Key_Control);
            QCOMPARE(rack().hand().held()->laying.along, nudged.along);
            key(Qt::Key_Escape);
            QTest::mouseRelease(rack().viewport(), Qt::LeftButton, {}, from);
            return;
        }
        key(Qt::Key_Escape);
        QTest::mouseRelease(rack().viewport(), Qt::LeftButton, {}, from);
    }
    QFAIL("no blank of the sample is drawn to a mark");
}

void HandTest::escapePutsItBackExactly() {
    const BlankId id = blanks().front();
    selectBlank(id);
    const Document before = document();
    const int steps = session().undoStack().index();
    const QPoint from = rack().viewportPointOf(id);
    QTest::mousePress(rack().viewport(), Qt::LeftButton, {}, from);
    pointerTo(from + QPoint(40, 0));
    pointerTo(from + QPoint(80, 20));
    QVERIFY2(rack().hand().isHolding(), qPrintable(m_hint));
    key(Qt::Key_Escape);
    QVERIFY(!rack().hand().isHolding());
    QTest::mouseRelease(rack().viewport(), Qt::LeftButton, {}, from + QPoint(80, 20));
    QVERIFY(document() == before);
    QCOMPARE(session().undoStack().index(), steps);
    QCOMPARE(session().selection().blank, std::optional(id));
}

void HandTest::aPlaceThatIsNotLegalOffersTheNearest() {
    for (const BlankId id : blanks()) {
        if (!elsewhere(id)) {
            continue;
        }
        selectBlank(id);
        key(Qt::Key_M);
        QVERIFY2(rack().hand().isHolding(), qPrintable(m_hint));
        for (int i = 0; i < 400; ++i) {
            const auto& held = rack().hand().held();
            if (!held->isLegal && held->nearest) {
                break;
            }
            key(Qt::Key_Right, Qt::ShiftModifier);
        }
        if (rack().hand().held()->isLegal || !rack().hand().held()->nearest) {
            key(Qt::Key_Escape);
            continue;
        }
        const Document before = document();
        const int steps = session().undoStack().index();
        QVERIFY2(m_hint.contains("; move "), qPrintable(m_hint));
        key(Qt::Key_Return);
        QVERIFY(rack().hand().isHolding()); // not laid down, and said why
        QVERIFY(document() == before);
        key(Qt::Key_N);
        QVERIFY2(rack().hand().held()->isLegal, qPrintable(m_hint));
        const std::string fits = rack().hand().held()->words;
        key(Qt::Key_Return);
        if (document() == before) {
            continue; // the nearest place was its own
        }
        expectOneStep(before, steps);
        return;
    }
    QFAIL("no place was refused");
}

void HandTest::itsMenuWantsPartsFromOneBoard() {
    const BlankId id = blanks().front();
    selectBlank(id);
    const hand::TreePlace place = *hand::placeOf(*document().plan, id);
    const PartId part = hand::blankAt(*document().plan, place).purpose.part;
    std::vector<std::unique_ptr<QMenu>> menus;
    const auto choices = [&] {
        menus.push_back(std::make_unique<QMenu>());
        rack().fillMenu(*menus.back());
        return menus.back()->findChild<QMenu*>("oneBoardMenu")->actions();
    };
    const Document before = document();
    const int steps = session().undoStack().index();
    for (const MatchGroup& group : before.groups) { // the sample may want it from the start
        QVERIFY(std::find(group.parts.begin(), group.parts.end(), part) == group.parts.end());
    }
    QAction* all = choices().front();
    QVERIFY(!all->isChecked());
    all->trigger();
    QVERIFY2(m_hint.contains("from one board"), qPrintable(m_hint));
    QCOMPARE(hand::wantedWith(document(), part), std::vector{part});
    expectOneStep(before, steps);

    const Document alone = document();
    const QList<QAction*> with = choices();
    QVERIFY(with.front()->isChecked());
    QVERIFY(!with.last()->isChecked());
    with.last()->trigger();
    QCOMPARE(hand::wantedWith(document(), part).size(), std::size_t(2));
    expectOneStep(alone, steps + 1);

    const Document both = document();
    const QList<QAction*> apart = choices();
    QVERIFY(apart.last()->isChecked());
    apart.front()->trigger();
    QVERIFY(hand::wantedWith(document(), part).empty());
    expectOneStep(both, steps + 2);
}

void HandTest::aBlankGoesToTheTrayAndBackByKeys() {
    const BlankId id = blanks().front();
    selectBlank(id);
    const BoardId home = boardOf(id);
    const Document before = document();
    const int steps = session().undoStack().index();
    key(Qt::Key_Delete);
    QCOMPARE(document().plan->unplaced.size(), before.plan->unplaced.size() + 1);
    expectOneStep(before, steps);

    Selection onBoard;
    onBoard.board = home;
    session().select(onBoard);
    const Document trayed = document();
    QListView* tray = window().layoutPlace().parts().tray();
    emit tray->activated(tray->model()->index(0, 0));
    QVERIFY2(rack().hand().isHolding(), qPrintable(m_hint));
    for (int i = 0; i < 40 && !rack().hand().held()->isLegal; ++i) {
        if (rack().hand().held()->nearest) {
            key(Qt::Key_N);
        } else {
            key(Qt::Key_Right, Qt::ShiftModifier);
        }
    }
    QVERIFY2(rack().hand().held()->isLegal, qPrintable(m_hint));
    key(Qt::Key_Return);
    expectOneStep(trayed, steps + 1);
    QCOMPARE(document().plan->unplaced.size(), before.plan->unplaced.size());
}

void HandTest::aBlankLetGoOverTheTrayLiesInIt() {
    const BlankId id = blanks().back();
    selectBlank(id);
    const Document before = document();
    const int steps = session().undoStack().index();
    const QPoint from = rack().viewportPointOf(id);
    QListView* tray = window().layoutPlace().parts().tray();
    const QPoint over = rack().viewport()->mapFromGlobal(tray->mapToGlobal(tray->rect().center()));
    QTest::mousePress(rack().viewport(), Qt::LeftButton, {}, from);
    pointerTo(from - QPoint(20, 0));
    QVERIFY2(rack().hand().isHolding(), qPrintable(m_hint));
    pointerTo(over);
    QVERIFY(m_hint.contains("goes to the tray"));
    // It is no longer drawn at its last place on the board; the tray shows that it may be let go.
    QVERIFY(rack().hand().isOverTray());
    QVERIFY(rack().hand().heldBox().isEmpty());
    QVERIFY(tray->frameShape() == QFrame::Box);
    pointerTo(from - QPoint(30, 0));
    QVERIFY(!rack().hand().isOverTray());
    QVERIFY(!rack().hand().heldBox().isEmpty());
    QVERIFY(tray->frameShape() == QFrame::NoFrame);
    pointerTo(over);
    QTest::mouseRelease(rack().viewport(), Qt::LeftButton, {}, over);
    QVERIFY(tray->frameShape() == QFrame::NoFrame);
    QVERIFY(!hand::placeOf(*document().plan, id));
    expectOneStep(before, steps);
}

void HandTest::keysMoveItByMarksOfTheTape() {
    for (const BlankId id : blanks()) {
        selectBlank(id);
        const Rect was = boxOf(id);
        const Document before = document();
        const int steps = session().undoStack().index();
        key(Qt::Key_M);
        QVERIFY(rack().hand().isHolding());
        key(Qt::Key_Right);
        key(Qt::Key_Right);
        key(Qt::Key_Right);
        key(Qt::Key_Left);
        // The tape shows where it is held, then where it lies.
        const auto* tape = rack().findChild<TapeRuler*>();
        QCOMPARE(tape->bracket()->first,
                 rack().hand().heldBox().left() - rack().rack().datumLines().front());
        if (!rack().hand().held()->isLegal) {
            key(Qt::Key_Escape);
            QVERIFY(document() == before);
            continue;
        }
        key(Qt::Key_Return);
        QVERIFY(std::abs(tape->bracket()->first - boxOf(id).x0.toMillimetres()) < 0.1);
        expectOneStep(before, steps);
        const Length moved = boxOf(id).x0 - was.x0;
        QVERIFY(abs(moved - Length::inches(2, document().info.inchDenominator)) <
                Length::micrometres(50));
        return;
    }
    QSKIP("every blank of the sample lies hemmed in");
}

void HandTest::aReadingIsTyped() {
    for (const BlankId id : blanks()) {
        const std::optional<hand::Laying> goal = elsewhere(id);
        if (!goal || goal->board != boardOf(id) || !goal->bed.frame.isParallel()) {
            continue;
        }
        selectBlank(id);
        const Document before = document();
        const int steps = session().undoStack().index();
        key(Qt::Key_P);
        auto* prompt = rack().findChild<ReadingPrompt*>("readingPrompt");
        QVERIFY(prompt != nullptr);
        const Point corner = toOuter(goal->bed.frame, Point{goal->along, goal->bed.across.from});
        QLineEdit* field = prompt->edit().field();
        field->selectAll();
        QTest::keyClicks(field, QString::number(corner.x.toInches(), 'f', 4));
        QTest::keyClick(field, Qt::Key_Return);
        QVERIFY(rack().hand().isHolding());
        QVERIFY(abs(boundingBox(rack().hand().held()->outline).x0 - corner.x) <
                Length::inches(1, 8));
        if (!rack().hand().held()->isLegal) {
            key(Qt::Key_N);
        }
        if (!rack().hand().held()->isLegal) {
            key(Qt::Key_Escape);
            continue;
        }
        key(Qt::Key_Return);
        expectOneStep(before, steps);
        return;
    }
    QSKIP("no blank of the sample has another place on its own board");
}

void HandTest::turnsAndTakesItBack() {
    for (const BlankId id : blanks()) {
        selectBlank(id);
        const Document before = document();
        const int steps = session().undoStack().index();
        key(Qt::Key_E);
        if (rack().hand().isHolding()) { // not legal that way: nothing was done yet
            QVERIFY(document() == before);
            key(Qt::Key_Escape);
            QVERIFY(document() == before);
            continue;
        }
        expectOneStep(before, steps);
        const auto place = *hand::placeOf(*document().plan, id);
        const auto placeBefore = *hand::placeOf(*before.plan, id);
        QVERIFY(hand::blankAt(*document().plan, place).pose.endForEnd !=
                hand::blankAt(*before.plan, placeBefore).pose.endForEnd);
        return;
    }
    QFAIL("no blank could be turned");
}

void HandTest::twoChangePlaces() {
    Document table = samples::kitchenTable(); // its legs are all of one size
    const Result<PlanOutcome> outcome =
        planJob(table, {.seed = 1, .seconds = 0, .work = 3'000, .threads = 1});
    QVERIFY(outcome.ok());
    table.plan = outcome.value().plan;
    table.nextId = std::max(table.nextId, largestId(*table.plan) + 1);
    session().adopt(std::move(table), {});
    const std::vector<BlankId> all = blanks();
    for (const BlankId a : all) {
        for (const BlankId b : all) {
            // As they are cut: where they lie turned, the boxes round them differ.
            const Rect first = blankOf(a).rect;
            const Rect second = blankOf(b).rect;
            if (!(a < b) || first.length() != second.length() || first.width() != second.width()) {
                continue;
            }
            const Document before = document();
            const int steps = session().undoStack().index();
            selectBlank(a);
            key(Qt::Key_X);
            QVERIFY(m_hint.contains("changes places"));
            selectBlank(b);
            key(Qt::Key_X);
            if (document() == before) {
                QVERIFY2(m_hint.contains("cannot change places"), qPrintable(m_hint));
                continue;
            }
            expectOneStep(before, steps);
            return;
        }
    }
    QFAIL("no two blanks of one size can change places");
}

void HandTest::aLockHoldsThroughPlanning() {
    const BlankId id = blanks().front();
    selectBlank(id);
    const Document before = document();
    const int steps = session().undoStack().index();
    key(Qt::Key_K);
    expectOneStep(before, steps);
    const Blank locked = hand::blankAt(*document().plan, *hand::placeOf(*document().plan, id));
    QVERIFY(locked.locked);
    key(Qt::Key_M);
    QVERIFY(!rack().hand().isHolding());
    QVERIFY2(m_hint.contains("is locked"), qPrintable(m_hint));
    command(CommandId::Plan);
    QTRY_VERIFY_WITH_TIMEOUT(!controller().isRunning(), planTimeout);
    const auto place = hand::placeOf(*document().plan, id);
    QVERIFY(place.has_value());
    QVERIFY(hand::blankAt(*document().plan, *place) == locked);
    QVERIFY(session().auditReport().passed());
}

void HandTest::aLockOnABoardShowsOnItsBlanks() {
    const BlankId id = blanks().front();
    selectBoard(boardOf(id));
    key(Qt::Key_K);
    QVERIFY2(m_hint.contains("is locked"), qPrintable(m_hint));
    for (const BlankPicture& blank : rack().rack().itemOf(id)->picture().blanks) {
        QVERIFY2(blank.locked, qPrintable(blank.mark));
    }
    key(Qt::Key_K);
    QVERIFY(!rack().rack().itemOf(id)->picture().blanks.front().locked);
}

void HandTest::answersStayUntilThePointerGoesOn() {
    const BlankId id = blanks().front();
    const QPoint at = rack().viewportPointOf(id);
    QTest::mouseMove(rack().viewport(), at);
    selectBlank(id);
    key(Qt::Key_K);
    QTest::mouseMove(rack().viewport(), at + QPoint(3, 1));
    QVERIFY2(m_hint.contains("is locked"), qPrintable(m_hint));
    QTest::mouseMove(rack().viewport(), at + QPoint(40, 1));
    QVERIFY2(!m_hint.contains("is locked"), qPrintable(m_hint));
    command(CommandId::Undo);
    const auto* strip = window().findChild<FractionLabel*>("planWords");
    QVERIFY(strip != nullptr);
    QVERIFY2(strip->text().contains("Taken back: Lock"), qPrintable(strip->text()));
    command(CommandId::Redo);
    QVERIFY2(!strip->text().contains("Taken back"), qPrintable(strip->text()));
}

void HandTest::aMessageMovesNothing() {
    const auto places = [this] {
        std::vector<QPoint> all;
        for (const BlankId id : blanks()) {
            all.push_back(rack().viewport()->mapTo(&window(), rack().viewportPointOf(id)));
        }
        return all;
    };
    const std::vector<QPoint> before = places();
    emit shop().refused("No cut is left to make on board 4.");
    QApplication::processEvents();
    const auto* banner =
        window().centralWidget()->findChild<Banner*>(QString(), Qt::FindDirectChildrenOnly);
    QVERIFY(banner != nullptr && banner->isVisible());
    QVERIFY(banner->height() >= banner->findChild<QPushButton*>()->height());
    QCOMPARE(places(), before);
    // What the lines mean stands above it.
    const auto* legend = window().findChild<LegendStrip*>();
    QVERIFY(legend->mapTo(&window(), QPoint(0, legend->height())).y() <=
            banner->mapTo(&window(), QPoint()).y());
    rack().fitBest();
    QCOMPARE(places(), before);
    selectBlank(blanks().front());
    QVERIFY(!banner->isVisible()); // it was about what had been selected
    QApplication::processEvents();
    QCOMPARE(places(), before);
}

void HandTest::aReadingThatIsDroppedPutsTheBlankBack() {
    const BlankId id = blanks().front();
    selectBlank(id);
    const Document before = document();
    key(Qt::Key_P);
    auto* prompt = rack().findChild<ReadingPrompt*>("readingPrompt");
    QVERIFY(prompt != nullptr);
    QTest::keyClick(prompt->edit().field(), Qt::Key_Escape);
    QVERIFY(!rack().hand().isHolding());
    key(Qt::Key_M); // in the hand already, it stays there
    key(Qt::Key_P);
    QApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    prompt = rack().findChild<ReadingPrompt*>("readingPrompt");
    QTest::keyClick(prompt->edit().field(), Qt::Key_Escape);
    QVERIFY(rack().hand().isHolding());
    key(Qt::Key_Escape);
    QVERIFY(document() == before);
}

void HandTest::keysSayWhatToSelect() {
    session().select({});
    const Document before = document();
    for (const int pressed : {Qt::Key_M, Qt::Key_P, Qt::Key_E, Qt::Key_F, Qt::Key_X, Qt::Key_K,
                              Qt::Key_C, Qt::Key_Delete}) {
        m_hint.clear();
        key(pressed);
        QVERIFY2(m_hint.contains("Select a"), qPrintable(QString::number(pressed)));
    }
    QVERIFY(document() == before);
}

void HandTest::theMenuOffersWhatFitsABoardThatThePlanLeaves() {
    const BoardId board = boardOf(blanks().front());
    const Result<Edit> aside = hand::setAside(document(), board, true);
    QVERIFY(aside && session().edit("Set a board aside", aside.value()));
    selectBoard(board);
    QMenu menu;
    emit rack().menuFilling(menu);
    const auto offered = [&](const QString& text) -> QAction* {
        for (QAction* action : menu.actions()) {
            if (action->text() == text) {
                return action;
            }
        }
        return nullptr;
    };
    QVERIFY(offered("Keep it for a part, or a part off it...") != nullptr);
    QAction* again = offered("Let plans cut it again");
    QVERIFY(again != nullptr);
    const Document before = document();
    again->trigger();
    QVERIFY(!findBoard(document(), board)->setAside);
    command(CommandId::Undo);
    QVERIFY(document() == before);
}

void HandTest::aDragThatEndsWhereItBeganLeavesNoStep() {
    const Document before = document();
    const int steps = session().undoStack().index();
    selectBlank(blanks().front());
    key(Qt::Key_M);
    key(Qt::Key_Right);
    key(Qt::Key_Left);
    key(Qt::Key_Escape);
    QVERIFY(document() == before);
    QCOMPARE(session().undoStack().index(), steps);
}

void HandTest::theListsFollowWhatIsLaidDown() {
    QTreeView& list = *window().layoutPlace().parts().tree();
    const auto* panel = window().findChild<QWidget*>("selectionPanel");
    const auto told = [&] { // where each blank lies, and what the panel says
        QStringList words;
        for (int part = 0; part < list.model()->rowCount(); ++part) {
            const QModelIndex index = list.model()->index(part, 0);
            for (int row = 0; row < list.model()->rowCount(index); ++row) {
                words << list.model()->index(row, 0, index).data().toString() + ": " +
                             list.model()->index(row, 1, index).data().toString();
            }
        }
        for (const auto* label : panel->findChildren<FractionLabel*>()) {
            if (label->isVisibleTo(panel)) {
                words << label->text();
            }
        }
        return words;
    };
    QApplication::processEvents();
    const QPersistentModelIndex first = list.model()->index(0, 0, list.model()->index(0, 0));
    for (const BlankId id : blanks()) {
        const std::optional<hand::Laying> goal = elsewhere(id);
        if (!goal) {
            continue;
        }
        selectBlank(id);
        QApplication::processEvents();
        const QStringList selected = told();
        rack().hand().lift(id, std::nullopt);
        rack().hand().holdAtReading(goal->along);
        for (int i = 0; i < 20 && !rack().hand().held()->isLegal; ++i) {
            rack().hand().takeNearest();
        }
        if (rack().hand().held()->laying == *hand::Drag::lift(document(), id).value().origin()) {
            rack().hand().putBack();
            continue;
        }
        QVERIFY(rack().hand().lay());
        const Rect lies = boxOf(id);
        const QRectF shown = rack().rack().boxOf(id);
        QVERIFY(std::abs(shown.width() - lies.length().toMillimetres()) < 0.01); // at once
        QTRY_VERIFY(told() != selected);
        QApplication::processEvents();
        const QStringList now = told();
        session().undoStack().undo();
        QApplication::processEvents();
        QCOMPARE(told(), selected);
        session().undoStack().redo();
        QApplication::processEvents();
        QCOMPARE(told(), now);
        QVERIFY(first.isValid()); // the rows were kept
        return;
    }
    QFAIL("no blank of the sample could be moved");
}

} // namespace

std::unique_ptr<QObject> makeHandTest() { return std::make_unique<HandTest>(); }

} // namespace stavewright::testing_ui

#include "HandTest.moc"
