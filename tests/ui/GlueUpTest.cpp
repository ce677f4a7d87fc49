// The place Glue-up in the real window: everything by keyboard, undo, and photographs that come to
// lie where the wood lies.

#include <QAccessible>
#include <QAction>
#include <QApplication>
#include <QBuffer>
#include <QComboBox>
#include <QContextMenuEvent>
#include <QImage>
#include <QListWidget>
#include <QMenu>
#include <QPainter>
#include <QPushButton>
#include <QSettings>
#include <QTest>
#include <QToolButton>

#include <algorithm>
#include <array>

#include "core/audit/Audit.h"
#include "core/milling/BlankSpec.h"
#include "core/panels/PlyEdits.h"
#include "core/papers/Sheets.h"
#include "tests/ui/Tests.h"
#include "tests/unit/core/panels/HandPanel.h"
#include "ui/glueup/BlockCanvas.h"
#include "ui/glueup/GlueUpView.h"
#include "ui/glueup/LaidDesk.h"
#include "ui/glueup/PanelCanvas.h"
#include "ui/glueup/PanelNames.h"
#include "ui/glueup/TermTable.h"
#include "ui/layout/FacePictures.h"
#include "ui/lumber/PhotoCanvas.h"
#include "ui/photo/PagePhotos.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/FractionLabel.h"
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
    void aStaveIsTurnedFromItsMenu();
    void arrangingMakesItBetterAndIsOneStep();
    void aStaveIsDraggedOntoAnother();
    void weightsAreTyped();
    void theSelectionLeadsToTheBoardAndBack();
    void aJobWithoutAPlanSaysWhatToDo();
    void photographsLieAsTheWoodLies();
    void photographsOfTheBoardsAreShownWhereTheWoodLies();
    void photographsArePrintedAsTheWoodLies();
    void stavesAreExchangedWithThePanelThatMatches();
    void thePanelThatWasChosenStaysInView();
    void pliesAreTurnedExchangedAndPaired();
    void aWholeArrangementByKeysAlone();
    void whoeverHearsItIsToldWhatIsWhat();
    void noLabelLiesOnAnotherOrOnAKnot();
    void whatThePlanMovedIsToldUntilItWasSeen();
    void picturesForLookingAt();

  private:
    /// To whoever has the focus, as a keyboard does.
    void type(int key, Qt::KeyboardModifiers modifiers = {}) const {
        QWidget* focus = QApplication::focusWidget();
        // Keys that no widget of it has the focus for go to the window itself.
        QTest::keyClick(focus != nullptr ? focus : m_window.get(), static_cast<Qt::Key>(key),
                        modifiers);
    }
    /// F6 until it is in this pane.
    bool goTo(const QWidget& pane) const {
        for (int pressed = 0; pressed < 6; ++pressed) {
            const QWidget* focus = QApplication::focusWidget();
            if (focus == &pane || (focus != nullptr && pane.isAncestorOf(focus))) {
                return true;
            }
            type(Qt::Key_F6);
        }
        return false;
    }
    /// Tab until it is there.
    bool tabTo(const QString& name) const {
        for (int pressed = 0; pressed < 12; ++pressed) {
            const QWidget* focus = QApplication::focusWidget();
            if (focus != nullptr && focus->objectName() == name) {
                return true;
            }
            type(Qt::Key_Tab);
        }
        return false;
    }

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

