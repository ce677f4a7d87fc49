// Straightening through the window: marks dragged, nudged, typed and removed, each undone and
// redone exactly, and the straightened picture under the drawing where the truth says it is.

#include <QDir>
#include <QMouseEvent>
#include <QTemporaryDir>
#include <QTest>

#include <algorithm>
#include <cmath>
#include <functional>

#include "core/photo/Straighten.h"
#include "tests/ui/photos/MadeFiles.h"
#include "ui/entry/EntryModel.h"
#include "ui/entry/EntryView.h"
#include "ui/layout/FacePictures.h"
#include "ui/lumber/BoardSheet.h"
#include "ui/lumber/LumberView.h"
#include "ui/lumber/PhotoCanvas.h"
#include "ui/lumber/PhotoDesk.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Theme.h"

namespace stavewright::testing_photos {

namespace {

using namespace ui;
using Of = photo::MarkResidual::Of;

class PhotoDeskTest : public QObject {
    Q_OBJECT
  private slots:
    void initTestCase();
    void init();
    void cleanup();
    void aDroppedFileIsStraightenedByItsGuessedCorners();
    void cornersAreDraggedInOneStep();
    void arrowsNudgeAndAHundredOfThemAreOneStep();
    void tapeReadingsAreTypedAndOverruleTheCorners();
    void everythingByKeyboardAndAllUndone();
    void theOtherFaceKeepsTheMarksOnTheirWood();
    void theStraightenedPictureLiesWhereTheTruthSays();
    void severalPhotographsOfAFaceJoin();
    void aSpotSeenInTwoPhotographsTiesThem();
    void picturesOfEveryState();

  private:
    void addMarked(BoardFace face);
    [[nodiscard]] const BoardPhoto& first() const {
        return m_session->document().boards[0].photos[0];
    }
    [[nodiscard]] Document atFirst() const { return m_made.document; }
    void undoAndRedoAll();
    [[nodiscard]] double likeness(const FacePhoto& photo, BoardFace face, int shift,
                                  bool turned) const;

