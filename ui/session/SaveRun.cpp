#include "ui/session/SaveRun.h"

#include <utility>

#include "core/job/JobFile.h"
#include "ui/session/DocumentSession.h"

namespace stavewright::ui {

struct SaveRun::Work {
    QString path;
    std::int64_t revision = 0;
    bool forgotten = false; ///< another job was opened meanwhile
    std::optional<Status> outcome;
};

SaveRun::SaveRun(DocumentSession& session, QObject* parent)
    : QObject(parent)
    , m_session(session) {
    connect(&m_session, &DocumentSession::adopted, this, [this] {
        m_next.reset();
        if (m_work) {
            m_work->forgotten = true;
        }
    });
}

SaveRun::~SaveRun() {
    if (m_thread.joinable()) {
        m_thread.join();
    }
}

void SaveRun::start(const QString& path) {
    if (m_work) {
        m_next = path;
        return;
    }
    m_session.endRunOfEdits(); // what is typed from now on is a step of its own
    m_work = std::make_shared<Work>();
    m_work->path = path;
    m_work->revision = m_session.revision();
    if (m_thread.joinable()) {
        m_thread.join();
    }
    m_thread = std::jthread([this, work = m_work, snapshot = m_session.document()] {
        const std::string target = work->path.toStdString();
        Status saved = writeJob(snapshot, target);
        if (saved) {
            restPhotosOn(snapshot, target); // the open job shares its photographs with the snapshot
        }
        work->outcome = std::move(saved);
        // The destructor waits for this thread, so the object is there to be told.
        QMetaObject::invokeMethod(
            this, [this, work] { finish(work); }, Qt::QueuedConnection);
    });
    emit started();
}

void SaveRun::wait() {
    while (m_work) {
        finish(std::shared_ptr<Work>(m_work)); // a copy: m_work is reset in there
    }
}

void SaveRun::finish(const std::shared_ptr<Work>& work) {
    if (work != m_work) {
        return; // told already by wait()
    }
    m_thread.join();
    m_work.reset();
    const Status saved = *work->outcome;
    if (saved && !work->forgotten) {
        m_session.noteSaved(work->path, work->revision);
    }
    if (m_next) {
        start(*std::exchange(m_next, std::nullopt));
    }
    emit finished(work->path, saved);
}

} // namespace stavewright::ui
