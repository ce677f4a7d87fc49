// Other plans, what demands cost, and why a blank lies where it lies, in the real window.

#include <QAction>
#include <QListView>
#include <QPushButton>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>
#include <QTreeView>

#include <algorithm>

#include "core/job/JobFile.h"
#include "core/planning/Figures.h"
#include "core/shop/Presets.h"
#include "tests/tools/samples/Samples.h"
#include "tests/ui/TestJobs.h"
#include "tests/ui/Tests.h"
#include "ui/layout/ChoicesPanel.h"
#include "ui/layout/LayoutView.h"
#include "ui/layout/VerdictBar.h"
#include "ui/session/ChoicesController.h"
#include "ui/session/DocumentSession.h"
#include "ui/session/PlanController.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/window/MainWindow.h"

namespace stavewright::testing_ui {

namespace {

using namespace ui;

constexpr int timeout = 120'000; // ms; far more than the counted work takes

/// One bar. A cheap board with pin knots all over, which may show, and a dear one without any.
Document knottyOrClear() {
    const auto in = [](std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); };
    Document job;
    job.info.title = "One bar";
    job.shop = inchShop();
    job.nextId = presetRules::last + 1;
    Part bar;
    bar.id = job.takeId<PartId>();
    bar.mark = "X";
    bar.name = "Bar";
    bar.species = "white_oak";
    bar.length.base = in(22);
    bar.width.base = in(5, 2);
    bar.thickness.base = in(3, 4);
    job.parts = {bar};
    for (const char* mark : {"1", "2"}) {
        Board board;
        board.id = job.takeId<BoardId>();
        board.mark = mark;
        board.species = "white_oak";
        board.quarter = {4};
        board.thinnest = in(1);
        board.outline = {{in(0), in(0)}, {in(96), in(0)}, {in(96), in(8)}, {in(0), in(8)}};
        board.lookedAt = {{BoardFace::A, {in(0), in(96)}}, {BoardFace::B, {in(0), in(96)}}};
        board.pricePerBoardFoot = Money::whole(job.boards.empty() ? 9 : 20);
        job.boards.push_back(board);
    }
    for (int x = 2; x < 96; x += 4) {
        for (const int y : {1, 3, 5, 7}) {
            Defect knot;
            knot.id = job.takeId<DefectId>();
            knot.mark = "K" + std::to_string(knot.id.value);
            knot.kind = DefectKind::SoundKnot;
            knot.through = true;
            const Point centre{in(x), in(y)};
            knot.onA = FaceMark{ellipsePolygon(centre, in(1, 8), in(1, 8)),
                                Ellipse{centre, in(1, 8), in(1, 8), 0}};
            job.boards.front().defects.push_back(knot);
        }
    }
    return job;
}

class ChoicesTest : public QObject {
    Q_OBJECT
  private slots:
    void init();
    void cleanup();
    void plansStandSideBySideAndLookingLeavesTheJob();
    void aPlanIsTakenWithEnterAsOneStep();
    void plansSideBySideAreKnownToWhoGoesOnByHand();
    void escapePutsTheListAwayAndShowsTheJobsPlan();
    void anEditForgetsWhatWasAskedOfTheOldJob();
    void stoppedItAnswersAtOnce();
    void planningEndsTheQuestion();
    void demandsAreListedAndEasedAsOneStep();
    void aBlankTellsWhyItLiesThere();
    void withoutASelectedBlankWhyIsNotOffered();

  private:
    void plan();
    void planKnottyOrClear(); ///< a small job with two plans that differ
    void wait();
    void picture(const QString& name);
    ChoicesPanel& panel() { return m_window->layoutPlace().sideBySide(); }
    ChoicesController& choices() { return m_window->choices(); }
    DocumentSession& session() { return m_window->session(); }

