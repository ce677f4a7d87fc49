#pragma once
// The straightened photographs of all boards, made on a worker thread when somebody wants to see
// one, and kept as long as there is room. One for each open job; places ask it while they paint.
//
//   if (const FacePhoto* photo = FacePictures::of(session).find(board, face, Detail::Row)) { ... }
//   connect(&FacePictures::of(session), &FacePictures::ready, this, ...); // paint again

#include <QObject>
#include <QStringList>
#include <QThreadPool>

#include <list>
#include <map>
#include <set>
#include <stop_token>
#include <string>

#include "ui/layout/BoardPainter.h"

namespace stavewright::ui {

class DocumentSession;

class FacePictures : public QObject {
    Q_OBJECT
  public:
    enum class Detail { Row, Sheet }; ///< a board among many, or large

    [[nodiscard]] static FacePictures& of(DocumentSession& session);
    ~FacePictures() override; ///< asks the worker to stop and waits for it

    /// The picture, or nothing while it is being made and where there is none to make.
    [[nodiscard]] const FacePhoto* find(const Board& board, BoardFace face, Detail detail);
    /// Why photographs of the face cannot be shown, one sentence each; empty while nobody has
    /// looked.
    [[nodiscard]] QStringList troubles(const Board& board, BoardFace face) const;
    /// While one is being made.
    [[nodiscard]] bool isAtWork() const { return !m_wanted.empty(); }

  signals:
    void ready(stavewright::BoardId board);

  private:
    explicit FacePictures(DocumentSession& session);

    struct Kept {
        FacePhoto photo; ///< a null image: none can be made
        QStringList troubles;
        std::list<std::string>::iterator use;
    };
    void keep(const std::string& key, FacePhoto photo, const QStringList& troubles);

    std::map<std::string, Kept> m_kept;
    std::list<std::string> m_uses; ///< the latest first
    std::set<std::string> m_wanted;
    qint64 m_bytes = 0;
    std::stop_source m_stop;
    QThreadPool m_worker;
};

} // namespace stavewright::ui
