// The place Glue-up in the real window: everything by keyboard, undo, and photographs that come to
// lie where the wood lies.

#include <QAction>
#include <QImage>
#include <QListWidget>
#include <QPainter>
#include <QPushButton>
#include <QSettings>
#include <QTest>

#include "tests/ui/Tests.h"
#include "tests/unit/core/panels/HandPanel.h"
#include "ui/glueup/GlueUpView.h"
#include "ui/glueup/PanelCanvas.h"
#include "ui/glueup/TermTable.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Banner.h"
#include "ui/window/MainWindow.h"

namespace stavewright::testing_ui {

namespace {

using namespace ui;
using hand_panel::in;

constexpr int timeout = 30'000; // ms

class GlueUpTest : public QObject {
    Q_OBJECT
  private slots:
    void init();
    void cleanup();
    void keysTurnMoveLockAndUndo();
    void arrangingMakesItBetterAndIsOneStep();
    void aStaveIsDraggedOntoAnother();
    void weightsAreTyped();
    void theSelectionLeadsToTheBoardAndBack();
    void aJobWithoutAPlanSaysWhatToDo();
    void photographsLieAsTheWoodLies();
    void picturesForLookingAt();

  private:
    [[nodiscard]] GlueUpView& place() const { return *m_window->findChild<GlueUpView*>(); }
    [[nodiscard]] const Document& job() const { return m_window->session().document(); }
    void press(int key, Qt::KeyboardModifiers modifiers = {}) {
        QTest::keyClick(&place().canvas(), static_cast<Qt::Key>(key), modifiers);
    }
    [[nodiscard]] QString order() const {
        QString text;
        const panels::Panel& panel = *place().shown();
        for (std::size_t at = 0; at < panel.order.size(); ++at) {
            text += QString::number(panel.staveAt(at).purpose.stave);
        }
        return text;
    }

