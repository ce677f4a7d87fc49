#pragma once
// Copies of unsaved work for the case of a crash. At most ten seconds after a change the whole job
// stands in a recovery file of its own; it goes away when the job is saved or closed in an ordinary
// way. What is left over at the next start belonged to a program that did not end in an ordinary
// way, and is offered.

#include <QDateTime>
#include <QLockFile>
#include <QObject>
#include <QString>
#include <QTimer>

#include <memory>
#include <optional>
#include <thread>
#include <vector>

#include "core/base/Result.h"
#include "core/document/Document.h"

namespace stavewright::ui {

class DocumentSession;

/// Work that a former run left behind.
struct LostWork {
    QString file;         ///< recovery file
    QString originalPath; ///< where the job was; empty when never saved
    QString title;
    QDateTime when;
    QString tally; ///< rows that were typed and not yet on the rack, parted by tabs
};

class Recovery : public QObject {
    Q_OBJECT
  public:
    static constexpr int writeAfterMilliseconds = 8000; ///< leaves time to write within ten seconds

    /// Writes under `folder`; the session must outlive this.
    Recovery(DocumentSession& session, const QString& folder, QObject* parent = nullptr);
    ~Recovery() override;

    /// AppLocalData of the user.
    [[nodiscard]] static QString defaultFolder();

    /// Left-over work of runs that have ended, newest first; files that cannot be read are left
    /// out.
    [[nodiscard]] std::vector<LostWork> lostWork() const;
    [[nodiscard]] static Result<Document> read(const LostWork& work);
    static void forget(const LostWork& work);

    /// A tally that is being typed is no part of the job yet and is kept beside it; empty: none.
    void keepTally(const QString& rows);

    /// Writes now when something has changed; before planning and in tests.
    void writeNow();
    /// The work is safe or was given up: no copy is needed any more.
    void clear();
    [[nodiscard]] const QString& file() const { return m_file; }

  private:
    void schedule();
    /// New photographs first, on a worker thread; then writeNow(), which finds them written.
    void writeSoon();
    void endCopying();

    DocumentSession& m_session;
    QString m_folder;
    QString m_file;
    QString m_tally;
    std::unique_ptr<QLockFile> m_lock;
    QTimer m_timer;
    std::jthread m_copying; ///< of photographs
};

} // namespace stavewright::ui
