#include "tests/ui/PlannedWindow.h"

#include <QCoreApplication>
#include <QLineEdit>
#include <QPointer>
#include <QPushButton>
#include <QSettings>
#include <QTest>

#include <map>

#include "core/hand/PlanTree.h"
#include "core/job/JobFile.h"
#include "tests/tools/BlanksOf.h"
#include "tests/ui/TestJobs.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/LengthEdit.h"
#include "ui/widgets/Theme.h"

namespace stavewright::testing_ui {

using namespace ui;

void PlannedWindow::open(const Sample& sample) {
    static std::map<std::pair<Document (*)(), std::uint64_t>, Document> planned;
    Document& job = planned[{sample.make, sample.seed}];
    if (!job.plan) {
        Document made = sample.make();
        Result<PlanOutcome> outcome =
            planJob(made, {.seed = sample.seed, .seconds = 0, .work = sample.work, .threads = 1});
        QVERIFY(outcome.ok());
        made.plan = outcome.value().plan;
        made.nextId = std::max(made.nextId, largestId(*made.plan) + 1);
        QVERIFY(audit(made).passed());
        job = std::move(made);
    }
    m_opened = job;
    QSettings().clear();
    QSettings().setValue("view/appearance", static_cast<int>(Appearance::Light));
    m_folder = std::make_unique<QTemporaryDir>();
    const QString file = m_folder->filePath("planned.stavejob");
    QVERIFY(writeJob(m_opened, file.toStdString()).ok());
    m_window = std::make_unique<MainWindow>();
    m_window->resize(1280, 800);
    QVERIFY(m_window->openFile(file));
    m_window->show();
    QVERIFY(QTest::qWaitForWindowExposed(m_window.get()));
    controller().setOptions(quickOptions());
    command(CommandId::PlaceLayout);
    rack().setFocus();
}

void PlannedWindow::close() {
    m_window.reset();
    m_folder.reset();
}

std::vector<BlankId> PlannedWindow::blanks() const {
    return plan_tools::blanksOf(*document().plan);
}

std::vector<BlankId> PlannedWindow::blanksOn(BoardId board) const {
    Plan only;
    if (const BoardLayout* layout = hand::layoutOf(*document().plan, board)) {
        only.boards = {*layout};
    }
    return plan_tools::blanksOf(only);
}

BoardId PlannedWindow::boardAt(std::size_t place) const {
    return document().plan->boards[place].board;
}

const Blank& PlannedWindow::blankOf(BlankId id) const {
    return hand::blankAt(*document().plan, *hand::placeOf(*document().plan, id));
}

void PlannedWindow::selectBoard(BoardId id) {
    Selection selection;
    selection.board = id;
    session().select(selection);
}

void PlannedWindow::selectBlank(BlankId id) {
    Selection selection;
    selection.board = boardAt(hand::placeOf(*document().plan, id)->board);
    selection.blank = id;
    session().select(selection);
    QCOMPARE(session().selection().blank, std::optional(id));
}

void PlannedWindow::key(int key, Qt::KeyboardModifiers with) {
    QTest::keyClick(&rack(), static_cast<Qt::Key>(key), with);
}

void PlannedWindow::command(CommandId id) { m_window->action(id)->trigger(); }

void PlannedWindow::clickLink(const QString& text) {
    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete); // what it offered before
    QCoreApplication::processEvents(); // what it offers now is shown with its layout
    for (FractionLabel* label : m_window->layoutPlace().findChildren<FractionLabel*>()) {
        if (label->isVisible() && label->text() == text) {
            emit label->clicked();
            return;
        }
    }
    QFAIL(qPrintable("The side panel does not offer: " + text));
}

ShopDialog* PlannedWindow::dialog() const {
    const QList<ShopDialog*> all = m_window->findChildren<ShopDialog*>();
    return all.isEmpty() ? nullptr : all.last();
}

void PlannedWindow::type(ShopDialog* dialog, const QString& field, const QString& text) {
    QVERIFY(dialog != nullptr);
    auto* edit = dialog->findChild<LengthEdit*>(field);
    QVERIFY(edit != nullptr);
    edit->field()->setFocus();
    edit->field()->selectAll();
    QTest::keyClicks(edit->field(), text);
}

void PlannedWindow::type(ShopDialog* dialog, const QString& field, Length length) {
    type(dialog, field, QString::number(length.toInches(), 'f', 4) + "\"");
}

void PlannedWindow::take(ShopDialog* dialog, const QString& why) {
    QVERIFY(dialog != nullptr);
    const QPointer<ShopDialog> shown(dialog);
    if (!why.isEmpty()) {
        dialog->findChild<QLineEdit*>("why")->setText(why);
    }
    auto* button = dialog->findChild<QPushButton*>("takeButton");
    QTRY_VERIFY(button->isEnabled());
    QTest::mouseClick(button, Qt::LeftButton);
    QTRY_VERIFY(!shown || !shown->isVisible()); // what it comes to is worked out beside the window
}

void PlannedWindow::expectAudited() {
    const AuditReport& report = session().auditReport();
    QVERIFY2(report.passed(),
             report.findings.empty() ? "" : report.findings.front().sentence.c_str());
}

void PlannedWindow::expectOneStep(const Document& before, int stepsBefore) {
    QCOMPARE(session().undoStack().index(), stepsBefore + 1);
    const Document after = document();
    QVERIFY(!(after == before));
    expectAudited();
    command(CommandId::Undo);
    QVERIFY(document() == before);
    command(CommandId::Redo);
    QVERIFY(document() == after);
}

} // namespace stavewright::testing_ui
