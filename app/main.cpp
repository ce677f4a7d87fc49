#include <QApplication>

#include <cstdlib>
#include <exception>
#include <iostream>

#include "app/Headless.h"
#include "app/Rack.h"
#include "app/Tables.h"
#include "core/base/Heap.h"
#include "ui/paint/PagePainter.h"
#include "ui/window/MainWindow.h"

namespace {

using namespace stavewright;

bool haveDisplay() {
    for (const char* name : {"DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"}) {
        const char* value = std::getenv(name);
        if (value != nullptr && *value != '\0') {
            return true;
        }
    }
    return false;
}

int openWindow(const app::OpenWindow& command, int argc, char** argv) {
    if (!haveDisplay()) {
        std::cerr << "There is no display to open a window on. "
                     "Use: stavewright plan JOB, or stavewright papers JOB -o OUT.pdf.\n";
        return app::exitBadInput;
    }
    QApplication application(argc, argv);
    QApplication::setOrganizationName("Stavewright");
    QApplication::setApplicationName("Stavewright");
    QApplication::setApplicationVersion(STAVEWRIGHT_VERSION);
    ui::loadBundledFont();
    ui::MainWindow window;
    if (!command.job.empty()) {
        window.openFile(QString::fromStdString(command.job));
    }
    window.show();
    return QApplication::exec();
}

struct Run {
    int argc;
    char** argv;
    int operator()(const app::OpenWindow& command) const { return openWindow(command, argc, argv); }
    int operator()(const app::PlanCommand& command) const { return app::runPlan(command); }
    int operator()(const app::CheckCommand& command) const { return app::runCheck(command); }
    int operator()(const app::PapersCommand& command) const { return app::runPapers(command); }
    int operator()(const app::KnotsCommand& command) const { return app::runKnots(command); }
    int operator()(const app::TallyCommand& command) const { return app::runTally(command); }
    int operator()(const app::BoardsCommand& command) const { return app::runBoards(command); }
    int operator()(const app::ArrangeCommand& command) const { return app::runArrange(command); }
    int operator()(const app::RackCommand& command) const { return app::runRack(command); }
    int operator()(const app::PrintText& command) const {
        std::cout << command.text;
        return app::exitGood;
    }
};

} // namespace

int main(int argc, char** argv) {
    stavewright::keepMemoryForSolvers();
    // A threaded BLAS under the LP solver would make sums, and so plans, depend on timing.
    setenv("OPENBLAS_NUM_THREADS", "1", 1);
    try {
        const Result<app::Command> command = app::parseCommandLine(argc, argv);
        if (!command) {
            std::cerr << describe(command.error()) << '\n';
            return app::exitCodeOf(command.error());
        }
        return std::visit(Run{argc, argv}, command.value());
    } catch (const std::exception& error) {
        std::cerr << "Stavewright stopped because of a fault of its own: " << error.what() << ".\n";
        return app::exitBadInput;
    }
}
