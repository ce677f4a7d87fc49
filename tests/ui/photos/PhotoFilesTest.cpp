// Broken, huge, truncated, foreign, animated and printing-colour files through the window: a
// sentence each, and the job as it was. Good ones lose their location and nothing else.

#include <QBuffer>
#include <QClipboard>
#include <QDir>
#include <QFile>
#include <QImageReader>
#include <QMimeData>
#include <QTemporaryDir>
#include <QTest>
#include <QUrl>

#include "core/job/JobFile.h"
#include "core/photo/Location.h"
#include "tests/ui/photos/MadeFiles.h"
#include "ui/entry/EntryView.h"
#include "ui/lumber/BoardSheet.h"
#include "ui/lumber/LumberView.h"
#include "ui/lumber/PhotoDesk.h"
#include "ui/lumber/QuickEntry.h"
#include "ui/session/DocumentSession.h"
#include "ui/session/Recovery.h"
#include "ui/widgets/Banner.h"

namespace stavewright::testing_photos {

namespace {

using namespace ui;

class PhotoFilesTest : public QObject {
    Q_OBJECT
  private slots:
    void initTestCase();
    void init();
    void cleanup();
    void whatCannotBeUsedIsToldAndChangesNothing_data();
    void whatCannotBeUsedIsToldAndChangesNothing();
    void badOnesAmongGoodOnesDoNotStopThem();
    void aPastedPictureAndAPastedFileAreTaken();
    void textOnTheClipboardIsStillATally();
    void savedAndOpenedAgainItIsTheSameAndTheMemoryIsFree();
    void aCrashLosesNoPhotograph();

  private:
    QString write(const QString& name, const QByteArray& bytes) const;
    QString sentence() const { return m_view->findChild<Banner*>()->sentence(); }

