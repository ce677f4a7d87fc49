// Blanks moved by hand through the real window: with the pointer, by keys, out of the tray and
// back. Every step undoes and redoes to the identical document, and what is laid down passes the
// audit.

#include <QListView>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>

#include "core/hand/PlanTree.h"
#include "core/job/JobFile.h"
#include "tests/tools/BlanksOf.h"
#include "tests/tools/samples/Samples.h"
#include "tests/ui/TestJobs.h"
#include "tests/ui/Tests.h"
#include "ui/layout/BoardItem.h"
#include "ui/layout/LayoutView.h"
#include "ui/layout/PartsPanel.h"
#include "ui/layout/RackView.h"
#include "ui/session/DocumentSession.h"
#include "ui/session/PlanController.h"
#include "ui/widgets/LengthEdit.h"
#include "ui/widgets/ReadingPrompt.h"
#include "ui/widgets/Theme.h"
#include "ui/widgets/Words.h"
#include "ui/window/MainWindow.h"

#include <QLineEdit>

namespace stavewright::testing_ui {

namespace {

using namespace ui;

constexpr int planTimeout = 60'000; // ms; far more than the counted work takes

class HandTest : public QObject {
    Q_OBJECT
  private slots:
    void init();
    void cleanup();
    void dragsABlankAlongItsBoard();
    void escapePutsItBackExactly();
    void aPlaceThatIsNotLegalOffersTheNearest();
    void aBlankGoesToTheTrayAndBackByKeys();
    void aBlankLetGoOverTheTrayLiesInIt();
    void keysMoveItByMarksOfTheTape();
    void aReadingIsTyped();
    void turnsAndTakesItBack();
    void twoChangePlaces();
    void aLockHoldsThroughPlanning();
    void aDragThatEndsWhereItBeganLeavesNoStep();
    void aCutIsDraggedWithThePointer();
    void escapePutsACutBackExactly();
    void aCutIsMovedByKeys();

  private:
    DocumentSession& session() { return m_window->session(); }
    RackView& rack() { return m_window->layoutPlace().rack(); }
    const Document& document() { return session().document(); }
    std::vector<BlankId> blanks() { return plan_tools::blanksOf(*document().plan); }
    Rect boxOf(BlankId id);
    BoardId boardOf(BlankId id);
    void select(BlankId id);
    void key(int key, Qt::KeyboardModifiers with = Qt::NoModifier);
    QPoint pixelOf(BoardId board, QPointF onBoard);
    /// A crosscut that may move, where the pointer takes it, and so many pixels aside.
    bool pressCut(int pixels, Qt::KeyboardModifiers with = Qt::NoModifier);
    QPoint m_cutAt;
    /// One step more than `before`, which undo takes back to the identical document and redo brings
    /// again; the plan passes the audit.
    void expectOneStep(const Document& before, int stepsBefore);
    void pointerTo(QPoint to, Qt::KeyboardModifiers with = Qt::NoModifier);
    /// A legal place on this board that is well away from where the blank lies.
    std::optional<hand::Laying> elsewhere(BlankId id);

