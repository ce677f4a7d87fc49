// The photograph of the staves laid out in the real window: taken in and marked by keyboard, kept
// in the file, and in every pose each stave's own stretch of it where the wood lies, on screen and
// on paper.

#include <QAction>
#include <QDir>
#include <QFile>
#include <QLineEdit>
#include <QPainter>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>
#include <QToolButton>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "core/audit/Audit.h"
#include "core/glueup/LaidPlace.h"
#include "core/job/JobFile.h"
#include "core/milling/BlankSpec.h"
#include "core/panels/LaidEdits.h"
#include "core/panels/PanelEdits.h"
#include "core/papers/Sheets.h"
#include "core/photo/CornerOrder.h"
#include "tests/boards/Camera.h"
#include "tests/ui/Tests.h"
#include "tests/unit/core/panels/HandPanel.h"
#include "ui/glueup/GlueUpView.h"
#include "ui/glueup/JointCanvas.h"
#include "ui/glueup/LaidDesk.h"
#include "ui/glueup/PanelCanvas.h"
#include "ui/layout/FacePictures.h"
#include "ui/lumber/PhotoCanvas.h"
#include "ui/photo/PagePhotos.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/LengthEdit.h"
#include "ui/window/MainWindow.h"

namespace stavewright::testing_ui {

namespace {

using namespace ui;

constexpr int timeout = 30'000; // ms
constexpr double perMm = 1;     // pixels of the flat picture

/// A mark in each stave: where it lies in the panel, as shares of the stave's length and width.
constexpr double markAlong = 0.22;
constexpr double markAcross = 0.3;
const std::array<QColor, 4> colours = {QColor(220, 30, 30), QColor(30, 150, 40),
                                       QColor(40, 60, 220), QColor(200, 40, 200)};

/// What a camera sees of the staves laid out on a dark bench: each with its mark. The back is seen
/// from its own side, its near edge above. `corners`: near low, near far, far far, far low, in
/// pixels.
struct Taken {
    QImage picture;
    std::array<QPointF, 4> corners;
};

QColor woodOf(std::size_t stave) {
    const int light = 200 - 12 * static_cast<int>(stave % 2);
    return {light, light - 30, light - 70};
}

/// The staves from straight above, at perMm, near edge below (of the back: above).
QImage flatOf(const panels::Panel& panel, bool back, double secondWider = 0) {
    const double length = panel.roughLength.toMillimetres() * perMm;
    const double width = panel.width.toMillimetres() * perMm;
    QImage flat(static_cast<int>(std::lround(length)), static_cast<int>(std::lround(width)),
                QImage::Format_RGB32);
    flat.fill(Qt::black);
    QPainter painter(&flat);
    double near = 0;
    for (std::size_t place = 0; place < panel.order.size(); ++place) {
        const double net = panel.length.toMillimetres() * perMm;
        const double spare = (length - net) / 2;
        double wide = panel.staveAt(place).net.width().toMillimetres() * perMm;
        wide += place == 1 ? secondWider : place == 2 ? -secondWider : 0;
        const auto upright = [&](QRectF rect) { // y up in the panel, down in the picture
            return back ? rect
                        : QRectF(rect.left(), width - rect.bottom(), rect.width(), rect.height());
        };
        painter.fillRect(upright(QRectF(0, near, length, wide)), woodOf(place));
        const double across = back ? 1 - markAcross : markAcross;
        const QPointF mark(spare + markAlong * net, near + across * wide);
        painter.fillRect(upright(QRectF(mark - QPointF(14, 10), QSizeF(28, 20))), colours[place]);
        near += wide;
    }
    return flat;
}

Taken taken(const panels::Panel& panel, bool back, double secondWider = 0) {
    const double length = panel.roughLength.toMillimetres() * perMm;
    const double width = panel.width.toMillimetres() * perMm;
    const QImage flat = flatOf(panel, back, secondWider);
    QTransform aslant;
    aslant.translate(70, 60);
    aslant.rotate(2);
    const QPolygonF seen =
        aslant.map(QPolygonF({{0, 0}, {length, 0}, {length, width}, {0, width}}));
    Taken result;
    result.picture = QImage(1240, 520, QImage::Format_RGB32);
    result.picture.fill(QColor(30, 30, 34));
    QPainter camera(&result.picture);
    camera.setRenderHint(QPainter::SmoothPixmapTransform);
    camera.setTransform(aslant);
    camera.drawImage(QRectF(0, 0, length, width), flat);
    camera.end();
    result.corners = back ? std::array{seen[0], seen[1], seen[2], seen[3]}
                          : std::array{seen[3], seen[2], seen[1], seen[0]};
    return result;
}

/// What a camera in space shows of the show face, through a lens that bends.
QImage seenBy(const boards::Camera& camera, const QImage& flat) {
    QImage picture(camera.width, camera.height, QImage::Format_RGB32);
    for (int row = 0; row < picture.height(); ++row) {
        for (int column = 0; column < picture.width(); ++column) {
            const boards::Camera::Place at = camera.sees({column + 0.5, row + 0.5});
            const int x = static_cast<int>(std::floor(at.x * 25.4 * perMm));
            const int y = flat.height() - 1 - static_cast<int>(std::floor(at.y * 25.4 * perMm));
            picture.setPixel(column, row,
                             flat.rect().contains(x, y) ? flat.pixel(x, y) : qRgb(30, 30, 34));
        }
    }
    return picture;
}

class LaidOutTest : public QObject {
    Q_OBJECT
  private slots:
    void init();
    void cleanup();
    void byKeyboardFromTheFileToThePanel();
    void everyStaveIsShownAsItLies();
    void takenAslantThroughALens();
    void isPrintedAsTheWoodLies();
    void jointsAreFoundAndDragged();
    void aShuffledFanOfStripesIsPutBack();
    void isKeptInTheFileWithoutItsLocation();