    MadeJob m_made;
    QByteArray m_good;
    QTemporaryDir m_folder;
    std::unique_ptr<DocumentSession> m_session;
    std::unique_ptr<LumberView> m_view;
};

void PhotoFilesTest::initTestCase() {
    boards::PhotoWish wish;
    wish.width = 800;
    wish.height = 400;
    m_made = madeJob(11, {}, wish);
    m_good = jpegOf(m_made.faceA.image);
}

void PhotoFilesTest::init() {
    m_session = std::make_unique<DocumentSession>();
    m_session->adopt(m_made.document, {});
    m_view = std::make_unique<LumberView>(*m_session);
    m_view->resize(1280, 760);
    m_view->show();
    m_view->activateWindow();
    QVERIFY(QTest::qWaitForWindowActive(m_view.get()));
}

void PhotoFilesTest::cleanup() {
    m_view.reset();
    m_session.reset();
}

QString PhotoFilesTest::write(const QString& name, const QByteArray& bytes) const {
    QFile file(m_folder.filePath(name));
    if (file.open(QIODevice::WriteOnly)) {
        file.write(bytes);
    }
    return file.fileName();
}

/// A PNG header that promises a picture of that size, with right checksums.
QByteArray pngPromising(quint32 width, quint32 height) {
    QImage small(8, 8, QImage::Format_RGB888);
    small.fill(Qt::white);
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    small.save(&buffer, "png");
    const auto put = [&](qsizetype at, quint32 value) {
        for (int i = 0; i < 4; ++i) {
            bytes[at + i] = static_cast<char>((value >> (24 - 8 * i)) & 0xFFU);
        }
    };
    put(16, width);
    put(20, height);
    quint32 crc = 0xFFFFFFFFU; // of the chunk's name and content
    for (qsizetype i = 12; i < 29; ++i) {
        crc ^= static_cast<unsigned char>(bytes[i]);
        for (int bit = 0; bit < 8; ++bit) {
            crc = (crc >> 1) ^ ((crc & 1U) != 0 ? 0xEDB88320U : 0U);
        }
    }
    put(29, ~crc);
    return bytes;
}

void PhotoFilesTest::whatCannotBeUsedIsToldAndChangesNothing_data() {
    QTest::addColumn<QString>("name");
    QTest::addColumn<QByteArray>("bytes");
    QByteArray cmyk = m_good; // four components in the frame header instead of three
    for (qsizetype i = 2; i + 10 < cmyk.size(); ++i) {
        if (static_cast<unsigned char>(cmyk[i]) == 0xFF &&
            static_cast<unsigned char>(cmyk[i + 1]) == 0xC0) {
            cmyk[i + 3] = 20;
            cmyk[i + 9] = 4;
            cmyk.insert(i + 19, QByteArray("\x04\x11\x00", 3));
            break;
        }
    }
    QByteArray spoiled = m_good;
    for (qsizetype i = 300; i < spoiled.size(); i += 7) {
        spoiled[i] = static_cast<char>(spoiled[i] ^ 0x5A);
    }
    QTest::newRow("empty") << "empty.jpg" << QByteArray();
    QTest::newRow("text") << "notes.jpg" << QByteArray("12 boards of white oak, 8/4\n");
    QTest::newRow("truncated") << "cut.jpg" << m_good.left(m_good.size() / 3);
    QTest::newRow("header only") << "head.jpg" << m_good.left(180);
    QTest::newRow("huge") << "huge.png" << pngPromising(60'000, 60'000);
    QTest::newRow("printing colours") << "print.jpg" << cmyk;
    QTest::newRow("animated")
        << "moving.webp"
        << QByteArray("RIFF\x2E\x00\x00\x00WEBPVP8X\x0A\x00\x00\x00\x02\x00\x00\x00\x07\x00\x00\x07"
                      "\x00\x00"
                      "ANIM\x06\x00\x00\x00\xFF\xFF\xFF\xFF\x00\x00"
                      "ANMF\x00\x00\x00\x00",
                      54);
    QTest::newRow("gif") << "old.gif" << QByteArray("GIF89a\x08\x00\x08\x00\x80\x00\x00", 13);
    QTest::newRow("zip") << "job.jpg" << QByteArray("PK\x03\x04 and so on");
}

void PhotoFilesTest::whatCannotBeUsedIsToldAndChangesNothing() {
    QFETCH(QString, name);
    QFETCH(QByteArray, bytes);
    m_view->photos().addFiles({write(name, bytes)}, BoardFace::A);
    QTRY_VERIFY(!m_view->photos().isReading());
    QVERIFY2(sentence().startsWith(name + ": "), qPrintable(sentence()));
    QVERIFY2(sentence().endsWith('.'), qPrintable(sentence()));
    QVERIFY(m_session->document() == m_made.document);
    QCOMPARE(m_session->undoStack().count(), 0);
}

void PhotoFilesTest::badOnesAmongGoodOnesDoNotStopThem() {
    m_view->photos().addFiles({write("a.jpg", m_good), write("b.jpg", "no picture"),
                               m_folder.filePath("missing.jpg"), m_folder.path()},
                              BoardFace::B);
    QTRY_VERIFY(!m_view->photos().isReading());
    QCOMPARE(m_session->document().boards[0].photos.size(), std::size_t{1});
    QCOMPARE(m_session->document().boards[0].photos[0].face, BoardFace::B);
    QVERIFY2(sentence().contains("b.jpg") && sentence().contains("2 more"), qPrintable(sentence()));
    m_session->undoStack().undo();
    QVERIFY(m_session->document() == m_made.document);
}

void PhotoFilesTest::aPastedPictureAndAPastedFileAreTaken() {
    QImage picture(320, 160, QImage::Format_RGB888);
    picture.fill(QColor(200, 170, 120));
    auto* data = new QMimeData; // the clipboard owns it
    data->setImageData(picture);
    QGuiApplication::clipboard()->setMimeData(data);
    QTest::keyClick(&m_view->sheet(), Qt::Key_V, Qt::ControlModifier);
    QTRY_COMPARE(m_session->document().boards[0].photos.size(), std::size_t{1});
    data = new QMimeData;
    data->setUrls({QUrl::fromLocalFile(write("pasted.jpg", m_good))});
    QGuiApplication::clipboard()->setMimeData(data);
    QTest::keyClick(&m_view->sheet(), Qt::Key_V, Qt::ControlModifier);
    QTRY_COMPARE(m_session->document().boards[0].photos.size(), std::size_t{2});
    QGuiApplication::clipboard()->clear();
}

void PhotoFilesTest::textOnTheClipboardIsStillATally() {
    QGuiApplication::clipboard()->setText("7\t96\t8\n8\t90\t7\n");
    m_view->tally().setFocus();
    QTest::keyClick(&m_view->tally(), Qt::Key_V, Qt::ControlModifier);
    QTRY_VERIFY(m_view->quickEntry().isVisible());
    QVERIFY(m_session->document().boards[0].photos.empty());
    QGuiApplication::clipboard()->clear();
}

void PhotoFilesTest::savedAndOpenedAgainItIsTheSameAndTheMemoryIsFree() {
    m_view->photos().addFiles({write("a.jpg", m_good)}, BoardFace::A);
    QTRY_COMPARE(m_session->document().boards[0].photos.size(), std::size_t{1});
    const QString path = m_folder.filePath("job.stavejob");
    QVERIFY(m_session->save(path).ok());
    const PhotoFile file = m_session->document().boards[0].photos[0].file;
    QVERIFY(file.standsIn(path.toStdString()));
    const Result<Document> back = readJob(path.toStdString());
    QVERIFY(back.ok());
    QVERIFY(back.value() == m_session->document());
    QCOMPARE(QByteArray::fromStdString(*file.read().value()).isEmpty(), false);
    // Undone and redone after the save it is the same photograph.
    m_session->undoStack().undo();
    m_session->undoStack().redo();
    QVERIFY(back.value() == m_session->document());
    QVERIFY(m_session->document().boards[0].photos[0].file.read().ok());
}

void PhotoFilesTest::aCrashLosesNoPhotograph() {
    const QTemporaryDir crash;
    const QTemporaryDir saved;
    QString left;
    Document before;
    {
        auto recovery = std::make_unique<Recovery>(*m_session, crash.path());
        m_view->photos().addFiles({write("a.jpg", m_good)}, BoardFace::A);
        QTRY_COMPARE(m_session->document().boards[0].photos.size(), std::size_t{1});
        recovery->keepTally("7\t96\n");
        recovery->writeNow();
        before = m_session->document();
        // What a crash leaves: the files, without the lock.
        left = saved.filePath("left.stavejob");
        QVERIFY(QFile::copy(recovery->file(), left));
        QVERIFY(QDir().mkpath(left + ".photos"));
        const QDir photos(recovery->file() + ".photos");
        QCOMPARE(photos.entryList(QDir::Files).size(), qsizetype{1});
        for (const QString& name : photos.entryList(QDir::Files)) {
            QVERIFY(QFile::copy(photos.filePath(name), left + ".photos/" + name));
        }
        QVERIFY(QFile::copy(recovery->file() + ".tally", left + ".tally"));
    }
    QVERIFY(QDir(crash.path()).entryList({"*.photos"}, QDir::Dirs).isEmpty()); // cleaned up
    DocumentSession next;
    const Recovery recovery(next, saved.path());
    const std::vector<LostWork> lost = recovery.lostWork();
    QCOMPARE(lost.size(), std::size_t{1});
    QCOMPARE(lost[0].tally, QString("7\t96\n"));
    const Result<Document> read = Recovery::read(lost[0]);
    QVERIFY(read.ok());
    QVERIFY(read.value() == before);
    Recovery::forget(lost[0]);
    QVERIFY(read.value().boards[0].photos[0].file.read().ok()); // held in memory now
    QVERIFY(QDir(saved.path())
                .entryList(QDir::Files | QDir::Dirs | QDir::NoDotAndDotDot)
                .filter("left")
                .isEmpty());
}

} // namespace

std::unique_ptr<QObject> makePhotoFilesTest() { return std::make_unique<PhotoFilesTest>(); }

} // namespace stavewright::testing_photos

#include "PhotoFilesTest.moc"
