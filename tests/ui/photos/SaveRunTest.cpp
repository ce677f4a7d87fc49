// A job with photographs is saved in the background: the window goes on, the file is whole, and
// what is changed meanwhile is unsaved.

#include "ui/session/SaveRun.h"

#include <QDir>
#include <QTemporaryDir>
#include <QTest>

#include "core/job/JobFile.h"
#include "tests/ui/photos/MadeFiles.h"
#include "ui/session/DocumentSession.h"

namespace stavewright::testing_photos {

namespace {

using namespace ui;

class SaveRunTest : public QObject {
    Q_OBJECT

  private slots:
    void init();
    void cleanup();
    void theFileIsWholeAndTheJobIsSaved();
    void whatIsChangedMeanwhileIsUnsaved();
    void undoingMeanwhileIsUnsavedToo();
    void aSecondSaveWaitsForTheFirst();
    void anErrorIsToldAndTheOldFileStays();
    void anotherJobOpenedMeanwhileIsLeftAlone();

  private:
    void retitle(const char* title) {
        JobInfo info = m_session->document().info;
        info.title = title;
        QVERIFY(m_session->edit("title", Edit{ReplaceInfo{info}}));
    }
    [[nodiscard]] QString target() const { return m_folder->filePath("job.stavejob"); }
    [[nodiscard]] Document inFile() const {
        const Result<Document> read = readJob(target().toStdString());
        return read ? read.value() : Document();
    }

    std::unique_ptr<QTemporaryDir> m_folder;
    std::unique_ptr<DocumentSession> m_session;
    std::unique_ptr<SaveRun> m_run;
    std::vector<Status> m_told;
};

void SaveRunTest::init() {
    m_folder = std::make_unique<QTemporaryDir>();
    m_session = std::make_unique<DocumentSession>();
    boards::PhotoWish wish;
    wish.width = 800;
    wish.height = 300;
    MadeJob made = madeJob(5, {}, wish);
    BoardPhoto photo = markedPhoto(made.faceA, BoardFace::A);
    photo.id = made.document.takeId<PhotoId>();
    made.document.boards[0].photos = {photo};
    m_session->adopt(made.document, {}, Saved::No);
    m_run = std::make_unique<SaveRun>(*m_session);
    m_told.clear();
    connect(m_run.get(), &SaveRun::finished, this,
            [this](const QString&, const Status& saved) { m_told.push_back(saved); });
}

void SaveRunTest::cleanup() {
    m_run.reset();
    m_session.reset();
    m_folder.reset();
}

void SaveRunTest::theFileIsWholeAndTheJobIsSaved() {
    m_run->start(target());
    QVERIFY(m_run->isRunning());
    QVERIFY(m_session->isModified()); // not yet
    QTRY_COMPARE(m_told.size(), std::size_t{1});
    QVERIFY(!m_run->isRunning());
    QVERIFY(!m_session->isModified());
    QCOMPARE(m_session->path(), target());
    QCOMPARE(inFile() == m_session->document(), true);
    // The photograph stands in the file now and is read from there.
    const PhotoFile& file = m_session->document().boards[0].photos[0].file;
    QVERIFY(file.standsIn(target().toStdString()));
    QVERIFY(file.read().ok());
}

void SaveRunTest::whatIsChangedMeanwhileIsUnsaved() {
    const Document before = m_session->document();
    m_run->start(target());
    retitle("changed while it was saved");
    m_run->wait();
    QVERIFY(m_session->isModified());
    QCOMPARE(m_session->path(), target());
    QCOMPARE(inFile() == before, true);
    m_run->start(target());
    m_run->wait();
    QVERIFY(!m_session->isModified());
    QCOMPARE(inFile() == m_session->document(), true);
}

void SaveRunTest::undoingMeanwhileIsUnsavedToo() {
    retitle("one");
    m_run->start(target());
    m_run->wait();
    retitle("two");
    const Document two = m_session->document();
    m_run->start(target());
    m_session->undoStack().undo(); // back to what was saved first, which is no longer in the file
    m_run->wait();
    QVERIFY(m_session->isModified());
    QCOMPARE(inFile() == two, true);
}

void SaveRunTest::aSecondSaveWaitsForTheFirst() {
    m_run->start(target());
    retitle("second");
    m_run->start(target());
    m_run->wait();
    QCOMPARE(m_told.size(), std::size_t{2});
    QVERIFY(!m_session->isModified());
    QCOMPARE(inFile() == m_session->document(), true);
}

void SaveRunTest::anErrorIsToldAndTheOldFileStays() {
    m_run->start(target());
    m_run->wait();
    const Document saved = m_session->document();
    retitle("never written");
    m_run->start(m_folder->filePath("no such folder/job.stavejob"));
    m_run->wait();
    QCOMPARE(m_told.size(), std::size_t{2});
    const Status& status = m_told.back();
    QVERIFY(!status.ok());
    QVERIFY(!status.error().message.empty());
    QVERIFY(m_session->isModified());
    QCOMPARE(m_session->path(), target());
    QCOMPARE(inFile() == saved, true);
    QCOMPARE(QDir(m_folder->path()).entryList(QDir::Files).size(), qsizetype{1});
}

void SaveRunTest::anotherJobOpenedMeanwhileIsLeftAlone() {
    const Document first = m_session->document();
    m_run->start(target());
    Document other = first;
    other.info.title = "another";
    m_session->adopt(other, "elsewhere.stavejob");
    m_run->wait();
    QCOMPARE(m_session->path(), QString("elsewhere.stavejob"));
    QVERIFY(!m_session->isModified());
    QCOMPARE(inFile() == first, true);
}

} // namespace

std::unique_ptr<QObject> makeSaveRunTest() { return std::make_unique<SaveRunTest>(); }

} // namespace stavewright::testing_photos

#include "SaveRunTest.moc"