void GlueUpTest::aStaveIsTurnedFromItsMenu() {
    const Document before = job();
    PanelCanvas& canvas = place().canvas();
    const QPoint spot = canvas.boxOf(1).center().toPoint();
    const auto choose = [&](const QString& words) {
        QContextMenuEvent asks(QContextMenuEvent::Mouse, spot, canvas.mapToGlobal(spot));
        QApplication::sendEvent(&canvas, &asks);
        auto* menu = canvas.findChild<QMenu*>();
        QVERIFY(menu);
        for (QAction* action : menu->actions()) {
            if (action->text().startsWith(words)) {
                action->trigger();
            }
        }
        delete menu;
    };
    const panels::PanelStave stave = place().shown()->staveAt(1);
    const int was = place().shown()->order[1].pose;
    choose("End for end");
    QCOMPARE(canvas.selected(), std::optional<std::size_t>(1));
    QCOMPARE(glueup::poseOf(place().shown()->order[1].pose).endForEnd,
             !glueup::poseOf(was).endForEnd);
    choose("Face over");
    QCOMPARE(glueup::poseOf(place().shown()->order[1].pose).faceOver,
             !glueup::poseOf(was).faceOver);
    QVERIFY(place().shown()->staveAt(1).purpose == stave.purpose);
    const auto isLocked = [&] {
        return place().shown()->problem.panels.front().locked[1].has_value();
    };
    choose("Lock its place");
    QVERIFY(isLocked());
    choose("Unlock its place");
    QVERIFY(!isLocked());
    choose("Exchange");
    QVERIFY(place().banner().sentence().contains("matches")); // there is nothing to exchange with
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

namespace {

/// One face of the board of 96 x 24 in as a camera sees it, turned on a dark floor, with a spot at
/// (x, y) inches of the board frame. Face B is seen from its own side: near edge above.
BoardPhoto photographed(BoardFace face, double x, double y, Qt::GlobalColor colour) {
    constexpr int perInch = 10;
    constexpr int wide = 96 * perInch;
    constexpr int high = 24 * perInch;
    const bool isB = face == BoardFace::B;
    QImage flat(wide, high, QImage::Format_RGB32);
    flat.fill(QColor(214, 186, 150));
    QPainter spot(&flat);
    const QPointF middle(x * perInch, (isB ? y : 24 - y) * perInch);
    spot.fillRect(QRectF(middle - QPointF(6, 6), QSizeF(12, 12)), colour);
    spot.end();
    QImage picture(1240, 480, QImage::Format_RGB32);
    picture.fill(QColor(30, 30, 34));
    // From straight above, the camera turned a little: a quadrangle drawn at will is one that no
    // camera sees.
    QTransform aslant;
    aslant.translate(90, 70);
    aslant.rotate(3);
    aslant.scale(1.1, 1.1);
    const QPolygonF seen = aslant.map(QPolygonF({{0, 0}, {wide, 0}, {wide, high}, {0, high}}));
    QPainter painter(&picture);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.setTransform(aslant);
    painter.drawImage(0, 0, flat);
    painter.end();
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    picture.save(&buffer, "png");
    BoardPhoto photo;
    photo.face = face;
    photo.name = isB ? "b.png" : "a.png";
    photo.file = PhotoFile::of(bytes.toStdString());
    photo.size = {Length::inches(96), Length::inches(24), Length::inches(24)};
    photo.controls.width = picture.width();
    photo.controls.height = picture.height();
    using photo::Corner;
    // Round the picture from the upper left.
    const std::array corners =
        isB ? std::array{Corner::DatumNear, Corner::EndNear, Corner::EndFar, Corner::DatumFar}
            : std::array{Corner::DatumFar, Corner::EndFar, Corner::EndNear, Corner::DatumNear};
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const QPointF at = seen[static_cast<qsizetype>(i)];
        photo.controls.corners.push_back({corners[i], photo::PhotoPoint::at({at.x(), at.y()})});
    }
    return photo;
}

} // namespace

