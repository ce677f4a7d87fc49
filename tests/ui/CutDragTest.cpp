// Cuts of the plan moved by hand through the real window, with the pointer and by keys.

#include <QTest>

#include "tests/ui/HandWindow.h"
#include "tests/ui/Tests.h"
#include "ui/layout/BoardItem.h"

namespace stavewright::testing_ui {

namespace {

using namespace ui;

class CutDragTest : public HandWindow {
    Q_OBJECT
  private slots:
    void init();
    void cleanup();
    void aCutIsDraggedWithThePointer();
    void holdingCtrlLetsNoMarkDrawACut();
    void escapePutsACutBackExactly();
    void aCutIsMovedByKeys();

  private:
    /// A crosscut that may move, where the pointer takes it, and so many pixels aside.
    bool pressCut(int pixels, Qt::KeyboardModifiers with = Qt::NoModifier);
    QPoint m_cutAt;
};

void CutDragTest::init() { openShelf(); }

void CutDragTest::cleanup() { close(); }

bool CutDragTest::pressCut(int pixels, Qt::KeyboardModifiers with) {
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

void CutDragTest::aCutIsDraggedWithThePointer() {
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

void CutDragTest::holdingCtrlLetsNoMarkDrawACut() {
    QVERIFY2(pressCut(12), qPrintable(m_hint));
    const auto drawnTo = [this] { return rack().cuts().held()->snappedTo; };
    for (int by = 0; by < 400 && drawnTo().empty(); ++by) {
        pointerTo(m_cutAt + QPoint(by % 2 == 0 ? by / 2 : -by / 2, 0));
    }
    const std::string mark = drawnTo();
    QVERIFY(!mark.empty());
    const Length where = rack().cuts().held()->where;
    QTest::keyPress(&rack(), Qt::Key_Control); // the pointer stands still
    QVERIFY(drawnTo().empty());
    QTest::keyRelease(&rack(), Qt::Key_Control);
    QCOMPARE(drawnTo(), mark);
    QCOMPARE(rack().cuts().held()->where, where);
    key(Qt::Key_Escape);
    QTest::mouseRelease(rack().viewport(), Qt::LeftButton, {}, m_cutAt);
}

void CutDragTest::escapePutsACutBackExactly() {
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

void CutDragTest::aCutIsMovedByKeys() {
    for (const BlankId blank : blanks()) {
        selectBlank(blank);
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

std::unique_ptr<QObject> makeCutDragTest() { return std::make_unique<CutDragTest>(); }

} // namespace stavewright::testing_ui

#include "CutDragTest.moc"
