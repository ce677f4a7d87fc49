// How long one frame takes in the window while a blank is dragged in a large job: what the
// pointer's move is answered with, and everything that is painted for it; and the two when it is
// laid down, that which shows it and that of the lists beside. A table of times, by the wall and by
// the processor; nothing is asserted. Then how long the rest of a job of 24 boards takes from the
// command to the first answer in the window.
//
//   bench_drag [--drags N] [--moves N] [--job FILE]
//
// Without a job it is a made-up one of 60 boards and 300 blanks, planned with little work: how good
// the plan is makes no difference here.

#include <QApplication>
#include <QLocale>
#include <QMouseEvent>
#include <QScrollBar>
#include <QSettings>
#include <QStandardPaths>
#include <QTemporaryDir>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <random>

#include "core/audit/Audit.h"
#include "core/hand/HandEdits.h"
#include "core/hand/PlanTree.h"
#include "core/job/JobFile.h"
#include "tests/bench/PlannedJob.h"
#include "tests/tools/BlanksOf.h"
#include "tests/tools/samples/Samples.h"
#include "ui/layout/LayoutView.h"
#include "ui/layout/RackView.h"
#include "ui/paint/PagePainter.h"
#include "ui/session/DocumentSession.h"
#include "ui/session/PlanController.h"
#include "ui/widgets/Theme.h"
#include "ui/window/MainWindow.h"

using namespace stavewright;

namespace {

/// Of this thread, in milliseconds: what a frame would take with a processor of its own.
double processorTime() {
    timespec now{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) * 1e-6;
}

void move(ui::RackView& rack, QEvent::Type type, QPoint to) {
    const bool isMove = type == QEvent::MouseMove;
    QMouseEvent event(type, QPointF(to), QPointF(rack.viewport()->mapToGlobal(to)),
                      isMove ? Qt::NoButton : Qt::LeftButton,
                      type == QEvent::MouseButtonRelease ? Qt::NoButton : Qt::LeftButton,
                      Qt::NoModifier);
    QApplication::sendEvent(rack.viewport(), &event);
}

struct Options {
    int drags = 20; ///< for each window and zoom
    int moves = 10; ///< before each planning of the rest
    QString job;
};

void measure(ui::MainWindow& window, const char* how, int drags) {
    ui::RackView& rack = window.layoutPlace().rack();
    const std::vector<BlankId> blanks = plan_tools::blanksOf(*window.session().document().plan);
    std::mt19937_64 random(1);
    std::vector<double> presses, lifts, frames, drops, lists;
    std::vector<double> ownPresses, ownLifts, ownFrames, ownDrops, ownEntries, ownLists;
    for (int i = 0; i < drags; ++i) {
        ui::Selection selection;
        selection.blank = blanks[random() % blanks.size()];
        window.session().select(selection);
        QApplication::processEvents();
        const QPoint at = rack.viewportPointOf(*selection.blank);
        auto start = std::chrono::steady_clock::now();
        double own = processorTime();
        move(rack, QEvent::MouseButtonPress, at);
        QApplication::processEvents();
        presses.push_back(bench::milliseconds(start));
        ownPresses.push_back(processorTime() - own);
        start = std::chrono::steady_clock::now();
        own = processorTime();
        move(rack, QEvent::MouseMove, at + QPoint(9, 0));
        QApplication::processEvents();
        lifts.push_back(bench::milliseconds(start));
        ownLifts.push_back(processorTime() - own);
        if (!rack.hand().isHolding()) {
            move(rack, QEvent::MouseButtonRelease, at);
            continue;
        }
        for (int m = 0; m < 60; ++m) { // along a path, as a hand goes
            const QPoint to(at.x() + 4 * m, at.y() + m % 20 - 10 + 3 * m);
            start = std::chrono::steady_clock::now();
            own = processorTime();
            move(rack, QEvent::MouseMove,
                 {std::clamp(to.x(), 40, rack.viewport()->width() - 40),
                  std::clamp(to.y(), 40, rack.viewport()->height() - 40)});
            QApplication::processEvents();
            frames.push_back(bench::milliseconds(start));
            ownFrames.push_back(processorTime() - own);
        }
        rack.hand().takeNearest();
        QApplication::processEvents();
        const int steps = window.session().undoStack().index();
        start = std::chrono::steady_clock::now();
        own = processorTime();
        move(rack, QEvent::MouseButtonRelease, at);
        const double entered = processorTime() - own;
        QApplication::sendPostedEvents(); // painted
        if (window.session().undoStack().index() > steps) {
            drops.push_back(bench::milliseconds(start));
            ownDrops.push_back(processorTime() - own);
            ownEntries.push_back(entered);
            start = std::chrono::steady_clock::now();
            own = processorTime();
            QApplication::processEvents();
            QApplication::sendPostedEvents(); // painted as well
            lists.push_back(bench::milliseconds(start));
            ownLists.push_back(processorTime() - own);
            window.session().undoStack().undo();
        }
        rack.hand().putBack();
        QApplication::processEvents();
    }
    std::printf("%s, %d x %d\n", how, rack.viewport()->width(), rack.viewport()->height());
    bench::printTimes("pressed (selected)", presses);
    bench::printTimes("  of it processor time", ownPresses);
    bench::printTimes("first frame (lifted)", lifts);
    bench::printTimes("  of it processor time", ownLifts);
    bench::printTimes("every further frame", frames);
    bench::printTimes("  of it processor time", ownFrames);
    bench::printTimes("laid down", drops);
    bench::printTimes("  of it processor time", ownDrops);
    bench::printTimes("  of that before anything is painted", ownEntries);
    bench::printTimes("the lists after it", lists);
    bench::printTimes("  of it processor time", ownLists);
    const auto isLong = [](double ms) { return ms > 16; };
    std::printf("  frames over 16 ms: %td of %zu, by processor time %td\n",
                std::count_if(frames.begin(), frames.end(), isLong), frames.size(),
                std::count_if(ownFrames.begin(), ownFrames.end(), isLong));
    std::fflush(stdout); // whoever waits sees each as it is measured
}

/// From the command to the first audited answer on the screen: as a preview while the search goes
/// on, or as what it ended with.
void measureRest(ui::MainWindow& window, ui::CommandId command, const char* how, int moves) {
    ui::DocumentSession& session = window.session();
    ui::PlanController& controller = window.controller();
    const std::vector<BlankId> blanks = plan_tools::blanksOf(*session.document().plan);
    std::mt19937_64 random(1);
    std::vector<double> commands, answers;
    int passed = 0;
    for (int i = 0; i < moves; ++i) {
        const Result<Edit> edit =
            hand::backToTray(session.document(), blanks[random() % blanks.size()]);
        if (!edit || !session.edit("Into the tray", edit.value())) {
            continue;
        }
        QApplication::processEvents();
        bool isShown = false;
        const QObject asked;
        const auto shown = [&] {
            const Plan* plan = controller.preview() ? &*controller.preview() : nullptr;
            passed += !isShown && plan && audit(session.document(), *plan).passed() ? 1 : 0;
            isShown = isShown || plan;
        };
        QObject::connect(&controller, &ui::PlanController::previewChanged, &asked, shown);
        QObject::connect(&controller, &ui::PlanController::refused, &asked,
                         [&] { isShown = true; }); // nothing better is an answer too
        const auto start = std::chrono::steady_clock::now();
        window.action(command)->trigger();
        commands.push_back(bench::milliseconds(start));
        while (!isShown && bench::milliseconds(start) < 20'000) {
            QApplication::processEvents(QEventLoop::WaitForMoreEvents, 5);
        }
        QApplication::processEvents(); // painted
        answers.push_back(bench::milliseconds(start));
        controller.discard();
        controller.dropRest();
        QApplication::processEvents();
        session.undoStack().undo();
        QApplication::processEvents();
    }
    std::printf("The rest planned in the window, %s\n", how);
    bench::printTimes("the command itself", commands);
    bench::printTimes("first answer shown", answers);
    std::printf("  the audit passes %d of %zu\n", passed, answers.size());
    std::fflush(stdout);
}

} // namespace

