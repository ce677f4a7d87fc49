// Suggested marks through the window: found where the truth has knots, taken and dismissed by keys
// alone, never marked by themselves, and suggestions again when undone.

#include <QDir>
#include <QSpinBox>
#include <QTest>

#include "core/geometry/PolygonOps.h"
#include "tests/ui/photos/MadeFiles.h"
#include "ui/lumber/BoardSheet.h"
#include "ui/lumber/LumberView.h"
#include "ui/lumber/PhotoSteps.h"
#include "ui/lumber/SuggestionBar.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Theme.h"

namespace stavewright::testing_photos {

namespace {

using namespace ui;

class SuggestionTest : public QObject {
    Q_OBJECT
  private slots:
    void initTestCase();
    void init();
    void cleanup();
    void knotsAreFoundAndNothingIsMarkedByItself();
    void takenAndDismissedByKeys();
    void allThatAreSureAreOneStep();
    void theOutlineIsOffered();
    void withoutAPhotographASentenceSaysSo();
    void pictures();

  private:
    void search();
    [[nodiscard]] const Board& board() const { return m_session->document().boards[0]; }

    MadeJob m_made;
    Document m_start;
    std::unique_ptr<DocumentSession> m_session;
    std::unique_ptr<LumberView> m_view;
};

void SuggestionTest::initTestCase() {
    boards::BoardWish board;
    board.inchesLong = 48;
    board.traps = false;
    boards::PhotoWish wish;
    wish.width = 1800;
    wish.height = 700;
    m_made = madeJob(23, board, wish);
    m_start = m_made.document;
    for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
        BoardPhoto photo = markedPhoto(face == BoardFace::A ? m_made.faceA : m_made.faceB, face);
        photo.id = m_start.takeId<PhotoId>();
        m_start.boards[0].photos.push_back(photo);
    }
}

void SuggestionTest::init() {
    m_session = std::make_unique<DocumentSession>();
    m_session->adopt(m_start, {});
    m_view = std::make_unique<LumberView>(*m_session);
    m_view->resize(1280, 760);
    m_view->show();
    m_view->activateWindow();
    QVERIFY(QTest::qWaitForWindowActive(m_view.get()));
}

void SuggestionTest::cleanup() {
    m_view.reset();
    m_session.reset();
}

void SuggestionTest::search() {
    QTest::keyClick(&m_view->sheet(), Qt::Key_M);
    QTRY_VERIFY_WITH_TIMEOUT(!m_view->suggestions().isSearching(), 60'000);
    QVERIFY(!m_view->suggestions().shown().empty());
}

void SuggestionTest::knotsAreFoundAndNothingIsMarkedByItself() {
    search();
    QVERIFY(m_session->document() == m_start);
    QCOMPARE(m_session->undoStack().count(), 0);
    int found = 0;
    int known = 0;
    for (const Defect& truth : m_made.truth.board.defects) {
        for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
            const std::optional<FaceMark>& mark = face == BoardFace::A ? truth.onA : truth.onB;
            const bool knot = truth.kind == DefectKind::SoundKnot ||
                              truth.kind == DefectKind::LooseKnot ||
                              truth.kind == DefectKind::KnotHole;
            if (!mark || !knot) {
                continue;
            }
            // The job's board begins at y = 0, the made one a little further in.
            Polygon outline = mark->outline;
            for (Point& corner : outline) {
                corner.y -= boundingBox(m_made.truth.board.outline).y0;
            }
            const Rect box = boundingBox(outline);
            if (std::max(box.length(), box.width()) < Length::inches(3, 4)) {
                continue;
            }
            ++known;
            for (const FoundMark& each : m_view->suggestions().shown()) {
                if (each.face == face && overlapPercent(each.outline, outline) >= 30) {
                    ++found;
                    break;
                }
            }
        }
    }
    QVERIFY2(known > 0 && found * 10 >= known * 8,
             qPrintable(QString("%1 of %2").arg(found).arg(known)));
}

void SuggestionTest::takenAndDismissedByKeys() {
    search();
    BoardSheet& sheet = m_view->sheet();
    const std::size_t count = m_view->suggestions().shown().size();
    QVERIFY(count >= 3);
    QTest::keyClick(&sheet, Qt::Key_M);
    QCOMPARE(sheet.pickedSuggestion(), std::optional<int>(0));
    const FoundMark wanted = m_view->suggestions().shown()[0];
    QTest::keyClick(&sheet, Qt::Key_Return);
    QCOMPARE(board().defects.size(), std::size_t{1});
    QCOMPARE(board().defects[0].kind, wanted.kind);
    // Gone with what was suggested for the same knot once more.
    const std::size_t rest = m_view->suggestions().shown().size();
    QVERIFY(rest < count);
    QTest::keyClick(&sheet, Qt::Key_Delete); // the next one is picked already
    QCOMPARE(board().defects.size(), std::size_t{1});
    QCOMPARE(m_view->suggestions().shown().size(), rest - 1);
    QTest::keyClick(&sheet, Qt::Key_Escape);
    QCOMPARE(sheet.pickedSuggestion(), std::optional<int>());
    m_session->undoStack()
        .undo(); // what was taken is a suggestion again; what was dismissed is not
    QVERIFY(m_session->document() == m_start);
    QCOMPARE(m_view->suggestions().shown().size(), count - 1);
    m_session->undoStack().redo();
    QCOMPARE(board().defects.size(), std::size_t{1});
}

void SuggestionTest::allThatAreSureAreOneStep() {
    search();
    m_view->findChild<QSpinBox*>("surePercent")->setValue(50);
    std::size_t sure = 0;
    for (const FoundMark& mark : m_view->suggestions().shown()) {
        sure += mark.confidencePercent >= 50 ? 1 : 0;
    }
    QVERIFY(sure > 0);
    m_view->suggestions().takeSure();
    QCOMPARE(m_session->undoStack().count(), 1);
    QVERIFY(!board().defects.empty() && board().defects.size() <= sure);
    m_view->suggestions().dismissAll();
    QVERIFY(m_view->suggestions().shown().empty());
    m_session->undoStack().undo();
    QVERIFY(m_session->document() == m_start);
}

void SuggestionTest::theOutlineIsOffered() {
    search();
    if (!m_view->suggestions().offersOutline()) {
        QSKIP("The board of this photograph does not stand out against its ground.");
    }
    m_view->suggestions().takeOutline();
    QCOMPARE(m_session->undoStack().count(), 1);
    const Polygon seen = board().outline;
    const double off = std::abs(boundingBox(seen).width().toInches() -
                                boundingBox(m_made.truth.board.outline).width().toInches());
    QVERIFY2(off < 0.5, qPrintable(QString::number(off)));
    QVERIFY(validate(m_session->document()).ok());
    m_session->undoStack().undo();
    QVERIFY(m_session->document() == m_start);
}

void SuggestionTest::withoutAPhotographASentenceSaysSo() {
    m_session->adopt(m_made.document, {});
    QVERIFY(!m_view->suggestions().isVisible());
    QTest::keyClick(&m_view->sheet(), Qt::Key_M);
    QVERIFY(!m_view->suggestions().isSearching());
}

void SuggestionTest::pictures() {
    const QString folder = qEnvironmentVariable("STAVEWRIGHT_PICTURES");
    for (const Appearance appearance : {Appearance::Light, Appearance::Dark}) {
        applyAppearance(appearance);
        init();
        search();
        QTest::qWait(600); // the straightened pictures
        const QString look = appearance == Appearance::Light ? "light" : "dark";
        for (const QString& name : {QString("suggested"), QString("picked"), QString("taken")}) {
            if (name == "picked") {
                QTest::keyClick(&m_view->sheet(), Qt::Key_M);
            } else if (name == "taken") {
                QTest::keyClick(&m_view->sheet(), Qt::Key_Return);
            }
            QCoreApplication::processEvents();
            const QImage image = m_view->grab().toImage();
            QCOMPARE(image.size(), QSize(1280, 760));
            if (!folder.isEmpty()) {
                image.save(QDir(folder).filePath("photos-" + name + '-' + look + ".png"));
            }
        }
        cleanup();
    }
    applyAppearance(Appearance::Light);
    init();
}

} // namespace

std::unique_ptr<QObject> makeSuggestionTest() { return std::make_unique<SuggestionTest>(); }

} // namespace stavewright::testing_photos

#include "SuggestionTest.moc"
