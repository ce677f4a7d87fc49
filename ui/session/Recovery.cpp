#include "ui/session/Recovery.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QSaveFile>
#include <QStandardPaths>
#include <QUuid>

#include <algorithm>

#include "core/job/JobFile.h"
#include "ui/session/DocumentSession.h"

namespace stavewright::ui {

namespace {

// Beside the job stands a small text file with the original path: the job itself must not know
// where it is.
QString pathNoteOf(const QString& file) { return file + ".path"; }
// New photographs stand there once each, so that a copy every few seconds does not write them
// again.
QString photosOf(const QString& file) { return file + ".photos"; }
QString tallyOf(const QString& file) { return file + ".tally"; }
QString lockOf(const QString& file) { return file + ".lock"; }

} // namespace

QString Recovery::defaultFolder() {
    return QStandardPaths::writableLocation(QStandardPaths::AppLocalDataLocation) + "/recovery";
}

Recovery::Recovery(DocumentSession& session, const QString& folder, QObject* parent)
    : QObject(parent)
    , m_session(session)
    , m_folder(folder)
    , m_file(folder + "/" + QUuid::createUuid().toString(QUuid::WithoutBraces) + ".stavejob") {
    QDir().mkpath(m_folder);
    m_lock = std::make_unique<QLockFile>(lockOf(m_file));
    m_lock->setStaleLockTime(0); // held as long as the process lives
    m_lock->tryLock();
    m_timer.setSingleShot(true);
    m_timer.setInterval(writeAfterMilliseconds);
    connect(&m_timer, &QTimer::timeout, this, &Recovery::writeSoon);
    connect(&m_session, &DocumentSession::changed, this, &Recovery::schedule);
    connect(&m_session, &DocumentSession::adopted, this, [this] {
        clear();
        if (m_session.isModified()) {
            writeNow();
        }
    });
    connect(&m_session, &DocumentSession::pathChanged, this, [this] {
        if (!m_session.isModified()) {
            clear();
            if (!m_tally.isEmpty()) {
                schedule();
            }
        } else { // changed while it was being saved: photographs may stand elsewhere now
            schedule();
        }
    });
}

Recovery::~Recovery() { clear(); }

void Recovery::schedule() {
    // Not restarted by later changes: the first one must be safe in time as well.
    if (!m_timer.isActive()) {
        m_timer.start();
    }
}

void Recovery::keepTally(const QString& rows) {
    if (rows != m_tally) {
        m_tally = rows;
        schedule();
    }
}

void Recovery::writeSoon() {
    const auto& boards = m_session.document().boards;
    const bool none = std::all_of(boards.begin(), boards.end(),
                                  [](const Board& board) { return board.photos.empty(); });
    if (none || !m_session.isModified()) {
        return writeNow();
    }
    endCopying();
    const PhotoPlaces places{photosOf(m_file).toStdString(), m_session.path().toStdString()};
    m_copying =
        std::jthread([this, places, snapshot = m_session.document()](const std::stop_token& stop) {
            writePhotosApart(snapshot, places, stop);
            if (!stop.stop_requested()) {
                // The destructor waits for this thread, so the object is there to be told.
                QMetaObject::invokeMethod(this, &Recovery::writeNow, Qt::QueuedConnection);
            }
        });
}

void Recovery::endCopying() {
    if (m_copying.joinable()) {
        m_copying.request_stop();
        m_copying.join();
    }
}

void Recovery::writeNow() {
    m_timer.stop();
    endCopying();
    if (!m_session.isModified() && m_tally.isEmpty()) {
        clear();
        return;
    }
    const PhotoPlaces places{photosOf(m_file).toStdString(), m_session.path().toStdString()};
    if (!writeJobApart(m_session.document(), m_file.toStdString(), places)) {
        return; // tried again after the next change; the window must not nag about a safety net
    }
    const auto write = [](const QString& path, const QString& text) {
        QSaveFile file(path);
        if (file.open(QIODevice::WriteOnly)) {
            file.write(text.toUtf8());
            file.commit();
        }
    };
    write(pathNoteOf(m_file), m_session.path());
    if (m_tally.isEmpty()) {
        QFile::remove(tallyOf(m_file));
    } else {
        write(tallyOf(m_file), m_tally);
    }
}

void Recovery::clear() {
    m_timer.stop();
    endCopying();
    QFile::remove(m_file);
    QFile::remove(pathNoteOf(m_file));
    QFile::remove(tallyOf(m_file));
    QDir(photosOf(m_file)).removeRecursively();
}

std::vector<LostWork> Recovery::lostWork() const {
    std::vector<LostWork> found;
    const QFileInfoList files = QDir(m_folder).entryInfoList({"*.stavejob"}, QDir::Files);
    for (const QFileInfo& info : files) {
        const QString file = info.absoluteFilePath();
        if (file == QFileInfo(m_file).absoluteFilePath()) {
            continue;
        }
        QLockFile lock(lockOf(file));
        lock.setStaleLockTime(0);
        if (!lock.tryLock()) {
            continue; // another window is at work on it
        }
        lock.unlock();
        const Result<Document> document = readJob(file.toStdString());
        if (!document) {
            continue;
        }
        LostWork work;
        work.file = file;
        work.title = QString::fromStdString(document.value().info.title);
        work.when = info.lastModified();
        const auto textIn = [](const QString& path) {
            QFile beside(path);
            return beside.open(QIODevice::ReadOnly) ? QString::fromUtf8(beside.readAll())
                                                    : QString();
        };
        work.originalPath = textIn(pathNoteOf(file));
        work.tally = textIn(tallyOf(file));
        found.push_back(std::move(work));
    }
    std::sort(found.begin(), found.end(),
              [](const LostWork& a, const LostWork& b) { return a.when > b.when; });
    return found;
}

Result<Document> Recovery::read(const LostWork& work) {
    const std::string folder = photosOf(work.file).toStdString();
    Result<Document> document =
        readJob(work.file.toStdString(), {folder, work.originalPath.toStdString()});
    if (document) {
        holdPhotosInMemory(document.value(), folder);
    }
    return document;
}

void Recovery::forget(const LostWork& work) {
    QFile::remove(work.file);
    QFile::remove(pathNoteOf(work.file));
    QFile::remove(tallyOf(work.file));
    QFile::remove(lockOf(work.file));
    QDir(photosOf(work.file)).removeRecursively();
}

} // namespace stavewright::ui