    MadeJob m_made;
    QTemporaryDir m_folder;
    std::unique_ptr<DocumentSession> m_session;
    std::unique_ptr<LumberView> m_view;
};

void PhotoDeskTest::initTestCase() {
    boards::PhotoWish wish;
    wish.width = 1600;
    wish.height = 900;
    m_made = madeJob(7, {}, wish);
}

void PhotoDeskTest::init() {
    m_session = std::make_unique<DocumentSession>();
    m_session->adopt(m_made.document, {});
    m_view = std::make_unique<LumberView>(*m_session);
    m_view->resize(1280, 760);
    m_view->show();
    m_view->activateWindow();
    QVERIFY(QTest::qWaitForWindowActive(m_view.get()));
}

void PhotoDeskTest::cleanup() {
    m_view.reset();
    m_session.reset();
}

/// As if it had been added and straightened before.
void PhotoDeskTest::addMarked(BoardFace face) {
    const boards::MadePhoto& made = face == BoardFace::A ? m_made.faceA : m_made.faceB;
    BoardPhoto photo = markedPhoto(made, face);
    photo.id = PhotoId{m_session->document().nextId};
    std::vector<BoardPhoto> photos = m_session->document().boards[0].photos;
    photos.push_back(photo);
    QVERIFY(
        m_session->edit("photo", Edit{ReplacePhotos{m_session->document().boards[0].id, photos}}));
}

void PhotoDeskTest::undoAndRedoAll() {
    const Document after = m_session->document();
    QUndoStack& stack = m_session->undoStack();
    const int steps = stack.index();
    while (stack.canUndo()) {
        stack.undo();
    }
    QCOMPARE(m_session->document() == atFirst(), true);
    while (stack.index() < steps) {
        stack.redo();
    }
    QCOMPARE(m_session->document() == after, true);
}

void PhotoDeskTest::aDroppedFileIsStraightenedByItsGuessedCorners() {
    const QString path = m_folder.filePath("one.jpg");
    QFile file(path);
    QVERIFY(file.open(QIODevice::WriteOnly));
    file.write(jpegOf(m_made.faceA.image));
    file.close();
    m_view->photos().addFiles({path}, BoardFace::A);
    QTRY_COMPARE(m_session->document().boards[0].photos.size(), std::size_t{1});
    QVERIFY(m_view->showsPhotos());
    QCOMPARE(m_session->undoStack().count(), 1);
    QCOMPARE(first().name, std::string("one.jpg"));
    QCOMPARE(first().controls.width, 1600);
    QCOMPARE(first().controls.corners.size(), std::size_t{4});
    // Guessed to within a few percent of the picture; the hand does the rest.
    for (const photo::CornerMark& mark : first().controls.corners) {
        for (const photo::CornerMark& truth : m_made.faceA.controls.corners) {
            if (truth.corner == mark.corner) {
                const double off = std::hypot(mark.at.pixels().x - truth.at.pixels().x,
                                              mark.at.pixels().y - truth.at.pixels().y);
                QVERIFY2(off < 80, qPrintable(QString::number(off)));
            }
        }
    }
    undoAndRedoAll();
}

void PhotoDeskTest::cornersAreDraggedInOneStep() {
    addMarked(BoardFace::A);
    m_view->showPhotos(true);
    PhotoCanvas& canvas = m_view->photos().canvas();
    const photo::PhotoPoint before = first().controls.corners[0].at;
    QTRY_VERIFY(canvas.hasPicture()); // and the view has its size
    const QPoint from = canvas.pixelOf(before).toPoint();
    QTest::mousePress(&canvas, Qt::LeftButton, {}, from);
    QVERIFY(canvas.picked().has_value());
    for (int step = 1; step <= 5; ++step) {
        QMouseEvent move(QEvent::MouseMove, QPointF(from + QPoint(2 * step, step)),
                         canvas.mapToGlobal(QPointF(from + QPoint(2 * step, step))), Qt::NoButton,
                         Qt::LeftButton, {});
        QApplication::sendEvent(&canvas, &move);
    }
    QTest::mouseRelease(&canvas, Qt::LeftButton, {}, from + QPoint(10, 5));
    QVERIFY(!(first().controls.corners[0].at == before));
    QCOMPARE(m_session->undoStack().count(), 2);
    m_session->undoStack().undo();
    QCOMPARE(first().controls.corners[0].at == before, true);
    m_session->undoStack().redo();
    undoAndRedoAll();
}

void PhotoDeskTest::arrowsNudgeAndAHundredOfThemAreOneStep() {
    addMarked(BoardFace::A);
    m_view->showPhotos(true);
    PhotoCanvas& canvas = m_view->photos().canvas();
    canvas.setPicked(PhotoMark{Of::Corner, 1});
    const photo::PhotoPoint before = first().controls.corners[1].at;
    for (int i = 0; i < 100; ++i) {
        QTest::keyClick(&canvas, i % 2 == 0 ? Qt::Key_Right : Qt::Key_Down);
    }
    QCOMPARE(first().controls.corners[1].at.x, before.x + 50'000);
    QCOMPARE(first().controls.corners[1].at.y, std::min<std::int64_t>(before.y + 50'000, 900'000));
    QCOMPARE(m_session->undoStack().count(), 2);
    QTest::keyClick(&canvas, Qt::Key_Left, Qt::ControlModifier); // a quarter of a pixel
    QCOMPARE(first().controls.corners[1].at.x, before.x + 49'750);
    QVERIFY(m_view->photos().straightening().has_value());
    undoAndRedoAll();
}

void PhotoDeskTest::tapeReadingsAreTypedAndOverruleTheCorners() {
    addMarked(BoardFace::A);
    m_view->showPhotos(true);
    PhotoCanvas& canvas = m_view->photos().canvas();
    QTRY_VERIFY(canvas.hasPicture());
    QTest::keyClick(&canvas, Qt::Key_T); // at the pointer, or in the middle
    QCOMPARE(first().controls.tape.size(), std::size_t{1});
    // Its reading is asked for at once; what is typed is what counts.
    QTest::keyClicks(QApplication::focusWidget(), "30 1/2");
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
    QCoreApplication::processEvents();
    QCOMPARE(first().controls.tape[0].reading, Length::inches(61, 2));
    QCOMPARE(QApplication::focusWidget(), &canvas);
    QTest::keyClick(&canvas, Qt::Key_Escape); // nothing picked
    QTest::keyClick(&canvas, Qt::Key_Left);
    QTest::mouseMove(&canvas, QPoint(canvas.width() / 4, canvas.height() / 2));
    QCoreApplication::processEvents();
    QTest::keyClick(&canvas, Qt::Key_T);
    QCOMPARE(first().controls.tape.size(), std::size_t{2});
    QTest::keyClicks(QApplication::focusWidget(), "12");
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
    QCoreApplication::processEvents();
    QCOMPARE(first().controls.tape[1].reading, Length::inches(12));
    // Two readings decide along the board, and the table says so of the corners.
    const auto& fit = m_view->photos().straightening();
    if (fit) {
        QVERIFY(fit->residuals[0].overruled);
    } else { // readings that far from the truth may contradict the corners: told in a sentence
        QVERIFY(m_view->findChild<QWidget*>("photoWords") != nullptr);
    }
    undoAndRedoAll();
}

void PhotoDeskTest::everythingByKeyboardAndAllUndone() {
    addMarked(BoardFace::A);
    QTest::keyClick(&m_view->sheet(), Qt::Key_I);
    QVERIFY(m_view->showsPhotos());
    PhotoCanvas& canvas = m_view->photos().canvas();
    QCOMPARE(QApplication::focusWidget(), &canvas);
    QTRY_VERIFY(canvas.hasPicture());
    QTest::keyClick(&canvas, Qt::Key_1);
    QVERIFY(canvas.picked().has_value());
    QTest::keyClick(&canvas, Qt::Key_Tab);
    QTest::keyClick(&canvas, Qt::Key_Up, Qt::ShiftModifier);
    QTest::keyClick(&canvas, Qt::Key_Plus);
    QTest::keyClick(&canvas, Qt::Key_N);
    QTest::keyClick(&canvas, Qt::Key_F);
    QCOMPARE(first().controls.edges.size(), std::size_t{2});
    QTest::keyClick(&canvas, Qt::Key_Delete);
    QCOMPARE(first().controls.edges.size(), std::size_t{1});
    QTest::keyClick(&canvas, Qt::Key_3);
    QTest::keyClick(&canvas, Qt::Key_Delete);
    QCOMPARE(first().controls.corners.size(), std::size_t{3});
    QTest::keyClick(&canvas, Qt::Key_3); // put down again, at the pointer
    QCOMPARE(first().controls.corners.size(), std::size_t{4});
    QTest::keyClick(&canvas, Qt::Key_Escape);
    QTest::keyClick(&canvas, Qt::Key_Escape);
    QVERIFY(!m_view->showsPhotos());
    undoAndRedoAll();
}

void PhotoDeskTest::theOtherFaceKeepsTheMarksOnTheirWood() {
    addMarked(BoardFace::A);
    m_view->showPhotos(true);
    const BoardPhoto before = first();
    QTest::mouseClick(m_view->findChild<QWidget*>("photoFace"), Qt::LeftButton);
    QCOMPARE(first().face, BoardFace::B);
    QCOMPARE(first().controls.corners[0].at == before.controls.corners[0].at, true);
    QVERIFY(first().controls.corners[0].corner != before.controls.corners[0].corner);
    QTest::mouseClick(m_view->findChild<QWidget*>("photoFace"), Qt::LeftButton);
    QCOMPARE(first() == before, true);
    undoAndRedoAll();
}

namespace {

/// Light of a picture of the face in cells of a tenth of an inch, each against the mean of the
/// cells within an inch and a half: uneven light does not count, nor what is finer than a cell.
struct Cells {
    int columns = 0;
    int rows = 0;
    std::vector<double> light; ///< NaN beside the board
    [[nodiscard]] double at(int column, int row) const {
        return light[static_cast<std::size_t>(row * columns + column)];
    }
};

Cells cellsOf(int columns, int rows, const std::function<double(double, double)>& lightAt) {
    constexpr int fine = 4; // places across a cell
    Cells raw{columns, rows, {}};
    for (int row = 0; row < rows; ++row) {
        for (int column = 0; column < columns; ++column) {
            double sum = 0;
            for (int i = 0; i < fine * fine; ++i) {
                sum += lightAt((column + (i % fine + 0.5) / fine) / columns,
                               (row + (i / fine + 0.5) / fine) / rows);
            }
            raw.light.push_back(sum / (fine * fine));
        }
    }
    Cells flat = raw;
    constexpr int reach = 15;
    for (int row = 0; row < rows; ++row) {
        for (int column = 0; column < columns; ++column) {
            double sum = 0;
            int count = 0;
            for (int y = std::max(0, row - reach); y <= std::min(rows - 1, row + reach); ++y) {
                for (int x = std::max(0, column - reach);
                     x <= std::min(columns - 1, column + reach); ++x) {
                    if (!std::isnan(raw.at(x, y))) {
                        sum += raw.at(x, y);
                        ++count;
                    }
                }
            }
            flat.light[static_cast<std::size_t>(row * columns + column)] -=
                count > 0 ? sum / count : 0;
        }
    }
    return flat;
}

} // namespace

/// Correlation of the light in the picture with that of the made face, at ten cells an inch. Both
/// are averaged over each cell: the growth rings are as fine as the cells, and a face drawn at that
/// size would show them where they are not.
double PhotoDeskTest::likeness(const FacePhoto& photo, BoardFace face, int shift,
                               bool turned) const {
    const photo::Image truth = boards::facePicture(m_made.truth, face, 40);
    const photo::ImageView view = truth.view();
    const int columns = view.width / 4;
    const int rows = view.height / 4;
    // The picture of face B is kept as seen through from A: far edge at the top.
    const bool over = (face == BoardFace::B) != turned;
    const Cells a = cellsOf(columns, rows, [&](double u, double v) {
        const double down = over ? 1 - v : v;
        const auto* pixel =
            view.at(std::min(view.width - 1, static_cast<int>(u * view.width)),
                    std::min(view.height - 1, static_cast<int>(down * view.height)));
        return pixel[0] + pixel[1] + pixel[2] == 0 ? std::nan("") : pixel[1];
    });
    const Cells b = cellsOf(columns, rows, [&](double u, double v) {
        const int x = static_cast<int>(u * photo.image.width());
        const int y = static_cast<int>(v * photo.image.height());
        return static_cast<double>(qGreen(photo.image.pixel(x, y)));
    });
    double sumA = 0;
    double sumB = 0;
    double sumAA = 0;
    double sumBB = 0;
    double sumAB = 0;
    double n = 0;
    for (int row = 2; row + 2 < rows; ++row) {
        for (int column = 12; column + 12 < columns; ++column) {
            const double x = a.at(column + shift, row);
            const double y = b.at(column, row);
            if (std::isnan(x) || std::isnan(y)) {
                continue;
            }
            sumA += x;
            sumB += y;
            sumAA += x * x;
            sumBB += y * y;
            sumAB += x * y;
            ++n;
        }
    }
    return (n * sumAB - sumA * sumB) /
           std::sqrt((n * sumAA - sumA * sumA) * (n * sumBB - sumB * sumB));
}

void PhotoDeskTest::theStraightenedPictureLiesWhereTheTruthSays() {
    addMarked(BoardFace::A);
    addMarked(BoardFace::B);
    const Board& board = m_session->document().boards[0];
    for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
        FacePictures& pictures = FacePictures::of(*m_session);
        const FacePhoto* photo = nullptr;
        QTRY_VERIFY((photo = pictures.find(board, face, FacePictures::Detail::Sheet)) != nullptr);
        QVERIFY(pictures.troubles(board, face).isEmpty());
        // The light in the straightened picture follows that of the made face square on, and
        // does not where it is shifted by an inch or turned over.
        const double right = likeness(*photo, face, 0, false);
        QVERIFY2(right > 0.6, qPrintable(QString::number(right)));
        for (const auto& [shift, turned] :
             {std::pair(10, false), std::pair(-10, false), std::pair(0, true)}) {
            const double wrong = likeness(*photo, face, shift, turned);
            QVERIFY2(right > wrong + 0.4,
                     qPrintable(QString("%1 against %2").arg(right).arg(wrong)));
        }
    }
}

void PhotoDeskTest::severalPhotographsOfAFaceJoin() {
    // Two photographs, each marked by corners of its own end and by the tape in between.
    addMarked(BoardFace::A);
    addMarked(BoardFace::A);
    const Board& board = m_session->document().boards[0];
    FacePictures& pictures = FacePictures::of(*m_session);
    const FacePhoto* photo = nullptr;
    QTRY_VERIFY((photo = pictures.find(board, BoardFace::A, FacePictures::Detail::Sheet)) !=
                nullptr);
    QVERIFY(!photo->image.isNull());
    m_view->showPhotos(true);
    QCOMPARE(m_session->document().boards[0].photos.size(), std::size_t{2});
    undoAndRedoAll();
}

void PhotoDeskTest::aSpotSeenInTwoPhotographsTiesThem() {
    addMarked(BoardFace::A);
    addMarked(BoardFace::A);
    m_view->showPhotos(true);
    PhotoDesk& desk = m_view->photos();
    const auto marksOfPhoto = [&](std::size_t index) -> const photo::PhotoControls& {
        return m_session->document().boards[0].photos[index].controls;
    };
    const auto residual = [&] { return desk.straightening()->residuals.back(); };
    QTRY_VERIFY(desk.canvas().hasPicture());
    QTest::keyClick(&desk.canvas(), Qt::Key_S); // in the middle of the view
    QCOMPARE(marksOfPhoto(0).spots.size(), std::size_t{1});
    QCOMPARE(marksOfPhoto(0).spots[0].number, 1);
    QVERIFY(residual().alone); // no other shows it yet
    // In the other one the same knot is marked some pixels beside where this one has it.
    QTest::keyClick(&desk.canvas(), Qt::Key_PageDown);
    QTRY_VERIFY(desk.canvas().hasPicture());
    QTest::keyClick(&desk.canvas(), Qt::Key_S);
    QCOMPARE(marksOfPhoto(1).spots.size(), std::size_t{1});
    QCOMPARE(marksOfPhoto(1).spots[0].number, 1); // the same spot, not another
    QTest::keyClick(&desk.canvas(), Qt::Key_Right, Qt::ShiftModifier);
    QVERIFY(!residual().alone);
    QVERIFY(residual().along != Length());
    // Fitted together they meet halfway: less apart than ten pixels by the corners alone.
    const auto alone = photo::straighten(marksOfPhoto(1), m_made.faceA.size);
    const auto here = alone.value().map.toBoard(marksOfPhoto(1).spots[0].at.pixels());
    const auto there = alone.value().map.toBoard(marksOfPhoto(0).spots[0].at.pixels());
    QVERIFY(std::abs(residual().along.toInches()) <
            0.9 * std::abs((here->x - there->x).toInches()));
    // Another spot is a new one; its number can be typed in the table.
    QTest::keyClick(&desk.canvas(), Qt::Key_Escape);
    QTest::mouseMove(&desk.canvas(), QPoint(30, 30));
    QTest::keyClick(&desk.canvas(), Qt::Key_S);
    QCOMPARE(marksOfPhoto(1).spots.back().number, 2);
    QTest::keyClick(&desk.canvas(), Qt::Key_Delete);
    QCOMPARE(marksOfPhoto(1).spots.size(), std::size_t{1});
    undoAndRedoAll();
}

void PhotoDeskTest::picturesOfEveryState() {
    const QString folder = qEnvironmentVariable("STAVEWRIGHT_PICTURES");
    for (const Appearance appearance : {Appearance::Light, Appearance::Dark}) {
        applyAppearance(appearance);
        const QString look = appearance == Appearance::Light ? "light" : "dark";
        init();
        const auto leave = [&](const QString& name) {
            QCoreApplication::processEvents();
            const QImage image = m_view->grab().toImage();
            QCOMPARE(image.size(), QSize(1280, 760));
            if (!folder.isEmpty()) {
                image.save(QDir(folder).filePath("photos-" + name + '-' + look + ".png"));
            }
        };
        m_view->showPhotos(true);
        leave("none");
        addMarked(BoardFace::A);
        addMarked(BoardFace::B);
        QTRY_VERIFY(m_view->photos().canvas().hasPicture());
        QTest::keyClick(&m_view->photos().canvas(), Qt::Key_1);
        leave("corner");
        m_view->photos().canvas().setPicked(std::nullopt);
        leave("desk");
        m_view->showPhotos(false);
        FacePictures& pictures = FacePictures::of(*m_session);
        for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
            QTRY_VERIFY(pictures.find(m_session->document().boards[0], face,
                                      FacePictures::Detail::Sheet) != nullptr);
        }
        leave("sheet");
        cleanup();
    }
    applyAppearance(Appearance::Light);
    init();
}

} // namespace

std::unique_ptr<QObject> makePhotoDeskTest() { return std::make_unique<PhotoDeskTest>(); }

} // namespace stavewright::testing_photos

#include "PhotoDeskTest.moc"