    std::unique_ptr<MainWindow> m_window;
};

void GlueUpTest::init() {
    QSettings().clear();
    m_window = std::make_unique<MainWindow>();
    m_window->show(); // the first show opens a sample
    m_window->session().adopt(hand_panel::job(), {});
    m_window->action(CommandId::PlaceGlueUp)->trigger();
    QVERIFY(place().isVisible());
    QVERIFY(place().shown() != nullptr);
}

void GlueUpTest::cleanup() { m_window.reset(); }

void GlueUpTest::keysTurnMoveLockAndUndo() {
    const Document before = job();
    press(Qt::Key_Home);
    QCOMPARE(place().canvas().selected(), std::optional<std::size_t>(0));
    press(Qt::Key_Up, Qt::ControlModifier); // towards the far edge
    QCOMPARE(order(), QString("2134"));
    QCOMPARE(place().canvas().selected(), std::optional<std::size_t>(1));
    press(Qt::Key_F);
    QVERIFY(job().plan->boards[0].sections[0].strips[0].blanks[0].pose.faceOver);
    press(Qt::Key_E);
    QVERIFY(job().plan->boards[0].sections[0].strips[0].blanks[0].pose.endForEnd);
    press(Qt::Key_L);
    QVERIFY(place().shown()->problem.panels[0].locked[1].has_value());
    press(Qt::Key_E); // locked: refused with a sentence
    QVERIFY(place().banner().sentence().contains("locked"));
    press(Qt::Key_Down);
    QCOMPARE(place().canvas().selected(), std::optional<std::size_t>(0));
    press(Qt::Key_B);
    press(Qt::Key_V);
    press(Qt::Key_B);
    press(Qt::Key_V);
    QCOMPARE(m_window->session().undoStack().count(), 4);
    for (int step = 0; step < 4; ++step) {
        m_window->action(CommandId::Undo)->trigger();
    }
    QVERIFY(job() == before);
}

void GlueUpTest::arrangingMakesItBetterAndIsOneStep() {
    const Document before = job();
    const glueup::Cost was = panels::scoreOf(*place().shown(), nullptr).total;
    press(Qt::Key_A);
    QTRY_VERIFY_WITH_TIMEOUT(!place().isArranging(), timeout);
    QVERIFY(panels::scoreOf(*place().shown(), nullptr).total < was);
    QVERIFY(place().banner().sentence().contains("proved best"));
    QCOMPARE(m_window->session().undoStack().count(), 1);
    press(Qt::Key_A); // nothing is better than the best
    QTRY_VERIFY_WITH_TIMEOUT(!place().isArranging(), timeout);
    QCOMPARE(m_window->session().undoStack().count(), 1);
    m_window->action(CommandId::Undo)->trigger();
    QVERIFY(job() == before);
}

void GlueUpTest::aStaveIsDraggedOntoAnother() {
    PanelCanvas& canvas = place().canvas();
    const QPoint from = canvas.boxOf(0).center().toPoint();
    const QPoint to = canvas.boxOf(2).center().toPoint();
    QTest::mousePress(&canvas, Qt::LeftButton, {}, from);
    QTest::mouseMove(&canvas, (from + to) / 2);
    QTest::mouseMove(&canvas, to);
    QTest::mouseRelease(&canvas, Qt::LeftButton, {}, to);
    QCOMPARE(order(), QString("3214"));
    // Escape drops what is being dragged.
    QTest::mousePress(&canvas, Qt::LeftButton, {}, from);
    QTest::mouseMove(&canvas, to);
    press(Qt::Key_Escape);
    QTest::mouseRelease(&canvas, Qt::LeftButton, {}, to);
    QCOMPARE(order(), QString("3214"));
}

void GlueUpTest::weightsAreTyped() {
    TermTable& terms = place().terms();
    terms.item(1, 3)->setText("7.5");
    QCOMPARE(job().glueUp.settings.weights.of(GlueTerm::Rings), 750);
    terms.item(1, 3)->setText("many");
    QVERIFY(place().banner().sentence().contains("many"));
    QCOMPARE(job().glueUp.settings.weights.of(GlueTerm::Rings), 750);
}

void GlueUpTest::theSelectionLeadsToTheBoardAndBack() {
    press(Qt::Key_End);
    QCOMPARE(m_window->session().selection().blank, std::optional(BlankId{63}));
    press(Qt::Key_Return);
    QVERIFY(!place().isVisible());
    Selection selection;
    selection.board = BoardId{20};
    selection.blank = BlankId{61};
    m_window->session().select(selection);
    m_window->action(CommandId::PlaceGlueUp)->trigger();
    QCOMPARE(place().canvas().selected(), std::optional<std::size_t>(1));
}

void GlueUpTest::aJobWithoutAPlanSaysWhatToDo() {
    QVERIFY(m_window->session().edit("Clear", Edit{ReplacePlan{}}));
    QVERIFY(place().shown() == nullptr);
    QVERIFY(place().findChild<QWidget*>("glueUpEmpty")->isVisible());
}

/// A board of 96 x 24 in with a red spot on face A and a blue one on face B, each near an end and
/// an edge of stave 2, and where they have to be seen in every pose, from the front and from the
/// back.
void GlueUpTest::photographsLieAsTheWoodLies() {
    constexpr int perInch = 10;
    const auto photo = [&](double x, double y, Qt::GlobalColor colour) {
        FacePhoto made;
        made.image = QImage(96 * perInch, 24 * perInch, QImage::Format_RGB32);
        made.image.fill(Qt::white);
        QPainter painter(&made.image);
        // Pictures run downwards, boards upwards.
        painter.fillRect(
            QRectF((x - 0.4) * perInch, (24 - y - 0.4) * perInch, 0.8 * perInch, 0.8 * perInch),
            colour);
        made.place = QRectF(0, 0, 96 * 25.4, 24 * 25.4);
        return made;
    };
    constexpr double xA = 14;
    constexpr double yA = 4.9;
    constexpr double xB = 15.5;
    constexpr double yB = 6.3;
    const FacePhoto faceA = photo(xA, yA, Qt::red);
    const FacePhoto faceB = photo(xB, yB, Qt::blue);
    const panels::Panel panel = hand_panel::only(hand_panel::job());
    const panels::PanelStave& stave = panel.staves[1];
    for (int pose = 0; pose < 4; ++pose) {
        for (const bool back : {false, true}) {
            glueup::Order order = panel.order;
            order[1].pose = pose;
            const PanelPicture picture = pictureOf(hand_panel::job(), panel, order, back);
            QImage canvas(1040, 400, QImage::Format_RGB32);
            canvas.fill(Qt::black);
            QPainter painter(&canvas);
            PanelLook look;
            look.colours = lightColours();
            look.photo = [&](BoardId, BoardFace face) {
                return face == BoardFace::A ? &faceA : &faceB;
            };
            const QTransform toPixels(1, 0, 0, -1, 10, 390);
            paintPanel(painter, picture, toPixels, look);
            painter.end();
            // By hand: into the stave, then turned, then stacked, then mirrored for the back.
            const bool over = (pose & 2) != 0;
            const bool turned = (pose & 1) != 0;
            const bool seesA = over == back;
            double x = (seesA ? xA : xB) * 25.4 - stave.at.toMillimetres();
            double y = (seesA ? yA : yB) * 25.4 - stave.net.y0.toMillimetres();
            x = turned ? stave.net.length().toMillimetres() - x : x;
            y = turned != over ? stave.net.width().toMillimetres() - y : y;
            y += stave.net.width().toMillimetres(); // one stave stands before it
            y = back ? panel.width.toMillimetres() - y : y;
            const QPointF at = toPixels.map(QPointF(x, y));
            const QColor seen = canvas.pixelColor(at.toPoint());
            QVERIFY2(seesA ? seen.red() > 200 && seen.blue() < 80
                           : seen.blue() > 200 && seen.red() < 80,
                     qPrintable(QString("pose %1, %2: %3")
                                    .arg(pose)
                                    .arg(back ? "back" : "front", seen.name())));
        }
    }
}

/// For people to look at: STAVEWRIGHT_PICTURES=FOLDER bin/test_ui picturesForLookingAt; with
/// STAVEWRIGHT_PICTURES_JOB=FILE of that job.
void GlueUpTest::picturesForLookingAt() {
    const QString folder = qEnvironmentVariable("STAVEWRIGHT_PICTURES");
    if (folder.isEmpty()) {
        QSKIP("no folder was given for pictures");
    }
    const QString file = qEnvironmentVariable("STAVEWRIGHT_PICTURES_JOB");
    if (!file.isEmpty()) {
        QVERIFY(m_window->openFile(file));
    }
    for (const bool dark : {false, true}) {
        m_window->action(dark ? CommandId::AppearanceDark : CommandId::AppearanceLight)->trigger();
        for (const QSize size : {QSize(1280, 800), QSize(1920, 1080)}) {
            m_window->resize(size);
            m_window->action(CommandId::PlaceGlueUp)->trigger();
            press(Qt::Key_Home);
            QTest::qWait(50);
            QVERIFY(m_window->grab().save(QString("%1/glueup-%2-%3.png")
                                              .arg(folder, dark ? "dark" : "light")
                                              .arg(size.width())));
        }
    }
    m_window->action(CommandId::AppearanceLight)->trigger();
    press(Qt::Key_A);
    QTRY_VERIFY_WITH_TIMEOUT(!place().isArranging(), timeout);
    QVERIFY(m_window->grab().save(folder + "/glueup-arranged.png"));
    press(Qt::Key_V);
    QVERIFY(m_window->grab().save(folder + "/glueup-back.png"));
}

} // namespace

std::unique_ptr<QObject> makeGlueUpTest() { return std::make_unique<GlueUpTest>(); }

} // namespace stavewright::testing_ui

#include "GlueUpTest.moc"
