// How long a job with 100 boards and 200 photographs of 12 megapixels takes to open, to be shown in
// the place Lumber and to be saved, and how quickly one goes from board to board. Prints; asserts
// nothing.
//   bench_photo_job [boards]

#include <QApplication>
#include <QElapsedTimer>
#include <QTemporaryDir>

#include <cstdio>
#include <ctime>

#include "core/job/JobFile.h"
#include "tests/ui/photos/MadeFiles.h"
#include "ui/lumber/BoardSheet.h"
#include "ui/lumber/LumberView.h"
#include "ui/paint/PagePainter.h"
#include "ui/session/DocumentSession.h"

int main(int argc, char** argv) {
    using namespace stavewright;
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication application(argc, argv);
    ui::loadBundledFont();
    const int boards = argc > 1 ? std::max(1, std::atoi(argv[1])) : 100;
    boards::PhotoWish wish;
    wish.width = 4000;
    wish.height = 3000;
    const testing_photos::MadeJob made = testing_photos::madeJob(3, {}, wish);
    const QByteArray jpeg = testing_photos::jpegOf(made.faceA.image, 90);
    Document document = made.document;
    const Board pattern = document.boards[0];
    document.boards.clear();
    for (int i = 0; i < boards; ++i) {
        Board board = pattern;
        board.id = document.takeId<BoardId>();
        board.mark = std::to_string(i + 1);
        for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
            BoardPhoto photo;
            photo.id = document.takeId<PhotoId>();
            photo.face = face;
            photo.name = "made.jpg";
            // Each is a file of its own: a comment behind the picture tells them apart.
            photo.file =
                PhotoFile::of(jpeg.toStdString() + std::to_string(2 * i + static_cast<int>(face)));
            photo.size = made.faceA.size;
            photo.controls = made.faceA.controls;
            board.photos.push_back(photo);
        }
        document.boards.push_back(board);
    }
    const QTemporaryDir folder;
    const std::string path = folder.filePath("many.stavejob").toStdString();
    QElapsedTimer clock;
    const auto line = [&](const char* what) {
        std::printf("%-52s %8.1f ms\n", what, static_cast<double>(clock.nsecsElapsed()) / 1e6);
        std::fflush(stdout);
    };
    std::printf("%d boards, %d photographs of 12 megapixels, %.1f MB each\n", boards, 2 * boards,
                static_cast<double>(jpeg.size()) / 1e6);
    clock.start();
    const Status written = writeJob(document, path);
    line("saved for the first time");
    if (!written) {
        std::printf("%s\n", describe(written.error()).c_str());
        return 1;
    }
    clock.start();
    Result<Document> opened = readJob(path);
    line("opened");
    if (!opened) {
        std::printf("%s\n", describe(opened.error()).c_str());
        return 1;
    }
    ui::DocumentSession session;
    clock.start();
    session.adopt(std::move(opened).value(), QString::fromStdString(path));
    line("audited");
    clock.start();
    ui::LumberView view(session);
    view.resize(1280, 760);
    view.show();
    QCoreApplication::processEvents();
    view.grab();
    line("shown (drawn wood; the photograph follows)");
    // Only the thread of the window is counted: how long it works before it answers again.
    const auto ofThisThread = [] {
        timespec now{};
        clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
        return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) / 1e6;
    };
    const auto pickAll = [&](const char* what) {
        double picked = 0;
        double painted = 0;
        double worst = 0;
        clock.start();
        for (int i = 0; i < boards; ++i) {
            const double start = ofThisThread();
            ui::Selection selection;
            selection.board = session.document().boards[static_cast<std::size_t>(i)].id;
            session.select(selection);
            const double middle = ofThisThread();
            QCoreApplication::processEvents(); // paints what has changed
            const double end = ofThisThread();
            picked += middle - start;
            painted += end - middle;
            worst = std::max(worst, end - start);
        }
        std::printf("%-52s %8.1f ms, of them to pick %.1f, to paint %.1f; the slowest %.1f\n", what,
                    (picked + painted) / boards, picked / boards, painted / boards, worst);
        std::fflush(stdout);
    };
    pickAll("each board picked, work of the window's thread");
    pickAll("   the same once more");
    clock.start();
    const Status again = session.save(QString::fromStdString(path));
    line("saved again over itself");
    return again ? 0 : 1;
}