int main(int argc, char** argv) {
    Options options;
    for (int i = 1; i + 1 < argc; i += 2) {
        if (std::strcmp(argv[i], "--drags") == 0) {
            options.drags = std::atoi(argv[i + 1]);
        } else if (std::strcmp(argv[i], "--moves") == 0) {
            options.moves = std::atoi(argv[i + 1]);
        } else if (std::strcmp(argv[i], "--job") == 0) {
            options.job = QString::fromLocal8Bit(argv[i + 1]);
        } else {
            std::fprintf(stderr, "There is no option %s; there are --drags, --moves, --job.\n",
                         argv[i]);
            return 2;
        }
    }
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) {
        qputenv("QT_QPA_PLATFORM", "offscreen");
    }
    const QTemporaryDir home;
    qputenv("HOME", home.path().toUtf8());
    qputenv("XDG_CONFIG_HOME", (home.path() + "/config").toUtf8());
    qputenv("XDG_DATA_HOME", (home.path() + "/data").toUtf8());
    const QApplication application(argc, argv);
    QApplication::setOrganizationName("Stavewright");
    QApplication::setApplicationName("Stavewright benches");
    QStandardPaths::setTestModeEnabled(true);
    QLocale::setDefault(QLocale::c());
    ui::loadBundledFont();
    ui::applyAppearance(ui::Appearance::Light);
    QString file = options.job;
    if (file.isEmpty()) {
        const std::optional<Document> job =
            bench::plannedByWork(bench::enlarged(samples::linenChest(), 60, 16), 500);
        file = home.path() + "/large.stavejob";
        if (!job || !writeJob(*job, file.toStdString())) {
            return 1;
        }
    }
    for (const QSize size : {QSize(1280, 800), QSize(1920, 1080)}) {
        ui::MainWindow window;
        window.resize(size);
        if (!window.openFile(file)) {
            return 1;
        }
        const Document& job = window.session().document();
        if (!job.plan) {
            std::fprintf(stderr, "The job has no plan; the bench wants one.\n");
            return 1;
        }
        window.show();
        window.action(ui::CommandId::PlaceLayout)->trigger();
        QApplication::processEvents();
        std::printf("%zu boards, %zu blanks, %zu more without a place\n", job.boards.size(),
                    plan_tools::blanksOf(*job.plan).size(), job.plan->unplaced.size());
        measure(window, "as opened", options.drags);
        window.layoutPlace().rack().fitAll();
        QApplication::processEvents();
        measure(window, "all boards at once", options.drags);
    }
    const std::optional<Document> smaller =
        bench::plannedByWork(bench::enlarged(samples::kitchenTable(), 24, 3), 3'000);
    file = home.path() + "/rest.stavejob";
    ui::MainWindow window;
    window.resize(1280, 800);
    if (!smaller || !writeJob(*smaller, file.toStdString()) || !window.openFile(file)) {
        return 1;
    }
    window.show();
    window.action(ui::CommandId::PlaceLayout)->trigger();
    QApplication::processEvents();
    std::printf("%zu boards, %zu blanks, a blank laid in the tray\n", smaller->boards.size(),
                plan_tools::blanksOf(*smaller->plan).size());
    measureRest(window, ui::CommandId::PlanRestKeeping, "keeping places", options.moves);
    measureRest(window, ui::CommandId::PlanRestAgain, "from scratch", options.moves);
    return 0;
}
