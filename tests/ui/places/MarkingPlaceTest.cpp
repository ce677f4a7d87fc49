// Marks drawn, moved, stretched, paired and typed on the board's own drawing, by pointer and by
// keyboard; and that every step can be taken back.

#include <QComboBox>
#include <QLineEdit>
#include <QToolButton>

#include <random>

#include "core/geometry/PolygonOps.h"
#include "core/lumber/BoardShape.h"
#include "core/lumber/MarkPlace.h"
#include "core/lumber/Marking.h"
#include "tests/ui/places/PlaceTests.h"
#include "ui/entry/EntryView.h"
#include "ui/lumber/BoardSheet.h"
#include "ui/lumber/LumberView.h"
#include "ui/lumber/QuickEntry.h"

namespace stavewright::testing_places {

namespace {

using namespace ui;

constexpr Length in(std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); }

class MarkingPlaceTest : public QObject {
    Q_OBJECT
  private slots:
    void init();
    void cleanup();
    void anEllipseIsDraggedAndALetterSaysItsKind();
    void everyToolDrawsByPointer();
    void toolsWorkByKeyboardAlone();
    void aMarkIsMovedAndStretched();
    void bothFacesShowTheSamePlace();
    void aKnotIsPairedAndPartedAgain();
    void stretchesAreSaidInWords();
    void cornersOfTheOutlineAreDragged();
    void delInTheDrawingTakesTheMarkAndNeverTheBoard();
    void escapeGoesBackOneLevel();
    void thirtyBoardsWithSixtyDefectsTakeFewKeys();
    void randomStepsAreTakenBackExactly();

  private:
    BoardSheet& sheet() { return m_view->sheet(); }
    const Board& board() { return m_session->document().boards.front(); }
    QPoint at(BoardFace face, Length x, Length y) {
        return sheet().pixelOf(face, {x, y}).toPoint();
    }
    void drag(QPoint from, QPoint to) {
        QTest::mousePress(&sheet(), Qt::LeftButton, {}, from);
        for (int i = 1; i <= 4; ++i) {
            QTest::mouseMove(&sheet(), from + (to - from) * i / 4);
        }
        QTest::mouseRelease(&sheet(), Qt::LeftButton, {}, to);
    }
    void zoomTo(BoardFace face, Length x, Length y);