    std::unique_ptr<QTemporaryDir> m_folder;
    std::unique_ptr<MainWindow> m_window;
};

void ChoicesTest::init() {
    QSettings().clear();
    QSettings().setValue("view/appearance", static_cast<int>(Appearance::Light));
    m_folder = std::make_unique<QTemporaryDir>();
    const QString file = m_folder->filePath("table.stavejob");
    QVERIFY(writeJob(samples::kitchenTable(), file.toStdString()).ok());
    m_window = std::make_unique<MainWindow>();
    m_window->resize(1280, 800);
    QVERIFY(m_window->openFile(file));
    m_window->show();
    QVERIFY(QTest::qWaitForWindowExposed(m_window.get()));
    PlanOptions options = quickOptions();
    options.seconds = 0;
    options.work = 20'000;
    m_window->controller().setOptions(options);
}

void ChoicesTest::cleanup() {
    m_window.reset();
    m_folder.reset();
}

void ChoicesTest::plan() {
    m_window->action(CommandId::Plan)->trigger();
    QTRY_VERIFY_WITH_TIMEOUT(!m_window->controller().isRunning(), timeout);
    QVERIFY2(session().document().plan.has_value(), qPrintable(m_window->banner().sentence()));
}

void ChoicesTest::planKnottyOrClear() {
    const QString file = m_folder->filePath("bar.stavejob");
    QVERIFY(writeJob(knottyOrClear(), file.toStdString()).ok());
    QVERIFY(m_window->openFile(file));
    plan();
}

void ChoicesTest::wait() { QTRY_VERIFY_WITH_TIMEOUT(!choices().isRunning(), timeout); }

/// With STAVEWRIGHT_PICTURES set to a folder, the window as it is, light and dark.
void ChoicesTest::picture(const QString& name) {
    const QString folder = qEnvironmentVariable("STAVEWRIGHT_PICTURES");
    if (folder.isEmpty()) {
        return;
    }
    for (const auto& [appearance, end] :
         {std::pair(Appearance::Dark, "-dark"), std::pair(Appearance::Light, "-light")}) {
        applyAppearance(appearance);
        QTest::qWait(50);
        QVERIFY(m_window->grab().save(folder + "/" + name + end + ".png"));
    }
}

void ChoicesTest::plansStandSideBySideAndLookingLeavesTheJob() {
    planKnottyOrClear();
    const Plan before = *session().document().plan;
    QVERIFY(!panel().isVisible());
    m_window->action(CommandId::ComparePlans)->trigger();
    QVERIFY(choices().isRunning());
    QVERIFY(panel().isVisible());
    QVERIFY(panel().stopButton()->isVisible());
    wait();
    QTreeView& list = *panel().plans();
    const int rows = list.model()->rowCount();
    QCOMPARE(rows, static_cast<int>(choices().plans()->plans.size()));
    QVERIFY2(rows > 1, "the sample has more than one good plan");
    QCOMPARE(list.model()->columnCount(), 5);
    QVERIFY(list.model()->index(0, 0).data().toString().contains("Cheapest"));
    QVERIFY(list.hasFocus());
    picture("side-by-side");
    QTest::keyClick(&list, Qt::Key_Down);
    QVERIFY(m_window->controller().preview().has_value());
    QCOMPARE(m_window->controller().preview()->boards, choices().plans()->plans[1].plan.boards);
    QCOMPARE(session().document().plan->boards, before.boards);
    QVERIFY2(m_window->verdict().text().contains("Only shown"),
             qPrintable(m_window->verdict().text()));
    picture("side-by-side-shown");
    QTest::keyClick(&list, Qt::Key_Up);
    QVERIFY(!m_window->controller().preview().has_value());
}

void ChoicesTest::aPlanIsTakenWithEnterAsOneStep() {
    planKnottyOrClear();
    const Document before = session().document();
    m_window->action(CommandId::ComparePlans)->trigger();
    wait();
    const int steps = session().undoStack().count();
    QTest::keyClick(panel().plans(), Qt::Key_Down);
    QTest::keyClick(panel().plans(), Qt::Key_Return);
    QCOMPARE(session().undoStack().count(), steps + 1);
    QCOMPARE(session().document().plan->boards, choices().plans()->plans[1].plan.boards);
    QVERIFY(session().auditReport().passed());
    QVERIFY(!m_window->controller().preview().has_value());
    // The list stays, and says which one the job has now.
    QVERIFY(panel().isVisible());
    QCOMPARE(choices().taken(), std::optional<std::size_t>(1));
    m_window->action(CommandId::Undo)->trigger();
    QCOMPARE(session().document(), before);
    m_window->action(CommandId::Redo)->trigger();
    QCOMPARE(session().document().plan->boards, choices().plans()->plans[1].plan.boards);
}

void ChoicesTest::plansSideBySideAreKnownToWhoGoesOnByHand() {
    planKnottyOrClear();
    m_window->action(CommandId::ComparePlans)->trigger();
    wait();
    const choices::Alternatives& found = *choices().plans();
    const Money cheapest =
        std::min_element(found.plans.begin(), found.plans.end(),
                         [](const choices::Alternative& a, const choices::Alternative& b) {
                             return a.figures.cost < b.figures.cost;
                         })
            ->figures.cost;
    QVERIFY(m_window->controller().bestKnown().has_value());
    QVERIFY(m_window->controller().bestKnown()->cost <= cheapest);
}

void ChoicesTest::escapePutsTheListAwayAndShowsTheJobsPlan() {
    planKnottyOrClear();
    m_window->action(CommandId::ComparePlans)->trigger();
    wait();
    QTest::keyClick(panel().plans(), Qt::Key_Down);
    QVERIFY(m_window->controller().preview().has_value());
    QTest::keyClick(panel().plans(), Qt::Key_Escape);
    QVERIFY(!panel().isVisible());
    QVERIFY(!m_window->controller().preview().has_value());
}

void ChoicesTest::anEditForgetsWhatWasAskedOfTheOldJob() {
    plan();
    m_window->action(CommandId::ComparePlans)->trigger();
    wait();
    QVERIFY(panel().isVisible());
    Part part = session().document().parts.front();
    part.name += " too";
    QVERIFY(session().edit("Rename", Edit{ReplacePart{part}}));
    QVERIFY(!panel().isVisible());
    QVERIFY(!choices().plans().has_value());
}

void ChoicesTest::stoppedItAnswersAtOnce() {
    plan();
    PlanOptions endless = m_window->controller().options();
    endless.work = 0;
    endless.seconds = 0;
    m_window->controller().setOptions(endless);
    m_window->action(CommandId::ComparePlans)->trigger();
    QTest::qWait(300);
    QVERIFY(choices().isRunning());
    QTest::mouseClick(panel().stopButton(), Qt::LeftButton);
    QTRY_VERIFY_WITH_TIMEOUT(!choices().isRunning(), 10'000);
    QVERIFY(choices().plans().has_value());
    QVERIFY(choices().plans()->stoppedEarly);
    QVERIFY2(panel().sentence().contains("Stopped"), qPrintable(panel().sentence()));
}

void ChoicesTest::planningEndsTheQuestion() {
    plan();
    m_window->action(CommandId::DemandCosts)->trigger();
    QVERIFY(choices().isRunning());
    m_window->action(CommandId::Plan)->trigger();
    QVERIFY(!choices().isRunning());
    QTRY_VERIFY_WITH_TIMEOUT(!m_window->controller().isRunning(), timeout);
}

void ChoicesTest::demandsAreListedAndEasedAsOneStep() {
    plan();
    const Document before = session().document();
    m_window->action(CommandId::DemandCosts)->trigger();
    QVERIFY(choices().isRunning());
    wait();
    QVERIFY(choices().demands().has_value());
    const int rows = panel().demands()->model()->rowCount();
    QCOMPARE(rows, static_cast<int>(choices().demands()->costs.size()));
    QVERIFY2(rows > 0, "some demand of the sample costs something");
    picture("demands");
    const int steps = session().undoStack().count();
    QTest::keyClick(panel().demands(), Qt::Key_Return);
    QCOMPARE(session().undoStack().count(), steps + 1);
    QVERIFY(!(session().document() == before));
    QVERIFY(!panel().isVisible()); // what was planned was another job
    m_window->action(CommandId::Undo)->trigger();
    QCOMPARE(session().document(), before);
}

void ChoicesTest::aBlankTellsWhyItLiesThere() {
    plan();
    Selection selection;
    for (const Section& section : session().document().plan->boards.front().sections) {
        for (const Strip& strip : section.strips) {
            selection.blank = strip.blanks.empty() ? selection.blank : strip.blanks.front().id;
        }
    }
    QVERIFY(selection.blank.has_value());
    session().select(selection);
    QVERIFY(m_window->action(CommandId::WhyHere)->isEnabled());
    m_window->action(CommandId::WhyHere)->trigger();
    QVERIFY(choices().isRunning());
    wait();
    QVERIFY(choices().why().has_value());
    const QString sentence = QString::fromStdString(choices().why()->sentence);
    bool isTold = false;
    for (const FractionLabel* label : m_window->layoutPlace().findChildren<FractionLabel*>()) {
        isTold = isTold || (label->isVisible() && label->text() == sentence);
    }
    QVERIFY2(isTold, qPrintable(sentence));
    picture("why-here");
}

void ChoicesTest::withoutASelectedBlankWhyIsNotOffered() {
    plan();
    session().select({});
    QVERIFY(!m_window->action(CommandId::WhyHere)->isEnabled());
}

} // namespace

std::unique_ptr<QObject> makeChoicesTest() { return std::make_unique<ChoicesTest>(); }

} // namespace stavewright::testing_ui

#include "ChoicesTest.moc"
