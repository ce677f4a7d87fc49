#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

#include "tests/ui/TestJobs.h"
#include "tests/ui/Tests.h"
#include "ui/session/DocumentSession.h"
#include "ui/session/PlanController.h"
#include "ui/session/Recovery.h"

namespace stavewright::testing_ui {

namespace {

using namespace ui;

Edit renameFirst(const DocumentSession& session, const std::string& mark) {
    return Edit{ReplaceBoard{withMark(session.document().boards.front(), mark)}};
}

class SessionTest : public QObject {
    Q_OBJECT
  private slots:
    void undoAndRedoGiveTheSameDocument();
    void anEditThatChangesNothingLeavesNoStep();
    void typingMergesAndTypingBackLeavesNoStep();
    void aRefusedEditSaysWhy();
    void selectionOfSomethingRemovedIsDropped();
    void whatAStepTookAwayIsSelectedAgainWithUndo();
    void savedStateIsTheCleanStateAlsoAfterUndo();
    void renumberedPlansKeepTheirShape();
    void recoveryFindsWhatACrashLeft();
};

void SessionTest::undoAndRedoGiveTheSameDocument() {
    DocumentSession session;
    session.adopt(sample::sideTable(), {});
    const Document before = session.document();
    QVERIFY(session.edit("Rename board", renameFirst(session, "99")));
    const Document after = session.document();
    QVERIFY(!(before == after));
    QCOMPARE(session.undoStack().undoText(), QString("Rename board"));
    for (int round = 0; round < 2; ++round) {
        session.undoStack().undo();
        QVERIFY(session.document() == before);
        session.undoStack().redo();
        QVERIFY(session.document() == after);
    }
}

void SessionTest::anEditThatChangesNothingLeavesNoStep() {
    DocumentSession session;
    session.adopt(sample::sideTable(), {});
    QSignalSpy changed(&session, &DocumentSession::changed);
    QVERIFY(session.edit("Rename board", renameFirst(session, "1")));
    QCOMPARE(session.undoStack().count(), 0);
    QCOMPARE(changed.count(), 0);
}

void SessionTest::typingMergesAndTypingBackLeavesNoStep() {
    DocumentSession session;
    session.adopt(sample::sideTable(), {});
    const Document before = session.document();
    // The very first step stands on the saved state, which a later one must not swallow.
    QVERIFY(session.edit("Other", Edit{ReplaceInfo{[&] {
                             JobInfo info = session.document().info;
                             info.notes = "something";
                             return info;
                         }()}}));
    const int steps = session.undoStack().count();
    const Document start = session.document();
    QVERIFY(session.edit("Rename board", renameFirst(session, "5"), 7));
    QVERIFY(session.edit("Rename board", renameFirst(session, "56"), 7));
    QVERIFY(session.edit("Rename board", renameFirst(session, "567"), 7));
    QCOMPARE(session.undoStack().count(), steps + 1);
    session.undoStack().undo();
    QVERIFY(session.document() == start);
    session.undoStack().redo();
    QCOMPARE(session.document().boards.front().mark, std::string("567"));
    session.undoStack().undo();
    QVERIFY(session.edit("Rename board", renameFirst(session, "8"), 7));
    QVERIFY(session.edit("Rename board", renameFirst(session, "1"), 7));
    QCOMPARE(session.undoStack().count(), steps);
    QVERIFY(session.document() == start);
    session.undoStack().undo();
    QVERIFY(session.document() == before);
}

void SessionTest::aRefusedEditSaysWhy() {
    DocumentSession session;
    session.adopt(sample::sideTable(), {});
    const Document before = session.document();
    QSignalSpy failed(&session, &DocumentSession::failed);
    QVERIFY(!session.edit("Remove board", Edit{RemoveBoard{BoardId{424242}}}));
    QCOMPARE(failed.count(), 1);
    QVERIFY(failed.front().front().toString().size() > 10);
    QVERIFY(session.document() == before);
    QCOMPARE(session.undoStack().count(), 0);
}

void SessionTest::selectionOfSomethingRemovedIsDropped() {
    DocumentSession session;
    session.adopt(sample::sideTable(), {});
    Selection selection;
    selection.board = session.document().boards.front().id;
    selection.defect = session.document().boards.front().defects.front().id;
    session.select(selection);
    QVERIFY(session.edit("Remove board", Edit{RemoveBoard{*selection.board}}));
    QVERIFY(!session.selection().board);
    QVERIFY(!session.selection().defect);
}

void SessionTest::whatAStepTookAwayIsSelectedAgainWithUndo() {
    DocumentSession session;
    session.adopt(sample::withSmallPlan(), {});
    const BoardLayout& layout = session.document().plan->boards.front();
    const Blank& blank = layout.sections.front().strips.front().blanks.front();
    Selection there;
    there.board = layout.board;
    there.part = blank.purpose.part;
    there.blank = blank.id;
    session.select(there);
    const auto lose = [&] {
        QVERIFY(session.edit("Take the plan away", Edit{ReplacePlan{std::nullopt}}));
        QVERIFY(!session.selection().blank);
        QCOMPARE(session.selection().board, there.board);
    };
    lose();
    session.undoStack().undo();
    QVERIFY(session.selection() == there);
    session.undoStack().redo();
    QVERIFY(!session.selection().blank);
    session.undoStack().undo();
    QVERIFY(session.selection() == there);
    // Who has gone on to something else stays with it.
    lose();
    Selection elsewhere;
    elsewhere.board = session.document().boards.back().id;
    session.select(elsewhere);
    session.undoStack().undo();
    QVERIFY(session.selection() == elsewhere);
    // So does who picks something after a step that took nothing away.
    session.select(there);
    QVERIFY(session.edit("Rename board", renameFirst(session, "99")));
    session.select({});
    session.undoStack().undo();
    QVERIFY(session.selection() == Selection());
}

void SessionTest::savedStateIsTheCleanStateAlsoAfterUndo() {
    const QTemporaryDir folder;
    DocumentSession session;
    session.adopt(sample::sideTable(), {});
    QVERIFY(!session.isModified());
    QVERIFY(session.edit("Rename board", renameFirst(session, "99")));
    QVERIFY(session.isModified());
    QVERIFY(session.save(folder.filePath("job.stavejob")).ok());
    QVERIFY(!session.isModified());
    session.undoStack().undo();
    QVERIFY(session.isModified());
    session.undoStack().redo();
    QVERIFY(!session.isModified());
    QVERIFY(!session.save(folder.path() + "/no such folder/job.stavejob").ok());
}

void SessionTest::renumberedPlansKeepTheirShape() {
    const Plan plan = *sample::withSmallPlan().plan;
    const Plan moved = renumbered(plan, 1000, 0);
    QCOMPARE(largestId(moved), largestId(plan) + 1000);
    QVERIFY(renumbered(moved, -1000, 0) == plan);
}

void SessionTest::recoveryFindsWhatACrashLeft() {
    const QTemporaryDir folder;
    DocumentSession crashed;
    QString file;
    {
        // A crash leaves the file without running the destructor: keep a copy and put it back.
        Recovery recovery(crashed, folder.path());
        crashed.adopt(sample::sideTable(), "/somewhere/side.stavejob");
        QVERIFY(crashed.edit("Rename board", renameFirst(crashed, "99")));
        recovery.writeNow();
        file = recovery.file();
        QVERIFY(QFile::exists(file));
        QFile::copy(file, file + ".kept");
        QFile::copy(file + ".path", file + ".path.kept");
    }
    QVERIFY(!QFile::exists(file)); // an ordinary end leaves nothing
    QFile::rename(file + ".kept", file);
    QFile::rename(file + ".path.kept", file + ".path");

    DocumentSession next;
    Recovery recovery(next, folder.path());
    const std::vector<LostWork> lost = recovery.lostWork();
    QCOMPARE(lost.size(), std::size_t{1});
    QCOMPARE(lost.front().originalPath, QString("/somewhere/side.stavejob"));
    const Result<Document> read = Recovery::read(lost.front());
    QVERIFY(read.ok());
    QVERIFY(read.value() == crashed.document());

    // A damaged copy is left out and blocks nothing.
    QFile damaged(file);
    QVERIFY(damaged.open(QIODevice::WriteOnly));
    damaged.write("not a job");
    damaged.close();
    QVERIFY(recovery.lostWork().empty());
    Recovery::forget(lost.front());
    QVERIFY(!QFile::exists(file));
}

} // namespace

std::unique_ptr<QObject> makeSessionTest() { return std::make_unique<SessionTest>(); }

} // namespace stavewright::testing_ui

#include "SessionTest.moc"