    std::unique_ptr<DocumentSession> m_session;
    std::unique_ptr<LumberView> m_view;
};

void MarkingPlaceTest::init() {
    m_session = std::make_unique<DocumentSession>();
    Document document = emptyJob();
    Board board;
    board.id = BoardId{document.nextId++};
    board.mark = "1";
    board.species = "white_oak";
    board.quarter = Quarter{8};
    board.thinnest = in(2);
    board.outline = outlineOf(PlainOutline{in(96), in(8), in(8), {}});
    document.boards.push_back(board);
    m_session->adopt(document, {});
    m_view = std::make_unique<LumberView>(*m_session);
    m_view->resize(1280, 760);
    m_view->show();
    m_view->activateWindow();
    QVERIFY(QTest::qWaitForWindowActive(m_view.get()));
    sheet().setFocus();
}

void MarkingPlaceTest::cleanup() {
    m_view.reset();
    m_session.reset();
}

void MarkingPlaceTest::anEllipseIsDraggedAndALetterSaysItsKind() {
    const Document before = m_session->document();
    press(Qt::Key_E);
    drag(at(BoardFace::A, in(30), in(2)), at(BoardFace::A, in(34), in(5)));
    QCOMPARE(board().defects.size(), std::size_t{1});
    const Defect drawn = board().defects[0];
    QVERIFY(drawn.onA && !drawn.onB && drawn.onA->form);
    const Rect box = boxOf(*drawn.onA);
    const Length pixel = Length::micrometres(qRound64(
        1000 /
        (sheet().pixelOf(BoardFace::A, {in(1), {}}).x() - sheet().pixelOf(BoardFace::A, {}).x()) *
        25.4));
    QVERIFY(abs(box.x0 - in(30)) <= pixel && abs(box.x1 - in(34)) <= pixel);
    QVERIFY(abs(box.y0 - in(2)) <= pixel && abs(box.y1 - in(5)) <= pixel);
    QCOMPARE(box.x0 % in(1, 16), Length()); // as a tape is read
    QCOMPARE(drawn.kind, DefectKind::SoundKnot);
    press(Qt::Key_L); // what was just drawn is a loose knot
    QCOMPARE(board().defects[0].kind, DefectKind::LooseKnot);
    QVERIFY(validate(m_session->document()).ok());
    QVERIFY(undoesAndRedoes(*m_session, before));
}

void MarkingPlaceTest::everyToolDrawsByPointer() {
    const Document before = m_session->document();
    press(Qt::Key_G); // corner by corner, closed where it began
    for (const auto& [x, y] : {std::pair{10, 2}, {20, 2}, {20, 6}, {10, 6}, {10, 2}}) {
        QTest::mouseClick(&sheet(), Qt::LeftButton, {}, at(BoardFace::A, in(x), in(y)));
    }
    QCOMPARE(board().defects.size(), std::size_t{1});
    press(Qt::Key_H);
    QTest::mousePress(&sheet(), Qt::LeftButton, {}, at(BoardFace::B, in(40), in(2)));
    for (const auto& [x, y] : {std::pair{45, 1}, {52, 3}, {50, 6}, {42, 6}}) {
        QTest::mouseMove(&sheet(), at(BoardFace::B, in(x), in(y)));
    }
    QTest::mouseRelease(&sheet(), Qt::LeftButton, {}, at(BoardFace::B, in(40), in(3)));
    QCOMPARE(board().defects.size(), std::size_t{2});
    QVERIFY(!board().defects[1].onA && board().defects[1].onB);
    press(Qt::Key_Q); // a line is a check, whatever round thing was drawn before
    drag(at(BoardFace::A, in(60), in(4)), at(BoardFace::A, in(70), in(4)));
    QCOMPARE(board().defects[2].kind, DefectKind::Check);
    QVERIFY(sizeOf(board().defects[2]) > in(9));
    press(Qt::Key_Escape); // picks nothing... first the tool goes
    press(Qt::Key_Escape);
    sheet().setKind(DefectKind::Wane);
    press(Qt::Key_Q);
    drag(at(BoardFace::A, in(20), in(7)), at(BoardFace::A, in(50), in(7)));
    QCOMPARE(board().defects[3].kind, DefectKind::Wane);
    QCOMPARE(boundingBox(board().defects[3].onA->outline).y1, in(8)); // up to the edge
    press(Qt::Key_R);
    drag(at(BoardFace::A, in(80), in(4)), at(BoardFace::A, in(84), in(4)));
    QCOMPARE(board().defects[4].kind, DefectKind::Other);
    QVERIFY(board().defects[4].through);
    press(Qt::Key_U);
    drag(at(BoardFace::B, in(0), in(4)), at(BoardFace::B, in(30), in(4)));
    QCOMPARE(board().lookedAt.size(), std::size_t{1});
    QCOMPARE(board().lookedAt[0].face, BoardFace::B);
    QVERIFY(validate(m_session->document()).ok());
    QVERIFY(undoesAndRedoes(*m_session, before));
}

void MarkingPlaceTest::toolsWorkByKeyboardAlone() {
    const Document before = m_session->document();
    press(Qt::Key_E);
    press(Qt::Key_Space); // begins in the middle of the board
    for (int i = 0; i < 6; ++i) {
        press(Qt::Key_Right);
        press(Qt::Key_Up);
    }
    press(Qt::Key_Space);
    QCOMPARE(board().defects.size(), std::size_t{1});
    QCOMPARE(boxOf(*board().defects[0].onA).length(), in(3, 2)); // six quarters
    press(Qt::Key_G);
    press(Qt::Key_F); // on the other face
    press(Qt::Key_Space);
    for (const Qt::Key key : {Qt::Key_Right, Qt::Key_Up, Qt::Key_Left}) {
        press(key, Qt::ShiftModifier);
        press(Qt::Key_Space);
    }
    press(Qt::Key_Backspace);
    press(Qt::Key_Return);
    QCOMPARE(board().defects.size(), std::size_t{2});
    QVERIFY(board().defects[1].onB.has_value());
    press(Qt::Key_V);
    // The pick tool: Tab goes along the board, arrows move, Ctrl+arrows stretch, Del removes.
    press(Qt::Key_Tab);
    QVERIFY(m_session->selection().defect.has_value());
    const Rect box = boxOf(*findDefect(board(), *m_session->selection().defect)->onA);
    press(Qt::Key_Right);
    press(Qt::Key_Up, Qt::ControlModifier);
    const Rect moved = boxOf(*findDefect(board(), *m_session->selection().defect)->onA);
    QCOMPARE(moved.x0, box.x0 + in(1, 16));
    QCOMPARE(moved.width(), box.width() + in(1, 16));
    press(Qt::Key_Delete);
    QCOMPARE(board().defects.size(), std::size_t{1});
    QVERIFY(undoesAndRedoes(*m_session, before));
}

void MarkingPlaceTest::zoomTo(BoardFace face, Length x, Length y) {
    for (int i = 0; i < 5; ++i) {
        const QPointF spot = sheet().pixelOf(face, {x, y});
        QWheelEvent wheel(spot, sheet().mapToGlobal(spot), {}, {0, 240}, Qt::NoButton, {},
                          Qt::NoScrollPhase, false);
        QCoreApplication::sendEvent(&sheet(), &wheel);
    }
}

void MarkingPlaceTest::aMarkIsMovedAndStretched() {
    Board with = board();
    Defect knot;
    knot.id = DefectId{m_session->document().nextId};
    knot.mark = "K1";
    knot.kind = DefectKind::SoundKnot;
    knot.onA = knot.onB = ellipseBetween({in(48), in(3)}, {in(50), in(5)}).value();
    knot.through = true;
    with.defects.push_back(knot);
    QVERIFY(m_session->edit("Mark", Edit{ReplaceBoard{with}}));
    const Document before = m_session->document();
    zoomTo(BoardFace::A, in(49), in(4));
    drag(at(BoardFace::A, in(49), in(4)), at(BoardFace::A, in(50), in(4)));
    const Rect moved = boxOf(*board().defects[0].onA);
    QCOMPARE(moved.length(), in(2));
    QVERIFY(abs(moved.x0 - in(49)) <= in(1, 16));
    QCOMPARE(boxOf(*board().defects[0].onB).x0, in(48)); // the other end stays where it is
    drag(at(BoardFace::A, moved.x1, moved.y1),
         at(BoardFace::A, moved.x1 + in(1), moved.y1 + in(1, 2)));
    const Rect stretched = boxOf(*board().defects[0].onA);
    QCOMPARE(stretched.x0, moved.x0);
    QVERIFY(abs(stretched.x1 - moved.x1 - in(1)) <= in(1, 16));
    QVERIFY(abs(stretched.y1 - moved.y1 - in(1, 2)) <= in(1, 16));
    QCOMPARE(m_session->undoStack().count(), 3); // one step each
    m_session->undoStack().undo();
    m_session->undoStack().undo();
    QVERIFY(m_session->document() == before);
}

void MarkingPlaceTest::bothFacesShowTheSamePlace() {
    // Turned over its long axis: the same distance from the datum end stands above one another, the
    // near edge is below on A and above on B.
    const QPointF nearA = sheet().pixelOf(BoardFace::A, {in(30), in(1)});
    const QPointF farA = sheet().pixelOf(BoardFace::A, {in(30), in(7)});
    const QPointF nearB = sheet().pixelOf(BoardFace::B, {in(30), in(1)});
    const QPointF farB = sheet().pixelOf(BoardFace::B, {in(30), in(7)});
    QCOMPARE(nearA.x(), nearB.x());
    QVERIFY(nearA.y() > farA.y());
    QVERIFY(nearB.y() < farB.y());
    QTest::mouseMove(&sheet(), nearB.toPoint());
    QCoreApplication::processEvents();
    QVERIFY2(sheet().placeWords().startsWith("Face B: 30"), qPrintable(sheet().placeWords()));
}

void MarkingPlaceTest::aKnotIsPairedAndPartedAgain() {
    press(Qt::Key_E);
    drag(at(BoardFace::A, in(30), in(2)), at(BoardFace::A, in(33), in(4)));
    drag(at(BoardFace::B, in(31), in(3)), at(BoardFace::B, in(34), in(5)));
    QCOMPARE(board().defects.size(), std::size_t{2});
    const Document apart = m_session->document();
    press(Qt::Key_J);
    QCOMPARE(board().defects.size(), std::size_t{1});
    QVERIFY(board().defects[0].through && board().defects[0].onA && board().defects[0].onB);
    const Document one = m_session->document();
    press(Qt::Key_J);
    QCOMPARE(board().defects.size(), std::size_t{2});
    m_session->undoStack().undo();
    QVERIFY(m_session->document() == one);
    m_session->undoStack().undo();
    QVERIFY(m_session->document() == apart);
}

void MarkingPlaceTest::stretchesAreSaidInWords() {
    const Document before = m_session->document();
    press(Qt::Key_Slash);
    type("bad from 31 to 36");
    press(Qt::Key_Return);
    QCOMPARE(board().defects.size(), std::size_t{1});
    press(Qt::Key_Slash);
    type("the rest sound, under 1 in");
    press(Qt::Key_Return);
    QVERIFY(notLookedAt(board(), BoardFace::A, {Length(), in(96)}).empty());
    QCOMPARE(quicklyLookedAt(board(), BoardFace::A, {Length(), in(96)}).size(), std::size_t{2});
    press(Qt::Key_Slash);
    type("bad from 31");
    press(Qt::Key_Return);
    auto* line = m_view->findChild<QLineEdit*>("stretchNote");
    QCOMPARE(line->text(), QString("bad from 31")); // what cannot be read stays
    QVERIFY(undoesAndRedoes(*m_session, before));
}

void MarkingPlaceTest::cornersOfTheOutlineAreDragged() {
    const Document before = m_session->document();
    press(Qt::Key_D);
    drag(at(BoardFace::A, in(96), in(8)), at(BoardFace::A, in(96), in(6)));
    QVERIFY(abs(endWidthsOf(board().outline).atFar - in(6)) < in(1, 2));
    QCOMPARE(lengthOf(board()), in(96)); // the end stays square to the tape
    drag(at(BoardFace::A, in(48), in(0)), at(BoardFace::A, in(48), in(1)));
    QCOMPARE(board().outline.size(), std::size_t{5});
    QVERIFY(crookOf(board().outline) > in(1, 2));
    press(Qt::Key_Delete);
    QCOMPARE(board().outline.size(), std::size_t{4});
    press(Qt::Key_Tab);
    press(Qt::Key_Up);
    QVERIFY(validate(m_session->document()).ok());
    QVERIFY(undoesAndRedoes(*m_session, before));
}

void MarkingPlaceTest::delInTheDrawingTakesTheMarkAndNeverTheBoard() {
    press(Qt::Key_E);
    drag(at(BoardFace::A, in(30), in(2)), at(BoardFace::A, in(33), in(4)));
    press(Qt::Key_Delete);
    QCOMPARE(board().defects.size(), std::size_t{0});
    press(Qt::Key_Delete);
    press(Qt::Key_Delete);
    QCOMPARE(m_session->document().boards.size(), std::size_t{1});
}

void MarkingPlaceTest::escapeGoesBackOneLevel() {
    press(Qt::Key_G);
    QTest::mouseClick(&sheet(), Qt::LeftButton, {}, at(BoardFace::A, in(30), in(2)));
    press(Qt::Key_Escape);
    QCOMPARE(sheet().tool(), ToolId::Corners);
    press(Qt::Key_Escape);
    QCOMPARE(sheet().tool(), ToolId::Select);
    QCOMPARE(board().defects.size(), std::size_t{0});
}

/// Counts every key that is no digit: letters, points, blanks and bars of fractions, Tab, Enter.
class Keys {
  public:
    void text(const QString& typed) {
        for (const QChar c : typed) {
            m_count += c.isDigit() ? 0 : 1;
        }
        type(typed);
    }
    void key(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
        ++m_count;
        press(key, modifiers);
    }
    int take() { return std::exchange(m_count, 0); }

