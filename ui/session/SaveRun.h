#pragma once
// Saving on a worker thread, so that a job with hundreds of photographs does not hold up the
// window. The file is written from a snapshot and replaced at once or not at all; what is changed
// meanwhile is unsaved afterwards.
//
//   connect(&run, &SaveRun::finished, this, [](const QString& path, const Status& saved) { ... });
//   run.start(path);

#include <QObject>
#include <QString>

#include <memory>
#include <optional>
#include <thread>

#include "core/base/Result.h"

namespace stavewright::ui {

class DocumentSession;

class SaveRun : public QObject {
    Q_OBJECT
  public:
    /// The session must outlive this.
    explicit SaveRun(DocumentSession& session, QObject* parent = nullptr);
    ~SaveRun() override; ///< waits until the file is written

    /// While one runs, another begins when it ends, with the job as it is then.
    void start(const QString& path);
    [[nodiscard]] bool isRunning() const { return m_work != nullptr; }
    /// Blocks until nothing is being written any more; finished() has been emitted then.
    void wait();

  signals:
    void started();
    void finished(const QString& path, const stavewright::Status& saved);

  private:
    struct Work;
    void finish(const std::shared_ptr<Work>& work);

    DocumentSession& m_session;
    std::shared_ptr<Work> m_work;
    std::jthread m_thread;
    std::optional<QString> m_next;
};

} // namespace stavewright::ui