  private:
    [[nodiscard]] GlueUpView& place() const { return *m_window->findChild<GlueUpView*>(); }
    [[nodiscard]] const Document& job() const { return m_window->session().document(); }
    [[nodiscard]] LaidDesk& desk() const { return place().laidDesk(); }
    void press(int key, Qt::KeyboardModifiers modifiers = {}) {
        QTest::keyClick(&place().canvas(), static_cast<Qt::Key>(key), modifiers);
    }
    [[nodiscard]] QString saved(const QImage& picture, const char* name) const {
        const QString path = m_folder->filePath(name);
        picture.save(path);
        return path;
    }
    void add(const Taken& photo, BoardFace face, const char* name) {
        desk().setFace(face);
        desk().addFile(saved(photo.picture, name));
        QTRY_VERIFY_WITH_TIMEOUT(!desk().isReading(), timeout);
        QVERIFY(desk().shown() != nullptr);
        mark(photo);
    }
    /// The four corners, as the maker would have placed them in the end.
    void mark(const Taken& photo) {
        using photo::Corner;
        constexpr std::array corners = {Corner::DatumNear, Corner::EndNear, Corner::EndFar,
                                        Corner::DatumFar};
        LaidOut laid = *desk().shown();
        laid.photo.controls.corners.clear();
        laid.photo.controls.edges.clear();
        for (std::size_t i = 0; i < corners.size(); ++i) {
            laid.photo.controls.corners.push_back(
                {corners[i], photo::PhotoPoint::at({photo.corners[i].x(), photo.corners[i].y()})});
        }
        QVERIFY(m_window->session().edit("corners", panels::withLaidOut(job(), laid)));
    }
    /// Where the canvas shows the mark of the stave at a place when it is looked at so.
    [[nodiscard]] QPoint markOf(std::size_t at, bool end, bool mirrored) const {
        const QRectF box = place().canvas().boxOf(at);
        const double x = end ? 1 - markAlong : markAlong;
        const double y = mirrored ? 1 - markAcross : markAcross;
        return QPointF(box.left() + x * box.width(), box.bottom() - y * box.height()).toPoint();
    }

