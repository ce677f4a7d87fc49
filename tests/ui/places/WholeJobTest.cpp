// From an empty job to a plan that passes the audit, by keyboard alone.

#include "core/planning/Planner.h"
#include "tests/ui/places/PlaceTests.h"
#include "ui/entry/EntryView.h"
#include "ui/lumber/LumberView.h"
#include "ui/piece/PieceView.h"

namespace stavewright::testing_places {

namespace {

using namespace ui;

class WholeJobTest : public QObject {
    Q_OBJECT
  private slots:
    void twoBoardsThreeDefectsOnePartByKeyboard();
};

/// One row of cells, Tab between them, Enter at the end.
void typeRow(const QStringList& cells) {
    for (int i = 0; i < cells.size(); ++i) {
        type(cells[i]);
        press(i + 1 < cells.size() ? Qt::Key_Tab : Qt::Key_Return);
    }
}

void WholeJobTest::twoBoardsThreeDefectsOnePartByKeyboard() {
    DocumentSession session;
    session.adopt(emptyJob(), {});
    const Document before = session.document();
    {
        LumberView lumber(session);
        lumber.resize(1280, 760);
        lumber.show();
        lumber.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&lumber));
        press(Qt::Key_Insert);
        typeRow({"7", "black cherry", "5/4", "8' 2", "7-1/2", "7 1/4", "1 3/16", "9.50"});
        press(Qt::Key_Return, Qt::ControlModifier);
        typeRow({"9", "black cherry", "5", "96", "6 1/2"});
        QCOMPARE(session.document().boards.size(), std::size_t{2});
        const Board& first = session.document().boards[0];
        QCOMPARE(first.mark, std::string("7"));
        QCOMPARE(first.species, std::string("black_cherry"));
        QCOMPARE(first.quarter.quarters, 5);
        QCOMPARE(lengthOf(first), Length::inches(98));
        QCOMPARE(widthOf(first), Length::inches(15, 2));
        QCOMPARE(first.thinnest, Length::inches(19, 16));
        QCOMPARE(first.pricePerBoardFoot, Money::cents(950));
        // Three defects on the second board: kind, from the datum, from the edge, along, across.
        press(Qt::Key_K, Qt::ControlModifier);
        typeRow({"S", "31", "2", "1 1/4", "1", "through"});
        press(Qt::Key_Insert);
        typeRow({"L", "50", "1", "1", "3/4", "A"});
        press(Qt::Key_Insert);
        typeRow({"C", "0", "3", "6", "1/8", "B"});
        const Board& second = session.document().boards[1];
        QCOMPARE(second.defects.size(), std::size_t{3});
        QCOMPARE(second.defects[0].kind, DefectKind::SoundKnot);
        QVERIFY(second.defects[0].through);
        QCOMPARE(second.defects[1].kind, DefectKind::LooseKnot);
        QVERIFY(!second.defects[2].onA && second.defects[2].onB);
    }
    {
        PieceView piece(session);
        piece.resize(1280, 760);
        piece.show();
        piece.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&piece));
        press(Qt::Key_Insert);
        typeRow({"R", "Rail", "Base", "black cherry", "4", "24", "2 3/4", "3/4"});
        QCOMPARE(session.document().parts.size(), std::size_t{1});
        QCOMPARE(session.document().parts[0].count, 4);
        QCOMPARE(session.document().parts[0].width.base, Length::inches(11, 4));
    }
    QVERIFY(validate(session.document()).ok());
    QVERIFY(undoesAndRedoes(session, before));

    PlanOptions options;
    options.work = 20'000;
    options.seconds = 20;
    options.threads = 1;
    const Result<PlanOutcome> outcome = planJob(session.document(), options);
    QVERIFY2(outcome.ok(), outcome.ok() ? "" : outcome.error().message.c_str());
    const AuditReport report = audit(session.document(), outcome.value().plan);
    QVERIFY2(report.passed(),
             report.findings.empty() ? "" : report.findings.front().sentence.c_str());
    QVERIFY(outcome.value().plan.unplaced.empty());
}

} // namespace

std::unique_ptr<QObject> makeWholeJobTest() { return std::make_unique<WholeJobTest>(); }

} // namespace stavewright::testing_places

#include "WholeJobTest.moc"
