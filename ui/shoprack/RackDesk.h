#pragma once
// The shop rack as the window uses it: which file it is, what is looked for, and wood on its way
// between rack and job. What changes the job is one undo step that takes the rack with it. A job
// that is left without being saved leaves the rack as it was when the job was saved last.
//
//   desk.take({12, 14});
//   session.undoStack().undo();   // both are on the rack again

#include <QObject>
#include <QString>

#include <deque>
#include <memory>
#include <optional>
#include <vector>

#include "core/rack/JobWood.h"

namespace stavewright::ui {

class DocumentSession;

class RackDesk : public QObject {
    Q_OBJECT
  public:
    RackDesk(DocumentSession& session, QObject* parent = nullptr);
    ~RackDesk() override;

    /// The file that the user chose, or one in the user's data folder.
    [[nodiscard]] static QString usualFile();
    /// Remembered as the user's choice.
    static void rememberFile(const QString& file);

    /// Opened when it is first needed.
    void setFile(const QString& file);
    [[nodiscard]] const QString& file() const { return m_file; }

    /// Nothing, and failed(), when the rack cannot be read.
    [[nodiscard]] std::vector<rack::Piece> find(const rack::Search& search);

    // Each is false after failed().
    bool take(const std::vector<std::int64_t>& pieces);
    bool putOnRack(const std::vector<BoardId>& boards);
    // These change the rack alone; takeBackLast undoes the last of them.
    bool throwOut(const std::vector<std::int64_t>& pieces);
    bool callBack(const std::vector<std::int64_t>& pieces);
    bool takeBackLast();

    /// The job goes: what it did with the rack since it was saved is taken back.
    void settle();
    /// A copy of the job is being written, and later: it was written, or not. The job may change
    /// meanwhile; what is saved is what stood when the writing began.
    void noteSaveBegun();
    void noteSaveEnded(bool written);

  signals:
    void changed();
    /// The job goes. Whoever writes it finishes now, so that the rack knows what the file holds.
    void settling();
    void failed(const QString& sentence);
    void remarked(const QString& sentences);
    void changedAlone(const QString& sentence); ///< takeBackLast() is possible

  private:
    struct Shelf; // an open rack, and which changes the present job made there
    class Step;
    [[nodiscard]] Shelf* shelf();
    [[nodiscard]] rack::Visit visit() const;
    bool carryOut(const QString& step, const Result<rack::Brought>& brought);
    bool alone(const std::vector<rack::Move>& moves, const QString& sentence);
    bool refuse(const Error& error);

    DocumentSession& m_session;
    QString m_file;
    std::shared_ptr<Shelf> m_shelf;
    std::int64_t m_lastAlone = 0;
    /// Changes that stood when each writing under way began; nothing for one of another job.
    std::deque<std::optional<std::vector<std::int64_t>>> m_beingSaved;
};

} // namespace stavewright::ui