    std::unique_ptr<MainWindow> m_window;
    std::unique_ptr<QTemporaryDir> m_folder;
};

bool isLike(const QColor& seen, const QColor& wanted) {
    return std::abs(seen.red() - wanted.red()) + std::abs(seen.green() - wanted.green()) +
               std::abs(seen.blue() - wanted.blue()) <
           90;
}

void LaidOutTest::init() {
    QSettings().clear();
    m_folder = std::make_unique<QTemporaryDir>();
    m_window = std::make_unique<MainWindow>();
    m_window->show();
    m_window->session().adopt(hand_panel::job(), {});
    m_window->action(CommandId::PlaceGlueUp)->trigger();
    QVERIFY(place().shown() != nullptr);
}

void LaidOutTest::cleanup() { m_window.reset(); }

/// All of it with keys: P, the four corners, the joints, back to the panel, and undo of every step.
void LaidOutTest::byKeyboardFromTheFileToThePanel() {
    const Document before = job();
    press(Qt::Key_P);
    QVERIFY(desk().isVisible());
    QVERIFY(desk().shown() == nullptr);
    const Taken photo = taken(*place().shown(), false);
    desk().addFile(saved(photo.picture, "bench.png"));
    QTRY_VERIFY_WITH_TIMEOUT(!desk().isReading(), timeout);
    QVERIFY(desk().shown() != nullptr);
    QCOMPARE(m_window->session().undoStack().count(), 1);
    PhotoCanvas& corners = desk().corners();
    QTRY_VERIFY_WITH_TIMEOUT(corners.hasPicture(), timeout);
    // 1 to 4 pick (or put down) a corner; the arrows move it.
    QTest::keyClick(&corners, Qt::Key_1);
    QVERIFY(corners.picked().has_value());
    const photo::PhotoControls was = desk().shown()->photo.controls;
    QTest::keyClick(&corners, Qt::Key_Right);
    QTest::keyClick(&corners, Qt::Key_Up);
    QVERIFY(desk().shown()->photo.controls != was);
    for (const int key : {Qt::Key_2, Qt::Key_3, Qt::Key_4}) {
        QTest::keyClick(&corners, static_cast<Qt::Key>(key));
    }
    QCOMPARE(desk().shown()->photo.controls.corners.size(), std::size_t{4});
    QTest::keyClick(&corners, Qt::Key_T); // no tape is read here
    QVERIFY(place().banner().sentence().contains("corners"));
    QVERIFY(desk().shown()->photo.controls.tape.empty());
    mark(photo);
    auto* joints = desk().findChild<QToolButton*>("laidJoints");
    joints->setFocus();
    QTest::keyClick(joints, Qt::Key_Space);
    JointCanvas& canvas = desk().joints();
    QVERIFY(canvas.isVisible());
    QCOMPARE(canvas.picked(), std::optional<std::size_t>(0));
    QTest::keyClick(&canvas, Qt::Key_Tab);
    QCOMPARE(canvas.picked(), std::optional<std::size_t>(1));
    const Length joint = desk().shown()->joints[1];
    const int steps = m_window->session().undoStack().count();
    QTest::keyClick(&canvas, Qt::Key_Up);
    QTest::keyClick(&canvas, Qt::Key_Up);
    QTest::keyClick(&canvas, Qt::Key_Up, Qt::ControlModifier);
    QCOMPARE(desk().shown()->joints[1], joint + Length::micrometres(1'100));
    QCOMPARE(m_window->session().undoStack().count(), steps + 1); // one step for the run of keys
    QTest::keyClick(&canvas, Qt::Key_W);
    QCOMPARE(desk().shown()->joints[1], joint);
    QTest::keyClick(&canvas, Qt::Key_Escape);
    QVERIFY(place().canvas().isVisible());
    while (m_window->session().undoStack().canUndo()) {
        m_window->action(CommandId::Undo)->trigger();
    }
    QVERIFY(job() == before);
    // And forward again, removed by its button.
    while (m_window->session().undoStack().canRedo()) {
        m_window->action(CommandId::Redo)->trigger();
    }
    QCOMPARE(job().glueUp.laidOut.size(), std::size_t{1});
    press(Qt::Key_P);
    auto* remove = desk().findChild<QToolButton*>("laidRemove");
    remove->setFocus();
    QTest::keyClick(remove, Qt::Key_Space);
    QVERIFY(job().glueUp.laidOut.empty());
    QVERIFY(job().glueUp == before.glueUp);
}

/// Both faces photographed while the staves lay in various poses; then every stave in every pose,
/// from the front and from the back: the right mark at the right place, nothing mirrored.
void LaidOutTest::everyStaveIsShownAsItLies() {
    press(Qt::Key_Home);
    press(Qt::Key_E); // the first lay end for end, the second rolled over, the third both
    press(Qt::Key_Up);
    press(Qt::Key_F);
    press(Qt::Key_Up);
    press(Qt::Key_E);
    press(Qt::Key_F);
    press(Qt::Key_P);
    const panels::Panel laid = *place().shown();
    add(taken(laid, false), BoardFace::A, "front.png");
    add(taken(laid, true), BoardFace::B, "back.png");
    QTest::keyClick(&desk().corners(), Qt::Key_Escape);
    QTest::keyClick(&desk().corners(), Qt::Key_Escape);
    QVERIFY(place().canvas().isVisible());
    FacePictures& pictures = FacePictures::of(m_window->session());
    PanelCanvas& canvas = place().canvas();
    for (std::size_t stave = 0; stave < 4; ++stave) {
        canvas.setSelected(stave);
        for (int turn = 0; turn < 4; ++turn) {
            for (const bool back : {false, true}) {
                if (back) {
                    press(Qt::Key_V);
                }
                canvas.grab(); // asks for the pictures
                QTRY_VERIFY_WITH_TIMEOUT(!pictures.isAtWork(), timeout);
                const Pose then = glueup::poseOf(laid.order[stave].pose);
                const Pose now = glueup::poseOf(place().shown()->order[stave].pose);
                const bool ends = then.endForEnd != now.endForEnd;
                const bool over = then.faceOver != now.faceOver;
                // The mark of the back lies across from that of the front; seen from the back,
                // everything stands the other way across.
                const bool seesOther = over != back;
                bool mirrored = ends != over;
                mirrored = mirrored != seesOther;
                mirrored = mirrored != back;
                const QPoint at = markOf(stave, ends, mirrored);
                const auto isThere = [&] {
                    return isLike(canvas.grab().toImage().pixelColor(at), colours[stave]);
                };
                const QString where = QString("stave %1, turn %2, %3: %4")
                                          .arg(stave)
                                          .arg(turn)
                                          .arg(back ? "back" : "front")
                                          .arg(canvas.grab().toImage().pixelColor(at).name());
                QTRY_VERIFY2_WITH_TIMEOUT(isThere(), qPrintable(where), 5'000);
                if (back) {
                    press(Qt::Key_V);
                }
            }
            press(turn % 2 == 1 ? Qt::Key_F : Qt::Key_E); // through all four and back
        }
    }
    // A swap takes the pictures along.
    press(Qt::Key_Home);
    press(Qt::Key_Up, Qt::ControlModifier);
    QVERIFY(isLike(canvas.grab().toImage().pixelColor(markOf(1, false, false)), colours[0]));
    QVERIFY(!place().shown()->problem.staves[0].faceA.photo.colours.empty());
    QVERIFY(!place().shown()->problem.staves[0].faceB.photo.colours.empty());
}

/// Upright, on its side and from the other side of the bench, in perspective and with 2 % of
/// barrel distortion: every mark is seen where it is on the wood, to a tenth of an inch.
void LaidOutTest::takenAslantThroughALens() {
    const panels::Panel laid = *place().shown();
    const QImage flat = flatOf(laid, false);
    const photo::BoardSize size = panels::laidSize(laid);
    FacePictures& pictures = FacePictures::of(m_window->session());
    PanelCanvas& canvas = place().canvas();
    for (const int quarters : {0, 1, 2}) {
        boards::Camera camera;
        camera.width = quarters == 1 ? 800 : 1200;
        camera.height = quarters == 1 ? 1200 : 800;
        camera.focal = 1100;
        camera.barrel = 0.02;
        camera.x = 21;
        camera.y = 7;
        camera.distance = 52;
        camera.tilt = 0.12;
        camera.lean = 0.35;
        camera.roll = 0.05 + quarters * std::numbers::pi / 2;
        press(Qt::Key_P);
        desk().addFile(saved(seenBy(camera, flat), "aslant.png"));
        QTRY_VERIFY_WITH_TIMEOUT(!desk().isReading(), timeout);
        LaidOut marked = *desk().shown();
        photo::PhotoControls& marks = marked.photo.controls;
        boards::Hand hand(static_cast<std::uint64_t>(quarters) + 1);
        marks.corners = boards::cornersSeen(camera, size, hand, 0.5).corners;
        marks.edges.clear();
        boards::markEdges(marks, camera, size, hand, 7, 35, 5, 0.5);
        if (quarters == 2) { // marked as if it were upright, and turned round by its key
            const photo::PhotoControls right = marks;
            marks = photo::seenFromOtherSide(marks);
            QVERIFY(m_window->session().edit("marks", panels::withLaidOut(job(), marked)));
            QTest::keyClick(&desk().corners(), Qt::Key_R);
            QVERIFY(desk().shown()->photo.controls == right);
        } else {
            QVERIFY(m_window->session().edit("marks", panels::withLaidOut(job(), marked)));
        }
        QTest::keyClick(&desk().corners(), Qt::Key_Escape);
        QTRY_VERIFY(canvas.isVisible());
        canvas.grab(); // asks for the picture
        QTRY_VERIFY_WITH_TIMEOUT(!pictures.isAtWork(), timeout);
        for (std::size_t stave = 0; stave < 4; ++stave) {
            // The middle of all that has the mark's colour, in inches of the stave.
            const auto away = [&] {
                const QImage seen = canvas.grab().toImage();
                const QRectF box = canvas.boxOf(stave);
                QPointF sum;
                int count = 0;
                for (int y = static_cast<int>(box.top()); y < box.bottom(); ++y) {
                    for (int x = static_cast<int>(box.left()); x < box.right(); ++x) {
                        if (isLike(seen.pixelColor(x, y), colours[stave])) {
                            sum += QPointF(x + 0.5, y + 0.5);
                            ++count;
                        }
                    }
                }
                const double perInch = box.width() / laid.length.toInches();
                const QPointF there(box.left() + markAlong * box.width(),
                                    box.bottom() - markAcross * box.height());
                const QPointF off = count == 0 ? QPointF(1e6, 0) : sum / count - there;
                return std::hypot(off.x(), off.y()) / perInch;
            };
            QTRY_VERIFY2_WITH_TIMEOUT(away() < 0.1,
                                      qPrintable(QString("%1 quarters, stave %2: %3 in off")
                                                     .arg(quarters)
                                                     .arg(stave)
                                                     .arg(away())),
                                      5'000);
        }
    }
}

void LaidOutTest::isPrintedAsTheWoodLies() {
    const panels::Panel laid = *place().shown();
    press(Qt::Key_P);
    add(taken(laid, false), BoardFace::A, "front.png");
    for (int pose = 0; pose < 4; ++pose) {
        Document printed = job();
        Pose& lies = printed.plan->boards[0].sections[0].strips[2].blanks[0].pose;
        lies = glueup::poseOf(pose);
        const auto pages = papers::pagesOf(printed, audit(printed), blankSpecs(printed).value(), {},
                                           FontMeasure());
        const auto page = std::find_if(pages.begin(), pages.end(), [](const papers::Page& each) {
            return !each.photos.empty();
        });
        QVERIFY(page != pages.end());
        // Face B of the stave that was rolled over was photographed by nobody: it is drawn.
        QCOMPARE(page->photos.size(), std::size_t(lies.faceOver ? 3 : 4));
        const auto boards = glueup::withLaidOut(printed.boards, printed.glueUp.laidOut);
        const PagePhotos photos = PagePhotos::of(boards, pages, {}, {});
        QVERIFY(photos.hasAllOf(boards, pages));
        constexpr double dots = 6;
        QImage sheet(static_cast<int>(page->width.toMillimetres() * dots),
                     static_cast<int>(page->height.toMillimetres() * dots), QImage::Format_RGB32);
        sheet.fill(Qt::white);
        QPainter painter(&sheet);
        painter.scale(dots, dots);
        paintPage(painter, *page, photos.onPage());
        painter.end();
        for (std::size_t stave = 0; stave < 4; ++stave) {
            if (stave == 2 && lies.faceOver) {
                continue;
            }
            const Rect& at = page->photos[stave == 3 && lies.faceOver ? 2 : stave].at;
            const bool turned = stave == 2 && lies.endForEnd;
            const double u = turned ? 1 - markAlong : markAlong;
            const double v = turned ? 1 - markAcross : markAcross;
            const QPointF there(at.x0.toMillimetres() + u * at.length().toMillimetres(),
                                at.y1.toMillimetres() - v * at.width().toMillimetres());
            const QColor seen = sheet.pixelColor((there * dots).toPoint());
            QVERIFY2(
                isLike(seen, colours[stave]),
                qPrintable(QString("pose %1, stave %2: %3").arg(pose).arg(stave).arg(seen.name())));
        }
    }
}

/// The staves lie a little otherwise than their widths say: F finds it, or the maker drags.
void LaidOutTest::jointsAreFoundAndDragged() {
    press(Qt::Key_P);
    const panels::Panel laid = *place().shown();
    add(taken(laid, false, 6), BoardFace::A, "front.png"); // the second is 6 mm wider
    desk().setStage(LaidDesk::Stage::Joints);
    JointCanvas& canvas = desk().joints();
    canvas.grab();
    QTRY_VERIFY_WITH_TIMEOUT(!FacePictures::of(m_window->session()).isAtWork(), timeout);
    const std::vector<Length> predicted = desk().shown()->joints;
    QTest::keyClick(&canvas, Qt::Key_F);
    QVERIFY2(place().banner().sentence().contains("joints were found"),
             qPrintable(place().banner().sentence()));
    const auto off = [&](std::size_t joint) {
        return (desk().shown()->joints[joint] - predicted[joint]).toMillimetres();
    };
    QVERIFY2(std::abs(off(0)) < 1.2, qPrintable(QString::number(off(0))));
    QVERIFY2(std::abs(off(1) - 6) < 1.2, qPrintable(QString::number(off(1))));
    QVERIFY2(std::abs(off(2)) < 1.2, qPrintable(QString::number(off(2))));
    const QPoint from = canvas.middleOf(2).toPoint();
    const int steps = m_window->session().undoStack().count();
    QTest::mousePress(&canvas, Qt::LeftButton, {}, from);
    QTest::mouseMove(&canvas, from + QPoint(0, -6));
    QTest::mouseMove(&canvas, from + QPoint(0, -12));
    QTest::mouseRelease(&canvas, Qt::LeftButton, {}, from + QPoint(0, -12));
    QVERIFY(off(2) > 3); // upwards in the picture is away from the near edge
    QCOMPARE(m_window->session().undoStack().count(), steps + 1);
}

/// Stripes that fan out over the whole panel, photographed while the staves lie in disorder.
void LaidOutTest::aShuffledFanOfStripesIsPutBack() {
    constexpr std::array<double, 5> fan = {-24, -9, 3, 14, 27};
    constexpr std::array<std::size_t, 4> pieces = {2, 0, 3, 1}; // of the staves as they lie
    const panels::Panel laid = *place().shown();
    Taken photo = taken(laid, false);
    const double length = laid.roughLength.toMillimetres() * perMm;
    const double width = laid.width.toMillimetres() * perMm;
    QImage flat(static_cast<int>(length), static_cast<int>(width), QImage::Format_RGB32);
    double near = 0;
    for (std::size_t place = 0; place < 4; ++place) {
        const double wide = laid.staveAt(place).net.width().toMillimetres() * perMm;
        for (int row = 0; row < flat.height(); ++row) {
            const double y = flat.height() - row - 0.5 - near;
            if (y < 0 || y >= wide + 1) {
                continue;
            }
            const double degrees = y < wide / 2 ? fan[pieces[place]] : fan[pieces[place] + 1];
            const double angle = degrees * std::numbers::pi / 180;
            for (int x = 0; x < flat.width(); ++x) {
                const double across = y * std::cos(angle) - x * std::sin(angle);
                const int light =
                    160 + static_cast<int>(30 * std::sin(2 * std::numbers::pi * across / 9));
                flat.setPixelColor(x, row, QColor(light, light - 25, light - 60));
            }
        }
        near += wide;
    }
    QTransform aslant;
    aslant.translate(70, 60);
    aslant.rotate(2);
    QPainter camera(&photo.picture);
    camera.setRenderHint(QPainter::SmoothPixmapTransform);
    camera.setTransform(aslant);
    camera.drawImage(QRectF(0, 0, length, width), flat);
    camera.end();
    press(Qt::Key_P);
    add(photo, BoardFace::A, "fan.png");
    // Only the figure counts, and no face that was not photographed may come up.
    GlueUp glueUp = job().glueUp;
    glueUp.settings.weights.hundredths.fill(0);
    glueUp.settings.weights.hundredths[static_cast<std::size_t>(GlueTerm::Figure)] = 300;
    glueUp.settings.weights.hundredths[static_cast<std::size_t>(GlueTerm::Rings)] = 900;
    QVERIFY(m_window->session().edit("weights", Edit{ReplaceGlueUp{glueUp}}));
    QVERIFY(m_window->session().edit(
        "rings", panels::wished(job(), *place().shown(), {RingWish::HeartUp, false, {}}).value()));
    desk().refresh();
    emit desk().leaveWanted();
    QTRY_VERIFY_WITH_TIMEOUT(!FacePictures::of(m_window->session()).isAtWork(), timeout);
    press(Qt::Key_A);
    QTRY_VERIFY_WITH_TIMEOUT(!place().isArranging(), timeout);
    QVERIFY2(place().banner().sentence().contains("proved best"),
             qPrintable(place().banner().sentence()));
    QString order;
    for (std::size_t at = 0; at < 4; ++at) {
        const int number = place().shown()->staveAt(at).purpose.stave;
        order += QString::number(pieces[static_cast<std::size_t>(number - 1)]);
    }
    QVERIFY2(order == "0123" || order == "3210", qPrintable(order));
}

void LaidOutTest::isKeptInTheFileWithoutItsLocation() {
    press(Qt::Key_P);
    // A JPEG that says in its XMP packet where it was taken.
    const QByteArray where = "at 47.11 north, 8.15 east";
    QFile file(saved(taken(*place().shown(), false).picture, "front.jpg"));
    QVERIFY(file.open(QIODevice::ReadWrite));
    QByteArray picture = file.readAll();
    const QByteArray packet = QByteArray("http://ns.adobe.com/xap/1.0/") + '\0' + where;
    const auto length = static_cast<int>(packet.size()) + 2;
    picture.insert(2, QByteArray("\xFF\xE1") + static_cast<char>(length >> 8) +
                          static_cast<char>(length & 0xFF) + packet);
    file.resize(0);
    file.write(picture);
    file.close();
    QVERIFY(picture.contains(where));
    desk().addFile(file.fileName());
    QTRY_VERIFY_WITH_TIMEOUT(!desk().isReading(), timeout);
    QVERIFY(desk().shown() != nullptr);
    const std::string path = m_folder->filePath("laid.stavejob").toStdString();
    QVERIFY(writeJob(job(), path));
    const Result<Document> back = readJob(path);
    QVERIFY(back);
    QVERIFY(back.value() == job());
    const auto bytes = back.value().glueUp.laidOut[0].photo.file.read();
    QVERIFY(bytes);
    QCOMPARE(*bytes.value(), *job().glueUp.laidOut[0].photo.file.read().value());
    QVERIFY(QImage::fromData(QByteArray::fromStdString(*bytes.value())).width() > 0);
    QVERIFY(!QByteArray::fromStdString(*bytes.value()).contains(where));
    // Measured anew by typing: the joints keep their share.
    const Length joint = desk().shown()->joints[0];
    QLineEdit* width = desk().findChild<LengthEdit*>("laidWidth")->field();
    width->setFocus();
    width->selectAll();
    QTest::keyClicks(width, "27");
    QTest::keyClick(width, Qt::Key_Return);
    QCOMPARE(desk().shown()->photo.size.widthAtDatum, Length::inches(27));
    QVERIFY(desk().shown()->joints[0] > joint);
}

} // namespace

std::unique_ptr<QObject> makeLaidOutTest() { return std::make_unique<LaidOutTest>(); }

} // namespace stavewright::testing_ui

#include "LaidOutTest.moc"