    QString m_hint;
    std::unique_ptr<QTemporaryDir> m_folder;
    std::unique_ptr<MainWindow> m_window;
    static Document s_job; ///< planned once
};

Document HandTest::s_job;

void HandTest::init() {
    if (s_job.boards.empty()) {
        s_job = samples::hallShelf();
        Result<PlanOutcome> outcome =
            planJob(s_job, {.seed = 1, .seconds = 0, .work = 3'000, .threads = 1});
        QVERIFY(outcome.ok());
        s_job.plan = outcome.value().plan;
        s_job.nextId = std::max(s_job.nextId, largestId(*s_job.plan) + 1);
        QVERIFY(audit(s_job).passed());
    }
    QSettings().clear();
    QSettings().setValue("view/appearance", static_cast<int>(Appearance::Light));
    m_folder = std::make_unique<QTemporaryDir>();
    const QString file = m_folder->filePath("hall-shelf.stavejob");
    QVERIFY(writeJob(s_job, file.toStdString()).ok());
    m_window = std::make_unique<MainWindow>();
    m_window->resize(1280, 800);
    QVERIFY(m_window->openFile(file));
    m_window->show();
    QVERIFY(QTest::qWaitForWindowExposed(m_window.get()));
    m_window->controller().setOptions(quickOptions());
    m_window->action(CommandId::PlaceLayout)->trigger();
    rack().setFocus();
    connect(&rack(), &RackView::hint, this, [this](const QString& text) { m_hint = text; });
}

void HandTest::cleanup() {
    m_window.reset();
    m_folder.reset();
}

Rect HandTest::boxOf(BlankId id) {
    const hand::TreePlace place = *hand::placeOf(*document().plan, id);
    return hand::boxOnBoard(hand::sectionAt(*document().plan, place),
                            hand::blankAt(*document().plan, place).rect);
}

BoardId HandTest::boardOf(BlankId id) {
    return document().plan->boards[hand::placeOf(*document().plan, id)->board].board;
}

void HandTest::select(BlankId id) {
    Selection selection;
    selection.board = boardOf(id);
    selection.blank = id;
    session().select(selection);
    QCOMPARE(session().selection().blank, std::optional(id));
}

void HandTest::key(int key, Qt::KeyboardModifiers with) {
    QTest::keyClick(&rack(), static_cast<Qt::Key>(key), with);
}

QPoint HandTest::pixelOf(BoardId board, QPointF onBoard) {
    const BoardItem* item = rack().rack().itemOf(board);
    return rack().mapFromScene(item->mapToScene(item->boardToItem().map(onBoard)));
}

void HandTest::pointerTo(QPoint to, Qt::KeyboardModifiers with) {
    QMouseEvent move(QEvent::MouseMove, QPointF(to), QPointF(rack().viewport()->mapToGlobal(to)),
                     Qt::NoButton, Qt::LeftButton, with);
    QApplication::sendEvent(rack().viewport(), &move);
}

void HandTest::expectOneStep(const Document& before, int stepsBefore) {
    QCOMPARE(session().undoStack().index(), stepsBefore + 1);
    const Document after = document();
    QVERIFY(!(after == before));
    QVERIFY2(session().auditReport().passed(),
             session().auditReport().findings.empty()
                 ? ""
                 : session().auditReport().findings.front().sentence.c_str());
    m_window->action(CommandId::Undo)->trigger();
    QVERIFY(document() == before);
    m_window->action(CommandId::Redo)->trigger();
    QVERIFY(document() == after);
}

std::optional<hand::Laying> HandTest::elsewhere(BlankId id) {
    const Result<hand::Drag> drag = hand::Drag::lift(document(), id);
    if (!drag) {
        return std::nullopt;
    }
    const Rect now = boxOf(id);
    for (const Board& board : document().boards) {
        const Length length = lengthOf(board);
        for (Length x; x < length; x += Length::inches(2)) {
            const auto found = drag.value().nearest(board.id, {x, Length::inches(1)}, {});
            const bool isFar = found && (found->board != boardOf(id) ||
                                         abs(toOuter(found->bed.frame, Point{found->along, {}}).x -
                                             now.x0) > Length::inches(3));
            if (isFar) {
                return found;
            }
        }
    }
    return std::nullopt;
}

void HandTest::dragsABlankAlongItsBoard() {
    for (const BlankId id : blanks()) {
        const std::optional<hand::Laying> goal = elsewhere(id);
        if (!goal) {
            continue;
        }
        select(id);
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

void HandTest::escapePutsItBackExactly() {
    const BlankId id = blanks().front();
    select(id);
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
        select(id);
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

void HandTest::aBlankGoesToTheTrayAndBackByKeys() {
    const BlankId id = blanks().front();
    select(id);
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
    QListView* tray = m_window->layoutPlace().parts().tray();
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
    select(id);
    const Document before = document();
    const int steps = session().undoStack().index();
    const QPoint from = rack().viewportPointOf(id);
    QListView* tray = m_window->layoutPlace().parts().tray();
    const QPoint over = rack().viewport()->mapFromGlobal(tray->mapToGlobal(tray->rect().center()));
    QTest::mousePress(rack().viewport(), Qt::LeftButton, {}, from);
    pointerTo(from - QPoint(20, 0));
    QVERIFY2(rack().hand().isHolding(), qPrintable(m_hint));
    pointerTo(over);
    QVERIFY(m_hint.contains("tray"));
    QTest::mouseRelease(rack().viewport(), Qt::LeftButton, {}, over);
    QVERIFY(!hand::placeOf(*document().plan, id));
    expectOneStep(before, steps);
}

void HandTest::keysMoveItByMarksOfTheTape() {
    for (const BlankId id : blanks()) {
        select(id);
        const Rect was = boxOf(id);
        const Document before = document();
        const int steps = session().undoStack().index();
        key(Qt::Key_M);
        QVERIFY(rack().hand().isHolding());
        key(Qt::Key_Right);
        key(Qt::Key_Right);
        key(Qt::Key_Right);
        key(Qt::Key_Left);
        if (!rack().hand().held()->isLegal) {
            key(Qt::Key_Escape);
            QVERIFY(document() == before);
            continue;
        }
        key(Qt::Key_Return);
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
        select(id);
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
        select(id);
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
            if (!(a < b) || boxOf(a).length() != boxOf(b).length() ||
                boxOf(a).width() != boxOf(b).width()) {
                continue;
            }
            const Document before = document();
            const int steps = session().undoStack().index();
            select(a);
            key(Qt::Key_X);
            QVERIFY(m_hint.contains("changes places"));
            select(b);
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
    select(id);
    const Document before = document();
    const int steps = session().undoStack().index();
    key(Qt::Key_K);
    expectOneStep(before, steps);
    const Blank locked = hand::blankAt(*document().plan, *hand::placeOf(*document().plan, id));
    QVERIFY(locked.locked);
    key(Qt::Key_M);
    QVERIFY(!rack().hand().isHolding());
    QVERIFY2(m_hint.contains("is locked"), qPrintable(m_hint));
    m_window->action(CommandId::Plan)->trigger();
    QTRY_VERIFY_WITH_TIMEOUT(!m_window->controller().isRunning(), planTimeout);
    const auto place = hand::placeOf(*document().plan, id);
    QVERIFY(place.has_value());
    QVERIFY(hand::blankAt(*document().plan, *place) == locked);
    QVERIFY(session().auditReport().passed());
}

void HandTest::aDragThatEndsWhereItBeganLeavesNoStep() {
    const Document before = document();
    const int steps = session().undoStack().index();
    select(blanks().front());
    key(Qt::Key_M);
    key(Qt::Key_Right);
    key(Qt::Key_Left);
    key(Qt::Key_Escape);
    QVERIFY(document() == before);
    QCOMPARE(session().undoStack().index(), steps);
}

bool HandTest::pressCut(int pixels, Qt::KeyboardModifiers with) {
    for (const BoardLayout& layout : document().plan->boards) {
        const Rect box = boundingBox(findBoard(document(), layout.board)->outline);
        for (const hand::CutRef& cut : hand::cutsOn(document(), layout.board)) {
            if (cut.kind() != hand::CutKind::Crosscut) {
                continue;
            }
            const Length mark = *hand::markOf(document(), layout.board, cut);
            const QPoint at = pixelOf(
                layout.board, QPointF(mark.toMillimetres(), box.width().toMillimetres() / 2));
            const auto found = rack().cuts().cutAt(rack().mapToScene(at));
            if (!rack().viewport()->rect().contains(at) || !found ||
                found->cut.kind() != hand::CutKind::Crosscut) {
                continue;
            }
            QTest::mousePress(rack().viewport(), Qt::LeftButton, {}, at);
            pointerTo(at + QPoint(6, 0), with);
            pointerTo(at + QPoint(pixels, 0), with);
            m_cutAt = at + QPoint(pixels, 0);
            if (rack().cuts().isHolding()) {
                return true;
            }
            QTest::mouseRelease(rack().viewport(), Qt::LeftButton, {}, at);
        }
    }
    return false;
}

void HandTest::aCutIsDraggedWithThePointer() {
    for (const int pixels : {12, -12, 40, -40}) {
        const Document before = document();
        const int steps = session().undoStack().index();
        QVERIFY2(pressCut(pixels, Qt::ControlModifier), qPrintable(m_hint));
        QVERIFY(document() == before); // nothing changes while it is in the hand
        QVERIFY2(m_hint.contains("Crosscut at"), qPrintable(m_hint));
        if (!rack().cuts().held()->isLegal) {
            QVERIFY(rack().cuts().held()->nearest.has_value());
            QTest::mouseRelease(rack().viewport(), Qt::LeftButton, {}, m_cutAt);
            QVERIFY(rack().cuts().isHolding()); // not laid down, and said why
            QVERIFY(document() == before);
            key(Qt::Key_Escape);
            continue;
        }
        QTest::mouseRelease(rack().viewport(), Qt::LeftButton, {}, m_cutAt);
        QVERIFY(!rack().cuts().isHolding());
        expectOneStep(before, steps);
        return;
    }
    QFAIL("no crosscut could be dragged anywhere");
}

void HandTest::escapePutsACutBackExactly() {
    const Document before = document();
    const int steps = session().undoStack().index();
    QVERIFY2(pressCut(20), qPrintable(m_hint));
    key(Qt::Key_Right);
    key(Qt::Key_N);
    key(Qt::Key_Escape);
    QVERIFY(!rack().cuts().isHolding());
    QTest::mouseRelease(rack().viewport(), Qt::LeftButton, {}, m_cutAt);
    QVERIFY(document() == before);
    QCOMPARE(session().undoStack().index(), steps);
    QVERIFY2(m_hint.contains("back on its mark"), qPrintable(m_hint));
}

void HandTest::aCutIsMovedByKeys() {
    for (const BlankId blank : blanks()) {
        select(blank);
        key(Qt::Key_C);
        if (!rack().cuts().isHolding()) {
            continue;
        }
        const Length mark = rack().cuts().held()->where;
        key(Qt::Key_C); // the next one of the board
        QVERIFY(rack().cuts().isHolding());
        const Length next = rack().cuts().held()->where;
        key(Qt::Key_C, Qt::ShiftModifier); // and back
        QCOMPARE(rack().cuts().held()->where, mark);
        for (const int way : {Qt::Key_Right, Qt::Key_Left}) {
            const Document before = document();
            const int steps = session().undoStack().index();
            if (!rack().cuts().isHolding()) {
                key(Qt::Key_C);
            }
            key(way);
            const std::optional<hand::CutDrag::Held> held = rack().cuts().held();
            QVERIFY(held);
            QVERIFY(held->where != mark || next == mark);
            QVERIFY(document() == before);
            if (held->isLegal) {
                key(Qt::Key_C); // a moved one is not let go by it
                QCOMPARE(rack().cuts().held()->where, held->where);
                key(Qt::Key_Return);
                QVERIFY(!rack().cuts().isHolding());
                expectOneStep(before, steps);
                return;
            }
            key(Qt::Key_Escape);
        }
    }
    QFAIL("no cut could be moved by a mark");
}

} // namespace

std::unique_ptr<QObject> makeHandTest() { return std::make_unique<HandTest>(); }

} // namespace stavewright::testing_ui

#include "HandTest.moc"