/// From the photograph as it was taken to the stave in the window: straightened, cut out, turned as
/// the stave lies, in every pose, from the front and from the back.
void GlueUpTest::photographsOfTheBoardsAreShownWhereTheWoodLies() {
    // Marks in the second stave's own wood, wherever the plan has it.
    const panels::PanelStave cut = place().shown()->staveAt(1);
    const auto along = [&](double part) {
        return (cut.at.toMillimetres() + part * cut.net.length().toMillimetres()) / 25.4;
    };
    const auto across = [&](double part) {
        return (cut.net.y0.toMillimetres() + part * cut.net.width().toMillimetres()) / 25.4;
    };
    const double xA = along(0.3);
    const double yA = across(0.3);
    const double xB = along(0.35);
    const double yB = across(0.7);
    press(Qt::Key_Home);
    press(Qt::Key_Up); // the second stave
    press(Qt::Key_E);  // so that there is a "before" that knew no colours
    const Board& board = job().boards[0];
    std::vector<BoardPhoto> photos = {photographed(BoardFace::A, xA, yA, Qt::red),
                                      photographed(BoardFace::B, xB, yB, Qt::blue)};
    photos[0].id = PhotoId{job().nextId};
    photos[1].id = PhotoId{job().nextId + 1};
    QVERIFY(m_window->session().edit("photographs", Edit{ReplacePhotos{board.id, photos}}));
    FacePictures& pictures = FacePictures::of(m_window->session());
    // Arranged at once, it waits for their colours.
    const int steps = m_window->session().undoStack().count();
    press(Qt::Key_A);
    QVERIFY(place().isArranging());
    QTRY_VERIFY_WITH_TIMEOUT(!place().isArranging(), timeout);
    QVERIFY(!place().shown()->problem.staves[0].faceA.photo.colours.empty());
    const glueup::Cost arranged = panels::scoreOf(*place().shown(), nullptr).total;
    QCOMPARE(m_window->session().undoStack().count(), steps + 1);
    m_window->action(CommandId::Undo)->trigger();
    QVERIFY(panels::scoreOf(*place().shown(), nullptr).total > arranged);
    press(Qt::Key_Home);
    press(Qt::Key_Up);
    PanelCanvas& canvas = place().canvas();
    for (int pose = 0; pose < 4; ++pose) {
        for (const bool back : {false, true}) {
            if (back) {
                press(Qt::Key_V);
            }
            canvas.grab(); // asks for the pictures
            QTRY_VERIFY_WITH_TIMEOUT(!pictures.isAtWork(), timeout);
            // Their colours make the panel anew, so it is only looked at now.
            const panels::PanelStave stave = place().shown()->staveAt(1);
            const Pose lies = glueup::poseOf(place().shown()->order[1].pose);
            const bool seesA = lies.faceOver == back;
            double x = (seesA ? xA : xB) * 25.4 - stave.at.toMillimetres();
            double y = (seesA ? yA : yB) * 25.4 - stave.net.y0.toMillimetres();
            x = lies.endForEnd ? stave.net.length().toMillimetres() - x : x;
            y = lies.endForEnd != lies.faceOver ? stave.net.width().toMillimetres() - y : y;
            y = back ? stave.net.width().toMillimetres() - y : y;
            const QRectF box = canvas.boxOf(1);
            const QPoint at =
                QPointF(box.left() + x / stave.net.length().toMillimetres() * box.width(),
                        box.bottom() - y / stave.net.width().toMillimetres() * box.height())
                    .toPoint();
            const auto isThere = [&] {
                const QColor colour = canvas.grab().toImage().pixelColor(at);
                return seesA ? colour.red() > 180 && colour.blue() < 90
                             : colour.blue() > 180 && colour.red() < 90;
            };
            // A sharper one may be asked for as soon as the first is there.
            const QString asked = QString("pose %1 %2, %3")
                                      .arg(lies.endForEnd)
                                      .arg(lies.faceOver)
                                      .arg(back ? "back" : "front");
            QTRY_VERIFY2_WITH_TIMEOUT(isThere(), qPrintable(asked), 5'000);
            if (pose == 0 && !back) { // the colours count for both
                const auto row = static_cast<int>(GlueTerm::Colour);
                QVERIFY(place().terms().item(row, 1)->text() != QString("0"));
                QVERIFY(place().terms().item(row, 2)->text() != QString("0"));
            }
            if (back) {
                press(Qt::Key_V);
            }
        }
        press(pose == 1 ? Qt::Key_F : Qt::Key_E); // E, F, E: through all four
    }
    // Their colours count now.
    QVERIFY(!place().shown()->problem.staves[0].faceA.photo.colours.empty());
    QVERIFY(!place().shown()->problem.staves[0].faceB.photo.colours.empty());
}

/// From the photographs as they were taken to the printed page, in every pose: marks of either face
/// come to lie where the wood will, and the pictures of neighbours meet at their seam.
void GlueUpTest::photographsArePrintedAsTheWoodLies() {
    Document job = hand_panel::job();
    const panels::PanelStave cut = hand_panel::only(job).staveAt(1);
    const auto along = [&](double part) {
        return (cut.at.toMillimetres() + part * cut.net.length().toMillimetres()) / 25.4;
    };
    const auto across = [&](double part) {
        return (cut.net.y0.toMillimetres() + part * cut.net.width().toMillimetres()) / 25.4;
    };
    job.boards[0].photos = {photographed(BoardFace::A, along(0.6), across(0.2), Qt::red),
                            photographed(BoardFace::B, along(0.7), across(0.7), Qt::blue)};
    for (int pose = 0; pose < 4; ++pose) {
        const Pose lies = glueup::poseOf(pose);
        job.plan->boards[0].sections[0].strips[1].blanks[0].pose = lies;
        const auto pages =
            papers::pagesOf(job, audit(job), blankSpecs(job).value(), {}, FontMeasure());
        const auto page = std::find_if(pages.begin(), pages.end(), [](const papers::Page& each) {
            return !each.photos.empty();
        });
        QVERIFY(page != pages.end());
        QCOMPARE(page->photos.size(), std::size_t{4});
        for (std::size_t i = 0; i + 1 < page->photos.size(); ++i) { // the near edge below
            QVERIFY(abs(page->photos[i].at.y0 - page->photos[i + 1].at.y1) <
                    Length::micrometres(1));
        }
        constexpr double perMm = 8;
        QImage sheet(static_cast<int>(page->width.toMillimetres() * perMm),
                     static_cast<int>(page->height.toMillimetres() * perMm), QImage::Format_RGB32);
        sheet.fill(Qt::white);
        QPainter painter(&sheet);
        painter.scale(perMm, perMm);
        const PagePhotos photos = PagePhotos::of(job.boards, pages, {}, {});
        QVERIFY(photos.hasAllOf(job.boards, pages));
        paintPage(painter, *page, photos.onPage());
        painter.end();
        const Rect& at = page->photos[1].at;
        const bool turned = lies.endForEnd;
        const bool mirrored = lies.endForEnd != lies.faceOver;
        const double u = lies.faceOver ? 0.7 : 0.6;
        const double v = lies.faceOver ? 0.7 : 0.2;
        const double x = at.x0.toMillimetres() + (turned ? 1 - u : u) * at.length().toMillimetres();
        const double y =
            at.y1.toMillimetres() - (mirrored ? 1 - v : v) * at.width().toMillimetres();
        const QColor seen = sheet.pixelColor(QPointF(x * perMm, y * perMm).toPoint());
        QVERIFY2(lies.faceOver ? seen.blue() > 180 && seen.red() < 100
                               : seen.red() > 180 && seen.blue() < 100,
                 qPrintable(QString("pose %1: %2").arg(pose).arg(seen.name())));
    }
    // Without a photograph that can be had the drawn figure stands there.
    job.boards[0].photos[0].controls.corners.clear();
    job.boards[0].photos[1].controls.corners.clear();
    const auto pages = papers::pagesOf(job, audit(job), blankSpecs(job).value(), {}, FontMeasure());
    const PhotoOnPage none = PagePhotos::of(job.boards, pages, {}, {}).onPage();
    for (const papers::Page& page : pages) {
        for (const papers::Photo& photo : page.photos) {
            QVERIFY(none(photo).isNull());
            QVERIFY(!photo.figure.empty());
        }
    }
}

void GlueUpTest::stavesAreExchangedWithThePanelThatMatches() {
    m_window->session().adopt(hand_panel::twoTops(), {});
    const Document before = job();
    press(Qt::Key_Home);
    press(Qt::Key_X);
    QVERIFY(place().banner().sentence().contains("matches")); // none is chosen yet
    auto* matches = place().findChild<QComboBox*>("glueUpMatches");
    matches->setCurrentIndex(1);
    emit matches->activated(1);
    press(Qt::Key_End);
    const BlankId mine = place().shown()->staveAt(1).blank;
    const PanelName name = place().shown()->name;
    press(Qt::Key_X);
    auto* menu = place().findChild<QMenu*>("glueUpExchange");
    QVERIFY(menu != nullptr && menu->isVisible());
    QTest::keyClick(menu, Qt::Key_Down);
    QTest::keyClick(menu, Qt::Key_Return);
    QVERIFY(place().shown()->name == name); // the stave that was picked has gone to the other panel
    QVERIFY(place().shown()->staveAt(1).blank != mine);
    QVERIFY(place().banner().sentence().contains("Chalk"));
    press(Qt::Key_B); // before: with the stave that left
    press(Qt::Key_B);
    QCOMPARE(m_window->session().undoStack().count(), 2);
    press(Qt::Key_A);
    QTRY_VERIFY_WITH_TIMEOUT(!place().isArranging(), timeout);
    while (m_window->session().undoStack().canUndo()) {
        m_window->action(CommandId::Undo)->trigger();
    }
    QVERIFY(job() == before);
}

/// A stave was picked, then another panel chosen from the list: what is done there stays there.
void GlueUpTest::thePanelThatWasChosenStaysInView() {
    m_window->session().adopt(hand_panel::twoTops(), {});
    press(Qt::Key_Home);
    const PanelName first = place().shown()->name;
    place().findChild<QListWidget*>("glueUpPanels")->setCurrentRow(1);
    const PanelName second = place().shown()->name;
    QVERIFY(first != second);
    auto* rings = place().findChild<QComboBox*>("glueUpRings");
    rings->setCurrentIndex(1);
    emit rings->activated(1);
    QVERIFY(place().shown()->name == second);
    m_window->action(CommandId::Undo)->trigger();
    QVERIFY(place().shown()->name == second);
    m_window->action(CommandId::PlaceLayout)->trigger();
    m_window->action(CommandId::PlaceGlueUp)->trigger();
    QVERIFY(place().shown()->name == second);
}

void GlueUpTest::pliesAreTurnedExchangedAndPaired() {
    m_window->session().adopt(hand_panel::legs(true), {});
    const Document before = job();
    BlockCanvas& canvas = place().blockCanvas();
    QVERIFY(canvas.isVisible());
    canvas.setFocus();
    const auto key = [&](Qt::Key each, Qt::KeyboardModifiers with = {}) {
        QTest::keyClick(&canvas, each, with);
    };
    canvas.setSelected(0);
    key(Qt::Key_F);
    QCOMPARE(panels::blocksOf(job())[0].plies[0].pose.faceOver, true);
    key(Qt::Key_E);
    QCOMPARE(panels::blocksOf(job())[0].plies[0].pose.endForEnd, true);
    const BlankId upper = panels::blocksOf(job())[0].plies[0].blank;
    key(Qt::Key_Down, Qt::ControlModifier);
    QCOMPARE(panels::blocksOf(job())[0].plies[1].blank, upper);
    QCOMPARE(canvas.selected(), std::optional<std::size_t>(1));
    key(Qt::Key_X);
    auto* menu = place().findChild<QMenu*>("glueUpExchange");
    QVERIFY(menu != nullptr && menu->isVisible());
    QTest::keyClick(menu, Qt::Key_Down);
    QTest::keyClick(menu, Qt::Key_Return);
    QCOMPARE(panels::blocksOf(job())[1].plies[0].blank, upper);
    key(Qt::Key_A);
    const panels::PairingFigures figures =
        panels::pairingOf(panels::blocksOf(job()), hand_panel::topPart);
    QCOMPARE(figures.barksMeet, 2);
    QCOMPARE(figures.ofTwoBoards, 0);
    while (m_window->session().undoStack().canUndo()) {
        m_window->action(CommandId::Undo)->trigger();
    }
    QVERIFY(job() == before);
}

/// As a maker without a mouse does it: no widget is told anything, the focus goes where her keys
/// send it. From the first look to the printed page, and everything undone.
void GlueUpTest::aWholeArrangementByKeysAlone() {
    m_window->session().adopt(hand_panel::twoTops(), {});
    m_window->activateWindow();
    QVERIFY(QTest::qWaitForWindowActive(m_window.get()));
    const Document before = job();
    GlueUpView& glueUp = place();
    PanelCanvas& canvas = glueUp.canvas();
    type(Qt::Key_1, Qt::ControlModifier); // away, and back
    QVERIFY(!glueUp.isVisible());
    type(Qt::Key_4, Qt::ControlModifier);
    QVERIFY(glueUp.isVisible());
    QCOMPARE(QApplication::focusWidget(), static_cast<QWidget*>(&canvas));
    // Where the focus is can be seen.
    const auto rim = [&] { return canvas.grab().toImage().pixelColor(1, 1); };
    QCOMPARE(rim(), coloursOf(canvas.palette()).accent);

    // The second panel, and what it matches.
    const QString first = QString::fromStdString(glueUp.shown()->label);
    type(Qt::Key_PageDown);
    QVERIFY(QString::fromStdString(glueUp.shown()->label) != first);
    type(Qt::Key_PageUp);
    QCOMPARE(QString::fromStdString(glueUp.shown()->label), first);
    QVERIFY(goTo(*glueUp.findChild<QPushButton*>("glueUpArrange")));
    QVERIFY(rim() != coloursOf(canvas.palette()).accent);
    QVERIFY(tabTo("glueUpMatches"));
    type(Qt::Key_Down);
    QVERIFY(glueUp.shown()->chosen.matches.has_value());
    QVERIFY(tabTo("glueUpCentre"));
    type(Qt::Key_Space);
    QVERIFY(glueUp.shown()->chosen.noCentreSeam);
    type(Qt::Key_Z, Qt::ControlModifier);
    QVERIFY(!glueUp.shown()->chosen.noCentreSeam);

    // The staves: pick, swap, turn, roll over, lock.
    QVERIFY(goTo(canvas));
    type(Qt::Key_Home);
    const BlankId mine = glueUp.shown()->staveAt(0).blank;
    type(Qt::Key_Up, Qt::ControlModifier);
    QCOMPARE(glueUp.shown()->staveAt(1).blank, mine);
    QCOMPARE(canvas.selected(), std::optional<std::size_t>(1));
    type(Qt::Key_E);
    type(Qt::Key_F);
    QCOMPARE(glueUp.shown()->order[1].pose, glueup::poseIndex({true, true}));
    type(Qt::Key_L);
    QVERIFY(canvas.accessibleDescription().contains("locked"));
    type(Qt::Key_L);
    QVERIFY(!canvas.accessibleDescription().contains("locked"));
    type(Qt::Key_B);
    QVERIFY(glueUp.findChild<QToolButton*>("glueUpBefore")->isChecked());
    type(Qt::Key_B);
    type(Qt::Key_B, Qt::ShiftModifier); // by turns
    QTRY_VERIFY(!glueUp.findChild<QToolButton*>("glueUpBefore")->isChecked());
    QTRY_VERIFY(glueUp.findChild<QToolButton*>("glueUpBefore")->isChecked());
    type(Qt::Key_B, Qt::ShiftModifier);
    QVERIFY(!glueUp.findChild<QToolButton*>("glueUpBefore")->isChecked());
    type(Qt::Key_V);
    type(Qt::Key_V);

    // Exchanged with the other top, by its menu.
    type(Qt::Key_X);
    auto* menu = qobject_cast<QMenu*>(QApplication::activePopupWidget());
    QVERIFY(menu != nullptr);
    QTest::keyClick(menu, Qt::Key_Down);
    QTest::keyClick(menu, Qt::Key_Return);
    QVERIFY(glueUp.shown()->staveAt(1).blank != mine);
    // A desktop gives the window back what a menu took; the offscreen platform forgets it.
    QTest::qWait(50);
    m_window->activateWindow();
    QVERIFY(QTest::qWaitForWindowActive(m_window.get()));
    QCOMPARE(QApplication::focusWidget(), static_cast<QWidget*>(&canvas));

    // A weight, then the search.
    QVERIFY(goTo(glueUp.terms()));
    for (int column = 0; column < 5; ++column) {
        type(Qt::Key_Right);
    }
    type(Qt::Key_Left); // from Points to Weight
    type(Qt::Key_Home, Qt::ControlModifier);
    for (int column = 0; column < 3; ++column) {
        type(Qt::Key_Right);
    }
    type(Qt::Key_7);
    type(Qt::Key_Return);
    QTRY_COMPARE(job().glueUp.settings.weights.of(GlueTerm::Planing), 700); // taken when it is left
    QVERIFY(goTo(canvas));
    type(Qt::Key_A);
    QTRY_VERIFY_WITH_TIMEOUT(!glueUp.isArranging(), timeout);

    // On paper, and what would be printed is seen.
    type(Qt::Key_5, Qt::ControlModifier);
    QVERIFY(!glueUp.isVisible());
    const auto pages =
        papers::pagesOf(job(), audit(job()), blankSpecs(job()).value(), {}, FontMeasure());
    QVERIFY(std::any_of(pages.begin(), pages.end(), [](const papers::Page& page) {
        return page.title.find("Glue-up T1") != std::string::npos;
    }));
    type(Qt::Key_4, Qt::ControlModifier);
    while (m_window->session().undoStack().canUndo()) {
        type(Qt::Key_Z, Qt::ControlModifier);
    }
    QVERIFY(job() == before);
}

/// Everything in the place that takes the focus says what it is.
void GlueUpTest::whoeverHearsItIsToldWhatIsWhat() {
    for (const bool isLaid : {false, true}) {
        if (isLaid) {
            press(Qt::Key_P);
        }
        for (QWidget* widget : place().findChildren<QWidget*>()) {
            const bool isPart = widget->objectName().startsWith("qt_");
            if (!widget->isVisible() || isPart || !(widget->focusPolicy() & Qt::TabFocus)) {
                continue;
            }
            const QAccessibleInterface* heard = QAccessible::queryAccessibleInterface(widget);
            QVERIFY(heard != nullptr);
            QVERIFY2(!heard->text(QAccessible::Name).isEmpty(),
                     qPrintable(QString("%1 %2").arg(widget->metaObject()->className(),
                                                     widget->objectName())));
        }
    }
    QTest::keyClick(&place().laidDesk().corners(), Qt::Key_Escape);
    press(Qt::Key_Home);
    const QString told = place().canvas().accessibleDescription();
    QVERIFY2(told.contains("Place 1 of 4") && told.contains("face A"), qPrintable(told));
    press(Qt::Key_E);
    QVERIFY(place().canvas().accessibleDescription().contains("end for end"));
}

/// Knots where the names would stand: they make way, and every knot has its letter.
void GlueUpTest::noLabelLiesOnAnotherOrOnAKnot() {
    PanelPicture picture;
    for (int i = 0; i < 3; ++i) {
        StavePicture stave;
        stave.label = QString("T1-%1").arg(i + 1);
        stave.board = "4";
        stave.width = "100 mm";
        stave.place = QRectF(0, i * 100.0, 1000, 100);
        stave.fromBoard = QTransform::fromTranslate(0, i * 100.0);
        stave.planing = 1;
        for (const double x : {8.0, 60.0, 480.0, 920.0}) {
            stave.knots.push_back({QPolygonF(QRectF(x, 35 + 5.0 * i, 24, 24)), "K1"});
        }
        picture.staves.push_back(stave);
    }
    picture.whole = picture.finished = QRectF(0, 0, 1000, 300);
    QImage image(1100, 400, QImage::Format_RGB32);
    for (const Colours& colours : {lightColours(), darkColours()}) {
        QPainter painter(&image);
        PanelLook look;
        look.colours = colours;
        look.font = place().font();
        const QTransform toPixels = fitted(picture, QRectF(image.rect()));
        PanelNames names(painter, picture, toPixels, look);
        names.write();
        const std::vector<QRectF>& covered = names.covered();
        QCOMPARE(covered.size(), 3U * (3U + 4U)); // name, board and arrow; a letter for each knot
        for (std::size_t i = 0; i < covered.size(); ++i) {
            for (std::size_t k = i + 1; k < covered.size(); ++k) {
                QVERIFY(!covered[i].intersects(covered[k]));
            }
            for (const StavePicture& stave : picture.staves) {
                for (const KnotPicture& knot : stave.knots) {
                    const QRectF box =
                        (stave.fromBoard * toPixels).map(knot.outline).boundingRect();
                    QVERIFY(!covered[i].intersects(box));
                }
            }
        }
    }
}

void GlueUpTest::whatThePlanMovedIsToldUntilItWasSeen() {
    const auto link = [this]() -> FractionLabel* {
        for (FractionLabel* label : place().findChildren<FractionLabel*>()) {
            if (label->text().startsWith("Seen")) {
                return label;
            }
        }
        return nullptr;
    };
    press(Qt::Key_Home);
    press(Qt::Key_Up, Qt::ControlModifier); // the maker arranges
    QVERIFY(link() == nullptr);
    Plan plan = *job().plan;
    Blank& blank = plan.boards[0].sections[0].strips[2].blanks[0];
    blank.pose.endForEnd = !blank.pose.endForEnd;
    QVERIFY(m_window->session().edit("Turn", Edit{ReplacePlan{plan}}));
    QVERIFY(!place().shown()->moved.empty());
    QVERIFY(link() != nullptr);
    const Document told = job();
    QTest::keyClick(link(), Qt::Key_Return);
    QVERIFY(place().shown()->moved.empty());
    QTRY_VERIFY(link() == nullptr);
    m_window->action(CommandId::Undo)->trigger();
    QVERIFY(job() == told);
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
    if (place().list().count() > 0 && file.isEmpty()) {
        m_window->session().adopt(hand_panel::legs(false), {});
        place().blockCanvas().setFocus();
        QTest::qWait(50);
        QVERIFY(m_window->grab().save(folder + "/glueup-block.png"));
        m_window->session().adopt(hand_panel::job(), {});
    }
    press(Qt::Key_A);
    QTRY_VERIFY_WITH_TIMEOUT(!place().isArranging(), timeout);
    m_window->grab(); // asks for the photographs
    QTRY_VERIFY_WITH_TIMEOUT(!FacePictures::of(m_window->session()).isAtWork(), timeout);
    QTest::qWait(50);
    QVERIFY(m_window->grab().save(folder + "/glueup-arranged.png"));
    press(Qt::Key_V);
    m_window->grab(); // asks for the photographs of the back
    QTRY_VERIFY_WITH_TIMEOUT(!FacePictures::of(m_window->session()).isAtWork(), timeout);
    QVERIFY(m_window->grab().save(folder + "/glueup-back.png"));
}

} // namespace

std::unique_ptr<QObject> makeGlueUpTest() { return std::make_unique<GlueUpTest>(); }

} // namespace stavewright::testing_ui

#include "GlueUpTest.moc"