  private:
    int m_count = 0;
};

void MarkingPlaceTest::thirtyBoardsWithSixtyDefectsTakeFewKeys() {
    m_session->adopt(emptyJob(), {});
    const Document before = m_session->document();
    Keys keys;
    std::vector<int> boardKeys(30, 0);
    int most = 0;
    keys.key(Qt::Key_R, Qt::ControlModifier);
    int around = keys.take(); // what is pressed once for all
    for (int i = 0; i < 30; ++i) {
        keys.key(Qt::Key_Tab); // the mark counts on
        keys.text(i % 3 == 0 ? "4" : "8");
        keys.key(Qt::Key_Tab);
        keys.text(QString("%1 1/2").arg(90 + i));
        keys.key(Qt::Key_Tab);
        keys.text(QString("%1 1/4").arg(6 + i % 4));
        keys.key(Qt::Key_Tab);
        keys.text(i % 2 == 1 ? QString("%1 3/4").arg(5 + i % 4) : QString::number(6 + i % 4));
        keys.key(Qt::Key_Tab);
        keys.text(i % 3 == 0 ? "15/16" : "1 15/16");
        if (i == 0) {
            keys.key(Qt::Key_Tab);
            keys.text("11.50"); // one price for the stack
        }
        keys.key(Qt::Key_Return);
        boardKeys[static_cast<std::size_t>(i)] = keys.take();
    }
    for (const ReadTallyRow& row : m_view->quickEntry().model().read().rows) {
        for (const ReadTallyCell& cell : row.cells) {
            QVERIFY2(cell.wrong.empty(), cell.wrong.c_str());
        }
    }
    keys.key(Qt::Key_Return, Qt::ControlModifier);
    QCOMPARE(m_session->document().boards.size(), std::size_t{30});
    keys.key(Qt::Key_F6); // from the tally to the drawing of the first board
    QVERIFY(sheet().hasFocus());
    around += keys.take();
    std::vector<int> defectKeys;
    for (int i = 0; i < 30; ++i) {
        for (int k = 0; k < 2; ++k) {
            if (k == 0) {
                keys.text("s");
            } else {
                keys.key(Qt::Key_L, Qt::ShiftModifier); // through
            }
            keys.text(QString("%1 3/8").arg(20 + i + 20 * k));
            keys.key(Qt::Key_Tab);
            keys.text("2 1/4");
            keys.key(Qt::Key_Tab);
            keys.text("1 1/4");
            keys.key(Qt::Key_Tab);
            keys.text("3/4");
            keys.key(Qt::Key_Return);
            defectKeys.push_back(keys.take());
            QVERIFY(sheet().hasFocus());
        }
        keys.key(Qt::Key_PageDown);
        boardKeys[static_cast<std::size_t>(i)] += keys.take();
    }
    std::size_t defects = 0;
    for (const Board& each : m_session->document().boards) {
        defects += each.defects.size();
        for (const Defect& defect : each.defects) {
            const Rect box = boxOf(*defect.onA);
            QCOMPARE(box.length(), in(5, 4));
            QCOMPARE(box.width(), in(3, 4));
            QCOMPARE(defect.through, defect.kind == DefectKind::LooseKnot);
        }
    }
    QCOMPARE(defects, std::size_t{60});
    for (const int count : boardKeys) {
        most = std::max(most, count);
    }
    const int mostDefect = *std::max_element(defectKeys.begin(), defectKeys.end());
    qInfo("most keys beyond the digits: %d a board, %d a defect, %d once", most, mostDefect,
          around);
    QVERIFY(around <= 5);
    QVERIFY2(most <= 15, qPrintable(QString::number(most)));
    QVERIFY2(mostDefect <= 12, qPrintable(QString::number(mostDefect)));
    QVERIFY(validate(m_session->document()).ok());
    QVERIFY(undoesAndRedoes(*m_session, before));
}

/// Whatever is done to a board by pointer and keys, taken back step by step the job is what it was
/// after each of them, and done again it comes to the same.
void MarkingPlaceTest::randomStepsAreTakenBackExactly() {
    std::mt19937 random(20240611); // printed with a failure below
    const auto upTo = [&](int most) {
        return static_cast<int>(random() % static_cast<unsigned>(most));
    };
    std::vector<Document> states = {m_session->document()};
    QUndoStack& stack = m_session->undoStack();
    const std::vector<Qt::Key> letters = {Qt::Key_E, Qt::Key_G, Qt::Key_H, Qt::Key_Q, Qt::Key_R,
                                          Qt::Key_U, Qt::Key_D, Qt::Key_V, Qt::Key_J, Qt::Key_W,
                                          Qt::Key_C, Qt::Key_L, Qt::Key_O, Qt::Key_F};
    for (int step = 0; step < 250; ++step) {
        sheet().setFocus();
        const BoardFace face = upTo(2) == 0 ? BoardFace::A : BoardFace::B;
        const auto place = [&] { return at(face, in(upTo(97)), in(upTo(9))); };
        switch (upTo(5)) {
        case 0:
        case 1:
            drag(place(), place());
            break;
        case 2: {
            const Qt::Key key =
                letters[static_cast<std::size_t>(upTo(static_cast<int>(letters.size())))];
            if (sheet().tool() != ToolId::Select || m_session->selection().defect ||
                key < Qt::Key_J || key == Qt::Key_V || key == Qt::Key_Q || key == Qt::Key_R ||
                key == Qt::Key_U) {
                press(key); // letters with nothing picked open a row to type into
            }
            break;
        }
        case 3:
            press(upTo(3) == 0 ? Qt::Key_Delete : Qt::Key_Tab);
            press(upTo(2) == 0 ? Qt::Key_Right : Qt::Key_Up,
                  upTo(2) == 0 ? Qt::ControlModifier : Qt::NoModifier);
            break;
        default:
            QTest::mouseClick(&sheet(), Qt::LeftButton, {}, place());
            break;
        }
        QVERIFY2(validate(m_session->document()).ok(), qPrintable(QString::number(step)));
        while (static_cast<int>(states.size()) <= stack.index()) {
            states.push_back(m_session->document());
        }
        states.back() = m_session->document();
    }
    const int steps = stack.index();
    qInfo("%d steps of 250 gestures", steps);
    QVERIFY(steps > 50);
    QCOMPARE(states.size(), static_cast<std::size_t>(steps) + 1);
    for (int i = steps - 1; i >= 0; --i) {
        stack.undo();
        QVERIFY2(m_session->document() == states[static_cast<std::size_t>(i)],
                 qPrintable(QString::number(i)));
    }
    for (int i = 1; i <= steps; ++i) {
        stack.redo();
        QVERIFY2(m_session->document() == states[static_cast<std::size_t>(i)],
                 qPrintable(QString::number(i)));
    }
}

} // namespace

std::unique_ptr<QObject> makeMarkingPlaceTest() { return std::make_unique<MarkingPlaceTest>(); }

} // namespace stavewright::testing_places

#include "MarkingPlaceTest.moc"
